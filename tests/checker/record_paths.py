"""Paths and regions of plan.json as points and polygons."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from checker.plane import Frame, Pair, arc, distance
from shapely import Polygon

Table = dict[str, Any]

_ONE = 1e-3
"""Points of a path nearer than this are one, mm: angles are kept to a millionth of a degree."""


def polygon_of(path: list[Table]) -> Polygon:
    """Return what a closed path holds."""
    ring: list[Pair] = []
    for p in points_of(path):  # ends are rounded, so that two that are one may run back by a hair
        if not ring or distance(p, ring[-1]) > _ONE:
            ring.append(p)
    while distance(ring[0], ring[-1]) <= _ONE:
        ring.pop()
    return Polygon(ring)


def regions_of(region: list[list[list[list[float]]]]) -> list[Polygon]:
    """Return the pieces of a region: each an outer ring and its holes."""
    return [Polygon(rings[0], rings[1:]) for rings in region]


def points_of(path: list[Table]) -> list[Pair]:
    """Return points along a path of the record."""
    return [p for segment in path for p in segment_points(segment)]


def segment_points(segment: Table) -> Iterator[Pair]:
    """Yield points of one segment."""
    ((kind, held),) = segment.items()
    if kind == "line":
        yield from (tuple(p) for p in held)
        return
    start, sweep = math.radians(held["from_deg"]), math.radians(held["sweep_deg"])
    if kind == "arc":
        yield from arc(tuple(held["centre"]), held["radius"], start, sweep)
        return
    frame = Frame(tuple(held["centre"]), math.radians(held["turn_deg"]))
    a, b = held["half_length"], held["half_width"]
    for x, y in arc((0.0, 0.0), 1.0, start, sweep, fine=1e-6):
        yield frame.out((a * x, b * y))
