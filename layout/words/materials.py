"""The list of materials in words: how much of what, how it was reckoned, and by whose figures."""

from __future__ import annotations

from functools import singledispatch

from ..units import Tape
from ..work.abrasives import DISC_AREA
from ..work.coats import LABELS
from ..work.items import Unit
from ..work.materials import Line, Materials
from ..work.reckoned import Bed, Counted, Filled, Printed, Run, Sanded, Spread
from .amounts import SQ_FT_PER_QUART, exact_sum, run_words, sum_words, volume_words
from .fixings import thin
from .passage import Passage, Table
from .say import listed

_NAMES = {
    "plates": "leg plates",
    "pads": "felt pads",
    "bolts": "bolts or threaded inserts",
    "flexible adhesive": "flexible adhesive, cartridges",
    "template paper": "paper for the template",
    "battens": "battens (offcuts may do)",
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
    rows = tuple(_row(line, tape, priced=priced, held=held) for line in materials.lines)
    headings = ["What", "It takes"]
    headings += ["In the house", "Buy"] if held else []
    headings += ["Costs"] if priced else []
    words = ["Read each label: its coverage and its times go before these."]
    if materials.cost is not None:
        open_ones = materials.unpriced
        rest = f", without {listed(open_ones)}: no price is given" if open_ones else ""
        words.append(f"{sum_words(materials.cost, currency)} in all{rest}.")
    if any(line.perhaps for line in materials.lines):
        words.append(
            "Nobody says what is on the old faces: write finish under [panel], and what is not "
            "needed goes."
        )
    return Passage(
        "Have ready",
        tuple(words),
        tables=(Table((*headings, "Reckoned from"), rows),),
    )


def _row(line: Line, tape: Tape, *, priced: bool, held: bool) -> tuple[str, ...]:
    cells = [name_words(line, tape), amount_words(line.need, line.unit, tape)]
    if held:
        cells += [amount_words(line.have, line.unit, tape) if line.have else "–"]
        cells += [amount_words(line.buy, line.unit, tape) if line.buy else "nothing"]
    if priced:
        cells += ["?" if line.cost is None else exact_sum(line.cost)]
    return (*cells, "your figure" if line.given else reckoned_words(line.how, line, tape))


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
    if unit in (Unit.LITRE, Unit.MILLILITRE):
        return volume_words(amount if unit is Unit.LITRE else amount / 1000, tape)
    return run_words(amount, tape) if unit is Unit.METRE else f"{amount:g}"


@singledispatch
def reckoned_words(how: object, line: Line, tape: Tape) -> str:
    """Return how a material was reckoned, and whose figures that took."""
    raise TypeError(f"there are no words for {type(how).__name__}")


@reckoned_words.register
def _(how: Spread, line: Line, tape: Tape) -> str:
    once = "once" if how.coats == 1 else f"{how.coats} coats"
    reach = f"{how.reach:g} m² a litre"
    if tape.imperial:
        reach = f"{how.reach * SQ_FT_PER_QUART:.0f} sq ft a quart"
    where = " (where there is a coat)" if line.perhaps else ""
    return f"{_area(how.area, tape)}, {once}, {reach} ({LABELS}); a tenth more{where}"


@reckoned_words.register
def _(how: Sanded, line: Line, tape: Tape) -> str:
    usual = how.lasts in (DISC_AREA, DISC_AREA / 2)
    said = "common practice" if usual else "your figure"
    return f"{_area(how.area, tape)}; a sheet or disc sands {_area(how.lasts, tape)} ({said})"


@reckoned_words.register
def _(how: Run, line: Line, tape: Tape) -> str:
    strips = f", {how.strips} strips" if how.strips > 1 else ""
    return f"{run_words(how.length, tape)} round{strips}; a tenth more (common practice)"


@reckoned_words.register
def _(how: Bed, line: Line, tape: Tape) -> str:
    area = f"{how.area:.0f} cm²" if not tape.imperial else f"{how.area / 6.4516:.0f} sq in"
    pack = f"; {how.pack:.0f} ml in each" if how.pack else ""
    return f"{area} of joint, {tape.small(how.bed)} thick; a fifth more (common practice){pack}"


@reckoned_words.register
def _(how: Filled, line: Line, tape: Tape) -> str:
    return f"{volume_words(how.volume / 1000, tape)} of hollows; a fifth more (common practice)"


@reckoned_words.register
def _(how: Counted, line: Line, tape: Tape) -> str:
    where = _COUNTED.get(line.name)
    return f"{how.each} {where} {how.of}" if where else "counted"


@reckoned_words.register
def _(how: Printed, line: Line, tape: Tape) -> str:
    return f"{how.sheets} sheet{'s' if how.sheets > 1 else ''} and a cover"


def _area(area: float, tape: Tape) -> str:
    return tape.area(area * 1e6) if tape.imperial else f"{area:.2f} m²"
