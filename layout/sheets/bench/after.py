"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...job.plan import Plan
from ...legs.plan import LegsPlan
from ..steps.after import legs_scene, offcuts_scene
from ..steps.sections import profile_scene
from .rows import BenchStep, Section, Table, sentence, unit_words


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [*_edge(plan)]
    if plan.legs is not None:
        steps += [_legs(plan, plan.legs), _standing(plan, plan.legs)]
    steps += [_finish(plan), _offcuts(plan)]
    return Section("Edge, legs, finish, offcuts", tuple(steps))


def _edge(plan: Plan) -> Iterator[BenchStep]:
    """Yield what the raw edge of board is covered with, then the profile."""
    tape, edging, profile = plan.job.tape, plan.cuts.edging, plan.profile
    if edging is not None and not edging.thickness:
        kept = f" ({tape.measure(edging.kept)} of kept edge is left out)" if edging.kept else ""
        bend = ""
        if edging.tightest is not None:
            bend = f" It bends to a radius of {tape.measure(edging.tightest)}: warm it there."
        yield BenchStep(
            "Edging",
            (
                f"The raw edge of board drinks and swells: edge it, {tape.measure(edging.around)} "
                f"round{kept}, cut {tape.measure(edging.cut_length)}, "
                f"{tape.measure(edging.strip_width)} wide; joints where they show least; trim it, "
                f"file down, never up.{bend}",
            ),
        )
    crowded = tuple(
        f"Leg {number} stands nearer to the edge than that: move it inwards."
        for number in profile.crowded
    )
    for i, step in enumerate(profile.steps):
        yield BenchStep(
            step.title,
            (sentence(step.text(tape)),),
            warnings=crowded if step.title.startswith("Bevel") else (),
            drawing=profile_scene(plan, profile) if i == 0 else None,
        )


def _legs(plan: Plan, legs: LegsPlan) -> BenchStep:
    tape = plan.job.tape
    rows = tuple(
        (
            f"{leg.number}",
            tape.figure(leg.middle.x),
            tape.figure(leg.middle.y),
            tape.figure(leg.overhang),
        )
        for leg in legs.legs
    )
    headings = (
        "Leg",
        "From O along the long centreline",
        "From O across it",
        "To the edge of the top",
    )
    over = legs.overhang
    words = (
        f"Set out on the underside (MIRRORED: left and right swap). Overhang beyond the feet: "
        f"side {tape.measure(over.side)}, end {tape.measure(over.end)}, corner "
        f"{tape.measure(over.corner)}.",
        f"{len(legs.legs)} legs {tape.measure(legs.height)} long, about "
        f"{tape.mass(legs.leg_mass)} each.",
    )
    caption = (
        f"Middles of the feet, in {unit_words(tape)}, show face up: minus is towards E1, and "
        "towards S1."
    )
    return BenchStep("Legs", words, Table(headings, rows, caption), drawing=legs_scene(plan, legs))


def _standing(plan: Plan, legs: LegsPlan) -> BenchStep:
    tape, least = plan.job.tape, legs.tipping.least
    words = [f"Table about {tape.mass(legs.mass)}: top {tape.mass(legs.top_mass)}."]
    if math.isfinite(least.force):
        words.append(
            f"By estimate it begins to tip at about {tape.force(least.force)}, pressed down "
            f"{tape.measure(legs.tipping.edge)} inside the edge at its least firm place; "
            f"at an end {_force(plan, legs.tipping.end)}, at a side "
            f"{_force(plan, legs.tipping.side)}. The job asks for {tape.force(legs.load)}."
        )
    else:
        words.append("No weight set down near its edge tips it: the feet stand outside.")
    words.append("An estimate from geometry and usual densities, not a test. Try it before use.")
    return BenchStep(
        "Does it stand?", tuple(words), warnings=tuple(p.words(tape) for p in legs.problems)
    )


def _force(plan: Plan, force: float) -> str:
    return plan.job.tape.force(force) if math.isfinite(force) else "none does"


def _finish(plan: Plan) -> BenchStep:
    tape, top = plan.job.tape, plan.top.outline
    coat = 2 * top.area + top.perimeter * plan.job.panel.made_thickness
    return BenchStep(
        "Finish",
        (
            f"Both faces and the edge alike, or it cups: {tape.area(coat)} a coat.",
            "Level it, felt or adjusters under the feet, photograph it, weigh it.",
        ),
    )


def _offcuts(plan: Plan) -> BenchStep:
    tape, balance = plan.job.tape, plan.offcuts.balance
    rows = []
    for offcut in plan.offcuts.pieces:
        clean = "none"
        if offcut.clean is not None:
            clean = f"{tape.figure(offcut.clean.length)} × {tape.figure(offcut.clean.width)}"
        rows.append(
            (
                f"{offcut.number}",
                f"cut {offcut.cut}" if offcut.cut else "loose",
                tape.area(offcut.area),
                clean,
                "keep" if offcut.kept else "scrap",
            )
        )
    words = (
        f"Panel {tape.area(balance.panel)} = top {tape.area(balance.top)} + trimmed off "
        f"{tape.area(balance.trimming)} + kerf {tape.area(balance.kerf)} + offcuts "
        f"{tape.area(balance.offcuts)} + cut-outs {tape.area(balance.cut_outs)}.",
        "Never burn painted or treated wood, or board.",
    )
    headings = ("Offcut", "Falls at", "Area", f"Largest clean rectangle, {tape.unit}", "Worth")
    return BenchStep("Offcuts", words, Table(headings, tuple(rows)), drawing=offcuts_scene(plan))
