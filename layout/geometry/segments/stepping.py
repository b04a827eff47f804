"""How a curve is cut into steps, so that its polygon stays on one side and within a tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Literal

import numpy as np

from ..placement import Points
from ..point import Point

Side = Literal["inside", "outside"]
"""Which side of an anticlockwise boundary a polygon of it must not leave."""


def swapped(point: Point) -> Point:
    """Return the point with left and right swapped."""
    return Point(-point.x, point.y)


def quarters(start: float, sweep: float) -> Iterator[float]:
    """Yield the multiples of a quarter turn that a sweep passes."""
    low, high = min(start, start + sweep), max(start, start + sweep)
    quarter = math.pi / 2
    for step in range(math.ceil(low / quarter), math.floor(high / quarter) + 1):
        yield step * quarter


def arc_corners(
    centre: Point,
    axes: tuple[Point, Point],
    from_angle: float,
    sweep: float,
    tolerance: float,
    side: Side,
) -> Points:
    """Return chord or tangent points, (n, 2); the tangents of two meet at 1/cos(half the step).

    The arc runs through ``centre + axes[0] cos t + axes[1] sin t`` from the angle on.
    """
    count = arc_steps(max(axis.norm for axis in axes), sweep, tolerance)
    shares, reach = np.arange(count) / count, np.ones(count)
    if (side == "inside") != (sweep > 0):
        shares = np.concatenate([[0.0], shares + 0.5 / count])
        reach = np.append(1.0, reach / math.cos(abs(sweep) / count / 2))
    angles = from_angle + sweep * shares
    across, up = reach * np.cos(angles), reach * np.sin(angles)
    one, other = axes
    rows = (centre.x + across * one.x + up * other.x, centre.y + across * one.y + up * other.y)
    return np.stack(rows, axis=1)


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
