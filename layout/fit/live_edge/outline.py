"""A piece as found: its exact outline from the panel's own edges and new cuts, and what is proved.

Along the kept edges the piece is bounded by the panel itself, line for line and arc for arc. There
is nothing to prove there, and polygons of the same curve that were cut at other places differ by a
hair. So what is held against the inner polygon of the sound wood is the outer polygon of the piece
without the `PROOF_ALLOWANCE` next to its kept edges; all cuts are proved to the full.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ...geometry import Arc, Bounds, EllipticArc, Line, Path, Placement, Point, Region, Segment
from ...geometry.intersect import crossings, meetings
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, SAME_POINT
from ...geometry.window import clipped
from ...outlines import Freeform
from ...outlines.freeform import PIECE_AS_FOUND
from .band import Band

_FAR = 1e6
"""mm: farther than any panel reaches."""

_AT_ONCE = 1e-3
"""A side that leaves the half circle so near to the cut never was inside it, mm."""


@dataclass(frozen=True, slots=True)
class Cuts:
    """Where a piece is cut, in the frame of its band, mm."""

    left: float
    right: float
    """Where the kept sides end."""
    top: float
    """Where the upper side is ripped; of no account where two edges are kept."""

    def drawn_in(self, by: float) -> Cuts:
        """Return them with every cut moved into the piece."""
        return Cuts(self.left + by, self.right - by, self.top - by)

    def is_beside(self, other: Cuts, within: float) -> bool:
        """Return whether no cut lies farther than so much, mm, from that of another piece."""
        ways = self.left - other.left, self.right - other.right, self.top - other.top
        return max(map(abs, ways)) < within


def outline_of(band: Band, cuts: Cuts, *, rounded: bool) -> Path | None:
    """Return the boundary of a piece in the frame of its band, anticlockwise.

    Where the sides draw together past a half-round end, each goes on until it leaves the circle;
    None where one leaves it more than once.
    """
    upper = band.upper or Path((Line(Point(_FAR, cuts.top), Point(-_FAR, cuts.top)),))
    ends = ((cuts.left, -1), (cuts.right, 1))
    circles = [_circle(band, upper, at, way) for at, way in ends] if rounded else []
    sides = []
    for path in (band.lower, upper):
        stops = [cuts.left, cuts.right]
        for index, circle in enumerate(circles):
            left_at = _left_at(path, circle, ends[index][1])
            if len(left_at) > 1:
                return None
            stops[index] = left_at[0] if left_at else stops[index]
        parts = clipped(path, Bounds(stops[0], -2 * _FAR, stops[1], 2 * _FAR))
        if len(parts) != 1:
            return None
        sides.append(list(parts[0].segments))
    below, above = sides
    right = _end(below[-1].end, above[0].start, circles[1] if rounded else None)
    left = _end(above[-1].end, below[0].start, circles[0] if rounded else None)
    return Path((*below, right, *above, left))


def _circle(band: Band, upper: Path, at: float, way: int) -> Arc:
    """Return the half circle that ends a piece at a place."""
    low, high = (_height(path, at) for path in (band.lower, upper))
    start = -math.pi / 2 if way > 0 else math.pi / 2
    return Arc(Point(at, (low + high) / 2), (high - low) / 2, start, math.pi)


def _height(path: Path, at: float) -> float:
    """Return where a side stands above a place."""
    found = crossings(path, Point(at, 0.0), Point(0.0, 1.0))
    if found:
        return found[0].point.y
    ends = (path.segments[0].start, path.segments[-1].end)
    return min(ends, key=lambda p: abs(p.x - at)).y


def _left_at(path: Path, circle: Arc, way: int) -> list[float]:
    """Return where a side leaves the half circle past the cut, along x."""
    found = [
        point.x
        for segment in path.segments
        if not isinstance(segment, EllipticArc)
        for point in meetings(segment, circle)
        if (point.x - circle.centre.x) * way > _AT_ONCE
    ]
    return [x for i, x in enumerate(found) if all(abs(x - y) > SAME_POINT for y in found[:i])]


def _end(start: Point, end: Point, circle: Arc | None) -> Segment:
    """Return the end of a piece: a square cut, or what is left of the half circle."""
    if circle is None:
        return Line(start, end)
    first, last = ((p - circle.centre).angle for p in (start, end))
    return Arc(circle.centre, circle.radius, first, (last - first) % math.tau)


def clear_of_kept(whole: Region, band: Band) -> Region:
    """Return the piece without a hair along its kept edges."""
    for kept in band.kept:
        points = kept.placed(band.frame).points(CHORD)
        whole = whole.minus(Region.along(points, PROOF_ALLOWANCE, around=True))
    return whole


def placed_outline(band: Band, cuts: Cuts, *, rounded: bool) -> tuple[Freeform, Placement] | None:
    """Return a piece and where it lies on the panel; None where it has no one outline."""
    path = outline_of(band, cuts, rounded=rounded)
    if path is None:
        return None
    placement = Freeform.frame_of(path).then(band.frame)
    placement = replace(placement, turn=math.remainder(placement.turn, math.tau))
    return Freeform.of(path, PIECE_AS_FOUND), placement
