"""How a curve is cut into steps, so that its polygon stays on one side and within a tolerance."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Literal

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
    at: Callable[[float], Point],
    centre: Point,
    radius: float,
    sweep: float,
    tolerance: float,
    side: Side,
) -> Iterator[Point]:
    """Yield chord or tangent points; the tangents of two points meet at 1/cos(half the step)."""
    chords = (side == "inside") == (sweep > 0)
    count = arc_steps(radius, sweep, tolerance)
    if chords:
        for step in range(count):
            yield at(step / count)
        return
    reach = 1 / math.cos(abs(sweep) / count / 2)
    yield at(0.0)
    for step in range(count):
        yield centre + (at((step + 0.5) / count) - centre) * reach


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
