"""Where a straight line meets the edges of the wood, as a maker finds the place with a tape."""

from __future__ import annotations

from collections.abc import Iterator

from ..geometry.alike import first_of_best
from ..geometry.intersect import crossings
from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE, SAME_POINT
from ..panel.datum import Datum
from ..panel.edges import STRAIGHT, Edge, edges_of
from ..panel.panel import Panel
from ..panel.reference import Reference
from .cut import EdgePoint


def edge_points(
    panel: Panel, datum: Datum, at: Point, way: Point
) -> tuple[EdgePoint, EdgePoint] | None:
    """Return where the line through `at` along `way` enters and leaves the panel.

    None where it misses the panel.
    """
    found = crossings(panel.boundary, at, way)
    if len(found) < 2:
        return None
    return (
        edge_point(panel, datum, found[0].point),
        edge_point(panel, datum, found[-1].point),
    )


def edge_point(panel: Panel, datum: Datum, point: Point) -> EdgePoint:
    """Return a place by its offsets, and from the nearer corner where it lies on an edge."""
    offsets = datum.coordinates(point)
    edges = edges_of(panel.boundary)
    held = [r for edge in edges if _lies_on(point, edge) for r in _references_on(edge, datum)]
    if not held:
        return EdgePoint(point, offsets.along, offsets.square)
    nearest = first_of_best(held, lambda r: -r.point.distance_to(point), tolerance=SAME_PLACE)
    distance = nearest.point.distance_to(point)
    return EdgePoint(point, offsets.along, offsets.square, nearest.name, distance)


def _lies_on(point: Point, edge: Edge) -> bool:
    """Return whether a point of the boundary belongs to an edge: a square line meets it there."""
    across = edge.direction.left
    found = crossings(Path(edge.segments), point, across)
    return any(abs(crossing.reach) <= 10 * SAME_POINT for crossing in found)


def _references_on(edge: Edge, datum: Datum) -> Iterator[Reference]:
    """Yield the reference points at the ends of an edge, or struck on it."""
    for reference in datum.references:
        ends = (edge.start, edge.end)
        at_end = any(reference.point.distance_to(p) <= 10 * SAME_POINT for p in ends)
        off = abs(edge.direction.cross(reference.point - edge.start))
        if at_end or (not datum.struck and reference.name in "PQ" and off <= STRAIGHT):
            yield reference
