"""What a top must hold, in the bounds of a box: points that lie in its core.

A convex top holds a point P when in every direction n it reaches as far as P does:
``n·(P − c) <= reach(n)``. One direction gives one half-plane, and the direction in which the middle
top of the box meets P loses least. The reach of a top is no linear figure of its unknowns, but over
a small box it lies close under one: how close, each kind says in its own rows.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from .boxes import Box
from .kind import Kind
from .pose import Array, turned
from .relaxed import HalfPlanes, Patch


def with_held(kind: Kind, box: Box, patch: Patch, points: Array, planes: HalfPlanes) -> HalfPlanes:
    """Return half-planes with those of the points that every top of a box must hold."""
    if not len(points):
        return planes
    rows, limits = kind.held_rows(box, patch, turned(points - patch.middle, box.turn))
    return replace(
        planes,
        rows=np.vstack([planes.rows, rows]),
        limits=np.concatenate([planes.limits, limits]),
    )
