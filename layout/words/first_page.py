"""The first page in words: what is pinned over the bench and read from an arm's length."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import islice
from string import ascii_lowercase

from ..cutting.cut import HandCut, JigsawCut, RouterCut
from ..geometry import Region
from ..marking.mark import Kind, Mark, Proves
from ..marking.marks import MarkSet
from ..marking.method import HandTool
from ..outlines import Outline
from ..panel.defect_kinds import Spoils
from ..plan.plan import Plan
from ..units import MM_PER_INCH, Tape
from .datum import DIAGONAL
from .first_tables import shown_marks
from .legs import in_quarters
from .panel import made_of
from .saw_lines import Lying, Round
from .say import bare_size, listed, unit_words

_TOOLS = {JigsawCut: "jigsaw, fine blade", RouterCut: "router", HandCut: "plane, spokeshave, file"}
FEW, MOST = 8, 14  # so many defects are all lettered; so many letters a page holds
NEAR = 50.0  # of more, those so near to the finished edge, mm, and those that stop a blade
LONGEST = 24  # signs of a name in the key; longer ones are cut at a word
CHECKS = 5  # distances that are told on the first page


@dataclass(frozen=True, slots=True)
class Head:
    """What the page is headed with."""

    name: str
    came: tuple[str, ...]
    size: str
    note: str


def head_words(plan: Plan) -> Head:
    """Return name, origin and size."""
    tape, panel, outline = plan.job.tape, plan.job.panel, plan.top.outline
    box = panel.boundary.bounds
    sides = (*sorted((box.width, box.height), reverse=True), panel.thickness)
    came = [f"from the {panel.name}: {made_of(panel)}, {' × '.join(map(tape.figure, sides))}"]
    if panel.flattened is not None:
        when = "on the way" if plan.cuts.again else "before any mark"
        came.append(f"flattened to {tape.figure(panel.flattened)} {when}")
    lipping = tape.thin(plan.top.lipping).removesuffix(f" {tape.unit}")
    parts = (
        _shape(outline, tape),
        f"lipping of {lipping} included" if plan.top.lipping else "",
        f"{tape.figure(panel.made_thickness)} thick",
        f"all figures in {unit_words(tape)}",
    )
    size = bare_size(outline, tape.figure)
    return Head(plan.job.name, tuple(came), size, " · ".join(filter(None, parts)))


def _shape(outline: Outline, tape: Tape) -> str:
    if outline.swung and outline.is_boxed:
        radii = dict.fromkeys(tape.figure(radius) for radius, _ in outline.swung)
        what = "round end," if len(outline.arc_centres) == 1 else "corners"
        return f"{what} R {listed(radii)}"
    if outline.swung and not outline.is_round:
        return f"round ends, R {tape.figure(outline.width / 2)}"
    return outline.name + ", across the flats" * ("across_flats" in outline.figures)


def face_words(plan: Plan, lying: Lying) -> tuple[str, str]:
    """Return which face is up, in capitals, and at which hand the tapes begin."""
    first = plan.datum.first.name
    what = f"Corner {first}" if len(first) == 1 and first not in "PQ" else first
    up, face = ("DOWN", "underside") if lying.mirrored else ("UP", "show face")
    return f"SHOW FACE {up}", f"You look at the {face}. {what} lies at your {lying.hand}."


def drawn_marks(plan: Plan, held: MarkSet) -> tuple[Mark, ...]:
    """Return the marks that stand on the drawing: those, and the few that a check names."""
    shown, few = shown_marks(plan, held), held.of(Kind.TANGENT)
    extra = few if len(few) <= 4 else ()
    return tuple(m for m in held.marks if m in shown or m in extra)


def checks_words(plan: Plan, each: Round) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return at most five distances on wood, diagonals first, and what to do where one is out."""
    tape, held = plan.job.tape, each.marks
    assert held is not None
    seen = {mark.label for mark in drawn_marks(plan, held) if mark.off is None}
    of_panel = any(check.proves is Proves.PANEL for check in held.checks)
    rows: dict[tuple[Proves, str], list[str]] = {}
    for check in held.checks:
        if check.proves is Proves.PANEL or {check.start, check.end} <= seen:
            alike = rows.setdefault((check.proves, tape.figure(check.distance)), [])
            alike.append(f"{check.start}–{check.end}")
    told = tuple(
        (" and ".join(pairs[:2]) + " …" * (len(pairs) > 2), figure)
        for (_, figure), pairs in list(rows.items())[:CHECKS]
    )
    slip = f"One that is out shows a slip: find it before {each.before}."
    if not told:
        slip = "Nothing to measure between: take each figure twice, once from the other end."
    elif of_panel:
        most = tape.measure(DIAGONAL)
        slip = f"A panel diagonal out by over {most}: stop, it is not as measured."
    return told, slip


