"""Before any mark: assess, metal, flatness, datum."""

from __future__ import annotations

from ...job.plan import Plan
from ...words.datum import datum_words, square_words
from ...words.panel import METAL, assess_words, flatness_words
from ..steps.setting_out import datum_scene, faults_scene, square_scene
from .rows import BenchStep, Section, say_of


def before(plan: Plan) -> Section:
    """Return the steps before the first mark."""
    steps = (_assess(plan), BenchStep.of(METAL), _flatness(plan), _datum(plan), _square(plan))
    return Section("Before any mark", steps)


def _assess(plan: Plan) -> BenchStep:
    panel = plan.job.panel
    slab = panel.flattened is not None and plan.datum.struck and not plan.cuts.kept
    told = assess_words(panel, plan.job.tape, may_keep_edge=slab)
    return BenchStep.of(told, faults_scene(plan))


def _flatness(plan: Plan) -> BenchStep:
    later = plan.cuts.again is not None
    return BenchStep.of(flatness_words(plan.job.panel, plan.job.tape, later=later))


def _datum(plan: Plan) -> BenchStep:
    return BenchStep.of(datum_words(plan.datum, say_of(plan)), datum_scene(plan))


def _square(plan: Plan) -> BenchStep:
    return BenchStep.of(square_words(plan.check, plan.datum, say_of(plan)), square_scene(plan))
