"""The cuts in order, with where each line meets the panel and where the guide goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import singledispatch

from ...cutting import (
    Act,
    CornerCuts,
    Edging,
    Flatten,
    FrameJoint,
    HandCut,
    JigsawCut,
    KeptEdge,
    KnifeLines,
    Mended,
    Rest,
    RimLoss,
    RouterCut,
    SkippedTrim,
    Trim,
    TrimKind,
)
from ...drawing.scene import Scene
from ...job.plan import Plan
from ...panel.datum import Datum
from ...words.cuts import concern_words, words_of
from ...work.blades import BladeMatter
from ..steps import curves, sections, setting_out, straight
from .rows import BenchStep, Section, say_of


def read_first(plan: Plan) -> Section | None:
    """Return what stands against the plan before anything is marked; None where nothing does."""
    say = say_of(plan)
    crossed = [c for c in plan.blades if c.matter is BladeMatter.CROSSES]
    steps = []
    if crossed:
        words = "Do not cut before this is answered: no blade, bit or screw may meet it."
        told = tuple(concern_words(concern, say) for concern in crossed)
        steps.append(BenchStep("Stop: take out first", (words,), warnings=told))
    if plan.cuts.concerns:
        told = tuple(concern_words(concern, say) for concern in plan.cuts.concerns)
        steps.append(BenchStep("Sides that no saw takes", told))
    return Section("Read first", tuple(steps)) if steps else None


def first_cuts(plan: Plan) -> Section | None:
    """Return what is done to a slab before it is marked again; None where it is no slab."""
    acts = _split(plan)[0]
    if not acts:
        return None
    steps = (_step(plan, act, plan.datum) for act in acts)
    return Section("Cut short, flatten, rest", tuple(steps))


def cuts(plan: Plan) -> Section:
    """Return the steps of cutting, of a slab those after it is marked again."""
    again = plan.cuts.again
    datum = plan.datum if again is None else again.datum
    steps = (_step(plan, act, datum) for act in _split(plan)[1])
    return Section("Cuts, in this order", tuple(steps))


def _split(plan: Plan) -> tuple[Sequence[Act], Sequence[Act]]:
    acts = plan.cuts.acts
    rest = next((i for i, act in enumerate(acts, start=1) if isinstance(act, Rest)), 0)
    return acts[:rest], acts[rest:]


def _step(plan: Plan, act: Act, datum: Datum) -> BenchStep:
    say = say_of(plan, datum)
    step = BenchStep.of(words_of(act, say), picture_of(act, plan))
    labels = [getattr(held, "label", None) for held in _parts(act)]
    met = [c for c in plan.blades if c.who[0] in labels]
    return replace(step, warnings=(*(concern_words(c, say) for c in met), *step.warnings))


def _parts(act: Act) -> Sequence[object]:
    return act.cuts if isinstance(act, CornerCuts) else (act,)


@singledispatch
def picture_of(act: object, plan: Plan) -> Scene | None:
    """Return the drawing of an act; None where it has none."""
    return None


@picture_of.register
def _(act: Trim, plan: Plan) -> Scene:
    return straight.trim_scene(plan, act)


@picture_of.register
def _(act: Mended, plan: Plan) -> Scene:
    return straight.mend_scene(plan, act)


@picture_of.register
def _(act: SkippedTrim, plan: Plan) -> Scene:
    return straight.skipped_scene(plan, act)


@picture_of.register
def _(act: KeptEdge, plan: Plan) -> Scene:
    return straight.kept_scene(plan, act)


@picture_of.register
def _(act: FrameJoint, plan: Plan) -> Scene:
    return straight.joint_scene(plan, act)


@picture_of.register
def _(act: KnifeLines, plan: Plan) -> Scene | None:
    trims = (trim for trim in plan.cuts.trims if trim.kind is not TrimKind.ROUGH)
    sawn = [*trims, *plan.cuts.corner_cuts]
    return straight.saw_lines_scene(plan, sawn) if sawn else None


@picture_of.register
def _(act: CornerCuts, plan: Plan) -> Scene:
    return curves.corners_scene(plan, act.cuts)


@picture_of.register
def _(act: JigsawCut, plan: Plan) -> Scene:
    return curves.jigsaw_scene(plan, act)


@picture_of.register(RouterCut)
@picture_of.register(HandCut)
def _(act: RouterCut | HandCut, plan: Plan) -> Scene:
    return curves.line_scene(plan, act)


@picture_of.register
def _(act: RimLoss, plan: Plan) -> Scene:
    return curves.rim_scene(plan, act)


@picture_of.register
def _(act: Edging, plan: Plan) -> Scene:
    return sections.lipping_scene(plan, act)


@picture_of.register
def _(act: Flatten, plan: Plan) -> Scene:
    return sections.flatten_scene(plan)


@picture_of.register
def _(act: Rest, plan: Plan) -> Scene | None:
    return setting_out.marked_again_scene(plan)
