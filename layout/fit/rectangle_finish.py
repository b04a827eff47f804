"""From a polished rectangle to a fit: the exact outline, proved inside the wood.

The outer polygon of the core is held against the inner polygon of the wood. A core that touches is
drawn in by the little that its polygon stands out at round corners, and the size it then has is the
size that is printed.
"""

from __future__ import annotations

import math

from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ..outlines import Outline, Rectangle, RoundedRectangle
from .found import Fit
from .rectangle_held import Held
from .rectangle_polish import Polisher

_REDUCTIONS = (0.0, ROUNDING, CHORD / 4, CHORD / 2, CHORD + ROUNDING, PROOF_ALLOWANCE / 2)
"""By how much the sides are drawn in, mm, tried in turn."""


def finished(inner: Region, polisher: Polisher, held: Held) -> Fit | None:
    """Return the top trimmed to the limits and proved inside; None if it is too small.

    Parameters
    ----------
    inner : Region
        The inner polygon of the sound wood.
    """
    held = polisher.trimmed(held)
    placement = Placement(Point(*(float(v) for v in held.centre)), _long_axis(held.turn))
    lipping = polisher.lipping
    for reduced in _REDUCTIONS:
        smaller = polisher.trimmed(held.drawn_in(reduced))
        score = polisher.score(smaller)
        if score == -math.inf:
            return None
        length, width = polisher.length(smaller), polisher.width(smaller)
        clearance = polisher.clearance(held.radius)
        core = _outline(length - 2 * lipping, width - 2 * lipping, clearance)
        if inner.holds(Region.from_rings(placement.of(core.outer(CHORD)))):
            return Fit(_outline(length, width, held.radius), core, placement, score, None, 0)
    return None


def _long_axis(turn: float) -> float:
    """Return the direction of the long axis, in (−π/2, π/2], from that of x."""
    direction = math.remainder(turn + math.pi / 2, math.pi) + 0.0
    return math.pi / 2 if direction == -math.pi / 2 else direction


def _outline(length: float, width: float, radius: float) -> Outline:
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))
