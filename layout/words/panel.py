"""What is told of the old panel, and of its offcuts.

What falls at which cut, what it is good for, and where the panel went.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..offcuts.plan import Balance, Offcut, OffcutPlan
from ..panel import Defect, Face, Kind, Mend, Panel, Spoils
from ..panel.materials import lifters, people
from ..units import Tape
from .say import Passage, Table, capital, listed

TWIST = 3.0
"""What winding sticks may show at the ends of a panel, mm (common practice)."""

SPOILS = {
    Spoils.SHOWING: "in the show face: outside the top",
    Spoils.CUTTING: "no blade, bit or screw",
    Spoils.BEARING: "no leg or fixing",
}
"""What each thing that a defect spoils asks for."""

NOTHING = {
    "finish stain": "nothing: it is in the finish alone, and comes off with it",
    "glued joint": "nothing: a sound one is as strong as the wood beside it",
}
"""Why a kind of defect spoils nothing."""

BY = {
    Mend.PLUG: "a plug",
    Mend.KEY: "a key",
    Mend.PATCH: "a patch",
    Mend.FILLER: "filler",
    Mend.RESIN: "resin",
    Mend.SAND: "sanding",
}
"""What a defect is mended by."""

METAL = Passage(
    "Metal",
    (
        "Ironmongery, battens and clips off. Sweep both faces and all edges with a detector, ring "
        "every hit with chalk, pull it, sweep again.",
    ),
)


def made_of(panel: Panel) -> str:
    """Return build and material; a stand-in that it is only weighed by is no material of it.

    >>> from ..panel import Build, Kind, rectangular_outline
    >>> board = Panel(rectangular_outline(900, 600), 22, build=Build(Kind.VENEERED))
    >>> made_of(board)
    'veneered board'
    """
    build = panel.build.kind
    if not panel.material or panel.substance.name == build.usual_material:
        return build.value
    return f"{build.value}, {panel.substance.name}"


def spoils_words(defect: Defect) -> str:
    """Return what a defect spoils; of one that spoils nothing, why."""
    told = "; ".join(SPOILS[s] for s in Spoils if s in defect.spoils)
    kind = defect.told.kind if defect.told is not None and defect.told.kind else ""
    return told or NOTHING.get(kind, "nothing")


def assess_words(panel: Panel, tape: Tape) -> Passage:
    """Return what the panel is, who lifts it and what is wrong with it."""
    count = lifters(panel.mass)
    lift = "one person can lift it" if count == 1 else f"{people(count)} lift it"
    words = [
        f"{capital(made_of(panel))}, about {tape.mass(panel.mass)}: {lift}. {_past(panel)}",
        "Answer the cautions of the first page first; stop where one is not answered.",
    ]
    if panel.build.kind is Kind.SOLID:
        words.append("Moisture at most 12 % in three places, else let it wait.")
    return Passage("See it, ask for its history", tuple(words), tables=_defects(panel, tape))


def _past(panel: Panel) -> str:
    """Return what the cautions went by, so that it can be put right."""
    was = panel.was.value if panel.was else "not known"
    finish = listed(coat.value for coat in panel.finish) or "not known"
    year = f"from {panel.year}" if panel.year else "age not known"
    return f"Its past: {was}; on it: {finish}; {year}."


def _defects(panel: Panel, tape: Tape) -> tuple[Table, ...]:
    if not panel.defects:
        return ()
    rows = tuple(
        (
            defect.name,
            _face(defect, tape),
            spoils_words(defect),
            tape.measure(defect.clear),
            "–" if defect.mend is None else BY[defect.mend],
        )
        for defect in panel.defects
    )
    headings = ("Defect", "Face", "Spoils", "Keep clear by", "Mended by")
    caption = "Find each of these on the panel. A defect that is not here is not in the plan."
    return (Table(headings, rows, caption),)


def _face(defect: Defect, tape: Tape) -> str:
    if defect.face is Face.THROUGH:
        return "through"
    deep = f", {tape.measure(defect.depth)} deep" if defect.depth is not None else ""
    return ("show face" if defect.face is Face.UP else "under face") + deep


def flatness_words(panel: Panel, tape: Tape, *, later: bool) -> Passage:
    """Return how flat it must be; a slab is flattened `later`, once it is short enough."""
    found = tape.figure(panel.thickness)
    figures: tuple[tuple[str, str], ...] = ((tape.figure(TWIST), "of twist, at most"),)
    words = "Winding sticks at both ends"
    if panel.flattened is None:
        told = (
            f"{words}; the hump goes up. Where flattening leaves less than {found}, write what is "
            "left under flattened in the job and print anew."
        )
        return Passage("Try it for twist", (told,), figures=figures)
    if later:
        told = f"{words}: more than that is taken out when it is flattened."
        return Passage("Try it for twist", (told,), figures=figures)
    figures = ((found, "as found"), (tape.figure(panel.flattened), "when flat"))
    told = f"{words}; then skim both faces flat and true. All that follows counts on it."
    return Passage("Skim both faces flat", (told,), figures=figures)


_ALIKE = 0.005
"""A rectangle that is proved the largest within this share is called so."""


def offcuts_words(plan: OffcutPlan, tape: Tape) -> Passage:
    """Return each kept piece with what it makes, the crumbs in a line, and the balance of areas."""
    kept = [offcut for offcut in plan.pieces if offcut.kept]
    rows = tuple(
        (
            f"{offcut.number}",
            offcut.freed_by or (f"cut {offcut.cut}" if offcut.cut else "loose"),
            tape.area(offcut.area),
            _clean(offcut, tape),
            listed(make.value for make in offcut.makes) or "a board of that size",
        )
        for offcut in kept
    )
    headings = ("Offcut", "Falls at", "Area", f"Largest clean rectangle, {tape.unit}", "Makes")
    words = [*_crumbs(plan, tape), _balance(plan.balance, tape)]
    words.append("Never burn painted or treated wood, or board.")
    tables = (Table(headings, rows, _promise(plan)),) if rows else ()
    return Passage("Offcuts", tuple(words), tables=tables)


def _crumbs(plan: OffcutPlan, tape: Tape) -> Iterator[str]:
    """Yield what is not kept, in one line."""
    rest = [offcut for offcut in plan.pieces if not offcut.kept]
    if rest:
        name = "crumb" if len(rest) == 1 else "crumbs"
        yield f"{len(rest)} {name}, {tape.area(sum(o.area for o in rest))} in all."


def _clean(offcut: Offcut, tape: Tape) -> str:
    if offcut.clean is None:
        return "none"
    return f"{tape.figure(offcut.clean.length)} × {tape.figure(offcut.clean.width)}"


def _promise(plan: OffcutPlan) -> str:
    """Return how much larger a clean rectangle of what is kept can be."""
    kept = [o for o in plan.pieces if o.kept and o.clean is not None]
    more = max((o.most / o.clean.area - 1 for o in kept if o.clean is not None), default=0.0)
    if not kept:
        return ""
    if more <= _ALIKE:
        return "Of what is kept no clean rectangle is larger: proved."
    share = math.ceil(100 * more)
    return f"The largest found; of what is kept none is more than {share} % larger: proved."


def _balance(balance: Balance, tape: Tape) -> str:
    return (
        f"Panel {tape.area(balance.panel)} = top {tape.area(balance.top)} + trimmed off "
        f"{tape.area(balance.trimming)} + kerf {tape.area(balance.kerf)} + offcuts "
        f"{tape.area(balance.offcuts)} + cut-outs {tape.area(balance.cut_outs)}."
    )