def legs_words(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return where the legs stand, by quarters where they stand in pairs: figures and words."""
    legs = plan.legs
    if legs is None:
        return ()
    tape, foot = plan.job.tape, legs.foot
    quarters = in_quarters(plan, legs)
    numbered = "numbered in the drawing; their places stand in the step"
    sides = dict.fromkeys(tape.figure(size) for size in (foot.length, foot.width))
    thick = " × ".join(sides) if len(sides) > 1 else f"{min(sides)} thick"
    legged = f"{len(legs.legs)} {foot.shape.value} legs, {thick}, {{leg_length:figure}} long"
    over = "beyond them: end {overhang.end:figure}, side {overhang.side:figure}"
    return (
        (quarters, "from O to each middle" if quarters else numbered),
        ("", tape.fill(legged, legs)),
        ("", tape.fill(over, legs)),
    )


def ready_words(plan: Plan) -> tuple[str, ...]:
    """Return what this job needs at hand."""
    tape, cuts = plan.job.tape, plan.cuts
    longest = max((trim.straightedge for trim in cuts.trims), default=0.0)
    step = MM_PER_INCH if tape.imperial else 100.0
    drawn = plan.methods[0].tools if plan.methods else ()
    return (
        "tape",
        *([f"straightedge of {tape.measure(math.ceil(longest / step) * step)}"] * (longest > 0)),
        "large square",
        *(t.value.partition(" or ")[0] for t in drawn if t not in (HandTool.TAPE, HandTool.PAPER)),
        "metal detector",
        *(["saw"] * bool(cuts.trims)),
        *(_TOOLS[type(cut)] for cut in cuts.curve_cuts),
        "cramps",
        "four trestles and two long boards",
        "knife, chalk",
        "ear, eye and dust protection",
    )


def foot_words(tape: Tape) -> str:
    """Return what the figures are rounded to, and where the rest is."""
    return (
        f"Figures to the nearest {'1/16' if tape.imperial else 'mm'}, saw lines off the top. "
        "Letters stand on both faces. The work step by step: from page 2."
    )


def letters_of(plan: Plan) -> dict[str, str]:
    """Return the letter of each defect that has one, by its name."""
    defects = plan.job.panel.defects
    if len(defects) > FEW:
        line = Region.line(plan.cuts.finish.points(1.0))
        near = (
            defect
            for defect in defects
            if Spoils.CUTTING in defect.spoils or Region.of(defect.place).distance_to(line) <= NEAR
        )
        defects = tuple(islice(near, MOST))
    return {defect.name: letter for defect, letter in zip(defects, ascii_lowercase, strict=False)}


def key_of(plan: Plan) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return the key: letters with names, and what is drawn without a letter."""

    def short(name: str) -> str:
        return name if len(name) <= LONGEST else f"{name[: LONGEST - 1].rsplit(' ', 1)[0]} …"

    letters = letters_of(plan)
    more = len(plan.job.panel.defects) - len(letters)
    rest = [f"and {more} more, listed where the panel is looked at"] if more else []
    rest += ["white field: cut-out"] if plan.job.panel.cut_outs else []
    return tuple((letter, short(name)) for name, letter in letters.items()), " · ".join(rest)
