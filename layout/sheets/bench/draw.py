"""How the curve is drawn: the way to use, step by step, and the others with why not."""

from __future__ import annotations

from functools import partial

from ...cutting import RouterCut
from ...job.plan import Plan
from ...marking.marks import MarkSet
from ...words.ways import STRAIGHT_SIDES, drawn_words, others_words
from ..steps.methods import method_scene, pivot_name
from .rows import BenchStep, say_of


def drawn(plan: Plan, held: MarkSet) -> list[BenchStep]:
    """Return the step that draws the curve; only its straight sides for a rectangle."""
    if not plan.methods:
        return [BenchStep.of(STRAIGHT_SIDES)]
    tape, best = plan.job.tape, plan.methods[0]
    same = [m for m in plan.methods if m.name == best.name and m.serves == best.serves]
    routed = any(isinstance(cut, RouterCut) and cut.radii for cut in plan.cuts.curve_cuts)
    told = drawn_words(
        same,
        held,
        say_of(plan),
        partial(pivot_name, plan),
        lipping=plan.top.lipping,
        turned_over=routed and len({feed.show_face_up for feed in plan.cuts.feeds}) > 1,
    )
    steps = [BenchStep.of(told, method_scene(plan, same))]
    others = [m for m in plan.methods if m.name != best.name]
    if others:
        steps.append(BenchStep.of(others_words(others, tape)))
    return steps
