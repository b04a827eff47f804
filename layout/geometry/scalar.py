"""A function's peak and the end of a property, for smooth little functions of one number.

scipy has both, but half a second of import stands before its first answer.
"""

from __future__ import annotations

import math
from collections.abc import Callable

_GOLDEN = (math.sqrt(5) - 1) / 2

_WITHIN = 1e-9
"""How near a peak is closed in on, mm or radians: its value no longer tells more."""

_HALVINGS = 60
"""Halvings of an interval: 1e-18 of it is below any rounding."""


def peak(value: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that rises and then falls is highest, by the golden section.

    >>> round(peak(lambda x: 5 - (x - 2) ** 2, 0, 10), 6)
    2.0
    """
    one, other = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
    at_one, at_other = value(one), value(other)
    while high - low > _WITHIN:
        if at_one < at_other:
            low, one, at_one = one, other, at_other
            other = low + _GOLDEN * (high - low)
            at_other = value(other)
        else:
            high, other, at_other = other, one, at_one
            one = high - _GOLDEN * (high - low)
            at_one = value(one)
    return (low + high) / 2


def last_where(
    holds: Callable[[float], bool], low: float, high: float, within: float = 0.0
) -> float:
    """Return where a property that holds at `low`, and not at `high`, ceases to hold.

    It holds there, and no more `within` so much of it.

    >>> round(last_where(lambda x: x * x < 2, 0, 2), 9)
    1.414213562
    """
    for _ in range(_HALVINGS):
        if high - low <= within:
            break
        middle = (low + high) / 2
        if holds(middle):
            low = middle
        else:
            high = middle
    return low
