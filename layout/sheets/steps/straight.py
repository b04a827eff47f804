"""Drawings of straight cuts: saw line, guide, waste, and what is left of the wood by then."""

from __future__ import annotations

from collections.abc import Sequence

from ...cutting.builds import FrameJoint
from ...cutting.cut import EdgePoint, SkippedTrim, StraightCut, Trim, TrimKind
from ...cutting.kept_edges import KeptEdge
from ...cutting.mending import Mended
from ...cutting.stages import wood_after
from ...drawing import layers
from ...drawing.scene import Scene
from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.tolerance import SAME_FIGURE
from ...job.plan import Plan
from ...words.cuts_told import from_corner, offsets_of
from ...words.say import Say
from .ground import Wood
from .stage import Stage

_PAST = 3.0
"""How far saw lines and guides are drawn past the wood, paper mm."""


def trim_scene(plan: Plan, trim: Trim) -> Scene:
    """Return one straight cut: the wood that is left, its waste hatched, saw line and guide."""
    rough = trim.kind is TrimKind.ROUGH
    wood = Wood.found(plan) if rough else Wood.marked(plan)
    before = plan.cuts.trims[: plan.cuts.trims.index(trim)]
    stage = wood.stage(wood=wood_after(plan.job.panel, before))
    stage.region(layers.WASTE, *trim.fallen)
    stage.path(layers.GHOST, plan.cuts.finish)
    wood.base(stage)
    stage.line(layers.SAW_LINE, trim.start.point, trim.end.point, past=_PAST)
    if trim.guide is not None:
        guide = trim.guide
        stage.line(layers.GUIDE, guide.start.point, guide.end.point, past=_PAST)
    _pushed(stage, trim)
    wood.letters(stage)
    _measured(stage, wood, trim)
    return stage.scene(f"{trim.label}: saw line, guide and waste")


def _pushed(stage: Stage, trim: Trim) -> None:
    """Draw which way the saw is pushed, so that its guide is on the named side of the blade."""
    start, end = (stage.frame.at(p) for p in (trim.spans[0][0], trim.spans[-1][1]))
    off = stage.frame.way(trim.waste) * 2.0
    along = end - start
    stage.arrow(layers.SAW_LINE, (start + along * 0.06 + off, start + along * 0.26 + off))


def _measured(stage: Stage, wood: Wood, trim: Trim) -> None:
    """Draw where lines are found: one measure for a line square to the datum, else two places."""
    say = Say(wood.tape, wood.datum, wood.mirrored)
    lines = [(trim.start, trim.end)]
    lines += [] if trim.guide is None else [(trim.guide.start, trim.guide.end)]
    for start, end in lines:
        along, square = offsets_of(start, trim.waste, say)
        if abs(start.along - end.along) <= SAME_FIGURE:
            wood.along(stage, along)
        elif abs(start.square - end.square) <= SAME_FIGURE:
            wood.square(stage, square)
        else:
            for place in (start, end):
                _placed(stage, place, trim.waste, say, wood)


def _placed(stage: Stage, place: EdgePoint, waste: Point, say: Say, wood: Wood) -> None:
    figure = say.tape.figure
    words = " | ".join(map(figure, offsets_of(place, waste, say)))
    if place.corner:
        words = f"{figure(from_corner(place, waste, say))} from {place.corner}"
    outwards = place.point - wood.boundary.bounds.middle
    stage.label(layers.DIMENSIONS, place.point, words, towards=outwards)


def skipped_scene(plan: Plan, side: SkippedTrim) -> Scene:
    """Return the side along which no saw runs."""
    wood = Wood.marked(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    wood.base(stage)
    wood.letters(stage)
    bounds = plan.cuts.core.placed(_turned_back(side.waste)).bounds
    out = side.waste * bounds.right
    half = side.waste.left * (bounds.height / 2)
    middle = side.waste.left * bounds.middle.y
    stage.line(layers.ROUGH, out + middle - half, out + middle + half)
    stage.label(layers.LETTERING, out + middle, "no saw cut", towards=side.waste)
    return stage.scene("A side that is not sawn")


def kept_scene(plan: Plan, kept: KeptEdge) -> Scene:
    """Return an edge of the panel that stays as it is."""
    wood = Wood.marked(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    wood.base(stage)
    stage.path(layers.KEPT, kept.edge, clear=True)
    wood.letters(stage)
    middle = kept.edge.segments[len(kept.edge.segments) // 2].at(0.5)
    stage.label(
        layers.KEPT, middle, "kept edge", towards=middle - plan.top.placement.centre, bold=True
    )
    return stage.scene("An edge that stays as it is")


def _turned_back(way: Point) -> Placement:
    return Placement(turn=-way.angle)


def saw_lines_scene(plan: Plan, cuts: Sequence[StraightCut]) -> Scene:
    """Return all saw lines and guides together."""
    rough = all(isinstance(cut, Trim) and cut.kind is TrimKind.ROUGH for cut in cuts)
    wood = Wood.found(plan) if rough else Wood.marked(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    wood.base(stage)
    for cut in cuts:
        past = _PAST if isinstance(cut, Trim) else 0.0
        stage.line(layers.SAW_LINE, cut.start.point, cut.end.point, past=past)
        if cut.guide is not None:
            stage.line(layers.GUIDE, cut.guide.start.point, cut.guide.end.point, past=past)
    wood.letters(stage)
    for cut in cuts:
        along = (cut.end.point - cut.start.point).unit()
        if isinstance(cut, Trim):
            end = cut.end.point + along * (_PAST * stage.frame.scale)
            stage.label(layers.SAW_LINE, end, cut.label, towards=along)
        else:
            middle = cut.start.point.midpoint(cut.end.point)
            stage.label(layers.SAW_LINE, middle, cut.label, towards=cut.waste)
    return stage.scene("All saw lines and guides")


def joint_scene(plan: Plan, joint: FrameJoint) -> Scene:
    """Return the joint of a frame that cuts run through."""
    wood = Wood.found(plan)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    stage.area(layers.DEFECT_CUTTING, joint.place)
    for trim in plan.cuts.trims:
        if trim.label in joint.cuts:
            stage.line(layers.SAW_LINE, trim.start.point, trim.end.point, past=_PAST)
    wood.letters(stage)
    stage.label(layers.LETTERING, joint.place.bounds.middle, "joint")
    return stage.scene("A cut runs through a joint")


def mend_scene(plan: Plan, mend: Mended) -> Scene:
    """Return where a mend goes, with its places from the datum."""
    wood = Wood.marked(plan)
    wood = Wood(plan, wood.boundary, wood.datum, mirrored=False)
    stage = wood.stage()
    stage.path(layers.GHOST, plan.cuts.finish)
    (defect,) = (d for d in plan.job.panel.defects if d.name == mend.defect)
    stage.path(layers.GONE, defect.place)
    stage.area(layers.MENDS, *mend.prints)
    wood.base(stage)
    wood.letters(stage)
    wood.running(stage, [place.centre for place in mend.places])
    stage.label(layers.MENDS, mend.places[0].centre, f"{mend.how.value}: {mend.defect}")
    return stage.scene(f"Where {mend.defect} is mended")
