"""The line of a top in parts: what of it is cut, and what lies on edges of the panel that stay.

The line that is cut is broken where the panel's own edge takes over. A live edge is the line itself
there; a straight factory edge may stand a little proud of it, for no edge is dead straight.

A round cutter that follows the line from outside stays out of its hollow corners: its middle comes
no nearer to either side than its radius.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..geometry import Arc, Line, Path, Point, Region, Segment
from ..geometry.distance import nearest
from ..geometry.intersect import turn_at
from ..geometry.tolerance import CHORD, SAME_EDGE, SAME_POINT
from ..panel.edges import STRAIGHT, Edge

_PROUD = 2 * STRAIGHT + SAME_EDGE
"""A straight edge, which may bow both ways, stands no farther off the side that lies on it, mm."""

_ALONG = math.cos(math.radians(30))
"""A part of the line that turns farther from an edge does not lie on it."""

MOST_SIDES = 16
"""An outline of more straight sides than this is a curve drawn by points (our choice)."""

_FACING = math.cos(math.radians(45))

_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)


@dataclass(frozen=True, slots=True)
class Runs:
    """A closed line in parts that are kept and parts that are cut, in turn and anticlockwise."""

    kept: tuple[Path, ...]
    """``kept[i]`` comes before ``cut[i]``; empty where all of the line is cut."""
    cut: tuple[Path, ...]
    edges: tuple[Path, ...]
    """The panel's edge that each kept part lies on, the wood on its left."""

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All that is cut."""
        return tuple(segment for path in self.cut for segment in path.segments)

    @property
    def is_straight(self) -> bool:
        """Whether all that is cut is straight, in no more sides than a saw goes round."""
        segments = self.segments
        return len(segments) <= MOST_SIDES and all(isinstance(s, Line) for s in segments)

    def keeps(self, outwards: Point) -> bool:
        """Return whether a kept part faces that way, within 45°."""
        return any(out_of(path).dot(outwards) > _FACING for path in self.kept)


def runs_of(line: Path, edges: Sequence[Path]) -> Runs:
    """Return a closed line broken where it lies on edges that are kept."""
    drawn = [
        (edge, Region.line(edge.points(CHORD)), Edge(edge.segments).is_straight) for edge in edges
    ]
    lies = [
        next((e for e, held, straight in drawn if _lies_on(s, held, straight=straight)), None)
        for s in line.segments
    ]
    count = len(lies)
    starts = [i for i in range(count) if lies[i] is not None and lies[i] is not lies[i - 1]]
    if not starts:
        return Runs((), (line,), ())
    held = tuple(edge for edge in (lies[first] for first in starts) if edge is not None)
    kept, cut = [], []
    for first, edge, piece in zip(starts, held, line.broken(starts), strict=True):
        size = sum(1 for k in range(len(piece.segments)) if lies[(first + k) % count] is edge)
        kept.append(Path(piece.segments[:size]))
        cut.append(Path(piece.segments[size:]))
    return Runs(tuple(kept), tuple(cut), held)


def out_of(path: Path) -> Point:
    """Return the unit vector out of the wood, square to the way from its start to its end."""
    return -(path.segments[-1].end - path.segments[0].start).unit().left


def _lies_on(segment: Segment, edge: Region, *, straight: bool) -> bool:
    """Return whether a segment lies on an edge, given as a line, and runs its way."""
    near = _PROUD if straight and isinstance(segment, Line) else SAME_EDGE
    places = [segment.at(share) for share in _SHARES]
    feet = [nearest(edge, Region.at(place))[0] for place in places]
    if any(foot.distance_to(place) > near for foot, place in zip(feet, places, strict=True)):
        return False
    way = places[-1] - places[0]
    # seen along the edge a way is shorter by the cosine, and that shadow along the way once more
    return (feet[-1] - feet[0]).dot(way) > _ALONG**2 * way.dot(way)


SHOWS, SHARP = 0.5, math.radians(10)
"""What stands out by less is sanded off, mm, and a hollow joint that turns by less is no corner to
a round bit (our choice)."""


@dataclass(frozen=True, slots=True)
class HollowCorner:
    """A hollow corner of a line, or a hollow arc tighter than the bit."""

    at: Point
    out: float
    """How far the bit stays out of it, mm."""
    bit: float
    """Its diameter, mm."""


def hollow_corners(line: Path, bit: float) -> tuple[HollowCorner, ...]:
    """Return where a bit of a diameter, mm, stays out of a closed line, the wood on its left.

    Two sides that turn by t leave a bit of radius R out of their corner by R·(1/cos(t/2) − 1): the
    bit's middle lies R/cos(t/2) from it. With the corner rounded to r it is (R − r)·(1/cos(t/2) −
    1).

    >>> step = [(0, 0), (900, 0), (900, 300), (400, 300), (400, 700), (0, 700)]
    >>> [round(h.out, 2) for h in hollow_corners(Path.through(
    ...     (Point(*p) for p in step), closed=True), bit=12.0)]
    [2.49]
    """
    return tuple(HollowCorner(at, out, bit) for at, out in stays_out(line, bit / 2) if out > SHOWS)


def stays_out(line: Path, radius: float) -> Iterator[tuple[Point, float]]:
    """Yield where a bit of this radius, mm, stays out of a line, closed or open, and how far."""
    held = line.segments
    for i, segment in enumerate(held):
        turn = turn_at(held[i - 1], segment) if i or line.is_closed else 0.0
        if -math.pi + SAME_POINT < turn < -SHARP:
            yield segment.start, radius * (1 / math.cos(turn / 2) - 1)
        if isinstance(segment, Arc) and segment.radius < radius and -math.pi < segment.sweep < 0:
            reach = 1 / math.cos(segment.sweep / 2) - 1
            yield segment.at(0.5), (radius - segment.radius) * reach
