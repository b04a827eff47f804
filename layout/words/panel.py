"""What is told of the old panel: what it is, what is wrong and how it is mended, its offcuts."""

from __future__ import annotations

import math

from ..cutting.builds import FrameJoint, RimLoss
from ..cutting.mending import Mended
from ..offcuts.plan import OffcutPlan
from ..panel import Defect, Face, Kind, Mend, Panel, Spoils
from ..panel.materials import lifters
from ..units import Tape
from .say import Passage, Say, capital, counted, listed, passage, people, table

TWIST = 3.0  # what winding sticks may show at the ends of a panel, mm (common practice)

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
    was = panel.was.value if panel.was else "not known"
    finish = listed(coat.value for coat in panel.finish) or "not known"
    year = f"from {panel.year}" if panel.year else "age not known"
    defects = table(
        panel.defects,
        {
            "Defect": "{name}",
            "Face": lambda defect: _face(defect, tape),
            "Spoils": spoils_words,
            "Keep clear by": "{clear:measure}",
            "Mend": lambda defect: "–" if defect.mend is None else defect.mend.value,
        },
        "Find each of these on the panel. A defect that is not here is not in the plan.",
        tape,
    )
    return passage(
        "See it, ask for its history",
        f"{capital(made_of(panel))}, about {tape.mass(panel.mass)}: {lift}. Its past: {was}; on "
        f"it: {finish}; {year}.",
        "Answer the cautions of the first page first; stop where one is not answered.",
        panel.build.kind is Kind.SOLID
        and "Moisture at most 12 % in three places, else let it wait.",
        tables=[defects],
    )


def _face(defect: Defect, tape: Tape) -> str:
    if defect.face is Face.THROUGH:
        return "through"
    face = "show face" if defect.face is Face.UP else "under face"
    if defect.depth is None:
        return face
    told = tape.small if defect.depth < tape.division else tape.measure
    return f"{face}, {told(defect.depth)} deep"


def flatness_words(panel: Panel, tape: Tape, *, later: bool) -> Passage:
    """Return how flat it must be; a slab is flattened `later`, once it is short enough."""
    found, sticks = tape.figure(panel.thickness), "Winding sticks at both ends"
    if panel.flattened is not None and not later:
        return passage(
            "Skim both faces flat",
            f"{sticks}; then skim both faces flat and true. All that follows counts on it.",
            figures=((found, "as found"), (tape.figure(panel.flattened), "when flat")),
        )
    told = f"{sticks}: more than that is taken out when it is flattened."
    if panel.flattened is None:
        told = (
            f"{sticks}; the hump goes up. Where flattening leaves less than {found}, write what is "
            "left under flattened in the job and print anew."
        )
    return passage("Try it for twist", told, figures=((tape.figure(TWIST), "of twist, at most"),))


_MENDED = {
    Mend.PLUG: "bore clean to {length:figure}, {depth:figure} deep{behind}; glue in a {face}plug "
    "of the same diameter{grain}",
    Mend.KEY: "{keys} {length:figure} long, {width:figure} wide and {depth:figure} deep, their "
    "grain across it, where drawn; fill what is left of the split, glue",
    Mend.PATCH: "a patch {length:figure} by {width:figure}, {depth:figure} deep{grain}: knife "
    "round it, rout inside the knife line, glue",
    Mend.FILLER: "clean it down to sound wood; press in two-part filler of the colour of the "
    "finished wood {depth:figure} deep {layers}",
    Mend.RESIN: "clean it, seal its sides with a thin coat; {dam}; pour resin {depth:figure} deep "
    "{layers} or as its maker says; prick the bubbles",
    Mend.SAND: "sand {depth:small} off{along} and fade it out over a patch {length:figure} by "
    "{width:figure}, so that no hollow is felt",
}


def mend_words(mend: Mended, say: Say) -> Passage:
    """Return how a defect is mended."""
    words, layers = _MENDED[mend.how], "at once"
    if mend.layers > 1:
        layers = f"in {mend.layers} layers, each hard before the next"
    if mend.proud:
        words += "; leave it {proud:figure} proud, {wait:g} h, then level"
    told = say.tape.fill(
        words,
        mend,
        behind=" (right through, a board clamped behind)" if mend.through else "",
        face="face-grain " if mend.grained else "",
        grain=", its grain along the panel's" if mend.grained else "",
        along=", along the grain," if mend.grained else "",
        keys=counted(len(mend.places), "bow-tie key"),
        dam="tape and a board under it, as it goes right through" if mend.through else "level it",
        layers=layers,
    )
    return passage(f"Mend {mend.defect}", told)


def rim_words(loss: RimLoss, say: Say) -> Passage:
    """Return what is done where the line leaves the rim of a hollow door."""
    where = f"in {counted(len(loss.stretches), 'place')}"
    where = "all the way round" if loss.is_all_round else where
    return passage(
        "Hollow core",
        f"the line leaves the solid rim {where}, {say.tape.figure(loss.length)} in all (drawn "
        "thick): after the cut rake the core back, glue a new strip between the skins all along "
        "there, 24 h, then go to the line",
    )


def joint_words(joint: FrameJoint, _: Say) -> Passage:
    """Return what is done where cuts run through a joint of a frame."""
    verb = "run" if len(joint.cuts) > 1 else "runs"
    return passage(
        f"Frame joint, {joint.name}",
        f"{listed(joint.cuts) or 'the curve'} {verb} through the joint at the {joint.name}, show "
        "face up: it may fall apart or hold a nail or dowel; cramp it, sweep for metal, and glue "
        "it anew",
    )


UNKNOWN_FRAME = passage(
    "Frame joints",
    "The widths of stiles and rails are not known: find the joints and keep cuts off them.",
)

_ALIKE = 0.005  # a rectangle that is proved the largest within this share is called so


def offcuts_words(plan: OffcutPlan, tape: Tape) -> Passage:
    """Return each kept piece with what it makes, the crumbs in a line, and the balance of areas."""
    kept = [offcut for offcut in plan.pieces if offcut.kept]
    rest = [offcut for offcut in plan.pieces if not offcut.kept]
    clean = [(offcut.most, offcut.clean) for offcut in kept if offcut.clean is not None]
    more = max((most / found.area - 1 for most, found in clean), default=0.0)
    promise = f"The largest found; of what is kept none is more than {math.ceil(100 * more)} % "
    pieces = table(
        kept,
        {
            "Offcut": "{number}",
            "Falls at": lambda o: o.freed_by or (f"cut {o.cut}" if o.cut else "loose"),
            "Area": "{area:area}",
            f"Largest clean rectangle, {tape.unit}": lambda o: tape.fill(
                "{length:figure} × {width:figure}" if o.clean else "none", o.clean
            ),
            "Makes": lambda o: listed(m.value for m in o.makes) or "a board of that size",
        },
        f"{promise}larger: proved."
        if more > _ALIKE
        else "Of what is kept no clean rectangle is larger: proved.",
        tape,
    )
    return passage(
        "Offcuts",
        bool(rest)
        and f"{counted(len(rest), 'crumb')}, {tape.area(sum(o.area for o in rest))} in all",
        tape.fill(
            "Panel {panel:area} = top {top:area} + trimmed off {trimming:area} + kerf {kerf:area} "
            "+ offcuts {offcuts:area} + cut-outs {cut_outs:area}.",
            plan.balance,
        ),
        "Never burn painted or treated wood, or board.",
        tables=[pieces],
    )
