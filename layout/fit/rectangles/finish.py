"""From a polished rectangle to a fit: the exact outline, proved inside the wood.

The outer polygon of the core is held against the inner polygon of the wood. A core that touches is
drawn in by the little that its polygon stands out at round corners, and the size it then has is the
size that is printed.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import INSETS
from ...outlines import Outline, Rectangle, RoundedRectangle
from ..found import Fit
from .held import Held
from .local_search import Polisher


def finished(inner: Region, polisher: Polisher, held: Held) -> Fit | None:
    """Return the top trimmed to the limits and proved inside; None if it is too small.

    A rectangle drawn in has the corners of the whole one, moved; so its polygon is made once
    from the whole one, and once more for the one that passes.

    Parameters
    ----------
    inner : Region
        The inner polygon of the sound wood.
    """
    held = polisher.trimmed(held)
    placement = Placement(Point.of(held.centre), _long_axis(held.turn))
    whole = _core(polisher, held)
    polygon = cache(whole.outer)
    for reduced, chord in INSETS:
        smaller = polisher.trimmed(held.drawn_in(reduced))
        score = polisher.score(smaller)
        if score == -math.inf:
            return None
        core = _core(polisher, smaller)
        drawn_in = np.array([whole.length - core.length, whole.width - core.width]) / 2
        corners = polygon(chord)
        if not inner.holds(Region.from_rings(placement.of(corners - np.sign(corners) * drawn_in))):
            continue
        if inner.holds(Region.from_rings(placement.of(core.outer(chord)))):
            length, width = polisher.length(smaller), polisher.width(smaller)
            return Fit(_outline(length, width, held.radius), core, placement, score, None, 0)
    return None


def _core(polisher: Polisher, held: Held) -> Outline:
    lipping = 2 * polisher.lipping
    length, width = polisher.length(held) - lipping, polisher.width(held) - lipping
    return _outline(length, width, polisher.clearance(held.radius))


def _long_axis(turn: float) -> float:
    """Return the direction of the long axis, in (−π/2, π/2], from that of x."""
    direction = math.remainder(turn + math.pi / 2, math.pi) + 0.0
    return math.pi / 2 if direction == -math.pi / 2 else direction


def _outline(length: float, width: float, radius: float) -> Outline:
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))
