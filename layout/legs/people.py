"""People: how many sit at it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from ..geometry import Point, Region
from ..outlines import Outline
from ..units import MM_PER_INCH
from .foot import Foot
from .places import Edge, Seat, most_places

PLACE = 600.0
"""Edge that a diner takes, mm: 24 in at least, 30 at best (Panero and Zelnik, *Human Dimension and
Interior Space*)."""

PLACE_IMPERIAL = 24 * MM_PER_INCH
"""The same where the maker counts in inches, mm."""


@dataclass(frozen=True, slots=True)
class Seating:
    """How people sit at it."""

    seats: tuple[Seat, ...]
    """As many as find room with knees clear of the legs."""
    without_legs: int
    """How many there would be if no leg stood in the way."""


def seating_at(
    outline: Outline, foot: Foot, middles: Sequence[Point], place: float = PLACE
) -> Seating:
    """Return the places round a top.

    A place takes `place` of the edge and 14 in of the depth behind it, on a narrow top to its
    middle; two do not overlap, so that on a top with corners those at the ends take from the
    sides. Knees stay clear of the legs, whose heads have these middles, mm.
    """
    edge = _edge_of(outline, place)
    prints = [Region.of(foot.outside(m), "outside") for m in middles]
    with_legs = most_places(edge, [i for i in edge.usable if not edge.knees_meet(i, prints)])
    return Seating(tuple(edge.seat(i) for i in with_legs), len(most_places(edge, edge.usable)))


def knee_room(outline: Outline, foot: Foot, middles: Sequence[Point]) -> float:
    """Return the share of the edge at which somebody's knees would be clear of the legs."""
    edge = _edge_of(outline, PLACE)
    usable = edge.usable
    if not usable:
        return 0.0
    prints = [Region.of(foot.outside(m), "outside") for m in middles]
    return sum(not edge.knees_meet(i, prints) for i in usable) / len(usable)


@lru_cache(maxsize=8)
def _edge_of(outline: Outline, place: float) -> Edge:
    """Return the edge of a top, walked once for all arrangements of legs under it."""
    return Edge.walked(outline.path(), place)
