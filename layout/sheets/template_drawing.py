"""The template as one drawing at full size, for SVG and DXF."""

from __future__ import annotations

from ..drawing import layers
from ..drawing.lettering import fitted_height
from ..drawing.scene import Group, Item, Layer, Mark, Scene, Stroke, Text
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.point import Point
from ..template.calibration import longest_bar
from ..template.content import TemplateContent, mark_ring
from .spots import Spots, labels_round, points_along
from .template_parts import ARM, CheckBar, joint_ticks, line, pennant, strokes

_ROUND = 30.0
"""Room round the top for check bars and lettering, mm."""

_PAST = 12.0
"""How far the centrelines reach past the outline, mm."""


def centrelines(content: TemplateContent, past: float = _PAST) -> tuple[Path, ...]:
    """Return the long and the cross centreline, a little longer than the top."""
    box = content.bounds.grown(past)
    return (
        line(Point(box.left, 0.0), Point(box.right, 0.0)),
        line(Point(0.0, box.bottom), Point(0.0, box.top)),
    )


def lines_of(content: TemplateContent) -> tuple[tuple[Layer, Path], ...]:
    """Return every line of a template with its layer, from the bottom to the top."""
    found = [(layers.CENTRELINE, path) for path in centrelines(content)]
    found += [(layers.LEGS, path) for path in content.feet]
    if content.rough is not None:
        found.append((layers.ROUGH, content.rough))
    if content.core is not None:
        found.append((layers.CORE, content.core))
    found.append((layers.FINISH, content.finish))
    return tuple(found)


def template_drawing(content: TemplateContent) -> Scene:
    """Return the full-size template in the top's own frame: its middle at the origin.

    The marks are crosses with their hole's ring; a short line crosses the outline wherever a
    straight meets an arc. Two check bars, as long as the top allows, prove the scale.
    """
    box = content.bounds
    frame = box.grown(_ROUND)
    by_layer: dict[Layer, list[Item]] = {}
    for layer, path in lines_of(content):
        by_layer.setdefault(layer, []).append(Stroke(path))
    marks = [Mark(mark.at, diameter=mark.diameter) for mark in content.marks]
    ticks = strokes(joint_ticks(content.finish))
    bars = _bars(content, frame)
    groups = [Group(layer, tuple(items)) for layer, items in by_layer.items()]
    groups += [
        Group(layers.MARKS, (*ticks, *marks)),
        Group(layers.MARK_NAMES, _names(content, frame)),
        Group(layers.CHECK_BARS, bars),
        Group(layers.LETTERING, _lettering(content, frame)),
    ]
    kept = tuple(group for group in groups if group.items)
    return Scene(f"{content.title}, full-size template", frame, kept)


def _names(content: TemplateContent, frame: Bounds) -> tuple[Item, ...]:
    spots = Spots(frame, points_along(path for _, path in lines_of(content)))
    spots.taken += [mark_ring(mark).bounds for mark in content.marks]
    texts = (
        spots.best(labels_round(mark.at, mark.label, 5.0, max(ARM, mark.diameter / 2) + 1.0))
        for mark in content.marks
    )
    return tuple(text for text in texts if text is not None)


def _bars(content: TemplateContent, frame: Bounds) -> tuple[Item, ...]:
    box, tape = content.bounds, content.tape
    across = CheckBar(
        Point(box.left, frame.bottom + 14), longest_bar(box.width, tape), upright=False, tape=tape
    )
    up = CheckBar(
        Point(frame.left + 8, box.bottom), longest_bar(box.height, tape), upright=True, tape=tape
    )
    texts = (across.text(0.5, height=3.5), up.text(0.5, height=3.5, after=False))
    return (*strokes(across.paths()), *strokes(up.paths()), *texts)


def _lettering(content: TemplateContent, frame: Bounds) -> tuple[Item, ...]:
    at = Point(content.bounds.left, frame.bottom + 3)
    side = "MIRRORED: from the underside" if content.mirrored else "face up"
    words = f"{content.title} · full size · {side}"
    flag = Point(frame.left + 4, frame.top - 16)
    room = frame.right - at.x - 4
    height = fitted_height(words, 6.0, room, content.mirrored)
    return (
        Text(at, words, height, bold=content.mirrored),
        *strokes(pennant(flag, mirrored=content.mirrored)),
    )
