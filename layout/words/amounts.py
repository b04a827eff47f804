"""Hours, days, volumes, lengths by the metre and sums, as a maker writes them."""

from __future__ import annotations

import math
from decimal import ROUND_HALF_UP, Decimal

from ..units import MM_PER_INCH, Tape
from ..work.deeds import Day
from .say import ranged

ML_PER_FL_OZ, FL_OZ_PER_QUART = 29.5735, 32
"""Of the United States."""

SQ_FT_PER_QUART = 946.353 / 1000 / (12 * MM_PER_INCH / 1000) ** 2
"""What 1 m² a litre comes to in square feet a quart."""


def hours_words(least: float, most: float) -> str:
    """Return hours as a range: minutes below an hour, else to the next quarter.

    >>> hours_words(0.08, 0.2), hours_words(0.5, 2.67), hours_words(2.0, 2.0)
    ('5 to 15 min', '1/2 to 2 3/4 h', '2 h')
    """
    if most <= 1 - 1 / 12:
        minutes = (str(max(5, 5 * _up(hours * 12))) for hours in (least, most))
        return f"{ranged(minutes)} min"
    quarters = (divmod(max(1, _up(4 * hours)), 4) for hours in (least, most))
    parts = ((str(whole or ""), ("", "1/4", "1/2", "3/4")[rest]) for whole, rest in quarters)
    return f"{ranged(' '.join(filter(None, part)) for part in parts)} h"


def _up(value: float) -> int:
    """Return the next whole number; what is above one by rounding alone counts as that."""
    return math.ceil(value - 1e-6)


def wait_words(least: float, most: float) -> str:
    """Return a wait: hours up to two days, else days; empty where there is none.

    >>> wait_words(12, 12), wait_words(24, 24), wait_words(168, 168), wait_words(240, 360)
    ('12 h', '24 h', '7 days', '10 to 15 days')
    """
    if most <= 0:
        return ""
    if most <= 48:
        return f"{ranged(f'{value:.0f}' for value in (least, most))} h"
    return f"{ranged(f'{_up(value / 24)}' for value in (least, most))} days"


def day_words(day: Day) -> str:
    """Return a day that is counted from the first: ``day 6``, ``day 6 to 7``."""
    return f"day {ranged(map(str, (day.least, day.most)))}"


def volume_words(litres: float, tape: Tape) -> str:
    """Return a volume, never less: to 0.05 l, below that to 5 ml, or in quarts and fluid ounces.

    >>> volume_words(0.145, Tape()), volume_words(0.012, Tape())
    ('0.15 l', '15 ml')
    >>> volume_words(0.145, Tape(imperial=True)), volume_words(1.2, Tape(imperial=True))
    ('5 fl oz', '1.3 qt')
    """
    if tape.imperial:
        ounces = 1000 * litres / ML_PER_FL_OZ
        if ounces <= FL_OZ_PER_QUART:
            return f"{_up(ounces)} fl oz"
        return f"{_up(10 * ounces / FL_OZ_PER_QUART) / 10:.1f} qt"
    if litres <= 0.05:
        return f"{_up(200 * litres) * 5} ml"
    return f"{_up(20 * litres) / 20:.2f} l"


def run_words(metres: float, tape: Tape) -> str:
    """Return a length of what is sold by the metre or the foot, never less.

    >>> run_words(4.823, Tape()), run_words(4.823, Tape(imperial=True))
    ('4.9 m', '16 ft')
    """
    if tape.imperial:
        return f"{_up(1000 * metres / (12 * MM_PER_INCH))} ft"
    return f"{_up(10 * metres) / 10:.1f} m"


def sum_words(amount: Decimal, currency: str = "") -> str:
    """Return a sum to the cent, halves up.

    >>> sum_words(Decimal("172.6725"), "EUR"), sum_words(Decimal("0.005"))
    ('172.67 EUR', '0.01')
    """
    cents = amount.quantize(Decimal("0.01"), ROUND_HALF_UP)
    return f"{cents:f} {currency}".rstrip()


def exact_sum(amount: Decimal) -> str:
    """Return a sum with all its figures, two at least, four at most.

    >>> exact_sum(Decimal("172.67250")), exact_sum(Decimal("39")), exact_sum(Decimal(1) / 3)
    ('172.6725', '39.00', '0.3333')
    """
    whole, _, cents = f"{amount.quantize(Decimal('0.0001'), ROUND_HALF_UP):f}".partition(".")
    return f"{whole}.{cents[:2]}{cents[2:].rstrip('0')}"
