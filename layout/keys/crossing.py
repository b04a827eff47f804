"""Where a ring of straight edges meets itself, told by the numbers of its points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import GeometryError
from ..geometry.alike import first_of_best
from ..geometry.distance import nearest
from ..geometry.placement import Points, array_of
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import SAME_POINT
from .place import Place


@dataclass(frozen=True, slots=True)
class Crossing:
    """Two edges of a ring that meet where they should not."""

    one: int
    other: int
    """Numbers, from 1, of the points at which they start."""
    at: Point
    """Where, mm."""


def first_crossing(points: Sequence[Point]) -> Crossing | None:
    """Return the first crossing round a ring of at least three points; None where it is simple.

    Most rings are simple, and that is quickly seen. Otherwise every edge is held against all that
    follow it at once. Neighbours share a point: they clash only where one runs back on the other.
    """
    ring = array_of([*points, points[0]])
    if _holds_an_area(ring):
        return None
    count = len(points)
    edges = [Region.line(ring[i : i + 2]) for i in range(count)]
    for i, edge in enumerate(edges):
        after = (i + 1) % count
        if edge.meet(edges[after]).perimeter > SAME_POINT:
            return Crossing(i + 1, after + 1, points[after])
        first, end = i + 2, count - (i == 0)  # the last edge is a neighbour of the first
        if first >= end or not edge.touches_or_crosses(Region.line(ring[first : end + 1])):
            continue
        met = [k for k in range(first, end) if edge.touches_or_crosses(edges[k])]
        return _first_met(i, met, points[i], [nearest(edge, edges[k])[0] for k in met])
    return None


def _first_met(one: int, others: Sequence[int], start: Point, places: Sequence[Point]) -> Crossing:
    """Return the crossing that an edge comes to first; edges are told by number, from 0."""
    first = first_of_best(
        range(len(others)), lambda k: -start.distance_to(places[k]), tolerance=SAME_POINT
    )
    return Crossing(one + 1, others[first] + 1, places[first])


def is_simple(points: Sequence[Point], place: Place) -> bool:
    """Return whether a ring does not meet itself; note the place where it does."""
    crossing = first_crossing(points)
    if crossing is None:
        return True
    x, y = (place.length(figure) for figure in crossing.at)
    place.wrong(
        f"the edge from point {crossing.one} meets the edge from point {crossing.other} at "
        f"x {x}, y {y}: give the points in order, all the way round"
    )
    return False


def _holds_an_area(ring: Points) -> bool:
    try:
        Region.from_rings(ring)
    except GeometryError:
        return False
    return True
