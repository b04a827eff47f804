"""Polygons that truly lie inside and outside a superellipse.

The curve is convex, so chords lie inside it and tangents outside, whatever arcs are drawn for it.
A chord over a length s stands about κs²/8 off the curve: knots spread evenly by ∫√κ ds give every
chord the same. How far each really stands off is then measured, and their number raised until all
are near enough.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from .intersect import meeting_of_lines
from .placement import Points, array_of
from .point import Point
from .segments import Side
from .superellipse import END, Quadrant

_TABLE = 512
"""Steps of the table by which knots are spread."""

_MOST_ROUNDS = 40


def superellipse_polygon(curve: Quadrant, tolerance: float, side: Side) -> Points:
    """Return a polygon, (n, 2) mm, on one side of the whole curve and within `tolerance` of it."""
    grid, spread = _spread(curve)
    count = max(2.0, spread[-1] / math.sqrt(8 * tolerance))
    for _ in range(_MOST_ROUNDS):
        shares = np.linspace(0.0, spread[-1], math.ceil(count) + 1)
        knots = [0.0, *(float(w) for w in np.interp(shares[1:-1], spread, grid)), END]
        points = [curve.at(w) for w in knots]
        outer = [_meeting(curve, *step) for step in pairwise(knots)]
        steps = zip(pairwise(points), outer, strict=True)
        worst = max(_off(curve, one, other, tip, side) for (one, other), tip in steps)
        if worst <= tolerance:
            break
        count *= max(1.02, math.sqrt(worst / tolerance))
    return _all_quarters(points if side == "inside" else outer, side)


def _spread(curve: Quadrant) -> tuple[Points, Points]:
    """Return values of the parameter and ∫√κ ds up to each."""
    grid = np.linspace(0.0, END, _TABLE + 1)
    middles = (grid[1:] + grid[:-1]) / 2
    pace = [math.sqrt(curve.bend(float(w))) * curve.speed(float(w)) for w in middles]
    return grid, np.concatenate([[0.0], np.cumsum(pace) * END / _TABLE])


def _meeting(curve: Quadrant, one: float, other: float) -> Point:
    """Return where the tangents at two parameters meet."""
    first, second = curve.station(one), curve.station(other)
    met = meeting_of_lines(first.point, first.way, second.point, second.way)
    return met or first.point.midpoint(second.point)


def _off(curve: Quadrant, one: Point, other: Point, tip: Point, side: Side) -> float:
    """Return a distance, mm, that neither the chord nor the tip of two tangents exceeds.

    The curve stands farthest off its chord where it runs parallel to it, which its support tells.
    The tip's distance to the triangle of that place and both ends, which lies inside the curve, is
    no less than that to the curve.
    """
    out = (other - one).unit().left * -1.0
    rise = curve.support(out) - out.dot(one)
    if side == "inside":
        return rise
    touching = _touching(curve, out)
    return min(_to_line(tip, one, touching), _to_line(tip, touching, other))


def _touching(curve: Quadrant, out: Point) -> Point:
    """Return the point of the curve farthest towards a unit vector between the axes."""
    reach, power = curve.support(out), 1 / (curve.exponent - 1)
    shares = (max(out.x, 0.0) * curve.a / reach, max(out.y, 0.0) * curve.b / reach)
    return Point(curve.a * shares[0] ** power, curve.b * shares[1] ** power)


def _to_line(point: Point, start: Point, end: Point) -> float:
    along = end - start
    length = along.dot(along)
    share = min(max((point - start).dot(along) / length, 0.0), 1.0) if length > 0 else 0.0
    return point.distance_to(start + along * share)


def _all_quarters(points: list[Point], side: Side) -> Points:
    """Return the ring: chords share the ends of the axes, tips lie between them."""
    quarter = array_of(points)
    mirrored = quarter[::-1] * np.array([-1.0, 1.0])
    if side == "inside":
        quarter, mirrored = quarter[:-1], mirrored[:-1]
    half = np.concatenate([quarter, mirrored])
    return np.concatenate([half, -half])
