"""The first page in words: what is pinned over the bench and read from an arm's length."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..cutting.cut import HandCut, JigsawCut, RouterCut
from ..geometry import Region
from ..marking.mark import Check, Kind, Mark, Proves
from ..marking.marks import MarkSet
from ..marking.method import HandTool
from ..outlines import Outline
from ..panel.defect_kinds import Spoils
from ..plan.plan import Plan
from ..units import Tape
from .datum import DIAGONAL
from .first_tables import shown_marks
from .legs import in_quarters
from .lying import Lying
from .panel import made_of
from .say import listed, thin_words, unit_words

CHECKS = 5
"""Distances that are told on the first page."""


@dataclass(frozen=True, slots=True)
class Head:
    """What the page is headed with."""

    name: str
    came: tuple[str, ...]
    size: str
    note: str


def head_words(plan: Plan) -> Head:
    """Return name, origin and size."""
    job, tape = plan.job, plan.job.tape
    panel, box = job.panel, job.panel.boundary.bounds
    most = max(box.width, box.height), min(box.width, box.height)
    sizes = " × ".join(tape.figure(size) for size in (*most, panel.thickness))
    came = [f"from the {panel.name}: {made_of(panel)}, {sizes}"]
    if panel.flattened is not None:
        when = "on the way" if plan.cuts.again else "before any mark"
        came.append(f"flattened to {tape.figure(panel.flattened)} {when}")
    outline = plan.top.outline
    parts = [_shape(outline, tape), f"{tape.figure(panel.made_thickness)} thick"]
    if plan.top.lipping:
        lipping = thin_words(plan.top.lipping, tape).removesuffix(f" {tape.unit}")
        parts.insert(1, f"lipping of {lipping} included")
    parts.append(f"all figures in {unit_words(tape)}")
    size = f"{tape.figure(outline.length)} × {tape.figure(outline.width)}"
    if outline.is_round:
        size = f"ø {tape.figure(outline.length)}"
    elif "across_flats" in outline.figures:
        size = tape.figure(outline.figures["across_flats"])
    return Head(job.name, tuple(came), size, " · ".join(p for p in parts if p))


def _shape(outline: Outline, tape: Tape) -> str:
    if outline.swung and outline.is_boxed:
        radii = dict.fromkeys(tape.figure(radius) for radius, _ in outline.swung)
        what = "round end," if len(outline.arc_centres) == 1 else "corners"
        return f"{what} R {listed(radii)}"
    if outline.swung and not outline.is_round:
        return f"round ends, R {tape.figure(outline.width / 2)}"
    if "across_flats" in outline.figures:
        return f"{outline.name}, across the flats"
    return outline.name


def face_words(plan: Plan, lying: Lying) -> tuple[str, str]:
    """Return which face is up, in capitals, and at which hand the tapes begin."""
    first = plan.datum.first.name
    what = f"Corner {first}" if len(first) == 1 and first not in "PQ" else first
    up, face = ("DOWN", "underside") if lying.mirrored else ("UP", "show face")
    return f"SHOW FACE {up}", f"You look at the {face}. {what} lies at your {lying.hand}."


def lies_words(lying: Lying) -> str:
    """Return the same in short, for the head of a part of the work."""
    up = "DOWN" if lying.mirrored else "UP"
    return f"show face {up}, {lying.datum.first.name} at your {lying.hand}"


def drawn_marks(plan: Plan, held: MarkSet) -> tuple[Mark, ...]:
    """Return the marks that stand on the drawing: those, and the few that a check names."""
    shown = shown_marks(plan, held)
    checked = {name for check in held.checks for name in (check.start, check.end)}
    few = [m for m in held.marks if m.kind is Kind.TANGENT]
    extra = few if len(few) <= 4 else []
    if len(shown) == 1:
        extra += [m for m in held.marks if m.kind in (Kind.END, Kind.SIDE) and m.label in checked]
    return tuple(m for m in held.marks if m in shown or m in extra)


def checks_words(plan: Plan, held: MarkSet) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return at most five distances, diagonals first, and what to do where one is out."""
    seen = {mark.label for mark in drawn_marks(plan, held)}
    fit = [
        check
        for check in held.checks
        if check.proves is Proves.PANEL or {check.start, check.end} <= seen
    ]
    rows: dict[tuple[Proves, str], list[Check]] = {}
    for check in fit:
        rows.setdefault((check.proves, plan.job.tape.figure(check.distance)), []).append(check)
    told = []
    for (_, figure), checks in list(rows.items())[:CHECKS]:
        pairs = [f"{check.start}–{check.end}" for check in checks[:2]]
        more = " …" if len(checks) > len(pairs) else ""
        told.append((" and ".join(pairs) + more, figure))
    slip = "One that is out shows a slip: find it before the first cut."
    if not told:
        slip = "Nothing to measure between: take each figure twice, once from the other end."
    elif any(check.proves is Proves.PANEL for check in fit):
        limit = plan.job.tape.measure(DIAGONAL)
        slip = f"A panel diagonal out by over {limit}: stop, it is not as measured."
    return tuple(told), slip


