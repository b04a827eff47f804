"""What is told of the old panel."""

from __future__ import annotations

from ..panel.build import Kind
from ..panel.defect import Defect, Face, Spoils
from ..panel.lifting import lifters, people
from ..panel.panel import Panel
from ..units import Tape
from .mends import BY
from .passage import Passage, Table
from .say import listed

TWIST = 3.0
"""What winding sticks may show at the ends of a panel, mm (common practice)."""

SPOILS = {
    Spoils.SHOWING: "in the show face: outside the top",
    Spoils.CUTTING: "no blade, bit or screw",
    Spoils.BEARING: "no leg or fixing",
}
"""What each thing that a defect spoils asks for."""

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


def assess_words(panel: Panel, tape: Tape, *, may_keep_edge: bool) -> Passage:
    """Return what the panel is, who lifts it and what is wrong with it.

    Parameters
    ----------
    may_keep_edge : bool
        Whether it is a slab of which no edge is kept so far.
    """
    count = lifters(panel.mass)
    lift = "One person can lift it." if count == 1 else f"{people(count).capitalize()} lift it."
    words = [
        f"{panel.name.capitalize()}: {made_of(panel)}, {tape.measure(panel.thickness)} thick, "
        f"about {tape.mass(panel.mass)}. {lift}",
        _past(panel),
        "Read the cautions above first; stop where one of them is not answered.",
    ]
    if panel.build.kind is Kind.SOLID:
        words.append("Moisture at most 12 % in three places, else let it wait.")
    if may_keep_edge:
        words.append(
            "First question: keep a live edge? Then leave out every cut along it, square the ends "
            "only, and measure the legs from the long centreline."
        )
    return Passage("Assess", tuple(words), tables=_defects(panel, tape))


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
            "; ".join(SPOILS[s] for s in Spoils if s in defect.spoils) or "nothing",
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
    """Return how flat it must be; a slab is flattened `later`, when it has been cut short."""
    words = [f"Winding sticks at both ends: up to {tape.measure(TWIST)} of twist is accepted."]
    found = tape.measure(panel.thickness)
    if panel.flattened is None:
        words += [
            "The hump goes up.",
            f"The plan counts on {found}: where flattening leaves less, write the thickness that "
            "is left under flattened in the job and print anew.",
        ]
    elif later:
        words.append(
            f"More than that is taken out when it has been cut short: from {found} to "
            f"{tape.measure(panel.flattened)}, which everything after the rough cuts counts on."
        )
    else:
        words.append(
            f"Skim both faces flat now, from {found} to {tape.measure(panel.flattened)}: "
            "everything below counts on that."
        )
    return Passage("Flatness", tuple(words))
