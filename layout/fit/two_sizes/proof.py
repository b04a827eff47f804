"""From a pose to a fit: the exact outline, made smaller by a hair where need be, proved inside.

Exact contact cannot be proved with polygons. So a top that touches is drawn in, at most by what
the tolerance policy allows, until the outer polygon of its core lies in the inner polygon of the
wood; the size it then has is the size that is printed.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...outlines import Capsule, Circle, Outline, Oval
from ...panel.sound import SoundWood
from ..found import Fit
from .pose import Pose
from .sizing import Sizing

MAKERS: dict[str, Callable[[float, float], Outline]] = {
    "circle": lambda length, width: Circle((length + width) / 2),
    "capsule": Capsule,
    "oval": Oval,
}
"""How an outline is made from its length and width."""

_STEPS = (0.0, ROUNDING, CHORD + ROUNDING, PROOF_ALLOWANCE / 2)
"""How far a side is drawn in, mm, tried in turn."""


def proved(
    pose: Pose, middle: Point, sizing: Sizing, wood: SoundWood, held: Sequence[Region] = ()
) -> Fit | None:
    """Return the top of a pose, proved inside the wood and round what it must hold, or None.

    Parameters
    ----------
    pose : Pose
        In the frame of a search about `middle`.
    held : sequence of Region
        Parts that must lie wholly inside the core.
    """
    make, t = MAKERS[sizing.shape], sizing.wish.lipping
    turn = 0.0 if pose.half_length == pose.half_width else math.remainder(pose.turn, math.pi)
    placement = Placement(Point(pose.x, pose.y) + middle, turn)
    for step in _STEPS:
        half_width = pose.half_width - step
        half_length = max(pose.half_length - step, half_width)
        core = make(2 * half_length, 2 * half_width)
        if not wood.inner.holds(Region.from_rings(placement.of(core.outer(CHORD)))):
            continue
        within = Region.from_rings(placement.of(core.inner(CHORD)))
        if not all(within.holds(part) for part in held):
            return None
        outline = make(2 * (half_length + t), 2 * (half_width + t))
        score = sizing.score(half_length, half_width)
        return Fit(outline, core, placement, score, None, 0)
    return None


def crosses(fit: Fit, part: Region) -> bool:
    """Return whether the edge of the core cuts into a part: not clear of it and not round it."""
    within = Region.from_rings(fit.placement.of(fit.core.inner(CHORD)))
    around = Region.from_rings(fit.placement.of(fit.core.outer(CHORD)))
    return not within.holds(part) and around.meet(part).area > 0.0
