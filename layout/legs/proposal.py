"""What each choice of legs means: overhang, spread, tipping, sag and places to sit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from ..geometry import Point, Region, array_of
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD
from .people import Seating
from .plan import LegsPlan
from .sag import Loads, Sag, sag_of
from .stance import Stance
from .table import TableTop
from .wish import LegsWish


@dataclass(frozen=True, slots=True)
class Proposal:
    """Legs of one count, and what they mean."""

    count: int
    wish: LegsWish
    """With the places found, ready to be planned."""
    legs: LegsPlan
    sag: Sag | None
    seating: Seating
    spread: float = field(metadata={"unit": ""})
    """Area of the polygon of the feet as a share of the top."""
    least_gap: float
    widest_gap: float
    """Clear between neighbouring legs on the rim of the feet, mm."""
    held: float = field(metadata={"unit": "N"})
    """Force that tips it by estimate, N, as far as it stays below the load asked for."""
    score: float = field(metadata={"unit": ""})
    """What the goal counts, higher is better."""


def told(stance: Stance, table: TableTop, loads: Loads | None = None) -> Proposal:
    """Return everything that a stance means."""
    wish, middles = stance.wish, stance.wish.at
    gaps = _gaps(wish, middles)
    return Proposal(
        len(middles),
        wish,
        stance.legs,
        sag_of(table.top, wish.foot, middles, loads, table.plate),
        stance.seating,
        _area(stance.legs.feet) / table.top.outline.area,
        min(gaps),
        max(gaps),
        stance.held,
        stance.score,
    )


def _gaps(wish: LegsWish, middles: Sequence[Point]) -> list[float]:
    """Return what is clear between neighbouring legs round the rim, mm."""
    rim = sorted((m for m in middles if m.norm > CHORD), key=lambda m: m.angle)
    gaps = []
    for a, b in zip(rim, [*rim[1:], rim[0]], strict=True):
        way = (b - a).angle
        gaps.append(a.distance_to(b) - wish.foot.reach(way) - wish.foot.reach(way + math.pi))
    return gaps


def _area(corners: Sequence[Point]) -> float:
    return Region.from_rings(convex_hull(array_of(corners))).area
