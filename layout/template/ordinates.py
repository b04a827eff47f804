"""A curve by its square distances from the centrelines, for working without paper."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Path, Point, at_most
from ..geometry.intersect import crossings
from ..geometry.tolerance import SAME_POINT
from ..units import MM_PER_INCH, Tape

_RIGHT, _UP = Point(1.0, 0.0), Point(0.0, 1.0)

_STATIONS = 12
"""About as many stations from the middle to an end as a batten is bent round."""

_STEPS_MM = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0)
_STEPS_INCH = tuple(MM_PER_INCH * n for n in (0.25, 0.5, 1.0, 2.0, 3.0, 6.0))


@dataclass(frozen=True, slots=True)
class Station:
    """Where the outline stands on a line square to a centreline."""

    at: float
    """How far along the centreline it is from the middle, mm; left and below are negative."""
    low: float
    high: float
    """Where the outline lies below and above (or left and right of) the centreline, mm from it."""
    between: tuple[float, ...] = ()
    """Where a hollow outline crosses the line between these, mm, from the lowest."""


@dataclass(frozen=True, slots=True)
class Ordinates:
    """An outline by stations along both centrelines.

    Where the outline runs steeply to one centreline, the stations along the other fix it well.
    """

    along: tuple[Station, ...]
    """Stations along the long centreline; offsets up and down."""
    across: tuple[Station, ...]
    """Stations along the cross centreline; offsets left and right."""


def ordinates(
    outline: Path, tape: Tape, *, symmetric_x: bool = False, symmetric_y: bool = False
) -> Ordinates:
    """Return the stations of an outline round the origin, at even steps of the maker's tape.

    Where a half mirrors the other one, only the right or the upper half is given. The last station
    before an end is the end itself.
    """
    box = outline.bounds
    step = _step(max(box.right, box.top, -box.left, -box.bottom), tape)
    return Ordinates(
        _stations(outline, 0, 0.0 if symmetric_x else box.left, box.right, step),
        _stations(outline, 1, 0.0 if symmetric_y else box.bottom, box.top, step),
    )


def _step(reach: float, tape: Tape) -> float:
    """Return the smallest even step that needs no more than about a dozen stations."""
    steps = _STEPS_INCH if tape.imperial else _STEPS_MM
    return next((step for step in steps if at_most(reach / step, _STATIONS + 1)), steps[-1])


def _stations(
    outline: Path, axis: int, low: float, high: float, step: float
) -> tuple[Station, ...]:
    within = (k * step for k in range(math.ceil(low / step), math.floor(high / step) + 1))
    inner = [w for w in within if low + SAME_POINT < w < high - SAME_POINT]
    found = []
    for level in (low, *inner, high):
        start, way = (Point(level, 0.0), _UP) if axis == 0 else (Point(0.0, level), _RIGHT)
        reaches = [crossing.reach for crossing in crossings(outline, start, way)]
        if reaches:
            found.append(Station(level, reaches[0], reaches[-1], tuple(reaches[1:-1])))
    return tuple(found)
