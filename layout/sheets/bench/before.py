"""Before any mark: assess, metal, flatness, datum."""

from __future__ import annotations

from ...job.plan import Plan
from ...words.panel import METAL, assess_words, flatness_words
from ..steps.setting_out import datum_scene, faults_scene
from .rows import BenchStep, Section
from .square import is_square


def before(plan: Plan) -> Section:
    """Return the steps before the first mark."""
    steps = (_assess(plan), BenchStep.of(METAL), _flatness(plan), _datum(plan), is_square(plan))
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
    datum, tape = plan.datum, plan.job.tape
    words = [f"All square measures are taken from {datum.name}: {datum.why}."]
    corners = {corner.name for corner in datum.corners}
    for reference in datum.references:
        if reference.name not in corners:
            how = reference.how.format(distance=tape.measure(reference.distance))
            words.append(f"{reference.name}: {how}.")
    bad = [f"{corner.name} ({corner.why})" for corner in datum.corners if not corner.usable]
    if bad:
        words.append(f"No tape is held to corner {', '.join(bad)}.")
    if datum.struck:
        words.append(
            f"Stretch a string from {datum.first.name} to {datum.last.name} "
            f"({tape.measure(datum.length)} apart), chalk it, then knife it along a straightedge."
        )
    else:
        words.append(
            f"Hold a string along {datum.name}: no gap above {tape.measure(1.0)}, "
            "else plane it true."
        )
    words.append(
        "Chalk the letters on both faces. Turned over, every figure stays the same; "
        "only left and right swap."
    )
    return BenchStep(f"Datum {datum.name}", tuple(words), drawing=datum_scene(plan))
