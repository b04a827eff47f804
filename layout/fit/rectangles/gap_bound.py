"""What no rectangle of a box can beat: how wide at most, and where its sides can lie.

All rectangles of a box cover its inner window. So whatever edge of the wood passes through that
window's strip lies either to the left or to the right of them all, and the rectangles stand in one
of the strip's gaps. Which gap is a choice, and each becomes a box of its own; within one gap much
follows. Let a rectangle be turned by φ from the middle of the box, |φ| ≤ δ, and t = tan φ. A point
(x, y) of an edge lies at x cos φ + y sin φ along the rectangle's own x. So, for all points p to the
left of the gap and q to the right of it,

    left side / cos φ   ≥ max over p of p_x + p_y t        (convex in t)
    right side / cos φ  ≤ min over q of q_x + q_y t        (concave in t)
    width               ≤ width / cos φ ≤ min over q and p of (q_x − p_x) + (q_y − p_y) t

The points that are extreme at t = −tan δ and tan δ give two lines for each side; where the width
they leave falls below the width needed, turns drop out; over the turns that are left the lines give
the greatest width and where the sides can lie. Between two parallel edges the width
falls off on both sides of their direction, so the box closes in on it at once.

The same from a frame a quarter turn on gives the height. What the gaps leave of the width says how
high a rectangle must be to score enough, and a rectangle of a known least height covers the middle
of its window, where the next look for gaps begins: so each look along one axis sharpens the next
along the other.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array
from .boxes import Boxes, Frames, Gaps, Indices, Strips, strips
from .offset_wood import Recipe

_SHARE = 0.9
"""How much of the width needed a strip may lose by leaning over δ, so that gaps stay apart."""
_LEVEL = 1e-12
"""A slope that is none."""
_HEIGHTS = (0.5, 0.0, 1.0)
"""Which parts of a strip are looked at where not all of it can be: middle, foot, head."""


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What boxes are cut down for."""

    recipe: Recipe
    edges: Array
    """(e, 2, 2) array: of a region that holds all inner rectangles."""
    target: float
    """Score that a top must beat to be of interest."""

    def judged(self, boxes: Boxes) -> tuple[Boxes, Array]:
        """Return the boxes left, and a score for each that none of its rectangles beats."""
        boxes, most = self._left(boxes, boxes.sides[..., 3] - boxes.sides[..., 0])
        for height in _HEIGHTS:
            for axis in (0, 1):
                boxes = boxes.recentred()
                seen = boxes.quarter_turned() if axis else boxes
                found = narrowed_along(seen, self.edges, self.needed(boxes, most)[:, axis], height)
                most = most[found.parent]
                most[:, axis] = np.minimum(found.width, most[:, axis])
                own = found.boxes.quarter_turned(-1) if axis else found.boxes
                boxes, most = self._left(own, most)
        wide, long = most.T + 2 * self.recipe.inset
        return boxes, self.recipe.sizes.most(long, wide)

    def needed(self, boxes: Boxes, most: Array) -> Array:
        """Return the least sizes of inner rectangles along x and y that are of interest, (c, 2).

        Of boxes in which they are `most` wide and high, (c, 2) mm.
        """
        wide, long = most.T + 2 * self.recipe.inset
        long, wide = self.recipe.sizes.needed(long, wide, self.target)
        # no rectangle of a box is smaller than its inner window, and what is added all round it
        # makes none longer for its width
        least = np.maximum(np.stack([wide, long], axis=1) - 2 * self.recipe.inset, 0.0)
        window = boxes.sides[..., 2] - boxes.sides[..., 1]
        ratio = max(1.0, self.recipe.sizes.wish.limits.ratio.least)
        window[:, 1] = np.maximum(window[:, 1], window[:, 0] * ratio)
        return np.maximum(least, window)

    def _left(self, boxes: Boxes, most: Array) -> tuple[Boxes, Array]:
        """Return the boxes without the rectangles that are too small, and none that are empty."""
        boxes = self.recipe.must.narrowed(boxes.narrowed(self.needed(boxes, most)))
        rows = boxes.possible()
        return boxes.take(rows), most[rows]


@dataclass(frozen=True, slots=True)
class Narrowed:
    """Boxes that are left, one for each gap, and how wide their rectangles can be at most."""

    boxes: Boxes
    parent: Indices
    """(n,) array: the row that each came from."""
    width: Array
    """(n,) array: mm; along x."""


