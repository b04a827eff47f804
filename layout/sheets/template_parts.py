"""The small things that every template shows: check bars, the face mark, ticks, signs of marks.

The signs of marks are drawn beside words, so that a sheet reads without names.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from ..drawing.kit.labels import text_along
from ..drawing.scene import (
    Item,
    Mark,
    Sign,
    Stroke,
    Text,
    fitted_height,
    line,
    mark_lines,
    text_width,
)
from ..geometry import Arc, Bounds, Line, Path, Placement, Point
from ..template.content import TemplateMark
from ..units import MM_PER_INCH, Tape
from ..words.paper import SIGNS

_BAR_TICK = 4.0
"""Height of a check bar's end ticks, mm; the others are shorter."""

FACE_MARK = (9.0, 12.0)
"""Width and height of the face mark, mm."""


def centrelines(box: Bounds) -> tuple[Path, Path]:
    """Return the long and the cross centreline of a top as far as a box goes."""
    along = Path.through((Point(box.left, 0.0), Point(box.right, 0.0)))
    return along, Path.through((Point(0.0, box.bottom), Point(0.0, box.top)))


def drawn_mark(mark: TemplateMark) -> Mark:
    """Return a mark as a scene has it, named by its label."""
    return Mark(mark.at, mark.reach, mark.diameter, mark.sign, mark_words(mark.label))


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
    """Its left or lower end."""
    length: float
    """mm."""
    upright: bool
    tape: Tape
    """Its ticks are centimetres or inches."""

    @property
    def words(self) -> str:
        """What a rule must read between its ends."""
        return f"check {self.tape.measure(self.length)}"

    @property
    def laid(self) -> Placement:
        """How the bar, drawn from the origin along x, comes to lie."""
        return Placement(self.start, math.pi / 2 if self.upright else 0.0)

    @property
    def box(self) -> Bounds:
        """What it covers, its words not counted."""
        half = Point(0.0, _BAR_TICK / 2)
        return Bounds.around(map(self.laid, (-half, Point(self.length, 0.0) + half)))

    def lines(self) -> tuple[Stroke, ...]:
        """Return the bar, its end ticks and the divisions between."""
        divide, long_at = (MM_PER_INCH, 6) if self.tape.imperial else (10.0, 5)
        held = [(Point(0, 0), Point(self.length, 0))]
        ticks = [(0.0, 1.0)]
        for step in range(1, math.ceil(self.length / divide - 1e-9)):
            ticks.append((step * divide, 0.35 if step % long_at else 0.6))
        for at, share in (*ticks, (self.length, 1.0)):
            half = _BAR_TICK / 2 * share
            held.append((Point(at, -half), Point(at, half)))
        return tuple(line(*map(self.laid, ends)) for ends in held)

    def text(self, share: float, *, height: float = 2.5, after: bool = True) -> Text:
        """Return its words at a share of the way, to the left of the bar or (not `after`) right."""
        off = _BAR_TICK / 2 + 1.0
        end = self.laid(Point(self.length, 0.0))
        return text_along(self.start, end, self.words, height, share, off if after else -off)


def face_mark(at: Point, *, mirrored: bool) -> tuple[Stroke, ...]:
    """Return a flag on a pole, its lower left corner at `at`; mirrored, the flag flies left.

    It is the one sign on a sheet that looks different from behind.
    """
    width, height = FACE_MARK
    way = -1 if mirrored else 1
    foot = at + Point(width - 1.5 if mirrored else 1.5, 0)
    top = foot + Point(0, height)
    tip = top + Point(way * (width - 1.5), -2.5)
    half = Point(1.5, 0)
    return line(foot, top), line(top, tip, top - Point(0, 5)), line(foot - half, foot + half)


_ARM = 2.5
"""Of a sign in a legend, mm."""

_BESIDE, _BETWEEN = 2.0, 7.0
"""From a sign to its words, and from them to the next sign, mm."""

ROW = 7.0
"""Height of a legend's row, mm."""


def signs_of(marks: Iterable[TemplateMark]) -> tuple[Sign, ...]:
    """Return the signs that some marks bear, in the order of the legend."""
    borne = {mark.sign for mark in marks}
    return tuple(sign for sign in SIGNS if sign in borne)


def sign_told(sign: Sign, left: Point, height: float) -> tuple[Item, ...]:
    """Return a sign and, after it, what it means, from its middle left on."""
    middle = left + Point(_ARM, 0.0)
    sample = Mark(middle, _ARM, 2.0 if sign in ("nail", "hole") else 0.0, sign)
    at = middle + Point(_ARM + _BESIDE, -height / 2)
    return (*map(Stroke, mark_lines(sample)), Text(at, SIGNS[sign], height))


def legend_line(signs: tuple[Sign, ...], start: Point, room: float) -> Iterator[Item]:
    """Yield the legend in one line from its middle left, its words as high as `room`, mm, lets."""
    spare = room - len(signs) * (2 * _ARM + _BESIDE + _BETWEEN)
    height = fitted_height("".join(SIGNS[sign] for sign in signs), 3.5, spare)
    for sign in signs:
        yield from sign_told(sign, start, height)
        wide = 2 * _ARM + _BESIDE + text_width(SIGNS[sign], height) + _BETWEEN
        start += Point(wide, 0.0)
