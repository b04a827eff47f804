"""The template as one drawing at full size, for SVG and DXF; what of it a portion shows."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..drawing import layers, scene
from ..drawing.kit.labels import ALONG, LabelSetter, points_along, text_along
from ..geometry import ORIGIN, Arc, Bounds, Line, Path, Placement, Point, Points
from ..geometry.window import clipped
from ..template.calibration import longest_bar
from ..template.content import TemplateContent, TemplateMark
from ..template.portions import Portion
from ..units import MM_PER_INCH, Tape
from ..words.paper import PARE, SIGNS, side_words

_ARM = 2.5  # of a sign in a legend, mm
_BESIDE, _BETWEEN = 2.0, 7.0  # from a sign to its words, and from them to the next sign, mm
ROW = 7.0  # height of a legend's row, mm
_ROUND = 30.0  # room round the top for check bars and lettering, mm
KEPT_WORDS = "kept edge: lay it on the panel's edge"
_PAST = 12.0  # how far the centrelines reach past the outline, mm
_BAR_TICK = 4.0  # height of a check bar's end ticks, mm; the others are shorter
FACE_MARK = (9.0, 12.0)  # width and height of the face mark, mm


def centrelines(box: Bounds) -> tuple[Path, Path]:
    """Return the long and the cross centreline of a top as far as a box goes."""
    along = Path.through((Point(box.left, 0.0), Point(box.right, 0.0)))
    return along, Path.through((Point(0.0, box.bottom), Point(0.0, box.top)))


def drawn_mark(mark: TemplateMark) -> scene.Mark:
    """Return a mark as a scene has it, named by its label."""
    return scene.Mark(mark.at, mark.reach, mark.diameter, mark.sign, mark_words(mark.label))


def mark_words(label: str) -> str:
    """Return the name of a mark that stands for several, its first word said once.

    >>> mark_words("leg 3/leg 2/leg 4/leg 1"), mark_words("C2/C1")
    ('leg 3/2/4/1', 'C2/C1')
    """
    first, *others = label.split("/")
    word, blank, _ = first.rpartition(" ")
    start = word + blank
    if not blank or not all(other.startswith(start) for other in others):
        return label
    return "/".join([first, *(other.removeprefix(start) for other in others)])


def joint_ticks(path: Path, reach: float = 3.0) -> tuple[Path, ...]:
    """Return a short line across a path wherever a straight meets an arc."""
    ticks = []
    for one, other in pairwise((*path.segments, *path.segments[: path.is_closed])):
        if {type(one), type(other)} == {Line, Arc}:
            straight = one if isinstance(one, Line) else other
            out = straight.pace(0.0).unit().left * reach
            ticks.append(Path.through((one.end - out, one.end + out)))
    return tuple(ticks)


@dataclass(frozen=True, slots=True)
class CheckBar:
    """A bar of known length to lay a rule against."""

    start: Point
    length: float
    """Its left or lower end, and its length, mm."""
    upright: bool
    tape: Tape
    """Its ticks are centimetres or inches."""

    @property
    def laid(self) -> Placement:
        """How the bar, drawn from the origin along x, comes to lie."""
        return Placement(self.start, math.pi / 2 if self.upright else 0.0)

    @property
    def box(self) -> Bounds:
        """What it covers, its words not counted."""
        half = Point(0.0, _BAR_TICK / 2)
        return Bounds.around(map(self.laid, (-half, Point(self.length, 0.0) + half)))

    def lines(self) -> tuple[scene.Stroke, ...]:
        """Return the bar, its end ticks and the divisions between."""
        divide, long_at = (MM_PER_INCH, 6) if self.tape.imperial else (10.0, 5)
        held, ticks = [(Point(0, 0), Point(self.length, 0))], [(0.0, 1.0)]
        for step in range(1, math.ceil(self.length / divide - 1e-9)):
            ticks.append((step * divide, 0.35 if step % long_at else 0.6))
        for at, share in (*ticks, (self.length, 1.0)):
            half = _BAR_TICK / 2 * share
            held.append((Point(at, -half), Point(at, half)))
        return tuple(scene.line(*map(self.laid, ends)) for ends in held)

    def text(self, share: float, *, height: float = 2.5, after: bool = True) -> scene.Text:
        """Return its words at a share of the way, to the left of the bar or (not `after`) right."""
        off, end = _BAR_TICK / 2 + 1.0, self.laid(Point(self.length, 0.0))
        words = f"check {self.tape.measure(self.length)}"
        return text_along(self.start, end, words, height, share, off if after else -off)


def face_mark(at: Point, *, mirrored: bool) -> tuple[scene.Stroke, ...]:
    """Return a flag on a pole, from its lower left corner; mirrored, the flag flies left."""
    width, height = FACE_MARK
    way = -1 if mirrored else 1
    foot = at + Point(width - 1.5 if mirrored else 1.5, 0)
    top = foot + Point(0, height)
    tip, half = top + Point(way * (width - 1.5), -2.5), Point(1.5, 0)
    return (
        scene.line(foot, top),
        scene.line(top, tip, top - Point(0, 5)),
        scene.line(foot - half, foot + half),
    )


def signs_of(marks: Iterable[TemplateMark]) -> tuple[scene.Sign, ...]:
    """Return the signs that some marks bear, in the order of the legend."""
    return tuple(sorted({mark.sign for mark in marks}, key=list(SIGNS).index))


def sign_told(sign: scene.Sign, left: Point, height: float) -> tuple[scene.Item, ...]:
    """Return a sign and, after it, what it means, from its middle left on."""
    middle = left + Point(_ARM, 0.0)
    sample = scene.Mark(middle, _ARM, 2.0 if sign in ("nail", "hole") else 0.0, sign)
    at = middle + Point(_ARM + _BESIDE, -height / 2)
    return (*map(scene.Stroke, scene.mark_lines(sample)), scene.Text(at, SIGNS[sign], height))


def legend_line(signs: tuple[scene.Sign, ...], start: Point, room: float) -> Iterator[scene.Item]:
    """Yield the legend in one line from its middle left, its words as high as `room`, mm, lets."""
    spare = room - len(signs) * (2 * _ARM + _BESIDE + _BETWEEN)
    height = scene.fitted_height("".join(SIGNS[sign] for sign in signs), 3.5, spare)
    for sign in signs:
        yield from sign_told(sign, start, height)
        start += Point(2 * _ARM + _BESIDE + scene.text_width(SIGNS[sign], height) + _BETWEEN, 0.0)


def lines_of(content: TemplateContent, box: Bounds) -> list[tuple[scene.Layer, Path]]:
    """Return every line of a template with its layer, from the bottom to the top."""
    found = (
        (layers.CENTRELINE, centrelines(box.grown(_PAST))),
        (layers.LEGS, content.feet),
        (layers.ROUGH, () if content.rough is None else content.drawn(content.rough)),
        (layers.CORE, () if content.core is None else (content.core,)),
        (layers.FINISH, content.drawn(content.finish)),
        (layers.KEPT, content.kept),
    )
    return [(layer, path) for layer, paths in found for path in paths]


def names_of(
    content: TemplateContent, cell: Bounds, setter: LabelSetter, shift: Point, *heights: float
) -> Iterator[scene.Item]:
    """Yield names of marks, kept edges and hollow corners in a cell, as far as there is room.

    The `shift` leads to the sheet; each of the `heights` of capitals, mm, is for where the one
    before has no room.
    """
    for mark in (mark for mark in content.marks if cell.holds(mark.at)):
        at, words = mark.at + shift, mark_words(mark.label)
        labels = (scene.Text(at, words, height) for height in heights)
        yield from setter.set(*labels, off=0.5, ring=mark.reach, within=True)
    for path in content.kept:
        places = (path.at(share * path.length) + shift for share in ALONG)
        labels = (scene.Text(place, KEPT_WORDS, heights[-1]) for place in places)
        yield from setter.set(*labels, off=2.0, within=True)
    for hollow in (hollow for hollow in content.hollows if cell.holds(hollow.at)):
        label = scene.Text(hollow.at + shift, content.tape.fill(PARE, hollow), heights[-1])
        yield from setter.set(label, off=4.0, within=True)


def template_drawing(content: TemplateContent) -> scene.Scene:
    """Return the full-size template in the top's own frame; two check bars prove the scale."""
    box = content.bounds
    frame, lines = box.grown(_ROUND), lines_of(content, box)
    setter = LabelSetter(frame)
    setter.keep_clear(*(mark.ring.bounds for mark in content.marks))
    for _, path in lines:
        setter.keep_clear_along(path)
    drawn: list[tuple[scene.Layer, scene.Item]] = [
        (layer, scene.Stroke(path)) for layer, path in lines
    ]
    drawn += [(layers.MARKS, scene.Stroke(tick)) for tick in joint_ticks(content.finish)]
    drawn += [(layers.MARKS, drawn_mark(mark)) for mark in content.marks]
    drawn += [(layers.MARK_NAMES, name) for name in names_of(content, frame, setter, ORIGIN, 5.0)]
    drawn += [(layers.CHECK_BARS, item) for item in _bars(content, box, frame)]
    drawn += [(layers.LETTERING, item) for item in _lettering(content, box, frame)]
    title = f"{content.title}, full-size template{', MIRRORED' * content.mirrored}"
    return scene.Scene(title, frame, scene.grouped(drawn))