def narrowed_along(boxes: Boxes, edges: Array, needed: Array, height: float = 0.5) -> Narrowed:
    """Return the boxes cut down along x to rectangles at least `needed` wide, (c,) mm and >= 0.

    The strip. A point that lies in a rectangle of the box lies, in the frame of the middle turn, at
    |x| ≤ M = max(|x₀|, |x₃|) + max(|y₀|, |y₃|) sin δ. There the strip between Y_B = y₁ + M sin δ
    (divided by cos δ where positive) and Y_T = y₂ − M sin δ (divided by cos δ where negative) is
    between y₁ and y₂ for each turn of the box.

    The gaps. A rectangle w wide that leans by φ over a strip D high still leaves w − D tan δ
    free. The strip is cut down until this is positive for the width needed: then every rectangle
    stands in exactly one gap of the middle turn. At `height` 0 its foot is kept, at 1 its head.
    """
    sin, cos, tan = np.sin(boxes.half), np.cos(boxes.half), np.tan(boxes.half)
    x, y = boxes.sides[:, 0], boxes.sides[:, 1]
    reach_y = np.maximum(-y[:, 0], y[:, 3])
    reach = np.maximum(-x[:, 0], x[:, 3]) + reach_y * sin
    bottom, top = y[:, 1] + reach * sin, y[:, 2] - reach * sin
    bottom = np.where(bottom > 0, bottom / cos, bottom)
    top = np.where(top < 0, top / cos, top)
    # where nothing turns a strip may be as high as it likes, even for rectangles that are lines
    most_high = np.where(tan > 0, _SHARE * needed / np.where(tan > 0, tan, 1.0), np.inf)
    excess = np.maximum(top - bottom - most_high, 0.0)
    bottom, top = bottom + height * excess, top - (1 - height) * excess
    blind = top - bottom < ROUNDING
    rows, unseen = np.flatnonzero(~blind), np.flatnonzero(blind)
    width = x[:, 3] - x[:, 0]
    rest = Narrowed(boxes.take(unseen), unseen, width[unseen])
    if len(rows) == 0:
        return rest
    seen, bottom, top = boxes.take(rows), bottom[rows], top[rows]
    lean = reach_y[rows] * sin[rows]
    low, high = _least(x[rows, 0], cos[rows]) - lean, _most(x[rows, 3], cos[rows]) + lean
    cut = strips(seen.frames, bottom, top, edges)
    found = cut.gaps(low, high, needed[rows] - (top - bottom) * tan[rows] - ROUNDING)
    if len(found.strip) == 0:
        return rest
    inside = _within_gaps(seen, cut, found, reach[rows], needed[rows])
    return Narrowed(
        Boxes.joined(inside.boxes, rest.boxes),
        np.concatenate([rows[inside.parent], rest.parent]),
        np.concatenate([inside.width, rest.width]),
    )


def _within_gaps(boxes: Boxes, cut: Strips, gaps: Gaps, reach: Array, needed: Array) -> Narrowed:
    """Return one box for each gap, with the turns and sides that its edges leave."""
    rows = gaps.strip
    own, needed = boxes.take(rows), needed[rows]
    cos, tan = np.cos(own.half), np.tan(own.half)
    left, right = _side_lines(own, cut, gaps, reach[rows])
    lines = right - left
    first, last = _turns_left(lines, tan, needed)
    sides = own.sides.copy()
    least, most = -_peak(-left, first, last), _peak(right, first, last)
    sides[:, 0, 0] = np.maximum(sides[:, 0, 0], _least(least, cos) - ROUNDING)
    sides[:, 0, 3] = np.minimum(sides[:, 0, 3], _most(most, cos) + ROUNDING)
    ends = np.arctan(first), np.arctan(last)
    frames = Frames(own.frames.turn + (ends[0] + ends[1]) / 2, own.frames.pivot)
    turned = Boxes(frames, np.maximum((ends[1] - ends[0]) / 2, 0.0), sides)
    width = np.minimum(_peak(lines, first, last) + ROUNDING, sides[:, 0, 3] - sides[:, 0, 0])
    keep = np.flatnonzero((first <= last) & (width >= needed))
    return Narrowed(turned.take(keep), rows[keep], width[keep])


