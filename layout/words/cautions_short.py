"""The four or five cautions of the first page, a line each: the whole of each stands at the end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from ..panel.lifting import lifters, people
from ..plan.plan import Plan
from ..work.blades import BladeMatter
from ..work.cautions import Risk
from .saw_lines import numbers_of
from .say import listed

MOST = 5
"""Cautions that a page can hold and a maker can heed at once (our choice)."""


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution in one line."""

    words: str
    asks: bool
    """Whether it must be answered before work goes on; otherwise it is heeded at each cut."""


_ASKS = {
    Risk.TREATED: "Treated wood: stop. Not sawn, planed, sanded or burnt; take another panel.",
    Risk.TREATED_PERHAPS: "From outdoors: green tint, tar, rows of slits? Have it tested first.",
    Risk.LEAD: "Old paint or varnish{year}: test it for lead before a blade or plane meets it.",
    Risk.ASBESTOS: "Stone-cold, mineral or fibrous core, lining or backing? Stop, have it tested.",
    Risk.LABORATORY: "Laboratory bench: ask what was spilt on it (mercury, acids). Wash it first.",
    Risk.KITCHEN: "From a kitchen: wash it with gloves on, let it dry; a mask where it is mouldy.",
    Risk.STAGE: "From a stage: ask what it was treated with; staples and screws under the paint.",
}

_CEMENT = "Black, stone-cold or fibrous? It may be asbestos cement: stop, have it tested."

_HEED = {
    Risk.METAL: "Metal: sweep both faces and all edges, pull every hit, sweep before each tool.",
    Risk.LIFTING: "{mass}: {people}, and trestles on both sides of each line.",
    Risk.GRAIN: "The length lies {slant:.0f}° from the grain: look whether you want that.",
    Risk.SLIVERS: "{lines}: no hand holds the narrow piece that falls; it lies on boards.",
    Risk.VAPOURS: "Air moves through while glue or resin sets; gloves on, no flame near it.",
    Risk.STRIPPERS: "Strip it outdoors or with air moving through; gloves and goggles on.",
}


def short_cautions(plan: Plan) -> tuple[Caution, ...]:
    """Return the cautions that this panel and these cuts raise, hardest first."""
    return tuple(_cautions(plan))[:MOST]


def _cautions(plan: Plan) -> Iterator[Caution]:
    numbers = numbers_of(plan)
    crossed = [c for c in plan.blades if c.matter is BladeMatter.CROSSES]
    for concern in crossed[:2]:
        cut = concern.who[0]
        line = f"Line {numbers[cut]}" if cut in numbers else cut
        yield Caution(f"{line} runs through {listed(concern.who[1:])}: take it out first.", True)
    for concern in plan.cautions:
        if concern.matter is Risk.LABORATORY:
            yield Caution(_CEMENT, True)
        if concern.matter in _ASKS:
            yield Caution(_told(plan, _ASKS[Risk(concern.matter)], concern.found, ()), True)
    if plan.job.panel.flattened is not None and plan.datum.struck and not plan.cuts.kept:
        yield Caution("Keep a live edge? Then leave out the saw lines on that side.", True)
    for trim in plan.cuts.trims:
        if trim.wall is not None:
            wall = plan.job.tape.figure(trim.wall)
            yield Caution(
                f"Line {numbers[trim.label]} leaves a wall of {wall} beside a hole: it breaks. "
                "Hold up both arms.",
                False,
            )
    for concern in plan.cautions:
        if concern.matter in _HEED:
            lines = tuple(dict.fromkeys(str(numbers[who]) for who in concern.who if who in numbers))
            yield Caution(_told(plan, _HEED[Risk(concern.matter)], concern.found, lines), False)


def _told(plan: Plan, words: str, found: float | None, lines: tuple[str, ...]) -> str:
    panel = plan.job.panel
    return words.format(
        year=f" of {panel.year}" if panel.year else "",
        mass=plan.job.tape.mass(panel.mass),
        people=people(lifters(panel.mass)),
        slant=found or 0.0,
        lines=f"Line{'s' * (len(lines) > 1)} {listed(lines)}" if lines else "Small pieces",
    )
