"""What a top must hold or leave outside: points of the panel, and parts that it may not cross.

A point to avoid is taken out of the wood, and a little round it. A point to cover is one more part
that the top must hold, without any size.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..geometry import Point, Points, Region, array_of
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ..panel.sound import SoundWood
from .found import Fit
from .wish import Wish

CLEAR_OF_POINT = 0.01
"""mm that a found top keeps off a point to avoid, at least; well below what a pencil can mark."""
TOUCHES_POINT = 0.001
"""mm: a top that comes nearer than this to a point counts as holding it. Bounds are of the others,
since a wood cannot lose a point without losing a little round it."""

_CORNERS = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
"""Of a square about the origin, of half a side of 1."""
_HAIR = 0.02
"""mm: more than a covered point may lie outside a top."""
_COVERED = 0.01
"""mm by which a point may lie beyond the edge of a top that covers it: a top that just touches is
drawn in by a hair for its proof."""


@dataclass(frozen=True, slots=True)
class Ground:
    """Where tops may lie on a panel."""

    wood: SoundWood
    islands: tuple[Region, ...] = ()
    """Parts that the edge of a top may not cross."""


def clear_of(wood: SoundWood, points: Sequence[Point]) -> SoundWood:
    """Return the wood without the points to avoid, each a tiny square."""
    if not points:
        return wood
    off, inside = ([_square(p, by) for p in points] for by in (CLEAR_OF_POINT, TOUCHES_POINT / 2))
    return SoundWood(wood.inner.minus(*off), wood.outer.minus(*inside))


def without(wood: SoundWood, parts: Sequence[Region]) -> SoundWood:
    """Return the wood without some parts."""
    return SoundWood(wood.inner.minus(*parts), wood.outer.minus(*parts)) if parts else wood


def _square(point: Point, half: float) -> Region:
    return Region.from_rings(half * _CORNERS + [*point])


def lost(wood: SoundWood, points: Sequence[Point]) -> tuple[Point, ...]:
    """Return the points to cover that no top in the wood can: those outside it."""
    return tuple(p for p in points if wood.outer.distance_to(Region.at(p)) > ROUNDING)


def are_parted(wood: SoundWood, wish: Wish) -> bool:
    """Return whether what lies between the points to cover is not all sound.

    A convex top holds all between any of its points, so then none can cover them.
    """
    points = wish.covers
    if len(points) < 2:
        return False
    return not wood.outer.grown(_HAIR).holds(Region.hull(array_of(points)))


def holds_all(within: Region, held: Sequence[Region]) -> bool:
    """Return whether a top holds all it must: parts wholly, and points but for a hair.

    What lies in its core is given, and the parts.
    """
    return all(
        within.holds(part) or (part.area == 0.0 and within.distance_to(part) <= _COVERED)
        for part in held
    )


def crosses(fit: Fit, part: Region) -> bool:
    """Return whether the edge of the core cuts into a part: not clear of it and not round it."""
    around = Region.from_rings(fit.placement.of(fit.core.outer(CHORD)))
    return not fit.within.holds(part) and around.meet(part).area > 0.0


def held_corners(parts: Sequence[Region]) -> Points:
    """Return the points, (n, 2), that a convex top must hold to hold all parts."""
    return _outermost([part.corners for part in parts])


def least_width(parts: Sequence[Region]) -> float:
    """Return the width, mm, that any top needs to hold all parts: that of their hull where least.

    The narrowest strip round a polygon has one of its sides along one of the polygon's.
    """
    corners = held_corners(parts)
    if len(corners) < 3:
        return 0.0
    ring = convex_hull(corners)
    sides = np.roll(ring, -1, axis=0) - ring
    normals = np.stack([sides[:, 1], -sides[:, 0]]) / np.hypot(*sides.T)
    return max(float(np.ptp(corners @ normals, axis=0).min()) - 2 * _HAIR, 0.0)


def firm_corners(parts: Sequence[Region]) -> Points:
    """Return what a top found must hold, so that it still holds the parts once it is drawn in."""
    around = PROOF_ALLOWANCE * _CORNERS
    spread = [around if part.area > 0.0 else np.zeros((1, 2)) for part in parts]
    pairs = zip(parts, spread, strict=True)
    return _outermost([(part.corners[:, None] + by).reshape(-1, 2) for part, by in pairs])


def _outermost(parts: Sequence[Points]) -> Points:
    points = np.concatenate([np.zeros((0, 2)), *parts])
    return np.unique(Region.hull(points).corners, axis=0) if len(points) else points
