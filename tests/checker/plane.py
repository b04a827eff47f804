"""Plane geometry for the checker: vectors, frames, arcs as points; shapely does the rest."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import shapely
from shapely import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

Pair = tuple[float, float]

FINE = 0.002
"""How near a polygon follows a curve, mm."""


def sub(a: Pair, b: Pair) -> Pair:
    """Return the vector from b to a."""
    return (a[0] - b[0], a[1] - b[1])


def add(a: Pair, b: Pair, times: float = 1.0) -> Pair:
    """Return a moved by so many times b."""
    return (a[0] + times * b[0], a[1] + times * b[1])


def dot(a: Pair, b: Pair) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1]


def cross(a: Pair, b: Pair) -> float:
    """Return the signed area that two vectors span: above 0 where b lies left of a."""
    return a[0] * b[1] - a[1] * b[0]


def unit(a: Pair) -> Pair:
    """Return the vector of length 1 along a."""
    long = math.hypot(*a)
    return (a[0] / long, a[1] / long)


def distance(a: Pair, b: Pair) -> float:
    """Return how far two points lie apart."""
    return math.hypot(a[0] - b[0], a[1] - b[1])


@dataclass(frozen=True)
class Frame:
    """A place and a turn: takes points of its own into the panel and back."""

    centre: Pair
    turn: float
    """Radians."""

    def out(self, p: Sequence[float]) -> Pair:
        """Return an own point on the panel."""
        c, s = math.cos(self.turn), math.sin(self.turn)
        return (self.centre[0] + c * p[0] - s * p[1], self.centre[1] + s * p[0] + c * p[1])

    def own(self, p: Sequence[float]) -> Pair:
        """Return a point of the panel in this frame."""
        c, s = math.cos(self.turn), math.sin(self.turn)
        x, y = p[0] - self.centre[0], p[1] - self.centre[1]
        return (c * x + s * y, -s * x + c * y)

    def placed(self, shape: BaseGeometry) -> Any:  # noqa: ANN401 - the kind that was given
        """Return an own shape on the panel."""
        return shapely.transform(shape, lambda rows: [self.out(row) for row in rows])

    def taken(self, shape: BaseGeometry) -> Any:  # noqa: ANN401 - the kind that was given
        """Return a shape of the panel in this frame."""
        return shapely.transform(shape, lambda rows: [self.own(row) for row in rows])


def arc(centre: Pair, radius: float, start: float, sweep: float, fine: float = FINE) -> list[Pair]:
    """Return points of an arc, radians, both ends among them, no chord farther off than `fine`."""
    step = 2 * math.acos(max(1 - fine / radius, 0.0)) if radius > fine else math.pi / 2
    count = max(1, math.ceil(abs(sweep) / step))
    turns = (start + sweep * i / count for i in range(count + 1))
    return [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns]


def bow(a: Pair, b: Pair, rise: float) -> list[Pair]:
    """Return an edge from a to b whose middle lies `rise` to the right of it: outside, if ccw."""
    chord = distance(a, b)
    if abs(rise) < 1e-9:
        return [a, b]
    radius = (chord**2 / 4 + rise**2) / (2 * abs(rise))
    way = unit(sub(b, a))
    right = (way[1], -way[0])
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    side = math.copysign(1.0, rise)
    centre = add(middle, right, rise - side * radius)
    start = math.atan2(a[1] - centre[1], a[0] - centre[0])
    half = math.asin(min(1.0, chord / 2 / radius))
    return [a, *arc(centre, radius, start, side * 2 * half)[1:-1], b]


def half_plane(at: Pair, towards: Pair, reach: float = 2e4) -> Polygon:
    """Return all that lies from a point on towards a unit vector."""
    return band(at, towards, reach, reach)


def band(at: Pair, towards: Pair, width: float, reach: float = 2e4) -> Polygon:
    """Return the strip `width` wide beside the line through a point square to a unit vector."""
    way = (-towards[1], towards[0])
    a, b = add(at, way, -reach), add(at, way, reach)
    return Polygon([a, b, add(b, towards, width), add(a, towards, width)])


def disk(at: Pair, radius: float) -> Polygon:
    """Return a round polygon, its chords inside the circle by less than a hundredth."""
    return Polygon(arc(at, radius, 0.0, math.tau)[:-1]) if radius > 0 else Polygon()


def grown(shape: BaseGeometry, by: float) -> BaseGeometry:
    """Return a shape with all that lies within a distance of it, or less than that inside."""
    return shape if by == 0 else shape.buffer(by, quad_segs=64)


def farthest(shape: BaseGeometry, at: Pair, towards: Pair) -> float:
    """Return how far a shape reaches from a point towards a unit vector."""
    return max(dot(sub(row, at), towards) for row in corners(shape))


def corners(shape: BaseGeometry) -> Iterable[Pair]:
    """Return every corner of a shape."""
    return [(float(x), float(y)) for x, y in shapely.get_coordinates(shape)]


def stretches(shape: BaseGeometry, a: Pair, b: Pair) -> list[tuple[Pair, Pair]]:
    """Return where the line from a to b runs inside a shape, in order from a."""
    met = shape.intersection(LineString([a, b]))
    lines = [g for g in getattr(met, "geoms", [met]) if isinstance(g, LineString) and g.length > 0]
    spans = [(tuple(g.coords[0]), tuple(g.coords[-1])) for g in lines]
    turned = [(p, q) if distance(p, a) <= distance(q, a) else (q, p) for p, q in spans]
    return sorted(turned, key=lambda span: distance(span[0], a))


def pieces(shape: BaseGeometry) -> list[Polygon]:
    """Return the polygons that a shape consists of."""
    parts = getattr(shape, "geoms", [shape])
    return [part for part in parts if isinstance(part, Polygon) and not part.is_empty]


def signed(shape: BaseGeometry, at: Pair) -> float:
    """Return how far inside a shape's edge a point lies; below 0 outside."""
    away = float(shape.boundary.distance(Point(at)))
    return away if shape.covers(Point(at)) else -away
