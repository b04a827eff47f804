"""Where a ring of straight edges meets itself, told by the numbers of its points."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress

from ..errors import GeometryError
from ..geometry.alike import first_of_best
from ..geometry.distance import nearest
from ..geometry.placement import array_of
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import SAME_POINT
from .place import Place


def is_simple(points: Sequence[Point], place: Place) -> bool:
    """Return whether a ring does not meet itself; note where round it does so first."""
    one, met = next(_meetings(points), (0, {}))
    if not met:
        return True
    other = first_of_best(met, lambda k: -points[one].distance_to(met[k]), tolerance=SAME_POINT)
    x, y = (place.length(figure) for figure in met[other])
    place.wrong(
        f"the edge from point {one + 1} meets the edge from point {other + 1} at x {x}, y {y}: "
        "give the points in order, all the way round"
    )
    return False


def _meetings(points: Sequence[Point]) -> Iterator[tuple[int, dict[int, Point]]]:
    """Yield each edge, from 0, that meets others where it should not, with those and the places.

    Most rings are simple, and that is quickly seen. Otherwise every edge is held against all that
    follow it at once. Neighbours share a point: they clash only where one runs back on the other.
    """
    ring = array_of([*points, points[0]])
    with suppress(GeometryError):
        Region.from_rings(ring)
        return
    count = len(points)
    edges = [Region.line(ring[i : i + 2]) for i in range(count)]
    for i, edge in enumerate(edges):
        after = (i + 1) % count
        first, end = i + 2, count - (i == 0)  # the last edge is a neighbour of the first
        if edge.meet(edges[after]).perimeter > SAME_POINT:
            yield i, {after: points[after]}
        elif first < end and edge.touches_or_crosses(Region.line(ring[first : end + 1])):
            met = (k for k in range(first, end) if edge.touches_or_crosses(edges[k]))
            yield i, {k: nearest(edge, edges[k])[0] for k in met}
