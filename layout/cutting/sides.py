"""Along which straight lines a saw can go round a top: its box, or its own straight sides.

A top with straight sides is sawn right through the panel where all of it lies on one side of the
line; else from the edge of the panel into the hollow corner, a little short of it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from ..geometry import Line, Point, Region, Segment, at_least, first_of_best, ranked
from ..geometry.intersect import turn_at
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SAME_WAY
from .bench import Bench
from .cut import TrimKind
from .sawn import SawLine, extent_of

SHORT_OF_CORNER = 5.0
"""A saw ends this far before a hollow corner, mm, on the face that lies up; a round blade leaves
more below (common practice)."""

LEAST_SIDE = 200.0
"""In a curved outline a shorter straight than this is left to the jigsaw, mm (our choice)."""

_SQUARE_ON = math.cos(math.radians(15))
"""A side that faces within 15° along or across the top is an end or a long edge."""


@dataclass(frozen=True, slots=True)
class Side:
    """A line along which the core may be sawn."""

    outwards: Point
    """The unit vector out of the core."""
    half: float
    """From the middle of the top to the core there, mm."""
    kind: TrimKind
    end: bool
    """Whether it is cut like an end, rather than along the length."""
    stop: Stop | None = None
    """The hollow corner that the saw stops short of."""

    def line(self, centre: Point, allowance: float) -> SawLine:
        """Return the saw line at an allowance outside the core, mm."""
        line = SawLine(centre + self.outwards * (self.half + allowance), self.outwards)
        return line if self.stop is None else replace(line, reach=self.stop.reach(allowance))

    def is_along(self, other: Side) -> bool:
        """Return whether both lie on one line."""
        turned = abs(self.outwards.cross(other.outwards)) <= SAME_WAY
        facing = turned and self.outwards.dot(other.outwards) > 0
        return facing and abs(self.half - other.half) <= SAME_PLACE


@dataclass(frozen=True, slots=True)
class Stop:
    """A hollow corner: how far along the saw line it lies, mm, and how far the top turns there."""

    along: float
    turn: float
    at_end: bool

    def reach(self, allowance: float) -> tuple[float, float]:
        """Return how far the saw goes, mm: two saw lines meet before the corner itself."""
        before = allowance * math.tan(self.turn / 2) + SHORT_OF_CORNER
        if self.at_end:
            return -math.inf, self.along - before
        return self.along + before, math.inf


@dataclass(frozen=True, slots=True)
class Sides:
    """The lines of a top."""

    ends: tuple[Side, ...]
    longs: tuple[Side, ...]
    """Of its box; each from the one nearer the datum's start or line."""
    own: tuple[Side, ...] = ()
    """Its own straight sides, sawn through along, round the top from the datum's line."""
    stopped: tuple[Side, ...] = ()
    """Those that end in a hollow corner."""
    is_hollow: bool = False
    """Whether a straight-sided top has sides that no saw can go through along."""


def sides_of(bench: Bench) -> Sides:
    """Return the lines along which a top is sawn; none on edges that are kept."""
    runs, outline = bench.top.runs, bench.top.outline
    ends, longs = (
        tuple(side for side in box if not runs.keeps(side.outwards)) for box in box_of(bench)
    )
    if outline.free_sizes == 2 or outline.is_round:
        return Sides(ends, longs)
    own, stopped, is_hollow = _own(bench)
    if runs.is_straight and not is_hollow:
        return Sides((), (), own)
    ends, longs = (
        tuple(side for side in box if not any(map(side.is_along, own))) for box in (ends, longs)
    )
    return Sides(ends, longs, own, stopped, runs.is_straight)


