"""What a straight cut takes off: the band of its kerf, the pieces beyond, and how wide they are."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..geometry import Point, Region, array_of

_STATIONS = 33
"""Places along a cut at which the width of what falls off is measured."""

_BESIDE = 0.01
"""mm before and behind a corner: square to a line it may be as wide as on either side of it."""


@dataclass(frozen=True, slots=True)
class SawLine:
    """A saw line: a point of it, the unit vector towards the waste, and how far it is sawn.

    `reach` is from the point along `way`, mm; endless where none is given.
    """

    at: Point
    waste: Point
    reach: tuple[float, float] = (-math.inf, math.inf)

    @property
    def way(self) -> Point:
        """The way the saw is pushed with the kept wood on its left."""
        return self.waste.left

    def moved(self, towards_waste: float) -> SawLine:
        """Return the parallel line that lies nearer the waste by so much, mm."""
        return replace(self, at=self.at + self.waste * towards_waste)

    def past(self, point: Point) -> float:
        """Return how far a point lies on the waste side, mm; negative on the kept side."""
        return (point - self.at).dot(self.waste)

    def ends(self, extent: float) -> tuple[Point, Point]:
        """Return where it starts and ends, at most `extent` mm from its point."""
        low, high = (min(max(reach, -extent), extent) for reach in self.reach)
        return self.at + self.way * low, self.at + self.way * high

    def beyond(self, extent: float) -> Region:
        """Return all that lies on the waste side, out to `extent` mm each way."""
        return self.band(extent, extent)

    def band(self, width: float, extent: float) -> Region:
        """Return the strip `width` wide on the waste side, `extent` mm long each way."""
        start, end = self.ends(extent)
        far_start, far_end = self.moved(width).ends(extent)
        corners = (start, far_start, far_end, end)
        return Region.from_rings(array_of(corners))


@dataclass(frozen=True, slots=True)
class Strip:
    """Wood beyond a line: how wide it is at stations along the stretch where it is sawn, mm."""

    widths: tuple[float, ...]
    """At even stations."""
    narrowest: float = 0.0
    widest: float = 0.0
    """The least and the greatest width anywhere along it, mm."""

    def share_below(self, width: float) -> float:
        """Return over which share of the stretch it is narrower than `width`, mm."""
        thin = sum(1 for w in self.widths if w < width)
        return thin / len(self.widths) if self.widths else 0.0


def extent_of(region: Region) -> float:
    """Return a length that reaches across a region from any point of it, mm."""
    bounds = region.bounds
    return 2 * math.hypot(bounds.width, bounds.height)


def _widest(beyond: Region, line: SawLine, last: Point, extent: float) -> float:
    """Return how far the wood square beside a line reaches from it: at one of its corners.

    Only what hangs together with the line counts.
    """
    first, out = line.at, line.waste * extent
    beside = beyond.meet(Region.from_rings(array_of((first, first + out, last + out, last))))
    sawn = Region.line(array_of((first, last)))
    held = (piece for piece in beside.pieces if piece.distance_to(sawn) < 1e-3)
    return max((line.past(Point.of(row)) for piece in held for row in piece.exterior), default=0.0)


def strip_beyond(wood: Region, line: SawLine) -> Strip:
    """Return how wide the wood beyond a line is, over the stretch where the line runs in wood.

    Measured square from the line at stations; what lies beyond a gap does not count.
    """
    extent = extent_of(wood)
    beyond = wood.meet(line.beyond(extent))
    spans = wood.chord(*line.ends(extent))
    if beyond.is_empty or not spans:
        return Strip(())
    first, last = spans[0][0], spans[-1][1]
    inset = min(1.0, first.distance_to(last) / 100)
    start, end = first + line.way * inset, last - line.way * inset
    far = start.distance_to(end)

    def width(way: float) -> float:
        foot = start + line.way * way
        out = beyond.chord(foot, foot + line.waste * extent)
        reaches = [(b - foot).dot(line.waste) for a, b in out if a.distance_to(foot) < 1e-3]
        return max(reaches, default=0.0)

    corners = {round((Point.of(c) - start).dot(line.way), 6) for c in beyond.corners}
    beside = (way + side * _BESIDE for way in corners for side in (-1, 0, 1))
    even = tuple(width(far * step / (_STATIONS - 1)) for step in range(_STATIONS))
    narrowest = min((*even, *(width(way) for way in beside if 0 < way < far)))
    return Strip(even, narrowest, _widest(beyond, SawLine(first, line.waste), last, extent))
