"""What to have before the work begins, whose figures that took, and what to ask for the piece."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import ROUND_HALF_UP, Decimal
from functools import partial
from itertools import groupby

from ..legs.fixings import Bed
from ..money.price import Case, Entry, Forgotten, Money
from ..units import MM_PER_INCH, Tape
from ..work.items import COARSE, LABELS, Counted, Filled, Printed, Run, Sanded, Spread, Unit
from ..work.materials import Line, Materials
from .say import Passage, capital, counted, listed, passage, ranged, table, whole_up

ML_PER_FL_OZ, FL_OZ_PER_QUART = 29.5735, 32  # of the United States
# What 1 m² a litre comes to in square feet a quart
SQ_FT_PER_QUART = 946.353 / 1000 / (12 * MM_PER_INCH / 1000) ** 2

_NAMES = {
    "plates": "leg plates",
    "pads": "felt pads",
    "flexible adhesive": "flexible adhesive, cartridges",
    "template paper": "paper for the template",
    "battens": "battens, of offcuts",
}
"""What is longer than the name in a job file."""

_COUNTED = {"pads": "under each of"}
_COUNTED |= dict.fromkeys(("screws", "batten screws", "plates"), "on each of")

Lines = tuple[Line, ...]  # a row: one material, or all grits of abrasive


def materials_words(materials: Materials, tape: Tape, currency: str = "") -> Passage:
    """Return what to have before the work begins, in one table."""
    lines, cost = materials.lines, ""
    grits = groupby(lines, key=lambda line: line.name if line.name[:5] != "grit " else "grit")
    rows = [tuple(alike) for _, alike in grits]

    def amount(of: str) -> Callable[[Lines], str]:
        def told(row: Lines) -> str:
            cells = [_told_amount(getattr(line, of), line.unit, tape) for line in row]
            return cells[0] if len(cells) == 1 else " · ".join(c.replace("–", "0") for c in cells)

        return told

    columns: dict[str, Callable[[Lines], str]] = {
        "What": lambda row: _name(row, tape),
        "It takes": amount("need"),
    }
    if any(line.have for line in lines):
        columns |= {"Have": amount("have"), "Buy": amount("buy")}
    if materials.cost is not None:
        columns["Costs"] = lambda row: (
            exact_sum(sum((line.cost for line in row if line.cost is not None), Decimal(0)))
            if all(line.cost is not None for line in row)
            else "?"
        )
        without = f", without {listed(materials.unpriced)}: no price is given"
        cost = sum_words(materials.cost, currency)
        cost = f" {cost} in all{without if materials.unpriced else ''}."
    columns["Reckoned from"] = lambda row: _reckoned(row, tape)
    return passage(
        "Buy what is missing",
        "With a tenth more of what is spread or cut, a fifth of what fills joints. Coverage: "
        f"{LABELS}, and each label goes before it; all else: common practice.{cost}",
        any(line.perhaps for line in lines)
        and "What is on the old faces is not known: write finish under [panel]",
        tables=[table(rows, columns)],
    )


def _name(row: Lines, tape: Tape) -> str:
    line = row[0]
    name = _NAMES.get(line.name, line.name)
    if isinstance(line.how, Sanded):
        return f"abrasive, grits {' · '.join(line.name.removeprefix('grit ') for line in row)}"
    if line.name == "finish":
        name = line.kind
    elif line.kind:
        name = f"{name}, {line.kind}"
    if not line.size:
        return name
    if "screws" in line.name or line.name == "bolts":
        return f"{name} {tape.drill(line.size[0])} × {tape.measure(line.size[1])}"
    if line.name in ("lipping", "edging"):
        thick = f", {tape.small(line.size[1])} thick" if len(line.size) > 1 else ""
        return f"{name} {tape.measure(line.size[0])} wide{thick}"
    return f"{name} {' × '.join(map(tape.figure, line.size))} {tape.unit}"


def _told_amount(amount: float, unit: Unit, tape: Tape) -> str:
    if not amount:
        return "–"
    if unit in (Unit.LITRE, Unit.MILLILITRE):
        return volume_words(amount if unit is Unit.LITRE else amount / 1000, tape)
    return run_words(amount, tape) if unit is Unit.METRE else f"{amount:g}"


def _reckoned(row: Lines, tape: Tape) -> str:
    line = row[0]
    if all(one.given for one in row):
        return "your figure"

    match line.how:
        case Spread() as how:
            told = _spread(how, line, tape)
        case Sanded() as how:
            lasts = [one.how.lasts for one in row if isinstance(one.how, Sanded)]
            half = f", to {COARSE} half" if min(lasts) < max(lasts) else ""
            told = f"{_area(how.area, tape)}; a sheet or disc sands {_area(max(lasts), tape)}{half}"
        case Run() as how:
            strips = f", {how.strips} strips" if how.strips > 1 else ""
            told = f"{run_words(how.length, tape)} round{strips}"
        case Bed() as how:
            pack = f", {how.pack:.0f} ml in each" if how.pack else ""
            told = f"{tape.joint(100 * how.area)} of joint, {tape.small(how.bed)} thick{pack}"
        case Filled() as how:
            told = f"{volume_words(how.volume / 1000, tape)} of hollows"
        case Printed() as how:
            more = ", a cover and a page of figures" if how.figures else " and a cover"
            told = f"{counted(how.sheets, 'sheet')}{more}; two pages where one is too short"
        case Counted() as how:
            where = _COUNTED.get(line.name)
            told = f"{how.each} {where} {how.of}" if where else "counted"
    return told


def _spread(how: Spread, line: Line, tape: Tape) -> str:
    once = "once" if how.coats == 1 else f"{how.coats} coats"
    reach = f"{how.reach:g} m² a litre"
    if tape.imperial:
        reach = f"{how.reach * SQ_FT_PER_QUART:.0f} sq ft a quart"
    whose = " (your figure)" * how.given + ", if coated" * line.perhaps
    return f"{_area(how.area, tape)}, {once}, {reach}{whose}"


def _area(square_metres: float, tape: Tape) -> str:
    return tape.area(square_metres * 1e6) if tape.imperial else f"{square_metres:.2f} m²"


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
            return f"{whole_up(ounces)} fl oz"
        return f"{whole_up(10 * ounces / FL_OZ_PER_QUART) / 10:.1f} qt"
    if litres <= 0.05:
        return f"{whole_up(200 * litres) * 5} ml"
    return f"{whole_up(20 * litres) / 20:.2f} l"


def run_words(metres: float, tape: Tape) -> str:
    """Return a length of what is sold by the metre or the foot, never less.

    >>> run_words(4.823, Tape()), run_words(4.823, Tape(imperial=True))
    ('4.9 m', '16 ft')
    """
    if tape.imperial:
        return f"{whole_up(1000 * metres / (12 * MM_PER_INCH))} ft"
    return f"{whole_up(10 * metres) / 10:.1f} m"


def sum_words(amount: Decimal, currency: str = "") -> str:
    """Return a sum to the cent, halves up.

    >>> sum_words(Decimal("172.6725"), "EUR"), sum_words(Decimal("0.005"))
    ('172.67 EUR', '0.01')
    """
    return f"{amount.quantize(Decimal('0.01'), ROUND_HALF_UP):f} {currency}".rstrip()


def exact_sum(amount: Decimal) -> str:
    """Return a sum with all its figures, two at least, four at most.

    >>> exact_sum(Decimal("172.67250")), exact_sum(Decimal("39")), exact_sum(Decimal(1) / 3)
    ('172.6725', '39.00', '0.3333')
    """
    whole, _, cents = f"{amount.quantize(Decimal('0.0001'), ROUND_HALF_UP):f}".partition(".")
    return f"{whole}.{cents[:2]}{cents[2:].rstrip('0')}"


_ENTRIES = {
    Entry.DELIVERY: "packing and delivery",
    Entry.NET: "to be left after fees",
    Entry.FEE: "fee where it is sold",
    Entry.PRICE: "price to ask",
}
"""What is longer than the value."""

_ASKED = {
    Forgotten.PANEL: "what the panel cost, fetching it included",
    Forgotten.LEGS: "what the legs cost",
    Forgotten.MATERIALS: "what the materials cost",
    Forgotten.UNPRICED: "prices of all materials (materials.price)",
    Forgotten.RATE: "what an hour is worth to you",
    Forgotten.PROFIT: "profit",
    Forgotten.OVERHEAD: "overhead: workshop, tools, insurance, travel",
    Forgotten.FEE: "the fee where it is sold",
    Forgotten.DELIVERY: "packing and delivery",
}


def money_words(money: Money) -> Passage:
    """Return the reckoning: one column where its hours are known, else one for each end."""
    line = f"Line, {money.currency}" if money.currency else "Line"
    columns: dict[str, Callable[[Entry], str]] = {
        line: lambda entry: capital(_ENTRIES.get(entry, entry.value))
    }
    columns |= {f"{case.hours:f} h": partial(_amount, case) for case in money.cases}
    floor = sum_words(money.cases[0].break_even, money.currency)
    earned = [case.earned for case in money.cases if case.earned is not None]
    at = "" if money.in_mind is None else sum_words(money.in_mind, money.currency)
    return passage(
        "What to ask for it",
        f"{priced_words(money)}; below {floor} money is lost before an hour is paid",
        bool(at and earned)
        and f"At {at} an hour earns {_span(reversed(earned), money.currency)}, overhead and profit "
        "left in it",
        bool(money.forgotten)
        and f"Left out and often forgotten: {'; '.join(map(_ASKED.__getitem__, money.forgotten))}",
        tables=[table([line.entry for line in money.cases[0].lines], columns)],
    )


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
