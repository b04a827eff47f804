"""True lines parallel to an ellipse and a superellipse, as arcs; the length round an ellipse.

A line parallel to an ellipse is no ellipse. Its points lie on the ellipse's normals, so it shares
the ellipse's tangent directions, and circular arcs that meet with a common tangent (biarcs) follow
it closely: over a step h of the eccentric angle their error falls like h³.

A superellipse of an exponent above 2 bends most somewhere within each quarter and not at all at the
ends of its axes. Farther inside than its tightest radius the parallel turns back on itself there: a
swallowtail between two cusps. What is left of a quarter are the two runs before and after it, as
far as they cross; farther still the first run is gone and the second ends on the long axis.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from .biarcs import Station, arcs_along_curve
from .path import Path, four_quarters
from .point import Point
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

    No point of it lies farther than `tolerance`, mm, from the true parallel curve. Inside by more
    than b²/a the curve crosses itself on the long axis, where sin²t = ((d·a/b)² − b²)/(a² − b²);
    what lies beyond the crossing is left out, and the line has a corner there.

    Parameters
    ----------
    a, b : float
        Half-axes along x and y, mm, ``a >= b > -distance``.
    """
    start = _on_long_axis(a, b, -distance) if -distance > b * b / a and a > b else 0.0

    def station(t: float) -> Station:
        return Station(_parallel_point(a, b, distance, t), _tangent(a, b, t))

    return four_quarters(arcs_along_curve(station, start, math.pi / 2, tolerance))


def arcs_along(arc: EllipticArc, tolerance: float) -> tuple[Line | Arc, ...]:
    """Return circular arcs that follow an elliptic arc within `tolerance`, mm, end to end."""

    def station(share: float) -> Station:
        return Station(arc.at(share), arc.pace(share).unit())

    count = max(1, math.ceil(abs(arc.sweep) / (math.pi / 2)))
    return tuple(
        segment
        for k in range(count)
        for segment in arcs_along_curve(station, k / count, (k + 1) / count, tolerance)
    )


def _on_long_axis(a: float, b: float, inside: float) -> float:
    """Return the eccentric angle at which the inner parallel meets the long axis."""
    share = ((inside * a / b) ** 2 - b * b) / (a * a - b * b)
    return math.asin(math.sqrt(min(max(share, 0.0), 1.0)))


def _parallel_point(a: float, b: float, distance: float, t: float) -> Point:
    normal = Point(b * math.cos(t), a * math.sin(t)).unit()
    on_axis = t == math.pi / 2
    x = 0.0 if on_axis else a * math.cos(t) + normal.x * distance
    return Point(x, b * math.sin(t) + normal.y * distance)


def _tangent(a: float, b: float, t: float) -> Point:
    return Point(-a * math.sin(t), b * math.cos(t)).unit()


_SAMPLES = 256


@dataclass(frozen=True, slots=True)
class _Run:
    """A stretch of a quarter that is kept, between two parameters, and its exact ends."""

    first: float
    last: float
    start: Point
    end: Point


def parallel_of_superellipse(curve: Quadrant, distance: float, tolerance: float) -> Path:
    """Return the closed line `distance` outside (negative: inside) a superellipse, as arcs.

    No point of it lies farther than `tolerance`, mm, from the true parallel curve. At distance 0 it
    is the superellipse itself.

    Parameters
    ----------
    curve : Quadrant
        With ``a >= b > -distance``.
    """
    if curve.exponent == 2 and distance < 0:
        return parallel_of_ellipse(curve.a, curve.b, distance, tolerance)
    quarter = [
        segment
        for run in _runs(curve, distance)
        for segment in arcs_along_curve(
            lambda w: curve.station(w, distance),
            run.first,
            run.last,
            tolerance,
            (run.start, run.end),
        )
    ]
    return four_quarters(quarter)


def _runs(curve: Quadrant, distance: float) -> tuple[_Run, ...]:
    """Return what is kept of a quarter; the ends on the axes lie on them exactly."""
    right, top = Point(curve.a + distance, 0.0), Point(0.0, curve.b + distance)
    inside = -distance
    if inside <= 0 or inside * curve.bend(tightest := curve.tightest) <= 1:
        return (_Run(0.0, END, right, top),)

    def turns_back(w: float) -> bool:
        return inside * curve.bend(w) > 1

    cusps = (
        last_where(lambda w: not turns_back(w), 0.0, tightest),
        last_where(turns_back, tightest, END),
    )
    if _clearance(curve, right, cusps[1]) < inside:
        last = last_where(lambda w: curve.station(w, distance).point.y < 0, cusps[1], END)
        return (_Run(last, END, Point(curve.station(last, distance).point.x, 0.0), top),)
    one = last_where(
        lambda w: _clearance(curve, curve.station(w, distance).point, cusps[1]) >= inside,
        0.0,
        cusps[0],
    )
    one, other = _crossing(curve, distance, one, cusps)
    corner = curve.station(one, distance).point.midpoint(curve.station(other, distance).point)
    return (_Run(0.0, one, right, corner), _Run(other, END, corner, top))


def _clearance(curve: Quadrant, point: Point, first: float) -> float:
    """Return the least distance, mm, from a point inside to the curve past a parameter."""
    return point.distance_to(curve.at(_nearest(curve, point, first)))


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


def _crossing(
    curve: Quadrant, distance: float, one: float, cusps: tuple[float, float]
) -> tuple[float, float]:
    """Return the two parameters whose parallel points are one, by Newton's method from nearby."""
    other = _nearest(curve, curve.station(one, distance).point, cusps[1])
    for _ in range(8):
        first, second = curve.station(one, distance), curve.station(other, distance)
        apart = second.point - first.point
        # the parallel runs along the same way as the curve, at 1 + distance·bend times its pace
        paces = [curve.speed(w) * (1 + distance * curve.bend(w)) for w in (one, other)]
        sine = first.way.cross(second.way)
        if min(paces) <= 0 or sine <= 0:
            break
        nearer = one + apart.cross(second.way) / sine / paces[0]
        beyond = other + apart.cross(first.way) / sine / paces[1]
        if not (0 <= nearer <= cusps[0] and cusps[1] <= beyond <= END):
            break
        one, other = nearer, beyond
    return one, other
