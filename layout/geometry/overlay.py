"""What two shapes share and what one has alone, also where their rings differ by rounding alone.

GEOS 3.14 may find that two rings that run along each other to a millionth share nothing. Where that
comes out though a place well inside one lies in the other, it is worked out again on a fine grid.
"""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely.geometry.base import BaseGeometry

_GRID = 1e-9
"""mm to which points are rounded where an overlay is worked out again."""

NOTHING = 1e-12
"""Share of an area that is none."""


def difference(one: BaseGeometry, others: Sequence[BaseGeometry]) -> BaseGeometry:
    """Return what is left of a shape when others are taken away."""
    other = others[0] if len(others) == 1 else shapely.union_all(others)
    left = one.difference(other)
    still = shapely.point_on_surface([shape for shape in others if not shape.is_empty])
    untouched = left.area >= one.area * (1 - NOTHING) and _share_a_place(one, other)
    if untouched or shapely.contains(left, still).any():
        return shapely.difference(one, other, grid_size=_GRID)
    return left


def intersection(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """Return what two shapes both hold."""
    both = one.intersection(other)
    if both.area <= NOTHING * one.area and _share_a_place(one, other):
        return shapely.intersection(one, other, grid_size=_GRID)
    return both


def _share_a_place(one: BaseGeometry, other: BaseGeometry) -> bool:
    if one.is_empty or other.is_empty:
        return False
    return bool(
        shapely.contains(one, shapely.point_on_surface(other))
        or shapely.contains(other, shapely.point_on_surface(one))
    )
