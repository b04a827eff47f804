"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

from collections.abc import Iterator

from ...drawing.scene import Scene
from ...job.plan import Plan
from ...words.edge import edging_words, finish_words, profile_words
from ...words.passage import Passage
from ..steps.after import offcuts_scene
from ..steps.sections import profile_scene
from .legs import legs
from .rows import BenchStep, Section, Table


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [*_edge(plan), _step(finish_words(plan.finish, plan.job.tape))]
    steps += [*legs(plan), _recorded(plan), _offcuts(plan)]
    return Section("Edge, finish, legs, offcuts", tuple(steps))


def _edge(plan: Plan) -> Iterator[BenchStep]:
    """Yield what the raw edge of board is covered with, then the profile."""
    tape, edging = plan.job.tape, plan.cuts.edging
    if edging is not None and not edging.thickness:
        yield _step(edging_words(edging, tape))
    for i, told in enumerate(profile_words(plan.profile, tape)):
        yield _step(told, profile_scene(plan, plan.profile) if i == 0 else None)


def _step(told: Passage, drawing: Scene | None = None) -> BenchStep:
    return BenchStep(told.title, told.words, warnings=told.warnings, drawing=drawing)


def _recorded(plan: Plan) -> BenchStep:
    stands = "" if plan.legs is None else "Level it, felt or adjusters under the feet. "
    return BenchStep("Done", (f"{stands}Photograph it, weigh it.",))


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
