"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

from collections.abc import Iterator

from ...job.plan import Plan
from ..steps.after import offcuts_scene
from ..steps.sections import profile_scene
from .legs import legs
from .rows import BenchStep, Section, Table, sentence


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [*_edge(plan)]
    steps += [*legs(plan)]
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
                plan.cuts.kerfs[offcut.cut - 1].label if offcut.cut else "loose",
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
