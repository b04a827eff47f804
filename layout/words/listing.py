"""`listing.txt`: what a buyer wants to know, as plain text to copy, and what to photograph."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from ..panel import Kind, Was
from ..plan.plan import Plan
from ..work.items import NewCoat
from .materials import sum_words
from .say import listed, outline_words

WIDTH, BLANK = 78, "________"  # signs a line; what the maker fills in

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
    NewCoat.SHELLAC: f"{_FILM}; spirits and strong cleaners mark it",
    NewCoat.NONE: "bare wood: what is spilt on it stains it",
}
"""What is done for a finish; the others are films."""

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
    old, what = plan.job.panel, "Tabletop" if plan.legs is None else "Table"
    year = f" of about {old.year}" if old.year is not None else ""
    was = _WAS[old.was] if old.was is not None else "an old panel"
    return f"{what} made from {was}{year}: {outline_words(plan.top.outline, plan.job.tape)}."


def _sizes(plan: Plan) -> Iterator[str]:
    tape, sale = plan.job.tape, plan.sale
    third = "thickness" if plan.legs is None else "height"
    yield tape.fill(
        f"Length {{length:measure}}, width {{width:measure}}, {third} {{height:measure}}; top "
        "{thick:measure} thick.",
        sale,
        thick=plan.top.thickness,
    )
    yield f"Weight about {tape.mass(sale.mass)} by reckoning; on the scales {BLANK}."
    if sale.places:
        yield f"Places to sit: {sale.places}."
    if sale.knees is not None:
        yield f"Free height under it: {tape.measure(sale.knees)}."
    wide, high = map(tape.at_least, sale.opening)
    yield (
        f"In one piece it passes an opening {wide} wide and {high} {tape.unit} high, on its side "
        "or its end; measure stairs and turns."
    )


def _made(plan: Plan) -> Iterator[str]:
    old, sale, edging, wish = plan.job.panel, plan.sale, plan.cuts.edging, plan.job.legs
    new = ["its cut edges"]
    if edging is not None:
        new.append("the lipping" if edging.thickness else "the edging")
    if plan.finish.coats:
        new.append(f"the finish ({plan.finish.coat.value})")
    if plan.table is not None and plan.table.battens:
        new.append("the battens underneath")
    if plan.legs is not None and wish is not None:
        wood = f" of {wish.material}" if wish.material else ""
        new.append(f"{len(plan.legs.legs)} legs{wood} (or say what they were)")
    wood, kind = f"{old.material}, " if old.material else "", old.build.kind
    yield f"Top: {wood}{_BUILD.get(kind, kind.value)}."
    yield f"Old: the wood of the top{', its kept edges too' if plan.top.kept else ''}."
    yield f"New: {listed(new)}."
    if sale.mended:
        yield f"Mended: {listed(sale.mended)}."
    if sale.stays:
        yield f"Stays as found, in it or under it: {listed(sale.stays)}."


def _care(plan: Plan) -> Iterator[str]:
    finish = plan.finish
    if finish.coats:
        where = "both faces and the edge" if finish.faces else "the cut edge; laminate has none"
        yield f"{finish.coats} coats of {finish.coat.value}: {where}."
    yield f"Care: {_CARE.get(finish.coat, _FILM)}; mats under what is hot or wet."
    if plan.table is not None and plan.table.movement.solid:
        yield (
            "Solid wood moves with the seasons; its fixings underneath let it, so leave their "
            "screws as they are. Keep it from radiators and sun."
        )


def _old_paint(plan: Plan) -> Iterator[str]:
    if plan.sale.may_hold_lead:
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
    legs = plan.legs is not None
    yield "[ ] the whole of it from one corner, at sitting height, by daylight"
    yield "[ ] straight down on the top, the figure of the wood sharp"
    yield "[ ] one end, so that the legs show" if legs else "[ ] the edge from the side"
    yield "[ ] the edge close up, a finger beside it for its thickness"
    yield "[ ] the underside" + ", how the legs are held" * legs
    yield "[ ] the old panel as it was, before the first cut"
    yield from (f"[ ] the mended spot: {name}" for name in plan.sale.mended)
    yield from (f"[ ] what stays: {name}" for name in plan.sale.stays)
    yield "[ ] with a chair or a person beside it, for its size"