def box_of(bench: Bench) -> tuple[tuple[Side, ...], tuple[Side, ...]]:
    """Return the ends of the box of the core and its long edges, kept edges or not."""
    along, outline = Point.polar(1.0, bench.turn), bench.top.outline
    length, width = (size / 2 - bench.top.lipping for size in (outline.length, outline.width))
    ends = [Side(along * s, length, TrimKind.END, True) for s in (-1.0, 1.0)]
    longs = [Side(along.left * s, width, TrimKind.SIDE, False) for s in (-1.0, 1.0)]

    def place(side: Side) -> tuple[float, float]:
        way = side.outwards.turned(-bench.datum.frame.turn)
        return (way.x, way.y) if at_least(abs(way.x), abs(way.y)) else (0.0, way.y)

    first, second = (ranked(s, lambda _: 0.0, place, tolerance=0.0) for s in (ends, longs))
    return tuple(first), tuple(second)


def _own(bench: Bench) -> tuple[tuple[Side, ...], tuple[Side, ...], bool]:
    """Return sides sawn through along, those into a hollow corner, and whether some are not.

    The first go round the top, from the one that faces the datum's line most.
    """
    through, stopped, is_hollow = list[Side](), list[Side](), False
    core, down = Region.of(bench.top.core), bench.datum.frame.turn - math.pi / 2
    corners = [*map(Point.of, core.exterior)]
    least = 0.0 if bench.top.runs.is_straight else LEAST_SIDE
    for line, before, after in _lines(bench):
        if not at_least(line.length, least):
            continue
        side = _side(bench, line)
        if max((p - line.start).dot(side.outwards) for p in corners) > SAME_PLACE:
            stopped += _into_corner(bench, line, before, after, core)
            is_hollow = True
        elif not any(map(side.is_along, through)):
            through.append(side)
    through.sort(key=lambda side: (side.outwards.angle - down) % math.tau)
    faces = [side.outwards.dot(Point.polar(1.0, down)) for side in through]
    first = first_of_best(range(len(faces)), faces.__getitem__, tolerance=ROUNDING) if faces else 0
    return (*through[first:], *through[:first]), tuple(stopped), is_hollow


def _lines(bench: Bench) -> Iterator[tuple[Line, Segment | None, Segment | None]]:
    """Yield the straight parts of what is cut, each with what comes before and after it."""
    for run in bench.top.runs.cut:
        ends = (run.segments[-1], run.segments[0]) if run.is_closed else (None, None)
        around = (ends[0], *run.segments, ends[1])
        for before, line, after in zip(around, run.segments, around[2:], strict=False):
            if isinstance(line, Line):
                yield line, before, after


def _side(bench: Bench, line: Line) -> Side:
    outwards, place, kind = -line.direction.left, bench.top.placement, TrimKind.EDGE
    half, own = (line.start - place.centre).dot(outwards), outwards.turned(-place.turn)
    if not bench.top.outline.free_sizes:
        if abs(own.x) > _SQUARE_ON:
            kind = TrimKind.END
        elif abs(own.y) > _SQUARE_ON:
            kind = TrimKind.SIDE
    return Side(outwards, half, kind, abs(own.x) > abs(own.y) + SAME_WAY)


def _into_corner(
    bench: Bench, line: Line, before: Segment | None, after: Segment | None, core: Region
) -> Iterator[Side]:
    """Yield the cut along a side into its hollow corner, where its other end lies free."""
    at_start = 0.0 if before is None else turn_at(before, line)
    at_end = 0.0 if after is None else turn_at(line, after)
    ends = at_end < -SAME_WAY
    if (at_start < -SAME_WAY) == ends:
        return  # both: a saw would have to be let in twice; none: another part stops it
    way = line.direction
    corner, free, out = (line.end, line.start, -way) if ends else (line.start, line.end, way)
    if core.chord(free + out * 1.0, free + out * extent_of(core)):
        return
    side = _side(bench, line)
    foot = bench.top.placement.centre + side.outwards * side.half
    stop = Stop((corner - foot).dot(way), -(at_end if ends else at_start), ends)
    yield replace(side, kind=TrimKind.TO_CORNER, stop=stop)
