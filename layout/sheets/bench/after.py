"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

from collections.abc import Iterator

from ...drawing.scene import Scene
from ...job.plan import Plan
from ...words.edge import edging_words, finish_words, profile_words
from ...words.offcuts import offcuts_words
from ...words.passage import Passage
from ..steps.after import offcuts_scene
from ..steps.sections import profile_scene
from .legs import legs
from .rows import BenchStep, Section


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [*_edge(plan), _step(finish_words(plan.finish, plan.job.tape))]
    left = offcuts_words(plan.offcuts, plan.job.tape)
    steps += [*legs(plan), _recorded(plan), _step(left, offcuts_scene(plan))]
    return Section("Edge, finish, legs, offcuts", tuple(steps))


def _edge(plan: Plan) -> Iterator[BenchStep]:
    """Yield what the raw edge of board is covered with, then the profile."""
    tape, edging = plan.job.tape, plan.cuts.edging
    if edging is not None and not edging.thickness:
        yield _step(edging_words(edging, tape))
    for i, told in enumerate(profile_words(plan.profile, tape)):
        yield _step(told, profile_scene(plan, plan.profile) if i == 0 else None)


def _step(told: Passage, drawing: Scene | None = None) -> BenchStep:
    table = next(iter(told.tables), None)
    return BenchStep(told.title, told.words, table, told.warnings, drawing=drawing)


def _recorded(plan: Plan) -> BenchStep:
    stands = "" if plan.legs is None else "Level it, felt or adjusters under the feet. "
    return BenchStep("Done", (f"{stands}Photograph it, weigh it.",))
