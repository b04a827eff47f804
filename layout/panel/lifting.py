"""Who lifts a panel, a top, a leg, a table."""

from __future__ import annotations

import math

from ..geometry.tolerance import ROUNDING

ONE_LIFTS = 25.0
"""Two people lift from about this mass, kg: the most that one strong person is asked to lift close
to the body (HSE, *Manual handling at work*, INDG143, from memory; local rules decide)."""


def lifters(mass: float) -> int:
    """Return how many people lift a mass, kg: the one rule for panel, top, leg and table.

    >>> lifters(24.0), lifters(44.0), lifters(60.0)
    (1, 2, 3)
    """
    return 1 + math.floor(mass / ONE_LIFTS + ROUNDING)
