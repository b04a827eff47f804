"""How far it is within a region and between two, and where places lie nearest to each other."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache

import shapely
from shapely.geometry.base import BaseGeometry

from .alike import first_of_best
from .point import Point
from .polygon import Region
from .tolerance import ROUNDING, SAME_PLACE

_DEPTH, _SHARE = 0.05, 0.01
"""mm, or share of it, by which the greatest depth of a region may be taken too large."""

_MOST_EDGES = 1_500
"""Of a region whose greatest depth is held against it: that takes the square of their number."""


def nearest(one: Region, other: Region) -> tuple[Point, Point]:
    """Return a place of each, no farther apart than any two.

    Along two straight lines side by side every place is as near, and shapely does not say which it
    takes. Of places that are alike the first by position is taken here.
    """
    far = float(shapely.distance(one.shape, other.shape))
    spans = [*_from_corners(one, other, far), *((b, a) for a, b in _from_corners(other, one, far))]
    if not spans:  # they cross: nowhere else is the nearest place no corner of either
        spans = [_ends(shapely.shortest_line(one.shape, other.shape))]
    return first_of_best(
        spans,
        lambda span: -span[0].distance_to(span[1]),
        lambda span: (*span[0], *span[1]),
        tolerance=ROUNDING,
    )


def _from_corners(one: Region, other: Region, far: float) -> list[tuple[Point, Point]]:
    """Return the shortest lines from corners of one region to another one `far` away, mm."""
    corners = one.corners
    shapely.prepare(other.shape)
    near = corners[shapely.dwithin(other.shape, shapely.points(corners), far + ROUNDING)]
    return [_ends(shapely.shortest_line(shapely.Point(corner), other.shape)) for corner in near]


def _ends(line: BaseGeometry) -> tuple[Point, Point]:
    start, end = map(Point.of, shapely.get_coordinates(line))
    return start, end


@lru_cache(maxsize=8)
def greatest_depth(region: Region) -> float:
    """Return a distance, mm, hardly more than that of the deepest point to the nearest edge.

    The circle comes from a search; that nothing lies deeper is held against the region itself.
    Where that would take too long or does not hold, the distance is infinite.
    """
    if len(region.edges) > _MOST_EDGES:
        return math.inf
    parts = [part for part in shapely.get_parts(region.shape) if part.area > 0]
    # no region is shallower than its area over the way round it
    off = max(_DEPTH, _SHARE * max((part.area / part.length for part in parts), default=0.0))
    circles = shapely.maximum_inscribed_circle(parts, off)
    depth = float(shapely.length(circles).max(initial=0.0)) + off
    return depth if region.shrunk(depth, around=True).is_empty else math.inf


def longest_of(spans: Iterable[tuple[Point, Point]]) -> tuple[Point, Point]:
    """Return the longest of the parts of a line, of parts alike the first along it."""
    return first_of_best(spans, lambda s: s[0].distance_to(s[1]), tolerance=SAME_PLACE)
