"""What the convex hull of the wood leaves to the rectangles of a box: linear programs by turn.

From its middle a rectangle w by h that is turned by φ from a side's normal reaches
(w |cos φ| + h |sin φ|) / 2 towards that side, and its middle lies so far inside at least: for one
turn that is a linear program in w, h and the middle. The weights of that program bound all other
turns too: added up by them the sides say A w + B h <= C, for sums A and B of such cosines and
sines, whatever the middle. Between turns at which a side stands along or across another both are
concave, so a size that obeys it at some turn obeys it at one of the two.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.polygon import convex_hull
from ...geometry.tolerance import ROUNDING
from ..linear_program import maximised
from ..wood.edges import Array
from .boxes import Boxes, Frames, Indices
from .sizes import Sizes

_PARTS = 32
"""Parts that a box is looked at in across its turn."""
_ROUNDS = 6
"""Linear programs for the turns of one box: each touches the goal at the best size on the way to
where the one before it ended, since the ends alone would take turns."""
_SHARES = np.arange(1, 17)[:, None] / 16
"""Of that way."""
_RATIOS = 2.0 ** np.arange(-4, 5)
"""Of width to length of the rectangles about the middle that are tried first."""


@dataclass(frozen=True, slots=True)
class HullSides:
    """The sides of a convex region that holds all inner rectangles, as every box asks for them."""

    out: Array
    """(h, 2) array: unit normals, away from the region."""
    ways: Array
    """(h,) array: where they point to, radians."""
    reach: Array
    """(h,) array: how far the region reaches along each from the middle of its box, mm."""
    spread: Array
    """(2,) array: how far it reaches at most along and up from there, mm."""

    @classmethod
    def of(cls, corners: Array) -> HullSides:
        """Return the sides of the hull of some corners, (n, 2) mm."""
        ring = convex_hull(corners) if len(corners) else np.zeros((1, 2))
        ways = np.roll(ring, -1, axis=0) - ring
        lengths = np.hypot(*ways.T)
        ways = ways[lengths > ROUNDING] / lengths[lengths > ROUNDING, None]
        out = np.stack([ways[:, 1], -ways[:, 0]], axis=1)
        away = ring - (ring.max(axis=0) + ring.min(axis=0)) / 2
        reach = (away @ out.T).max(axis=0) + ROUNDING
        return cls(out, np.arctan2(out[:, 1], out[:, 0]), reach, np.abs(away).max(axis=0))

    def shares(self, turns: Array, sides: Indices | slice = slice(None)) -> tuple[Array, Array]:
        """Return how far a rectangle reaches towards each side, by its width and its length.

        Both (t, h), a share of either, at each of the turns (t,).
        """
        off = self.ways[sides] - turns[:, None]
        return np.abs(np.cos(off)) / 2, np.abs(np.sin(off)) / 2


def cut_by_turn(box: Boxes, hull: HullSides, sizes: Sizes, inset: float, enough: float) -> Boxes:
    """Return what is left of a box, one row, without the turns at which no top scores enough.

    Rows of spans of turns; the box as it is where the hull holds a good one at its middle turn. An
    inner rectangle lies at most `inset`, mm, inside its top.
    """
    turn, half = box.frames.turn, float(box.half[0])
    across, along = (share[0] for share in hull.shares(turn))
    rows = np.column_stack([across, along, hull.out])
    most = np.full(2, 2 * float(np.hypot(*hull.spread)))
    asked = np.array(sizes.least[::-1]) - 2 * inset
    low = np.concatenate([np.clip(asked, 0.0, most), -hull.spread])
    high = np.concatenate([most, hull.spread])
    tried = np.column_stack([_RATIOS, np.ones_like(_RATIOS), np.zeros((len(_RATIOS), 2))])
    tried *= (hull.reach / (tried @ rows.T)).min(axis=1, initial=most[0])[:, None]
    ticks, middle = turn[0] + half * np.linspace(-1.0, 1.0, _PARTS + 1), _PARTS // 2
    alive, apart = np.ones(_PARTS, dtype=bool), False
    for _ in range(_ROUNDS):
        wide, long = tried[:, :2].T + 2 * inset
        best = int(sizes.score(long, wide).argmax())
        aim = sizes.aim(float(long[best]), float(wide[best]))
        if aim is None or sizes.most(long, wide).max() > enough:
            break
        at = np.maximum(tried[best], low)
        slope = np.array([aim[1], aim[0], 0.0, 0.0])
        end = maximised(slope, rows, hull.reach - rows @ at, low - at, high - at)
        values, others = _values(end.weights, hull, sizes, inset, ticks)
        alive &= np.maximum(np.maximum(values[1:], values[:-1]), others) > enough
        if apart := bool(values[middle] <= enough):
            break
        tried = at + _SHARES * end.step
    # each run of the parts that are left; the two halves are kept apart where the middle is not
    starts = alive & ~np.concatenate([[False], alive[:-1]])
    ends = alive & ~np.concatenate([alive[1:], [False]])
    if apart:
        starts[middle], ends[middle - 1] = alive[middle], alive[middle - 1]
    first, last = ticks[:-1][starts], ticks[1:][ends]
    parts = box.take(np.zeros(len(first), dtype=np.intp))
    frames = Frames((first + last) / 2, parts.frames.pivot)
    return replace(parts, frames=frames, half=(last - first) / 2)


def _values(
    weights: Array, hull: HullSides, sizes: Sizes, inset: float, ticks: Array
) -> tuple[Array, Array]:
    """Return scores not beaten at any of some turns, (n,), and of those between, (n - 1,)."""
    some = np.flatnonzero(weights)
    weights = weights[some]
    middle, half = ticks[_PARTS // 2], ticks[-1] - ticks[_PARTS // 2]
    level = middle + np.remainder(hull.ways[some] - middle + math.pi / 4, math.pi / 2) - math.pi / 4
    level = level[np.abs(level - middle) < half]
    across, along = (s @ weights for s in hull.shares(np.concatenate([ticks, level]), some))
    most = weights @ hull.reach[some] + np.abs(weights @ hull.out[some]) @ hull.spread
    value = sizes.most_within(along, across, most + 2 * inset * (across + along))
    between = np.full(_PARTS, -np.inf)
    at = (np.searchsorted(ticks, level) - 1).clip(0, _PARTS - 1)
    np.maximum.at(between, at, value[len(ticks) :])
    return value[: len(ticks)], between
