"""Where the legs are held to the top: the holes that are drilled for their screws."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.point import Point
from ..geometry.polygon import Region
from ..top import Top
from .foot import FootShape
from .sag import bearing_points
from .wish import Fixing, LegsWish

IN_PLATE = 12.0
"""The holes of a plate lie this far inside its edges, mm (common practice); at most a quarter of
its width."""


@dataclass(frozen=True, slots=True)
class Hole:
    """One screw."""

    leg: int
    """Number of the leg that it holds."""
    place: Point
    """mm from the centre of the top."""
    on_panel: Point
    from_edge: float
    """From its middle to the edge of the top, mm; negative past it."""


def holes_of(
    wish: LegsWish, middles: Sequence[Point], top: Top, apart: tuple[float, float] | None = None
) -> tuple[Hole, ...]:
    """Return the screws of legs with these middles, leg by leg; none of glued or loose ones.

    A plate is held near its corners, a slab in its middle and near its ends, any other leg by one
    screw in its middle.

    Parameters
    ----------
    apart : tuple of two floats, optional
        How far the outer holes of a plate lie apart, along and across the top, mm.
    """
    if wish.fixing is not Fixing.SCREWED:
        return ()
    region = Region.from_rings(top.outline.inner())
    held = []
    for number, middle in enumerate(middles, start=1):
        for place in _places(wish, middle, apart):
            distance = region.edge_distance(place)
            signed = distance if region.holds_point(place) else -distance
            held.append(Hole(number, place, top.placement(place), signed))
    return tuple(held)


def _places(wish: LegsWish, middle: Point, apart: tuple[float, float] | None) -> list[Point]:
    plate = wish.plate
    if plate is not None:
        inside = [size - 2 * min(IN_PLATE, size / 4) for size in (plate.length, plate.width)]
        x, y = (v / 2 for v in (apart or inside))
        return [middle + Point(*at) for at in ((-x, -y), (x, -y), (x, y), (-x, y))]
    if wish.foot.shape is FootShape.SLAB:
        return bearing_points(wish.foot, middle)
    return [middle]
