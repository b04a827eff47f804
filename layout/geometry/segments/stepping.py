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
    turns: tuple[float, float],
    tolerance: float,
    side: Side,
) -> Points:
    """Return chord or tangent points, (n, 2); tangents of two points meet at 1/cos(half the step).

    Parameters
    ----------
    axes : pair of Point
        Half-axes u and v: the point at t is ``centre + u cos t + v sin t``.
    turns : pair of float
        The t it starts from, and its sweep.
    """
    start, sweep = turns
    count = arc_steps(max(axis.norm for axis in axes), sweep, tolerance)
    steps, chords = np.arange(count, dtype=np.float64), (side == "inside") == (sweep > 0)
    shares = steps / count if chords else np.append(0.0, (steps + 0.5) / count)
    # the sines of numpy differ in their last bit from one processor to another
    ways = np.array([(math.cos(t), math.sin(t)) for t in (start + sweep * shares).tolist()])
    (ux, uy), (vx, vy), middle = *axes, np.array([*centre])
    corners: Points = ways[:, :1] * (ux, uy) + ways[:, 1:] * (vx, vy) + middle
    if not chords:
        reach = 1 / math.cos(abs(sweep) / count / 2)
        corners[1:] = middle + (corners[1:] - middle) * reach
    return corners


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
