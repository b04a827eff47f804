"""Drawings of what straight cuts meet: joints of a frame, and mends."""

from __future__ import annotations

from ...cutting.builds import FrameJoint
from ...cutting.mending import Mended
from ...drawing import layers
from ...drawing.scene import Scene
from ...plan.plan import Plan
from .ground import Wood

_PAST = 3.0
"""How far saw lines are drawn past the wood, paper mm."""


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
