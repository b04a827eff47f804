"""A piece as found: its exact outline from the panel's own edges and new cuts, and its proof.

Along the kept edges there is nothing to prove, and polygons of one curve that were cut at other
places differ by a hair. So held against the inner polygon of the sound wood is the outer polygon of
the piece without the `PROOF_ALLOWANCE` next to its kept edges; all cuts are proved to the full.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ...errors import LayoutError
from ...geometry import Bounds, Path, Placement, Point, Region
from ...geometry.intersect import crossings, meetings
from ...geometry.segments import Arc, EllipticArc, Line, Segment
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, SAME_POINT
from ...geometry.window import clipped
from ...outlines import Freeform
from ...outlines.freeform import PIECE_AS_FOUND
from ...panel.sound import SoundWood
from ..found import Fit
from ..points import held_corners
from ..proof import Drawn, until_proved
from ..wish import Goal, Limits, Wish
from .band import FAR, Band, Ground

LOOKS_A_BOX = 50_000
"""Looks at an edge (`Family.looks`) that a box of pieces takes: as measured."""
_AT_ONCE = 1e-3
"""A side that leaves the half circle so near to the cut never was inside it, mm."""


@dataclass(frozen=True, slots=True)
class Cuts:
    """Where a piece is cut, in the frame of its band, mm."""

    left: float
    right: float
    """Where the kept sides end."""
    top: float
    """Where the upper side is ripped; 0 where two edges are kept."""


def outline_of(band: Band, cuts: Cuts, *, rounded: bool) -> Path | None:
    """Return the boundary of a piece in the frame of its band, anticlockwise.

    Where the sides draw together past a half-round end, each goes on until it leaves the circle;
    None where one leaves it more than once.
    """
    upper = band.upper or Path((Line(Point(FAR, cuts.top), Point(-FAR, cuts.top)),))
    ends = ((cuts.left, -1), (cuts.right, 1))
    circles = [_circle(band, upper, at, way) if rounded else None for at, way in ends]
    sides = []
    for path in (band.lower, upper):
        stops = [
            [at] if circle is None else _left_at(path, circle, way) or [at]
            for (at, way), circle in zip(ends, circles, strict=True)
        ]
        if max(map(len, stops)) > 1:
            return None
        parts = clipped(path, Bounds(stops[0][0], -2 * FAR, stops[1][0], 2 * FAR))
        if len(parts) != 1:
            return None
        sides.append(parts[0].segments)
    below, above = sides
    right = _end(below[-1].end, above[0].start, circles[1])
    left = _end(above[-1].end, below[0].start, circles[0])
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


def _clear_of_kept(whole: Region, band: Band) -> Region:
    """Return the piece without a hair along its kept edges."""
    for kept in filter(None, (band.lower, band.upper)):
        points = kept.placed(band.frame).points(CHORD)
        whole = whole.minus(Region.along(points, PROOF_ALLOWANCE, around=True))
    return whole


def require_wish(wish: Wish) -> None:
    """Raise a `LayoutError` for a wish that no piece as found can meet or that has no best one."""
    limits = wish.limits
    if wish.lipping > 0:
        raise LayoutError("a kept edge is not lipped: leave out the lipping, or keep no edge")
    if wish.goal is Goal.NEAREST:
        raise LayoutError(
            "a piece as found has the width that its panel has: instead of the nearest, wish for "
            "the largest, longest or widest with limits on length and width"
        )
    if limits.ratio.least > 1 or limits.ratio.greatest < math.inf:
        raise LayoutError("a piece as found has no one ratio: limit its length and width instead")
    if wish.goal is Goal.WIDTH and limits.length.least <= 0:
        raise LayoutError("the widest piece as found needs a least length: else it is a line")
    one = wish.keeping is not None and len(wish.keeping.edges) == 1
    if wish.goal is Goal.LENGTH and one and limits.width.least <= 0:
        raise LayoutError("the longest piece on one kept edge needs a least width")


def least_width(limits: Limits) -> float:
    """Return the least width asked for, mm, never quite nothing."""
    return max(limits.width.least, 2 * PROOF_ALLOWANCE)


class BandPieces:
    """What the families of pieces on one or two kept edges have in common."""

    rounded = False
    """Whether their ends are half round."""

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        require_wish(wish)
        self.looks = 0.0
        self.wood, self.wish, self.held = wood, wish, held
        self.band = band = Band.of(wish)
        inverse = band.frame.inverse
        self.inner, self.outer = (
            Ground(band, side.placed(inverse)) for side in (wood.inner, wood.outer)
        )
        self.narrow, self.wide = band.profile("inside"), band.profile("outside")
        self.to_hold = inverse.of(held_corners(held))
        self.ripped = band.upper is None
        self.tops = self._heights() if self.ripped else (0.0, 0.0)
        """From where to where the upper side may be ripped on one kept edge, mm."""

    def _heights(self) -> tuple[float, float]:
        limits, lower = self.wish.limits, self.band.lower.bounds
        low = float(lower.bottom) + least_width(limits) - CHORD
        high = float(self.outer.wood.bounds.top)
        if limits.width.greatest < math.inf:
            high = min(high, float(lower.top) + limits.width.greatest + CHORD)
        return float(self.to_hold[:, 1].max(initial=low)), high

    def finish(self, top: Cuts) -> Fit | None:
        """Return a piece proved inside the wood and round what it must hold, or None."""

        def drawn_in(by: float) -> Drawn | None:
            smaller = Cuts(top.left + by, top.right - by, top.top - by * self.ripped)
            path = outline_of(self.band, smaller, rounded=self.rounded)
            if path is None:
                return None
            placement = Freeform.frame_of(path).then(self.band.frame)
            placement = Placement(placement.centre, math.remainder(placement.turn, math.tau))
            outline = Freeform.of(path, PIECE_AS_FOUND)
            return Drawn(outline, outline, placement, self.score(smaller, outline.area))

        return until_proved(
            drawn_in, self.wood, self.held, lambda whole: _clear_of_kept(whole, self.band)
        )

    def score(self, cuts: Cuts, area: float) -> float:
        """Return what the goal counts: the area, the length along the axis or the least width."""
        if self.wish.goal is Goal.AREA:
            return area
        if self.wish.goal is Goal.WIDTH:
            return self.narrow.raised(cuts.top).span(cuts.left, cuts.right)[0]
        return self.length(cuts)

    def length(self, cuts: Cuts) -> float:
        """Return how long a piece is over all, mm."""
        profile = self.narrow.raised(cuts.top)
        ends = float(profile.at(cuts.left) + profile.at(cuts.right)) / 2 if self.rounded else 0.0
        return cuts.right - cuts.left + ends
