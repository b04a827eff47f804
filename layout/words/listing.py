"""`listing.txt`: what a buyer wants to know, as plain text to copy, and what to photograph."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from ..panel import Kind, Was
from ..plan.plan import Plan
from ..work.coats import NewCoat
from .amounts import sum_words
from .say import listed, outline_words

WIDTH = 78
"""Signs a line."""

BLANK = "________"
"""What the maker fills in."""

_WAS = {
    Was.DOOR: "a door",
    Was.FIRE_DOOR: "a fire door",
    Was.FURNITURE: "an old piece of furniture",
    Was.KITCHEN: "a kitchen worktop",
    Was.LABORATORY: "a laboratory bench",
    Was.STAGE: "a stage",
    Was.FLOOR: "a floor",
    Was.OUTDOORS: "timber that stood outdoors",
    Was.NEW: "new board or timber",
}

_BUILD = {
    Kind.SOLID: "solid wood",
    Kind.VENEERED: "veneer on board",
    Kind.HOLLOW: "a hollow door's two skins over a light core",
    Kind.FRAMED: "frame and panel",
}

_OIL = "wipe it with a damp cloth and dry it at once; oil it again where it looks dry"
_FILM = "wipe it with a damp cloth; nothing that scours"
_CARE = {
    NewCoat.HARD_WAX_OIL: _OIL,
    NewCoat.OIL: _OIL,
    NewCoat.VARNISH: _FILM,
    NewCoat.WATER_VARNISH: _FILM,
    NewCoat.PAINT: _FILM,
    NewCoat.SHELLAC: f"{_FILM}; spirits and strong cleaners mark it",
    NewCoat.NONE: "bare wood: what is spilt on it stains it",
}

LOAD = (
    "Made by hand from old wood, one of a kind. It was not tested to any standard, and no load is "
    "stated: sit at it, not on it, do not climb on it, and look after its joints once a year."
)
"""Load words, which promise nothing."""


def listing(plan: Plan) -> str:
    """Return the text: headed parts, each line short enough for any form."""
    parts: tuple[tuple[str, Iterable[str]], ...] = (
        (plan.job.name, [_summary(plan)]),
        ("Sizes", _sizes(plan)),
        ("What it is made of", _made(plan)),
        ("Finish and care", _care(plan)),
        ("Use", [LOAD]),
        ("Old paint", _old_paint(plan)),
        ("To fill in", _open(plan)),
        ("Photographs to take", _photographs(plan)),
    )
    told = [(title, *map(_wrapped, lines)) for title, lines in parts]
    return "\n\n".join("\n".join(part) for part in told if len(part) > 1) + "\n"


def _wrapped(line: str) -> str:
    hang = "    " if line.startswith("[") else ""
    return textwrap.fill(line, WIDTH, subsequent_indent=hang, break_on_hyphens=False)


def _summary(plan: Plan) -> str:
    old = plan.job.panel
    year = f" of about {old.year}" if old.year is not None else ""
    was = _WAS[old.was] if old.was is not None else "an old panel"
    what = "Table" if plan.legs is not None else "Tabletop"
    return f"{what} made from {was}{year}: {outline_words(plan.top.outline, plan.job.tape)}."


def _sizes(plan: Plan) -> Iterator[str]:
    tape, sale = plan.job.tape, plan.sale
    third = "height" if plan.legs is not None else "thickness"
    yield (
        f"Length {tape.measure(sale.length)}, width {tape.measure(sale.width)}, {third} "
        f"{tape.measure(sale.height)}; top {tape.measure(plan.top.thickness)} thick."
    )
    yield f"Weight about {tape.mass(sale.mass)} by reckoning; on the scales {BLANK}."
    if sale.places:
        yield f"Places to sit: {sale.places}."
    if sale.knees is not None:
        yield f"Free height under it: {tape.measure(sale.knees)}."
    wide, high = (tape.at_least(side) for side in sale.opening)
    yield (
        f"In one piece it passes an opening {wide} wide and {high} {tape.unit} high, on its side "
        "or its end; measure stairs and turns."
    )


def _made(plan: Plan) -> Iterator[str]:
    old, sale = plan.job.panel, plan.sale
    kind = old.build.kind
    wood = f"{old.material}, " if old.material else ""
    yield f"Top: {wood}{_BUILD.get(kind, kind.value)}."
    yield f"Old: the wood of the top{', its kept edges too' if plan.top.kept else ''}."
    yield f"New: {listed(_new(plan))}."
    if sale.mended:
        yield f"Mended: {listed(sale.mended)}."
    if sale.stays:
        yield f"Stays as found, in it or under it: {listed(sale.stays)}."


def _new(plan: Plan) -> Iterator[str]:
    yield "its cut edges"
    edging = plan.cuts.edging
    if edging is not None:
        yield "the lipping" if edging.thickness else "the edging"
    if plan.finish.coats:
        yield f"the finish ({plan.finish.coat.value})"
    if plan.table is not None and plan.table.battens:
        yield "the battens underneath"
    if plan.legs is not None and plan.job.legs is not None:
        wood = plan.job.legs.material
        yield f"{len(plan.legs.legs)} legs{f' of {wood}' if wood else ''} (or say what they were)"


def _care(plan: Plan) -> Iterator[str]:
    finish = plan.finish
    if finish.coats:
        where = "both faces and the edge" if finish.faces else "the cut edge; laminate has none"
        yield f"{finish.coats} coats of {finish.coat.value}: {where}."
    yield f"Care: {_CARE[finish.coat]}; mats under what is hot or wet."
    if plan.table is not None and plan.table.movement.solid:
        yield (
            "Solid wood moves with the seasons; its fixings underneath let it, so leave their "
            "screws as they are. Keep it from radiators and sun."
        )


def _old_paint(plan: Plan) -> Iterator[str]:
    if not plan.sale.may_hold_lead:
        return
    year = plan.job.panel.year
    age = f"dates from about {year}" if year is not None else "is of unknown age"
    yield (
        f"The wood {age}, and its old coat may have held lead. It was taken off before the new "
        f"finish. Tested for lead on {BLANK}, by {BLANK}, with the result {BLANK}."
    )
    yield "Leave out none of this; local rules say what a seller must tell besides."


def _open(plan: Plan) -> Iterator[str]:
    money, asked = plan.money, ""
    if money is not None:
        price = money.in_mind or money.cases[-1].price
        asked = f" (reckoned: {sum_words(price, money.currency)})"
    yield f"Price {BLANK}{asked}; delivery {BLANK}; where it can be seen {BLANK}."
    yield f"Marks that stay and show, each in a word: {BLANK}."


def _photographs(plan: Plan) -> Iterator[str]:
    shots = (
        "the whole of it from one corner, at sitting height, by daylight",
        "straight down on the top, the figure of the wood sharp",
        "one end, so that the legs show" if plan.legs is not None else "the edge from the side",
        "the edge close up, a finger beside it for its thickness",
        "the underside" + (", how the legs are held" if plan.legs is not None else ""),
        "the old panel as it was, before the first cut",
        *(f"the mended spot: {name}" for name in plan.sale.mended),
        *(f"what stays: {name}" for name in plan.sale.stays),
        "with a chair or a person beside it, for its size",
    )
    return (f"[ ] {shot}" for shot in shots)