def _bars(content: TemplateContent, box: Bounds, frame: Bounds) -> Iterator[scene.Item]:
    low, left = Point(box.left, frame.bottom + 14), Point(frame.left + 8, box.bottom)
    for start, room, upright in ((low, box.width, False), (left, box.height, True)):
        bar = CheckBar(start, longest_bar(room, content.tape), upright, content.tape)
        if bar.length:
            yield from bar.lines()
            yield bar.text(0.5, height=3.5, after=not upright)


def _lettering(content: TemplateContent, box: Bounds, frame: Bounds) -> Iterator[scene.Item]:
    at = Point(box.left, frame.bottom + 3)
    words = f"{content.title} · full size · {side_words(content)}"
    height = scene.fitted_height(words, 6.0, frame.right - at.x - 4, content.mirrored)
    yield scene.Text(at, words, height, bold=content.mirrored)
    yield from face_mark(Point(frame.left + 4, frame.top - 16), mirrored=content.mirrored)
    start = Point(frame.left + 20, frame.top - 7)
    yield from legend_line(signs_of(content.marks), start, frame.right - start.x - 4)


@dataclass(frozen=True, slots=True)
class Shown:
    """Lines, marks and points of a portion, template mm."""

    content: TemplateContent
    portion: Portion
    lines: tuple[tuple[scene.Layer, Path, Bounds], ...]
    """Each line with its layer and its box."""
    marks: tuple[TemplateMark, ...]
    """With the names of all that they stand for."""
    points: Points
    """(n, 2) array: points along all the lines, for words to keep clear of."""

    @classmethod
    def of(cls, content: TemplateContent, portion: Portion) -> Shown:
        """Return what a portion shows."""
        lines: list[tuple[scene.Layer, Path]] = []
        for layer, path in lines_of(content, content.bounds):
            if layer == layers.LEGS or (layer == layers.KEPT and portion.name == "curves"):
                continue  # feet are cut below; a kept edge is on the panel itself
            outline = layer != layers.CENTRELINE
            pieces = portion.outline(path) if outline else clipped(path, portion.window)
            lines += [(layer, piece) for piece in pieces]
        lines += [(layers.LEGS, piece) for piece in portion.feet(content)]
        marks = portion.marks(content)
        for path in joint_ticks(content.finish):
            lines += [(layers.MARKS, tick) for tick in clipped(path, portion.window)]
        lines += [(layers.MARKS, path) for m in marks for path in scene.mark_lines(drawn_mark(m))]
        points = points_along((path for _, path in lines), step=1.5)
        cut = tuple((layer, path, path.bounds) for layer, path in lines)
        return cls(content, portion, cut, marks, points)
