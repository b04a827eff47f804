"""How many people lift a thing."""

from __future__ import annotations

import math

from ..geometry.tolerance import ROUNDING

ONE_LIFTS = 25.0
"""Two people lift from about this mass, kg: the most that one strong person is asked to lift close
to the body (HSE, *Manual handling at work*, INDG143, from memory; local rules decide)."""

_NUMBERS = ("one", "two", "three", "four", "five", "six")


def lifters(mass: float) -> int:
    """Return how many people lift a mass, kg: the one rule for panel, top, leg and table.

    >>> lifters(24.0), lifters(44.0), lifters(60.0)
    (1, 2, 3)
    """
    return 1 + math.floor(mass / ONE_LIFTS + ROUNDING)


def people(count: int) -> str:
    """Return a number of people in words.

    >>> people(1), people(4), people(12)
    ('one person', 'four people', '12 people')
    """
    number = _NUMBERS[count - 1] if count <= len(_NUMBERS) else str(count)
    return f"{number} {'person' if count == 1 else 'people'}"
