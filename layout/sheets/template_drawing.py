"""The template as one drawing at full size, for SVG and DXF; what of it a portion shows.

The second is worked out once for all sheets.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..drawing import layers
from ..drawing.kit.labels import LabelSetter, points_along
from ..drawing.scene import Group, Item, Layer, Scene, Stroke, Text, fitted_height, mark_lines
from ..geometry import Bounds, Path, Point, Points
from ..geometry.window import Cutter, clipped
from ..template.calibration import longest_bar
from ..template.content import TemplateContent, TemplateMark, mark_ring
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import CornerCross
from ..words.paper import PARE, side_words
from . import template_parts as parts

_ROUND = 30.0
"""Room round the top for check bars and lettering, mm."""

KEPT_WORDS = "kept edge: lay it on the panel's edge"

_ALONG_KEPT = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Where along a kept edge its words may stand, from its middle outwards."""

_PAST = 12.0
"""How far the centrelines reach past the outline, mm."""

Lines = tuple[tuple[Layer, Path], ...]


def lines_of(content: TemplateContent, box: Bounds) -> Lines:
    """Return every line of a template with its layer, from the bottom to the top.

    The centrelines reach a little past the box of the content.
    """
    found = (
        (layers.CENTRELINE, parts.centrelines(box.grown(_PAST))),
        (layers.LEGS, content.feet),
        (layers.ROUGH, () if content.rough is None else content.drawn(content.rough)),
        (layers.CORE, () if content.core is None else (content.core,)),
        (layers.FINISH, content.drawn(content.finish)),
        (layers.KEPT, content.kept),
    )
    return tuple((layer, path) for layer, paths in found for path in paths)


def names_of(
    content: TemplateContent, cell: Bounds, setter: LabelSetter, shift: Point, *heights: float
) -> tuple[Item, ...]:
    """Return the names of marks, kept edges and hollow corners in a cell, as far as there is room.

    The `shift` leads from the template to the sheet, mm; where there is no room for one of the
    `heights` of capitals, mm, the next one is taken.
    """
    items: list[Item] = []
    for mark in (mark for mark in content.marks if cell.holds(mark.at)):
        at, words = mark.at + shift, parts.mark_words(mark.label)
        labels = (Text(at, words, height) for height in heights)
        items += setter.set(*labels, off=0.5, ring=mark.reach, within=True)
    for path in content.kept:
        places = (path.at(share * path.length) + shift for share in _ALONG_KEPT)
        labels = (Text(place, KEPT_WORDS, heights[-1]) for place in places)
        items += setter.set(*labels, off=2.0, within=True)
    for hollow in (hollow for hollow in content.hollows if cell.holds(hollow.at)):
        words = content.tape.fill(PARE, hollow)
        label = Text(hollow.at + shift, words, heights[-1])
        items += setter.set(label, off=4.0, within=True)
    return tuple(items)


def template_drawing(content: TemplateContent) -> Scene:
    """Return the full-size template in the top's own frame: its middle at the origin.

    The marks are crosses with their hole's ring and the sign of what they are for; a short line
    crosses the outline wherever a straight meets an arc. Two check bars, as long as the top allows,
    prove the scale.
    """
    box = content.bounds
    frame, lines = box.grown(_ROUND), lines_of(content, box)
    by_layer: dict[Layer, list[Item]] = {}
    for layer, path in lines:
        by_layer.setdefault(layer, []).append(Stroke(path))
    marks = tuple(parts.drawn_mark(mark) for mark in content.marks)
    ticks = parts.strokes(parts.joint_ticks(content.finish))
    groups = [Group(layer, tuple(items)) for layer, items in by_layer.items()]
    groups += [
        Group(layers.MARKS, (*ticks, *marks)),
        Group(layers.MARK_NAMES, _names(content, frame, lines)),
        Group(layers.CHECK_BARS, _bars(content, box, frame)),
        Group(layers.LETTERING, _lettering(content, box, frame)),
    ]
    kept = tuple(group for group in groups if group.items)
    side = ", MIRRORED" if content.mirrored else ""
    return Scene(f"{content.title}, full-size template{side}", frame, kept)


def _names(content: TemplateContent, frame: Bounds, lines: Lines) -> tuple[Item, ...]:
    setter = LabelSetter(frame)
    setter.keep_clear(*(mark_ring(mark).bounds for mark in content.marks))
    for _, path in lines:
        setter.keep_clear_along(path)
    return names_of(content, frame, setter, Point(0.0, 0.0), 5.0)


def _bars(content: TemplateContent, box: Bounds, frame: Bounds) -> tuple[Item, ...]:
    tape = content.tape
    low, left = Point(box.left, frame.bottom + 14), Point(frame.left + 8, box.bottom)
    across = parts.CheckBar(low, longest_bar(box.width, tape), upright=False, tape=tape)
    up = parts.CheckBar(left, longest_bar(box.height, tape), upright=True, tape=tape)
    texts = (across.text(0.5, height=3.5), up.text(0.5, height=3.5, after=False))
    return (*parts.strokes(across.paths()), *parts.strokes(up.paths()), *texts)


def _lettering(content: TemplateContent, box: Bounds, frame: Bounds) -> tuple[Item, ...]:
    at = Point(box.left, frame.bottom + 3)
    words = f"{content.title} · full size · {side_words(content)}"
    flag = Point(frame.left + 4, frame.top - 16)
    height = fitted_height(words, 6.0, frame.right - at.x - 4, content.mirrored)
    start = Point(frame.left + 20, frame.top - 7)
    signs = parts.signs_of(content.marks)
    return (
        Text(at, words, height, bold=content.mirrored),
        *parts.strokes(parts.face_mark(flag, mirrored=content.mirrored)),
        *parts.legend_line(signs, start, frame.right - start.x - 4),
    )


@dataclass(frozen=True, slots=True)
class Shown:
    """Lines, marks and points of a portion, template mm."""

    content: TemplateContent
    portion: Portion
    lines: tuple[tuple[Layer, Cutter, Bounds], ...]
    """Each line, ready to be cut to sheets, with its layer and its box."""
    marks: tuple[TemplateMark, ...]
    """With the names of all that they stand for."""
    points: Points
    """(n, 2) array: points along all the lines, for words to keep clear of."""
    box: Bounds
    """Of the whole template."""
    crosses: tuple[CornerCross, ...]

    @classmethod
    def of(cls, content: TemplateContent, proposal: Proposal) -> Shown:
        """Return what a proposal's portion shows."""
        portion, box = proposal.portion, content.bounds
        lines: list[tuple[Layer, Path]] = []
        for layer, path in lines_of(content, box):
            if layer == layers.LEGS or (layer == layers.KEPT and portion.name == "curves"):
                continue  # feet are cut below; a kept edge is on the panel itself
            outline = layer != layers.CENTRELINE
            pieces = portion.outline(path) if outline else clipped(path, portion.window)
            lines += [(layer, piece) for piece in pieces]
        lines += [(layers.LEGS, piece) for piece in portion.feet(content)]
        marks = portion.marks(content)
        for path in parts.joint_ticks(content.finish):
            lines += [(layers.MARKS, tick) for tick in clipped(path, portion.window)]
        lines += [(layers.MARKS, path) for m in marks for path in mark_lines(parts.drawn_mark(m))]
        boxed = tuple((layer, Cutter.of(path), path.bounds) for layer, path in lines)
        points = points_along((path for _, path in lines), step=1.5)
        crosses = proposal.plan.corner_crosses
        return cls(content, portion, boxed, marks, points, box, crosses)
