"""What to ask for the piece, and what it is reckoned from."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from functools import partial

from ..money.price import Case, Entry, Forgotten, Money
from .amounts import exact_sum, sum_words
from .say import Passage, passage, ranged, table

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
    columns: dict[str, Callable[[Entry], str]] = {
        f"Line, {money.currency}" if money.currency else "Line": _NAMES.__getitem__
    }
    columns |= {f"{case.hours:f} h": partial(_amount, case) for case in money.cases}
    reckoned = table([line.entry for line in money.cases[0].lines], columns)
    left_out = "; ".join(_ASKED[what] for what in money.forgotten)
    more = f"Left out and often forgotten: {left_out}" if left_out else ""
    return passage("What to ask for it", *_told(money), more, tables=[reckoned])


def _amount(case: Case, entry: Entry) -> str:
    """Return the sum of a line of a case, and what it is a share or a multiple of."""
    line = next(line for line in case.lines if line.entry is entry)
    amount = exact_sum(line.amount)
    if line.of is None or line.at is None:
        return amount
    if entry is Entry.HOURS:
        return f"{amount} = {line.of:f} h × {line.at:f}"
    return f"{amount} = {(line.at * 100).normalize():f} % of {exact_sum(line.of)}"


def priced_words(money: Money) -> str:
    """Return the price in one line."""
    return f"ask {_span((case.price for case in money.cases), money.currency)}"


def _span(sums: Iterable[Decimal], currency: str) -> str:
    return f"{ranged(map(sum_words, sums))} {currency}".rstrip()


def _told(money: Money) -> Iterator[str]:
    floor = sum_words(money.cases[0].break_even, money.currency)
    yield f"{priced_words(money)}; below {floor} money is lost before an hour is paid"
    earned = [case.earned for case in money.cases if case.earned is not None]
    if money.in_mind is not None and earned:
        at = sum_words(money.in_mind, money.currency)
        figures = _span(reversed(earned), money.currency)
        yield f"At {at} an hour earns {figures}, overhead and profit left in it"
