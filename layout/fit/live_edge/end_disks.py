"""Half-round ends of a piece as found: whether one fits, and whether one of many may.

The end at x is a half circle on the cut there, whose diameter is the width: centre (x, m), radius
r. Where the sides draw together past the cut, they leave a little of the half circle, and the piece
follows its kept edge until the circle comes inside it; at least the middle `_WHOLE` of the circle
either way must be there. Nothing between the sides may be unsound.

For many places and heights at once, all of these discs hold the one about the middle of their
centres that is smaller by how far a centre may lie from there. What is cut off at the farthest
place is in every end: where even that does not fit, none does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from ...geometry import Bounds, Path, Region
from ...geometry.tolerance import CHORD
from .band import FAR, Ground, Profile, Stretch

_WHOLE = math.radians(60)
"""How far to either side of its middle an end is round at least; sides that draw together by 15°
each leave so much."""
_WITHIN, _AROUND = 96, 256
"""Corners of the polygon that stands for a part of a disc: within it for what cannot fit, and round
it for what does; the second adds 0.01 mm to a radius of half a metre."""


@dataclass(frozen=True, slots=True)
class Discs:
    """The discs whose halves are the ends of a stretch."""

    centre: tuple[float, float]
    """The middle of their centres, mm."""
    half: float
    off: float
    """How far a centre may lie from there along x, and in all, mm."""
    least: float
    """The least radius, mm."""


class Ends:
    """The half-round ends on one of the two polygons of the sound wood; its sides lie inside."""

    def __init__(self, ground: Ground, *, around: bool) -> None:
        """Take the ground, and how polygons stand to the parts of discs.

        They go round them, as to be sure that an end fits, or lie within them, as to be sure that
        it does not.
        """
        self.ground, self.around = ground, around
        lower, upper = ground.band.lines("inside")
        self.lower = Profile(*lower.T)
        self.upper = None if upper is None else Profile(*upper.T)
        """Where the edges lie above y = 0, mm; None where the upper side is ripped."""
        self._unsound = cache(ground.unsound)
        self.may_fit = cache(self._judged)

    def discs(self, at: Stretch, top: Stretch) -> Discs:
        """Return the discs of the ends in a stretch, ripped at some heights."""
        low = self.lower.span(*at)
        high = top if self.upper is None else self.upper.span(*at)
        least, greatest = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
        half = (at[1] - at[0]) / 2
        centre = ((at[0] + at[1]) / 2, (least + greatest) / 2)
        off = math.hypot(half, (greatest - least) / 2)
        return Discs(centre, half, off, (high[0] - low[1]) / 2)

    def _judged(self, way: int, at: Stretch, top: Stretch) -> bool:
        """Return whether an end in a stretch may fit, a right one (1) or a left one (−1).

        Where not, none does that starts there under a side that is ripped at those heights.
        """
        discs = self.discs(at, top)
        radius = discs.least - discs.off - (0.0 if self.around else 2 * CHORD)
        if radius <= 0:
            return discs.off > 0
        wood = self.ground.wood
        if radius > discs.half:
            held, band = part_of(discs, radius, way, around=self.around), self.ground.band
            edge, bounds = (band.left, band.right)[way > 0], held.bounds
            if self._unsound(top[0]).touches_or_crosses(held):
                return False
            goes_on = (bounds.right if way > 0 else -bounds.left) > edge * way
            if goes_on and not wood.holds(held.meet(_beyond(edge, way))):
                return False
        # a cone from so far ahead lies in the cones from all centres
        start = discs.off / math.sin(_WHOLE)
        if start >= radius:
            return True
        return wood.holds(part_of(discs, radius, way, around=self.around, start=start))


def sides_of(ground: Ground, top: float) -> Region:
    """Return what lies between the sides, a hair wide, and all past the ends of the edges."""
    band = ground.band
    past = (_beyond(band.right, 1), _beyond(band.left, -1))
    return band.between("outside", top).joined(*past)


def _beyond(edge: float, way: int) -> Region:
    """Return all past the end of the edges."""
    low, high = sorted((edge, way * FAR))
    return Region.of(Path.round_box(Bounds(low, -FAR, high, FAR)))


def part_of(
    discs: Discs, radius: float, way: int, *, around: bool = False, start: float | None = None
) -> Region:
    """Return a polygon of the disc about the middle, cut off at the far end of the stretch.

    Or that of a cone and the disc, from a point that lies by `start` ahead of the middle. It lies
    within the part of the disc, or `around` it.
    """
    reach, apex = math.acos(min(discs.half / radius, 1.0)), np.zeros((0, 2))
    if start is not None:
        # the ray from there meets the circle where the sine rule says
        reach = _WHOLE - math.asin(start * math.sin(_WHOLE) / radius)
        apex = np.array([[start, 0.0]])
    count = _AROUND if around else _WITHIN
    angles = np.linspace(-reach, reach, count + 1)
    arc = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    arc *= radius / math.cos(reach / count) if around else radius
    corners = np.concatenate([apex, arc]) * np.array([way, 1.0])
    return Region.from_rings(corners + np.array(discs.centre))
