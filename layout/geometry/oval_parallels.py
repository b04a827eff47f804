"""True lines parallel to an ellipse and a superellipse, as biarcs; the length round an ellipse.

A superellipse of an exponent above 2 bends most within each quarter. Farther inside than its
tightest radius the parallel turns back there: a swallowtail between two cusps. What is left are the
two runs before and after it, as far as they cross; farther still only the second, from the axis.
"""

from __future__ import annotations

import math
from functools import lru_cache

from .biarcs import Station, arcs_along_curve
from .path import Path, four_quarters
from .point import ORIGIN, Point
from .scalar import last_where
from .segments import Arc, EllipticArc, Line
from .superellipse import END, Quadrant


def ellipse_perimeter(a: float, b: float) -> float:
    """Return the way round an ellipse with half-axes a and b, mm.

    By the arithmetic-geometric mean (DLMF 19.8.6): it doubles its digits at each turn.

    >>> round(ellipse_perimeter(900, 450), 6)
    4359.801699
    """
    mean, geometric, weight = a, b, 0.5
    total = weight * (a * a - b * b)
    while abs(mean - geometric) > 1e-15 * mean:
        difference = (mean - geometric) / 2
        mean, geometric = (mean + geometric) / 2, math.sqrt(mean * geometric)
        weight *= 2
        total += weight * difference * difference
    return 2 * math.pi / mean * (a * a - total)


@lru_cache(maxsize=16)
def parallel_of_ellipse(a: float, b: float, distance: float, tolerance: float) -> Path:
    """Return the closed line `distance` outside (negative: inside) an ellipse, as arcs.

    Half-axes are ``a >= b > -distance``, mm. No point of it lies farther than `tolerance`, mm, from
    the true parallel curve. Inside by more than b²/a the curve crosses itself on the long axis,
    where sin²t = ((d·a/b)² − b²)/(a² − b²); what lies beyond the crossing is left out, and the line
    has a corner there.
    """
    quarter, start = EllipticArc(ORIGIN, a, b, 0.0, 0.0, math.pi / 2), 0.0
    if -distance > b * b / a and a > b:
        sine = ((distance * a / b) ** 2 - b * b) / (a * a - b * b)
        start = math.asin(math.sqrt(min(max(sine, 0.0), 1.0))) / quarter.sweep
    return four_quarters(_arcs_beside(quarter, distance, (start, 1.0), tolerance))


def arcs_along(arc: EllipticArc, tolerance: float) -> tuple[Line | Arc, ...]:
    """Return circular arcs that follow an elliptic arc within `tolerance`, mm, end to end."""
    count = max(1, math.ceil(abs(arc.sweep) / (math.pi / 2)))
    spans = ((k / count, (k + 1) / count) for k in range(count))
    return tuple(s for span in spans for s in _arcs_beside(arc, 0.0, span, tolerance))


def _arcs_beside(
    arc: EllipticArc, distance: float, span: tuple[float, float], tolerance: float
) -> tuple[Line | Arc, ...]:
    """Return what follows the parallel to the right of an arc between two shares of it."""

    def station(share: float) -> Station:
        way = arc.pace(share).unit()
        return Station(arc.at(share) - way.left * distance, way)

    return arcs_along_curve(station, *span, tolerance)


_SAMPLES = 256


_Run = tuple[float, float, tuple[Point, Point]]
"""A stretch of a quarter that is kept: between two parameters, and its exact ends."""


def parallel_of_superellipse(curve: Quadrant, distance: float, tolerance: float) -> Path:
    """Return the closed line `distance` outside (negative: inside) a superellipse, as arcs.

    Half-axes are ``a >= b > -distance``. No point of it lies farther than `tolerance`, mm, from the
    true parallel curve. At distance 0 it is the superellipse itself.
    """
    if curve.exponent == 2 and distance < 0:
        return parallel_of_ellipse(curve.a, curve.b, distance, tolerance)
    quarter = [
        segment
        for first, last, ends in _runs(curve, distance)
        for segment in arcs_along_curve(
            lambda w: curve.station(w, distance), first, last, tolerance, ends
        )
    ]
    return four_quarters(quarter)


def _runs(curve: Quadrant, distance: float) -> tuple[_Run, ...]:
    """Return what is kept of a quarter; the ends on the axes lie on them exactly."""
    right, top = Point(curve.a + distance, 0.0), Point(0.0, curve.b + distance)
    inside, tightest = -distance, curve.tightest if distance < 0 else 0.0
    if inside <= 0 or inside * curve.bend(tightest) <= 1:
        return ((0.0, END, (right, top)),)

    def parallel(w: float) -> Point:
        return curve.station(w, distance).point

    def turns_back(w: float) -> bool:
        return inside * curve.bend(w) > 1

    def clears_far_side(point: Point) -> bool:
        return point.distance_to(curve.at(_nearest(curve, point, cusps[1]))) >= inside

    cusps = (
        last_where(lambda w: not turns_back(w), 0.0, tightest),
        last_where(turns_back, tightest, END),
    )
    if not clears_far_side(right):
        last = last_where(lambda w: parallel(w).y < 0, cusps[1], END)
        return ((last, END, (Point(parallel(last).x, 0.0), top)),)
    one = last_where(lambda w: clears_far_side(parallel(w)), 0.0, cusps[0])
    other = _nearest(curve, parallel(one), cusps[1])  # where the second run crosses the first
    corner = parallel(one).midpoint(parallel(other))
    return ((0.0, one, (right, corner)), (other, END, (corner, top)))


def _nearest(curve: Quadrant, point: Point, first: float) -> float:
    """Return the parameter past `first` where the curve comes nearest to a point inside.

    The best of a row of samples, then halved between its neighbours, for there the distance falls
    before the nearest place and rises after it.
    """
    step = (END - first) / _SAMPLES
    best = min(range(_SAMPLES + 1), key=lambda i: point.distance_to(curve.at(first + step * i)))
    low, high = first + step * max(best - 1, 0), first + step * min(best + 1, _SAMPLES)

    def still_ahead(w: float) -> bool:
        station = curve.station(w)
        return station.way.dot(point - station.point) > 0

    return last_where(still_ahead, low, high)
