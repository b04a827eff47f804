"""The template as one drawing at full size, for SVG and DXF; what of it a portion shows.

The second is worked out once for all sheets.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..drawing import layers
from ..drawing.kit.labels import ALONG, LabelSetter, points_along
from ..drawing.scene import Item, Layer, Scene, Stroke, Text, fitted_height, grouped, mark_lines
from ..geometry import ORIGIN, Bounds, Path, Point, Points
from ..geometry.window import clipped
from ..template.calibration import longest_bar
from ..template.content import TemplateContent, TemplateMark
from ..template.portions import Portion
from ..template.proposal import Proposal
from ..template.tiles import CornerCross
from ..words.paper import PARE, side_words
from . import template_parts as parts

_ROUND = 30.0
"""Room round the top for check bars and lettering, mm."""

KEPT_WORDS = "kept edge: lay it on the panel's edge"

_PAST = 12.0
"""How far the centrelines reach past the outline, mm."""


def lines_of(content: TemplateContent, box: Bounds) -> list[tuple[Layer, Path]]:
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
    return [(layer, path) for layer, paths in found for path in paths]


def names_of(
    content: TemplateContent, cell: Bounds, setter: LabelSetter, shift: Point, *heights: float
) -> Iterator[Item]:
    """Yield the names of marks, kept edges and hollow corners in a cell, as far as there is room.

    The `shift` leads from the template to the sheet, mm; where there is no room for one of the
    `heights` of capitals, mm, the next one is taken.
    """
    for mark in (mark for mark in content.marks if cell.holds(mark.at)):
        at, words = mark.at + shift, parts.mark_words(mark.label)
        labels = (Text(at, words, height) for height in heights)
        yield from setter.set(*labels, off=0.5, ring=mark.reach, within=True)
    for path in content.kept:
        places = (path.at(share * path.length) + shift for share in ALONG)
        labels = (Text(place, KEPT_WORDS, heights[-1]) for place in places)
        yield from setter.set(*labels, off=2.0, within=True)
    for hollow in (hollow for hollow in content.hollows if cell.holds(hollow.at)):
        words = content.tape.fill(PARE, hollow)
        label = Text(hollow.at + shift, words, heights[-1])
        yield from setter.set(label, off=4.0, within=True)


def template_drawing(content: TemplateContent) -> Scene:
    """Return the full-size template in the top's own frame: its middle at the origin.

    The marks are crosses with their hole's ring and the sign of what they are for; a short line
    crosses the outline wherever a straight meets an arc. Two check bars, as long as the top allows,
    prove the scale.
    """
    box = content.bounds
    frame, lines = box.grown(_ROUND), lines_of(content, box)
    setter = LabelSetter(frame)
    setter.keep_clear(*(mark.ring.bounds for mark in content.marks))
    for _, path in lines:
        setter.keep_clear_along(path)
    drawn: list[tuple[Layer, Item]] = [(layer, Stroke(path)) for layer, path in lines]
    drawn += [(layers.MARKS, Stroke(tick)) for tick in parts.joint_ticks(content.finish)]
    drawn += [(layers.MARKS, parts.drawn_mark(mark)) for mark in content.marks]
    names = names_of(content, frame, setter, ORIGIN, 5.0)
    drawn += [(layers.MARK_NAMES, name) for name in names]
    drawn += [(layers.CHECK_BARS, item) for item in _bars(content, box, frame)]
    drawn += [(layers.LETTERING, item) for item in _lettering(content, box, frame)]
    side = ", MIRRORED" if content.mirrored else ""
    return Scene(f"{content.title}, full-size template{side}", frame, grouped(drawn))


def _bars(content: TemplateContent, box: Bounds, frame: Bounds) -> Iterator[Item]:
    low, left = Point(box.left, frame.bottom + 14), Point(frame.left + 8, box.bottom)
    for start, room, upright in ((low, box.width, False), (left, box.height, True)):
        bar = parts.CheckBar(start, longest_bar(room, content.tape), upright, content.tape)
        if bar.length:
            yield from bar.lines()
            yield bar.text(0.5, height=3.5, after=not upright)


def _lettering(content: TemplateContent, box: Bounds, frame: Bounds) -> Iterator[Item]:
    at = Point(box.left, frame.bottom + 3)
    words = f"{content.title} · full size · {side_words(content)}"
    height = fitted_height(words, 6.0, frame.right - at.x - 4, content.mirrored)
    yield Text(at, words, height, bold=content.mirrored)
    flag = Point(frame.left + 4, frame.top - 16)
    yield from parts.face_mark(flag, mirrored=content.mirrored)
    start = Point(frame.left + 20, frame.top - 7)
    yield from parts.legend_line(parts.signs_of(content.marks), start, frame.right - start.x - 4)


@dataclass(frozen=True, slots=True)
class Shown:
    """Lines, marks and points of a portion, template mm."""

    content: TemplateContent
    portion: Portion
    lines: tuple[tuple[Layer, Path, Bounds], ...]
    """Each line with its layer and its box."""
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
        boxed = tuple((layer, path, path.bounds) for layer, path in lines)
        points = points_along((path for _, path in lines), step=1.5)
        crosses = proposal.plan.corner_crosses
        return cls(content, portion, boxed, marks, points, box, crosses)
