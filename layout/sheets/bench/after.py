"""After cutting: legs, what is left over, finishing."""

from __future__ import annotations

from collections.abc import Iterator

from ...job.plan import Plan
from ...words.edge import done_words, edging_words, finish_words, profile_words
from ...words.offcuts import offcuts_words
from ..steps.after import offcuts_scene
from ..steps.sections import profile_scene
from .legs import legs
from .rows import BenchStep, Section


def after(plan: Plan) -> Section:
    """Return the steps after cutting."""
    steps = [*_edge(plan), BenchStep.of(finish_words(plan.finish, plan.job.tape))]
    left = offcuts_words(plan.offcuts, plan.job.tape)
    steps += [
        *legs(plan),
        BenchStep.of(done_words(stands=plan.legs is not None)),
        BenchStep.of(left, offcuts_scene(plan)),
    ]
    return Section("Edge, finish, legs, offcuts", tuple(steps))


def _edge(plan: Plan) -> Iterator[BenchStep]:
    """Yield what the raw edge of board is covered with, then the profile."""
    tape, edging = plan.job.tape, plan.cuts.edging
    if edging is not None and not edging.thickness:
        yield BenchStep.of(edging_words(edging, tape))
    for i, told in enumerate(profile_words(plan.profile, tape)):
        yield BenchStep.of(told, profile_scene(plan, plan.profile) if i == 0 else None)
