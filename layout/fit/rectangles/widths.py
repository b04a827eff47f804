"""A bound by turn alone: no rectangle reaches farther across the wood than the wood is wide.

Square to any edge of the wood's convex hull a rectangle w by h that is turned by φ from that edge's
normal reaches w |cos φ| + h |sin φ|, and the wood is so wide and no wider, wherever the rectangle
lies. In a long strip, along which a top can slide, the bounds by places tell this only once the
places are known to a hair; here places do not matter.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..program import maximised
from .boxes import Boxes
from .gaps import Array
from .sizes import Sizes

_LEAST = 1e-3
"""Share of the greatest distance in the wood below which no figure is made to touch the goal."""

_PARTS = 8
"""Parts that a box is cut into across its turn."""

_ROUNDS = 6
"""Linear programmes for one box: each touches the goal where the one before it ended."""


def width_bound(box: Boxes, hull: Array, sizes: Sizes, inset: float, *, exactly: bool) -> float:
    """Return a score that no rectangle of the turns of a box, one row, beats wherever it lies.

    Parameters
    ----------
    hull : (h, 4) array
        Edges of a convex region that holds all inner rectangles.
    inset : float
        How far an inner rectangle lies inside its top at most, mm.
    exactly : bool
        Whether only the middle turn counts: then it bounds no box, but tells what cutting its turn
        further can gain.
    """
    ways = hull[:, 2:] - hull[:, :2]
    lengths = np.hypot(*ways.T)
    ways, corners = ways[lengths > ROUNDING] / lengths[lengths > ROUNDING, None], hull[:, :2]
    across = np.stack([-ways[:, 1], ways[:, 0]], axis=1)
    reach = across @ corners.T
    wide = reach.max(axis=1) - reach.min(axis=1) + ROUNDING
    half = 0.0 if exactly else float(box.half[0])
    off = np.abs(np.remainder(np.arctan2(across[:, 1], across[:, 0]) - box.turn[0], math.pi))
    off = np.minimum(off, math.pi - off)  # from x, 0 to a quarter turn
    rows = np.stack(
        [np.cos(np.minimum(off + half, math.pi / 2)), np.sin(np.maximum(off - half, 0.0))], axis=1
    )
    most = np.full(2, math.dist(corners.min(axis=0), corners.max(axis=0)))
    at, least = most / 2, math.inf
    for _ in range(_ROUNDS):
        width, length = (float(size) for size in at + 2 * inset)
        aim = sizes.aim(length, width) if min(length, width) > 0 else None
        if aim is None:
            break
        slope = np.array([aim.width, aim.length])
        best = maximised(slope, rows, wide - rows @ at, -at, most - at)
        figure = best.value + float(slope @ at) + 2 * inset * (aim.length + aim.width)
        least = min(least, aim.worth(figure))
        at = np.maximum(at + best.step, _LEAST * most)  # where a size is 0 no figure touches
    return least


def cut_by_turn(box: Boxes, hull: Array, sizes: Sizes, inset: float, enough: float) -> Boxes:
    """Return the box, one row; none where no turn of it is enough; its parts where that may show.

    It is cut across its turn alone where the middle turn is ruled out and the whole is not.
    """
    if width_bound(box, hull, sizes, inset, exactly=False) <= enough:
        return box.take(np.array([], dtype=np.intp))
    if width_bound(box, hull, sizes, inset, exactly=True) > enough:
        return box
    half = box.half[0] / _PARTS
    turns = box.turn[0] + half * np.arange(1 - _PARTS, _PARTS, 2)
    parts = box.take(np.zeros(_PARTS, dtype=np.intp))
    return replace(parts, turn=turns, half=np.full(_PARTS, half))
