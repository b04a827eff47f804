"""The small things that every template shows: check bars, register marks, face_mark, mark rings.

The signs of marks are drawn beside words, so that a sheet reads without names.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from ..drawing import layers
from ..drawing.scene import (
    Item,
    Layer,
    Mark,
    Sign,
    Stroke,
    Text,
    fitted_height,
    mark_lines,
    text_width,
)
from ..geometry import Arc, Bounds, Line, Path, Placement, Point, circle
from ..template.content import TemplateMark
from ..units import MM_PER_INCH, Tape
from ..words.paper import SIGNS

ARM = 3.0
"""Length of a cross's arms, mm."""

_BAR_TICK = 4.0
"""Height of a check bar's end ticks, mm; the others are shorter."""

FACE_MARK = (9.0, 12.0)
"""Width and height of the face_mark, mm."""


def line(start: Point, end: Point) -> Path:
    """Return the straight path between two points."""
    return Path((Line(start, end),))


def centrelines(box: Bounds) -> tuple[Path, Path]:
    """Return the long and the cross centreline of a top as far as a box goes."""
    ends = Point(box.left, 0.0), Point(box.right, 0.0)
    return line(*ends), line(Point(0.0, box.bottom), Point(0.0, box.top))


def cross_at(at: Point, arm: float = ARM) -> tuple[Path, ...]:
    """Return an upright cross."""
    along, up = Point(arm, 0.0), Point(0.0, arm)
    return (line(at - along, at + along), line(at - up, at + up))


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
        straight = one if isinstance(one, Line) else other
        if isinstance(straight, Line) and (isinstance(one, Arc) or isinstance(other, Arc)):
            out = straight.direction.left * reach
            ticks.append(line(one.end - out, one.end + out))
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
    def box(self) -> Bounds:
        """What it covers, its words not counted."""
        along, across = Point(self.length, 0.0), Point(0.0, _BAR_TICK / 2)
        if self.upright:
            along, across = along.left, across.left
        return Bounds.around((self.start - across, self.start + along + across))

    def paths(self) -> tuple[Path, ...]:
        """Return the bar, its end ticks and the divisions between."""
        divide = MM_PER_INCH if self.tape.imperial else 10.0
        long_at = 6 if self.tape.imperial else 5
        lines = [line(Point(0, 0), Point(self.length, 0))]
        ticks = [(0.0, 1.0)]
        for step in range(1, math.ceil(self.length / divide - 1e-9)):
            ticks.append((step * divide, 0.35 if step % long_at else 0.6))
        for at, share in (*ticks, (self.length, 1.0)):
            half = Point(0, _BAR_TICK / 2 * share)
            lines.append(line(Point(at, 0) - half, Point(at, 0) + half))
        laid = Placement(self.start, math.pi / 2 if self.upright else 0.0)
        return tuple(path.placed(laid) for path in lines)

    def text(self, share: float, *, height: float = 2.5, after: bool = True) -> Text:
        """Return its words at a share of the way, to the left of the bar or (not `after`) right."""
        off = _BAR_TICK / 2 + 1.0
        across = off if after else -off - height
        turn = math.pi / 2 if self.upright else 0.0
        at = Point(self.length * share, across).turned(turn) + self.start
        return Text(at, self.words, height, "middle", turn)


def face_mark(at: Point, *, mirrored: bool) -> tuple[Path, ...]:
    """Return a flag on a pole, its lower left corner at `at`; mirrored, the flag flies left.

    It is the one sign on a sheet that looks different from behind.
    """
    width, height = FACE_MARK
    foot, top = Point(0, 0), Point(0, height)
    flag = Path.through((top, Point(width - 1.5, height - 2.5), Point(0, height - 5)), closed=False)
    paths = (line(foot, top), flag, line(Point(-1.5, 0), Point(1.5, 0)))
    if mirrored:
        return tuple(p.mirrored().placed(Placement(at + Point(width - 1.5, 0))) for p in paths)
    return tuple(p.placed(Placement(at + Point(1.5, 0))) for p in paths)


def register_cross(at: Point) -> tuple[Path, ...]:
    """Return a register mark: a cross in a ring, both halves of which show across a seam."""
    return (*cross_at(at), circle(at, 2.0))


def strokes(paths: tuple[Path, ...]) -> tuple[Item, ...]:
    """Return a stroke along each path."""
    return tuple(Stroke(path) for path in paths)


_ARM = 2.5
_BESIDE = 2.0
_BETWEEN = 7.0
_ROW = 7.0
"""Height of a row, mm."""


def signs_of(marks: Iterable[TemplateMark]) -> tuple[Sign, ...]:
    """Return the signs that some marks bear, in the order of the legend."""
    borne = {mark.sign for mark in marks}
    return tuple(sign for sign in SIGNS if sign in borne)


def legend_height(signs: tuple[Sign, ...]) -> float:
    """Return how high the legend is when it is set in rows, mm."""
    return _ROW * len(signs)


def legend_rows(signs: tuple[Sign, ...], box: Bounds) -> list[tuple[Layer, Item]]:
    """Return the legend in rows from the upper left of a box, each item with its layer."""
    items: list[tuple[Layer, Item]] = []
    for row, sign in enumerate(signs):
        middle = Point(box.left + _ARM + 1.0, box.top - _ROW * (row + 0.5))
        items += [(layers.MARKS, item) for item in strokes(mark_lines(_sample(sign, middle)))]
        at = middle + Point(_ARM + _BESIDE, -1.25)
        items.append((layers.LETTERING, Text(at, SIGNS[sign], 2.5)))
    return items


def legend_line(signs: tuple[Sign, ...], start: Point, room: float) -> tuple[Item, ...]:
    """Return the legend in one line from its middle left, its words as high as `room`, mm, lets."""
    fixed = len(signs) * (2 * _ARM + _BESIDE + _BETWEEN)
    height = fitted_height("".join(SIGNS[sign] for sign in signs), 3.5, room - fixed)
    items: list[Item] = []
    x = start.x
    for sign in signs:
        middle = Point(x + _ARM, start.y)
        items += strokes(mark_lines(_sample(sign, middle)))
        at = middle + Point(_ARM + _BESIDE, -height / 2)
        items.append(Text(at, SIGNS[sign], height))
        x = at.x + text_width(SIGNS[sign], height) + _BETWEEN
    return tuple(items)


def _sample(sign: Sign, at: Point) -> Mark:
    return Mark(at, _ARM, 2.0 if sign in ("nail", "hole") else 0.0, sign)
