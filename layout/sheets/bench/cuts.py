"""The cuts in order, with where each line meets the panel and where the guide goes."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial

from ...cutting.builds import FrameJoint, RimLoss, UnknownFrame
from ...cutting.cut import Trim, TrimKind
from ...cutting.edging import Edging
from ...cutting.mending import Mended
from ...cutting.plan import Act
from ...drawing.scene import Scene
from ...geometry.point import Point
from ...job.plan import Plan
from ...marking.step import Step
from ...units import nearest_whole
from ...words.edge import lipping_words
from ...words.mends import UNKNOWN_FRAME, joint_words, mend_words, rim_words
from ...words.passage import Passage
from ..steps import curves, sections, setting_out, straight
from .marks import place_words
from .rows import BenchStep, Section, Table, sentence


def first_cuts(plan: Plan) -> Section | None:
    """Return what is done to a slab before it is marked again; None where it is no slab."""
    steps = _split(plan)[0]
    if not steps:
        return None
    return Section("Cut short, flatten, rest", tuple(_step(plan, step) for step in steps))


def cuts(plan: Plan) -> Section:
    """Return the steps of cutting, of a slab those after it is marked again."""
    steps = _split(plan)[1]
    return Section("Cuts, in this order", tuple(_step(plan, step) for step in steps))


def _split(plan: Plan) -> tuple[tuple[Act, ...], tuple[Act, ...]]:
    steps = plan.cuts.steps
    about = (step.about if isinstance(step, Step) else "" for step in steps)
    rest = next((i for i, name in enumerate(about, start=1) if name == "rest"), 0)
    return steps[:rest], steps[rest:]


def _step(plan: Plan, step: Act) -> BenchStep:
    if not isinstance(step, Step):
        return BenchStep.of(*_told(plan, step))
    trim = next((t for t in plan.cuts.trims if t.label == step.about), None)
    table = None if trim is None else _trim_table(plan, trim)
    text = sentence(step.text(plan.job.tape))
    return BenchStep(step.title, (text,), table, drawing=_drawing(plan, step, trim))


def _told(
    plan: Plan, act: Mended | FrameJoint | UnknownFrame | RimLoss | Edging
) -> tuple[Passage, Scene | None]:
    """Return an act in words, and its drawing."""
    if isinstance(act, Mended):
        return mend_words(act, plan.job.tape), straight.mend_scene(plan, act)
    if isinstance(act, FrameJoint):
        return joint_words(act), straight.joint_scene(plan, act)
    if isinstance(act, RimLoss):
        return rim_words(act, plan.job.tape), curves.rim_scene(plan, act)
    if isinstance(act, Edging):
        return lipping_words(act, plan.job.tape), sections.lipping_scene(plan, act)
    return UNKNOWN_FRAME, None


def _drawing(plan: Plan, step: Step, trim: Trim | None) -> Scene | None:
    """Return the drawing of a step by what it is about."""
    if trim is not None:
        return straight.trim_scene(plan, trim)
    for about, compose in _several(plan):
        if step.about == about:
            return compose()
    one = _OTHERS.get(step.about)
    return None if one is None else one(plan)


def _several(plan: Plan) -> Iterator[tuple[str, Callable[[], Scene]]]:
    """Yield what steps may be about of which a plan has several, and what draws each."""
    held = plan.cuts
    for number, side in enumerate(held.skipped, start=1):
        yield f"skipped {number}", partial(straight.skipped_scene, plan, side)
    for number, kept in enumerate(held.kept, start=1):
        yield f"kept {number}", partial(straight.kept_scene, plan, kept)
    for cut in held.curve_cuts:
        scene = curves.jigsaw_scene if cut.tool == "jigsaw" else curves.router_scene
        yield cut.tool, partial(scene, plan, cut)


def _scored(plan: Plan) -> Scene | None:
    sawn = [trim for trim in plan.cuts.trims if trim.kind is not TrimKind.ROUGH]
    return straight.saw_lines_scene(plan, sawn) if sawn else None


_OTHERS: dict[str, Callable[[Plan], Scene | None]] = {
    "flatten": sections.flatten_scene,
    "rest": setting_out.marked_again_scene,
    "score": _scored,
    "facets": curves.facets_scene,
}
"""Drawings of steps that a plan has once at most."""


def _trim_table(plan: Plan, trim: Trim) -> Table:
    again = plan.cuts.again
    datum = plan.datum if trim.kind is TrimKind.ROUGH or again is None else again.datum
    ends = (trim.start, trim.end)
    rows = [("Saw line", *(place_words(plan, datum, end) for end in ends))]
    if trim.guide is not None:
        ends = (trim.guide.start, trim.guide.end)
        rows.append(("Guide", *(place_words(plan, datum, end) for end in ends)))
    tape, mirrored = plan.job.tape, plan.cuts.face.mirrored
    seen = "MIRRORED, as drawn" if mirrored else "show face up, as drawn"
    caption = (
        f"Waste on the {_side(trim.waste, mirrored)} side ({seen}). Kerf "
        f"{tape.exact(trim.kerf, 1)} {tape.unit}, taken from the waste. Hold up both sides of the "
        "cut."
    )
    return Table(("", "From this place on the edge", "to this one"), tuple(rows), caption)


def _side(waste: Point, mirrored: bool) -> str:
    """Return the side of the panel, as drawn, to which a direction points."""
    across = -waste.x if mirrored else waste.x
    quarter = nearest_whole(math.atan2(waste.y, across) / (math.pi / 2)) % 4
    return ("right", "upper", "left", "lower")[quarter]