def legs_words(plan: Plan) -> tuple[tuple[str, str], ...]:
    """Return where the legs stand, by quarters where they stand in pairs: figures and words."""
    legs = plan.legs
    if legs is None:
        return ()
    tape, foot, over = plan.job.tape, legs.foot, legs.overhang
    quarters = in_quarters(plan, legs)
    numbered = "numbered in the drawing; their places stand in the step"
    sides = dict.fromkeys(tape.figure(size) for size in (foot.length, foot.width))
    thick = " × ".join(sides) if len(sides) > 1 else f"{min(sides)} thick"
    legged = f"{len(legs.legs)} {foot.shape.value} legs"
    return (
        (quarters, "from O to each middle" if quarters else numbered),
        ("", f"{legged}, {thick}, {tape.figure(legs.leg_length)} long"),
        ("", f"beyond them: end {tape.figure(over.end)}, side {tape.figure(over.side)}"),
    )


def ready_words(plan: Plan) -> tuple[str, ...]:
    """Return what this job needs at hand."""
    tape, cuts = plan.job.tape, plan.cuts
    longest = max((trim.straightedge for trim in cuts.trims), default=0.0)
    step = 25.4 if tape.imperial else 100.0
    straight = f"straightedge of {tape.measure(math.ceil(longest / step) * step)}"
    drawn = plan.methods[0].tools if plan.methods else ()
    return (
        "tape",
        *([straight] if longest else []),
        "large square",
        *(t.value.partition(" or ")[0] for t in drawn if t not in (HandTool.TAPE, HandTool.PAPER)),
        "metal detector",
        *(["saw"] if cuts.trims else []),
        *(_CURVE_TOOLS[type(cut)] for cut in cuts.curve_cuts),
        "cramps",
        "four trestles and two long boards",
        "knife, chalk",
        "ear, eye and dust protection",
    )


_CURVE_TOOLS = {
    JigsawCut: "jigsaw, fine blade",
    RouterCut: "router",
    HandCut: "plane, spokeshave, file",
}


def foot_words(tape: Tape) -> str:
    """Return what the figures are rounded to, and where the rest is."""
    step = "1/16" if tape.imperial else "mm"
    return (
        f"Figures to the nearest {step}, saw lines off the top. Letters stand on both faces. "
        "The work step by step: from page 2."
    )


FEW = 8
"""So many defects are all lettered."""

NEAR = 50.0
"""Of more, those are that lie so near to the finished edge, mm, and those that no blade may
cross (our choice)."""

MOST = 14
"""Letters that a page can hold."""

LONGEST = 24
"""Signs of a name in the key; longer ones are cut at a word."""


def letters_of(plan: Plan) -> dict[str, str]:
    """Return the letter of each defect that has one, by its name."""
    defects = plan.job.panel.defects
    if len(defects) > FEW:
        line = Region.line(plan.cuts.finish.points(1.0))
        near = [
            defect
            for defect in defects
            if Spoils.CUTTING in defect.spoils or Region.of(defect.place).distance_to(line) <= NEAR
        ]
        defects = tuple(near[:MOST])
    return {defect.name: chr(ord("a") + i) for i, defect in enumerate(defects)}


def key_of(plan: Plan) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return the key: letters with names, and what is drawn without a letter."""
    letters = letters_of(plan)
    more = len(plan.job.panel.defects) - len(letters)
    rest = [f"and {more} more, listed where the panel is looked at"] if more else []
    rest += ["white field: cut-out"] if plan.job.panel.cut_outs else []
    return tuple((letter, _short(name)) for name, letter in letters.items()), " · ".join(rest)


def _short(name: str) -> str:
    if len(name) <= LONGEST:
        return name
    return f"{name[: LONGEST - 1].rsplit(' ', 1)[0]} …"
