"""What to ask for the piece, line by line, in words."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

from ..money.price import Case, Entry, Forgotten, Money, PriceLine
from .amounts import exact_sum, sum_words
from .say import Passage, Table, sentence

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
