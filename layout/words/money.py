"""Hours, days, volumes and sums as a maker writes them, and what to ask for the piece."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from decimal import ROUND_HALF_UP, Decimal

from ..money.price import Case, Entry, Forgotten, Money, PriceLine
from ..units import MM_PER_INCH, Tape
from ..work.deeds import Day
from .say import Passage, Table, sentence

ML_PER_FL_OZ = 29.5735
"""A fluid ounce of the United States."""

FL_OZ_PER_QUART = 32

SQ_FT_PER_QUART = 946.353 / 1000 / (12 * MM_PER_INCH / 1000) ** 2
"""What 1 m² a litre comes to in square feet a quart."""


def hours_words(least: float, most: float) -> str:
    """Return hours as a range: minutes below an hour, else to the next quarter.

    >>> hours_words(0.08, 0.2), hours_words(0.5, 2.67), hours_words(2.0, 2.0)
    ('5 to 15 min', '1/2 to 2 3/4 h', '2 h')
    """
    if most <= 1 - 1 / 12:
        figures = [f"{max(5, math.ceil(60 * v / 5 - 1e-6) * 5)}" for v in (least, most)]
        return f"{_figures_range(figures)} min"
    return f"{_figures_range([_quarters(value) for value in (least, most)])} h"


def _quarters(hours: float) -> str:
    whole, rest = divmod(max(1, math.ceil(4 * hours - 1e-6)), 4)
    fraction = ("", "1/4", "1/2", "3/4")[rest]
    return " ".join(part for part in (str(whole or ""), fraction) if part)


def _figures_range(figures: list[str]) -> str:
    return " to ".join(dict.fromkeys(figures))


def wait_words(least: float, most: float) -> str:
    """Return a wait: hours up to two days, else days; empty where there is none.

    >>> wait_words(12, 12), wait_words(24, 24), wait_words(168, 168), wait_words(240, 360)
    ('12 h', '24 h', '7 days', '10 to 15 days')
    """
    if most <= 0:
        return ""
    if most <= 48:
        return f"{_figures_range([f'{value:.0f}' for value in (least, most)])} h"
    return f"{_figures_range([f'{math.ceil(value / 24 - 1e-6)}' for value in (least, most)])} days"


def day_words(day: Day) -> str:
    """Return a day that is counted from the first: ``day 6``, ``day 6 to 7``."""
    return f"day {_figures_range([str(day.least), str(day.most)])}"


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
            return f"{math.ceil(ounces - 1e-6)} fl oz"
        return f"{math.ceil(10 * ounces / FL_OZ_PER_QUART - 1e-6) / 10:.1f} qt"
    if litres <= 0.05:
        return f"{math.ceil(200 * litres - 1e-6) * 5} ml"
    return f"{math.ceil(20 * litres - 1e-6) / 20:.2f} l"


def run_words(metres: float, tape: Tape) -> str:
    """Return a length of what is sold by the metre or the foot, never less.

    >>> run_words(4.823, Tape()), run_words(4.823, Tape(imperial=True))
    ('4.9 m', '16 ft')
    """
    if tape.imperial:
        return f"{math.ceil(1000 * metres / (12 * MM_PER_INCH) - 1e-6)} ft"
    return f"{math.ceil(10 * metres - 1e-6) / 10:.1f} m"


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
    text = f"{amount.quantize(Decimal('0.0001'), ROUND_HALF_UP):f}"
    while text.endswith("0") and len(text.partition(".")[2]) > 2:
        text = text[:-1]
    return text


_NAMES = {
    Entry.PANEL: "Panel",
    Entry.LEGS: "Legs",
    Entry.MATERIALS: "Materials",
    Entry.HOURS: "Hours",
    Entry.BASE: "Costs and hours",
    Entry.OVERHEAD: "Overhead",
    Entry.PROFIT: "Profit",
    Entry.DELIVERY: "Packing and delivery",
    Entry.NET: "To be left after fees",
    Entry.FEE: "Fee where it is sold",
    Entry.SHARE: "Put aside",
    Entry.PRICE: "Price to ask",
}

_ASKED = {
    Forgotten.PANEL: "what the panel cost, fetching it included",
    Forgotten.LEGS: "what the legs cost",
    Forgotten.MATERIALS: "what the materials cost",
    Forgotten.UNPRICED: "prices of all materials (materials.price)",
    Forgotten.RATE: "what an hour is worth to you",
    Forgotten.OVERHEAD: "overhead: workshop, tools, insurance, travel",
    Forgotten.PROFIT: "profit",
    Forgotten.FEE: "the fee where it is sold",
    Forgotten.DELIVERY: "packing and delivery",
}


def money_words(money: Money) -> Passage:
    """Return the reckoning: one column where its hours are known, else one for each end."""
    headings = [f"Line, {money.currency}" if money.currency else "Line"]
    for case in money.cases:
        headings.append(f"{case.hours:f} h")
    entries = [line.entry for line in money.cases[0].lines]
    rows = [
        (_NAMES[entry], *(_cell(_line(case, entry)) for case in money.cases)) for entry in entries
    ]
    words = (*_told(money), *_asked(money.forgotten))
    return Passage("What to ask for it", words, tables=(Table(tuple(headings), tuple(rows)),))


def _line(case: Case, entry: Entry) -> PriceLine:
    return next(line for line in case.lines if line.entry is entry)


def _cell(line: PriceLine) -> str:
    amount = exact_sum(line.amount)
    if line.of is None or line.at is None:
        return amount
    if line.entry is Entry.HOURS:
        return f"{amount} = {line.of:f} h × {line.at:f}"
    return f"{amount} = {_percent(line.at)} % of {exact_sum(line.of)}"


def _percent(share: Decimal) -> str:
    return f"{(share * 100).normalize():f}"


def priced_words(money: Money) -> str:
    """Return the price in one line."""
    return f"ask {_span([case.price for case in money.cases], money.currency)}"


def _span(sums: Iterable[Decimal], currency: str) -> str:
    """Return sums from the first to the last, once where they are one to the cent."""
    figures = dict.fromkeys(sum_words(amount) for amount in sums)
    return f"{' to '.join(figures)} {currency}".rstrip()


def _told(money: Money) -> Iterator[str]:
    floor = sum_words(money.cases[0].break_even, money.currency)
    yield sentence(f"{priced_words(money)}; below {floor} money is lost before an hour is paid")
    earned = [case.earned for case in money.cases if case.earned is not None]
    if money.in_mind is not None and earned:
        at = sum_words(money.in_mind, money.currency)
        figures = _span(reversed(earned), money.currency)
        yield f"At {at} an hour earns {figures}, overhead and profit left in it."


def _asked(forgotten: tuple[Forgotten, ...]) -> Iterator[str]:
    if forgotten:
        yield f"Left out and often forgotten: {'; '.join(_ASKED[what] for what in forgotten)}."
