"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

import math

from ...job.plan import Plan
from ...legs.plan import LegsPlan
from .rows import BenchStep, Section, Table


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [_edge(plan)]
    if plan.legs is not None:
        steps += [_legs(plan, plan.legs), _standing(plan, plan.legs)]
    steps += [_finish(plan), _offcuts(plan)]
    return Section("Edge, legs, finish, offcuts", tuple(steps))


def _edge(plan: Plan) -> BenchStep:
    board = plan.job.panel.build.kind.is_board
    words = ["Break the arris all round. Sand to the line, not past it."]
    if board and not plan.top.lipping:
        tape = plan.job.tape
        around = plan.top.outline.perimeter
        words.append(
            f"The raw edge of board wants a lipping or an edging: {tape.measure(around)} round, "
            f"cut {tape.measure(around * 1.1)}."
        )
    return BenchStep("Edge", tuple(words))


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
        f"Middles of the feet, in {tape.unit}, show face up: minus is towards E1, and towards S1."
    )
    return BenchStep("Legs", words, Table(headings, rows, caption))


def _standing(plan: Plan, legs: LegsPlan) -> BenchStep:
    tape, least = plan.job.tape, legs.tipping.least
    words = [f"Table about {tape.mass(legs.mass)}: top {tape.mass(legs.top_mass)}."]
    if math.isfinite(least.force):
        words.append(
            f"By estimate it begins to tip at about {tape.force(least.force)}, pressed down "
            f"{tape.measure(legs.tipping.edge)} in from the edge at its least firm place; "
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
    coat = 2 * top.area + top.perimeter * plan.job.panel.thickness
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
    return BenchStep("Offcuts", words, Table(headings, tuple(rows)))
