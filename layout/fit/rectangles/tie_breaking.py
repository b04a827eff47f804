"""Of rectangles that are equally good, the one that a maker would choose."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_CHORD
from ..found import Fit
from ..plain import plain_places
from ..points import holds_all
from ..wish import Limits


def in_plainest_place(fit: Fit, inner: Region, limits: Limits, held: Sequence[Region]) -> Fit:
    """Return the same top in the plainest place where it is proved to fit too.

    Parameters
    ----------
    inner : Region
        The inner polygon of the sound wood.
    held : sequence of Region
        Parts that must lie inside the core.
    """
    core, within = fit.core.outer(PROOF_CHORD), fit.core.inner(CHORD)
    own = np.array([fit.placement.centre.x, fit.placement.centre.y])
    for place in plain_places(inner.edges, limits, fit.placement.turn, own):
        centre = Point.of(place.centre)
        there = Placement(centre, math.remainder(place.turn, math.pi) + 0.0)
        if not inner.holds(Region.from_rings(there.of(core))):
            continue
        if holds_all(Region.from_rings(there.of(within)), held):
            return replace(fit, placement=there)
    return fit
