"""The list of materials in words: how much of what, how it was reckoned, and by whose figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import groupby

from ..legs.fixings import Bed
from ..units import Tape
from ..work.coats import LABELS
from ..work.items import COARSE, Counted, Filled, Printed, Reckoned, Run, Sanded, Spread, Unit
from ..work.materials import Line, Materials
from .amounts import SQ_FT_PER_QUART, exact_sum, run_words, sum_words, volume_words
from .fixings import thin
from .say import Passage, Table, counted, listed, passage

_NAMES = {
    "plates": "leg plates",
    "pads": "felt pads",
    "bolts": "bolts",
    "flexible adhesive": "flexible adhesive, cartridges",
    "template paper": "paper for the template",
    "battens": "battens, of offcuts",
}
"""What is longer than the name in a job file."""

_COUNTED = {
    "screws": "on each of",
    "batten screws": "on each of",
    "pads": "under each of",
    "plates": "on each of",
}


def materials_words(materials: Materials, tape: Tape, currency: str = "") -> Passage:
    """Return what to have before the work begins, in one table."""
    priced = materials.cost is not None
    held = any(line.have for line in materials.lines)
    rows = tuple(_row(alike, tape, priced=priced, held=held) for alike in _alike(materials.lines))
    headings = ["What", "It takes"]
    headings += ["Have", "Buy"] if held else []
    headings += ["Costs"] if priced else []
    cost = ""
    if materials.cost is not None:
        open_ones = materials.unpriced
        rest = f", without {listed(open_ones)}: no price is given" if open_ones else ""
        cost = f" {sum_words(materials.cost, currency)} in all{rest}."
    unknown = any(line.perhaps for line in materials.lines)
    return passage(
        "Buy what is missing",
        f"With a tenth more of what is spread or cut, a fifth of what fills joints. Coverage: "
        f"{LABELS}, and each label goes before it; all else: common practice.{cost}",
        "What is on the old faces is not known: write finish under [panel]" if unknown else "",
        tables=[Table((*headings, "Reckoned from"), rows)],
    )


def _alike(lines: tuple[Line, ...]) -> Iterator[tuple[Line, ...]]:
    """Yield the lines one by one, but all grits together."""
    for is_grit, group in groupby(lines, key=lambda line: isinstance(line.how, Sanded)):
        held = tuple(group)
        yield from (held,) if is_grit else ((line,) for line in held)


def _row(lines: tuple[Line, ...], tape: Tape, *, priced: bool, held: bool) -> tuple[str, ...]:
    names = " · ".join(line.name.removeprefix("grit ") for line in lines)
    one = lines[0]
    is_grit, how, every = isinstance(one.how, Sanded), one.how, [0.0]
    if isinstance(how, Sanded):
        every = [line.how.lasts for line in lines if isinstance(line.how, Sanded)]
        how = replace(how, lasts=max(every))
    cells = [f"abrasive, grits {names}" if is_grit else name_words(one, tape)]
    cells += [_each(lines, lambda line: amount_words(line.need, line.unit, tape))]
    if held:
        cells += [_each(lines, lambda line: amount_words(line.have, line.unit, tape))]
        cells += [_each(lines, lambda line: amount_words(line.buy, line.unit, tape))]
    if priced:
        known = [line.cost for line in lines if line.cost is not None]
        cells += [exact_sum(sum(known, Decimal(0))) if len(known) == len(lines) else "?"]
    given = all(line.given for line in lines)
    half = f", to {COARSE} half" if is_grit and min(every) < max(every) else ""
    return (*cells, "your figure" if given else reckoned_words(how, one, tape) + half)


def _each(lines: tuple[Line, ...], told: Callable[[Line], str]) -> str:
    cells = [told(line) for line in lines]
    return cells[0] if len(cells) == 1 else " · ".join(c.replace("–", "0") for c in cells)


def name_words(line: Line, tape: Tape) -> str:
    """Return a material with its kind and its size."""
    name = _NAMES.get(line.name, line.name)
    if line.name == "finish":
        name = line.kind
    elif line.kind:
        name = f"{name}, {line.kind}"
    if not line.size:
        return name
    if "screws" in line.name or line.name == "bolts":
        return f"{name} {thin(tape, line.size[0])} × {tape.measure(line.size[1])}"
    if line.name in ("lipping", "edging"):
        thick = f", {tape.small(line.size[1])} thick" if len(line.size) > 1 else ""
        return f"{name} {tape.measure(line.size[0])} wide{thick}"
    return f"{name} {' × '.join(map(tape.figure, line.size))} {tape.unit}"


def amount_words(amount: float, unit: Unit, tape: Tape) -> str:
    """Return an amount in the unit of its material, never less."""
    if not amount:
        return "–"
    if unit in (Unit.LITRE, Unit.MILLILITRE):
        return volume_words(amount if unit is Unit.LITRE else amount / 1000, tape)
    return run_words(amount, tape) if unit is Unit.METRE else f"{amount:g}"


def reckoned_words(how: Reckoned, line: Line, tape: Tape) -> str:
    """Return how a material was reckoned, and whose figures that took."""

    def area(square_metres: float) -> str:
        return tape.area(square_metres * 1e6) if tape.imperial else f"{square_metres:.2f} m²"

    match how:
        case Spread():
            once = "once" if how.coats == 1 else f"{how.coats} coats"
            reach = f"{how.reach:g} m² a litre"
            if tape.imperial:
                reach = f"{how.reach * SQ_FT_PER_QUART:.0f} sq ft a quart"
            whose = " (your figure)" if how.given else ""
            coated = ", if coated" if line.perhaps else ""
            told = f"{area(how.area)}, {once}, {reach}{whose}{coated}"
        case Sanded():
            told = f"{area(how.area)}; a sheet or disc sands {area(how.lasts)}"
        case Run():
            strips = f", {how.strips} strips" if how.strips > 1 else ""
            told = f"{run_words(how.length, tape)} round{strips}"
        case Bed():
            joint = f"{how.area / 6.4516:.0f} sq in" if tape.imperial else f"{how.area:.0f} cm²"
            pack = f", {how.pack:.0f} ml in each" if how.pack else ""
            told = f"{joint} of joint, {tape.small(how.bed)} thick{pack}"
        case Filled():
            told = f"{volume_words(how.volume / 1000, tape)} of hollows"
        case Counted():
            where = _COUNTED.get(line.name)
            told = f"{how.each} {where} {how.of}" if where else "counted"
        case Printed():
            told = f"{counted(how.sheets, 'sheet')} and a cover"
    return told