def _side_lines(own: Boxes, cut: Strips, gaps: Gaps, reach: Array) -> tuple[Array, Array]:
    """Return the lines, (n, 2, 2) as x and y of a point, that bound the left and the right side.

    Each is extreme at one of the two turns. The outer window itself counts as a point on the
    middle height, out to x / cos φ, since the lines are of sides divided by cos φ; points of edges
    beyond `reach` say nothing of the rectangles and are left out. So are points farther from the
    gap than twice the lean of the window: the nearest one is always more extreme.
    """
    rows, every, tan = gaps.strip, np.arange(len(gaps.strip)), np.tan(own.half)
    lean = 2 * np.maximum(-own.sides[:, 1, 0], own.sides[:, 1, 3]) * tan + ROUNDING
    before = np.arange(cut.left.shape[1])[None, :] <= gaps.place[:, None]
    lefts = before & (cut.right[rows] >= (gaps.start - lean)[:, None])
    rights = ~before & (cut.left[rows] <= (gaps.end + lean)[:, None])
    turns = np.stack([-tan, tan], axis=1)
    walls, out = own.sides[:, 0, ::3], 1 / np.cos(own.half)
    sides = []
    for sign, beside, wall in ((1.0, lefts, walls[:, 0]), (-1.0, rights, walls[:, 1])):
        gap, edge = np.nonzero(beside)
        strip, gap = rows[gap], np.concatenate([gap, gap])
        x = np.concatenate([cut.left[strip, edge], cut.right[strip, edge]])
        y = np.concatenate([cut.left_y[strip, edge], cut.right_y[strip, edge]])
        near = np.abs(x) <= reach[gap]
        gap = np.concatenate([gap[near], every])
        x = np.concatenate([sign * x[near], _least(sign * wall, out)])
        y = np.concatenate([sign * y[near], np.zeros(len(rows))])
        sides.append(sign * _extremes(gap, x, y, turns))
    return sides[0], sides[1]


def _extremes(gap: Indices, x: Array, y: Array, turns: Array) -> Array:
    """Return for each gap the points, (n, 2, 2), with the greatest x + y t at its two turns.

    `gap`, (p,), tells which gap each point belongs to; every gap has one.
    """
    order = np.argsort(gap, kind="stable")
    gap, x, y = gap[order], x[order], y[order]
    first = np.searchsorted(gap, np.arange(len(turns)))
    reached = x[:, None] + y[:, None] * turns[gap]
    best = np.maximum.reduceat(reached, first, axis=0)
    place = np.arange(len(gap))[:, None]
    at = np.minimum.reduceat(np.where(reached == best[gap], place, len(gap)), first, axis=0)
    points: Array = np.stack([x[at], y[at]], axis=2)
    return points


def _turns_left(lines: Array, tan: Array, needed: Array) -> tuple[Array, Array]:
    """Return from which to which t all lines leave the width needed; empty where first > last."""
    tan = tan[:, None]
    short, slope = (needed - ROUNDING)[:, None] - lines[..., 0], lines[..., 1]
    steep = np.abs(slope) > _LEVEL
    meets = short / np.where(steep, slope, 1.0)
    first = np.maximum(np.where(steep & (slope > 0), meets, -tan), -tan)
    last = np.minimum(np.where(steep & (slope < 0), meets, tan), tan)
    last[~steep & (short > 0)] = -math.inf
    return first.max(axis=1), np.maximum(last.min(axis=1), -tan[:, 0] - 1.0)


def _peak(lines: Array, first: Array, last: Array) -> Array:
    """Return the greatest height between two places that is over neither of two lines, (n,).

    It is reached at an end or where the lines meet.
    """
    ahead, slope = (lines[:, 1] - lines[:, 0]).T
    meets = -ahead / np.where(np.abs(slope) < _LEVEL, np.inf, slope)
    places = np.stack([first, last, np.clip(meets, first, np.maximum(first, last))], axis=1)
    along = lines[:, None, :, 0] + lines[:, None, :, 1] * places[:, :, None]
    height: Array = along.min(axis=2).max(axis=1)
    return height


def _least(value: Array, factor: Array) -> Array:
    """Return the least of value·c for c between 1 and the factor."""
    return np.minimum(value, value * factor)


def _most(value: Array, factor: Array) -> Array:
    return np.maximum(value, value * factor)
