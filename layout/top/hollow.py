"""Where a round cutter stays out of a line that it follows from outside: in its hollow corners.

A bit, and the bush or bearing that leads it, is round: in a corner of the waste it touches both
sides and leaves the corner itself standing. Which template leads it changes nothing: its middle
comes no nearer to either side than its radius.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..geometry import Arc, Path, Point
from ..geometry.intersect import turn_at
from ..geometry.tolerance import SAME_POINT

SHOWS = 0.5
"""What stands out by less is sanded off, mm (our choice)."""


SHARP = math.radians(10)
"""A hollow joint that turns by less is no corner to a round bit (our choice)."""


@dataclass(frozen=True, slots=True)
class HollowCorner:
    """A hollow corner of a line, or a hollow arc tighter than the bit."""

    at: Point
    out: float
    """How far the bit stays out of it, mm."""
    bit: float
    """Its diameter, mm."""


def hollow_corners(line: Path, bit: float) -> tuple[HollowCorner, ...]:
    """Return where a bit stays out of a closed line, the wood on its left.

    Two sides that turn by t leave a bit of radius R out of their corner by R·(1/cos(t/2) − 1): the
    bit's middle lies R/cos(t/2) from it. With the corner rounded to r it is (R − r)·(1/cos(t/2) −
    1).

    Parameters
    ----------
    bit : float
        Diameter of the cutter, mm.

    Examples
    --------
    >>> step = [(0, 0), (900, 0), (900, 300), (400, 300), (400, 700), (0, 700)]
    >>> [round(h.out, 2) for h in hollow_corners(Path.through(
    ...     (Point(*p) for p in step), closed=True), bit=12.0)]
    [2.49]
    """
    return tuple(HollowCorner(at, out, bit) for at, out in stays_out(line, bit / 2) if out > SHOWS)


def stays_out(line: Path, radius: float) -> Iterator[tuple[Point, float]]:
    """Yield where a bit of this radius, mm, stays out of a line, closed or open, and how far."""
    held = line.segments
    for i, segment in enumerate(held):
        turn = turn_at(held[i - 1], segment) if i or line.is_closed else 0.0
        if -math.pi + SAME_POINT < turn < -SHARP:
            yield segment.start, radius * (1 / math.cos(turn / 2) - 1)
        if isinstance(segment, Arc) and segment.radius < radius and -math.pi < segment.sweep < 0:
            reach = 1 / math.cos(segment.sweep / 2) - 1
            yield segment.at(0.5), (radius - segment.radius) * reach
