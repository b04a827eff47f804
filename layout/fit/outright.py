"""What can be ruled out at a glance, before any search."""

from __future__ import annotations

from ..geometry.placement import array_of
from ..geometry.polygon import Region
from ..outlines import OWN_OUTLINE, PIECE_AS_FOUND
from ..panel.sound import SoundWood
from .rigid.limits import is_longer_than
from .wish import Wish

_HAIR = 0.02
"""mm: more than a covered point may lie outside a top."""


def is_ruled_out(wood: SoundWood, wish: Wish, shape: str) -> bool:
    """Return whether no top of a shape can be, whatever its place."""
    if shape == "circle" and not wish.limits.ratio.holds(1.0):
        return True
    if shape == OWN_OUTLINE and wish.own is not None and not wish.scaled:
        return is_longer_than(wood.outer, wish.own)
    return shape not in (OWN_OUTLINE, PIECE_AS_FOUND) and are_parted(wood, wish)


def are_parted(wood: SoundWood, wish: Wish) -> bool:
    """Return whether what lies between the points to cover is not all sound.

    A convex top holds all between any of its points, so then none can cover them.
    """
    points = wish.covers
    if len(points) < 2:
        return False
    return not wood.outer.grown(_HAIR).holds(Region.hull(array_of(points)))
