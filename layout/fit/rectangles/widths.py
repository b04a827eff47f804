"""A bound by turn alone: the largest rectangle of some turns in the wood's convex hull.

From its middle a rectangle w by h that is turned by φ from an edge's normal reaches
(w |cos φ| + h |sin φ|) / 2 towards that edge, and its middle lies so far inside at least: for one
turn that is a linear program in w, h and the middle. In a long strip, along which a top can slide,
the bounds by places tell as much only once the places are known to a hair; here no place is cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..linear_program import maximised
from .boxes import Boxes
from .gaps import Array
from .sizes import Sizes

_LEAST = 1e-3
"""Share of the greatest distance in the wood below which no figure is made to touch the goal."""

_PARTS = 8
"""Parts that a box is cut into across its turn."""

_ROUNDS = 6
"""Linear programmes for one box: each touches the goal at the best size on the way to where the one
before it ended, since the ends alone would take turns."""

_SHARES = np.arange(1, 17) / 16
"""Of that way; size 0 is left out, where no figure touches the goal."""


@dataclass(frozen=True, slots=True)
class HullSides:
    """The sides of a convex region that holds all inner rectangles, as every box asks for them."""

    out: Array
    """(h, 2) array: unit normals, away from the region."""
    ways: Array
    """(h,) array: where they point to, radians."""
    reach: Array
    """(h,) array: how far the region reaches along each from its middle, mm."""
    spread: Array
    """(2,) array: half its extent along and up, mm."""

    @classmethod
    def of(cls, hull: Array) -> HullSides:
        """Return the sides of a hull by its edges, an (h, 4) array."""
        ways = hull[:, 2:] - hull[:, :2]
        corners = hull[:, :2] if len(hull) else np.zeros((1, 2))
        lengths = np.hypot(*ways.T)
        ways = ways[lengths > ROUNDING] / lengths[lengths > ROUNDING, None]
        out = np.stack([ways[:, 1], -ways[:, 0]], axis=1)
        low, high = corners.min(axis=0), corners.max(axis=0)
        reach = ((corners - (low + high) / 2) @ out.T).max(axis=0) + ROUNDING
        return cls(out, np.arctan2(out[:, 1], out[:, 0]), reach, (high - low) / 2)


def width_bound(box: Boxes, hull: HullSides, sizes: Sizes, inset: float, *, exactly: bool) -> float:
    """Return a score that no rectangle of the turns of a box, one row, beats wherever it lies.

    Parameters
    ----------
    inset : float
        How far an inner rectangle lies inside its top at most, mm.
    exactly : bool
        Whether only the middle turn counts: then it bounds no box, but tells what cutting its turn
        further can gain.
    """
    reach, spread = hull.reach, hull.spread
    half = 0.0 if exactly else float(box.half[0])
    off = np.abs(np.remainder(hull.ways - box.turn[0], math.pi))
    off = np.minimum(off, math.pi - off)  # from x, 0 to a quarter turn
    across = np.cos(np.minimum(off + half, math.pi / 2)) / 2
    along = np.sin(np.maximum(off - half, 0.0)) / 2
    rows = np.column_stack([across, along, hull.out])
    most = np.full(2, 2 * float(np.hypot(*spread)))
    at, least = np.concatenate([most / 2, [0.0, 0.0]]), math.inf
    asked = np.array([sizes.least_width, sizes.least_length]) - 2 * inset
    low = np.concatenate([np.clip(asked, 0.0, most / 2), -spread])
    high = np.concatenate([most, spread])
    for shares in [_SHARES[-1:]] + [_SHARES] * (_ROUNDS - 1):  # the first start fits nowhere
        width, length = (float(size) for size in at[:2] + 2 * inset)
        aim = sizes.aim(length, width) if min(length, width) > 0 else None
        if aim is None:
            break
        slope = np.array([aim.width, aim.length, 0.0, 0.0])
        best = maximised(slope, rows, reach - rows @ at, low - at, high - at)
        figure = best.value + float(slope @ at) + 2 * inset * (aim.length + aim.width)
        least = min(least, aim.worth(figure))
        along = np.maximum(at + shares[:, None] * best.step, [*(_LEAST * most), -np.inf, -np.inf])
        at = along[int(sizes.score(along[:, 1] + 2 * inset, along[:, 0] + 2 * inset).argmax())]
    return least


def cut_by_turn(box: Boxes, hull: HullSides, sizes: Sizes, inset: float, enough: float) -> Boxes:
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
