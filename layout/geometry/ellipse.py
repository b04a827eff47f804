"""The ellipse with half-axes a ≥ b: how long it is, and the true lines parallel to it.

A line parallel to an ellipse is no ellipse. Its points lie on the ellipse's normals, so it shares
the ellipse's tangent directions, and circular arcs that meet with a common tangent (biarcs) follow
it closely: over a step h of the eccentric angle their error falls like h³.
"""

from __future__ import annotations

import math
from functools import lru_cache

from .biarcs import Station, arcs_along_curve
from .path import Path, four_quarters
from .point import Point
from .segments import Arc, EllipticArc, Line


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
    start = _crossing(a, b, -distance) if -distance > b * b / a and a > b else 0.0

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


def _crossing(a: float, b: float, inside: float) -> float:
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
