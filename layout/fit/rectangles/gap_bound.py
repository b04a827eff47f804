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

The points that are extreme at t = −tan δ, 0 and tan δ give three lines for each side; where the
width they leave falls below the width needed, turns drop out; over the turns that are left the
lines give the greatest width and where the sides can lie. Between two parallel edges the width
falls off on both sides of their direction, so the box closes in on it at once.

The same from a frame a quarter turn on gives the height.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...geometry.tolerance import ROUNDING
from .boxes import Boxes
from .gaps import Array, Gaps, Indices, Strips, strips

_SHARE = 0.9
"""How much of the width needed a strip may lose by leaning over δ, so that gaps stay apart."""


@dataclass(frozen=True, slots=True)
class Narrowed:
    """Boxes that are left, one for each gap, and how wide their rectangles can be at most."""

    boxes: Boxes
    parent: Indices
    """(n,) array: the row that each came from."""
    width: Array
    """(n,) array: mm; along x."""


def narrowed_along(boxes: Boxes, edges: Array, needed: Array, height: float = 0.5) -> Narrowed:
    """Return the boxes cut down along x to rectangles at least `needed` wide.

    The strip. A point that lies in a rectangle of the box lies, in the frame of the middle turn, at
    |x| ≤ M = max(|x₀|, |x₃|) + max(|y₀|, |y₃|) sin δ. There the strip between Y_B = y₁ + M sin δ
    (divided by cos δ where positive) and Y_T = y₂ − M sin δ (divided by cos δ where negative) is
    between y₁ and y₂ for each turn of the box.

    The gaps. A rectangle w wide that leans by φ over a strip D high still leaves w − D tan δ
    free. The strip is cut down until this is positive for the width needed: then every rectangle
    stands in exactly one gap of the middle turn.

    Parameters
    ----------
    edges : (e, 4) array
        Edges of a region that holds the whole wood.
    needed : (c,) array
        Width below which a rectangle is of no interest, mm.
    height : float
        Which part of a strip is kept that must be cut down: 0 its foot, 1 its head.
    """
    needed = np.maximum(needed, 0.0)
    sin, cos, tan = np.sin(boxes.half), np.cos(boxes.half), np.tan(boxes.half)
    reach_y = np.maximum(-boxes.y[:, 0], boxes.y[:, 3])
    reach = np.maximum(-boxes.x[:, 0], boxes.x[:, 3]) + reach_y * sin
    bottom, top = boxes.y[:, 1] + reach * sin, boxes.y[:, 2] - reach * sin
    bottom = np.where(bottom > 0, bottom / cos, bottom)
    top = np.where(top < 0, top / cos, top)
    # where nothing turns a strip may be as high as it likes, even for rectangles that are lines
    most_high = np.where(tan > 0, _SHARE * needed / np.where(tan > 0, tan, 1.0), np.inf)
    excess = np.maximum(top - bottom - most_high, 0.0)
    bottom, top = bottom + height * excess, top - (1 - height) * excess
    blind = top - bottom < ROUNDING
    rows, unseen = np.flatnonzero(~blind), np.flatnonzero(blind)
    width = boxes.x[:, 3] - boxes.x[:, 0]
    rest = Narrowed(boxes.take(unseen), unseen, width[unseen])
    if len(rows) == 0:
        return rest
    seen, bottom, top = boxes.take(rows), bottom[rows], top[rows]
    lean = reach_y[rows] * sin[rows]
    low = _less(seen.x[:, 0], cos[rows]) - lean
    high = -_less(-seen.x[:, 3], cos[rows]) + lean
    cut = strips(seen.frames, bottom, top, edges)
    least = needed[rows] - (top - bottom) * tan[rows] - ROUNDING
    found = cut.gaps(low, high, least)
    inside = _within_gaps(seen, cut, found, reach[rows], needed[rows])
    return Narrowed(
        Boxes.joined(inside.boxes, rest.boxes),
        np.concatenate([rows[inside.parent], rest.parent]),
        np.concatenate([inside.width, rest.width]),
    )


def _within_gaps(boxes: Boxes, cut: Strips, gaps: Gaps, reach: Array, needed: Array) -> Narrowed:
    """Return one box for each gap, with the turns and sides that its edges leave."""
    rows = gaps.strip
    if len(rows) == 0:
        empty = np.zeros(0)
        return Narrowed(boxes.take(rows), rows, empty)
    own, needed = boxes.take(rows), needed[rows]
    cos, tan = np.cos(own.half), np.tan(own.half)
    left, right = _side_lines(own, cut, gaps, reach[rows], cos, tan)
    lines = right - left
    first, last = _turns_left(lines, tan, needed)
    places = _corners(lines, first, last)
    width = _along(lines, places).min(axis=2).max(axis=1)
    left_at = _corners(left, first, last)
    right_at = _corners(right, first, last)
    left_least = _less(_along(left, left_at).max(axis=2).min(axis=1), cos)
    right_most = -_less(-_along(right, right_at).min(axis=2).max(axis=1), cos)
    x = own.x.copy()
    x[:, 0] = np.maximum(x[:, 0], left_least - ROUNDING)
    x[:, 3] = np.minimum(x[:, 3], right_most + ROUNDING)
    from_turn, to_turn = np.arctan(first), np.arctan(last)
    turned = Boxes(
        own.turn + (from_turn + to_turn) / 2,
        np.maximum((to_turn - from_turn) / 2, 0.0),
        own.pivot,
        x,
        own.y,
    )
    width = np.minimum(width + ROUNDING, x[:, 3] - x[:, 0])
    keep = np.flatnonzero((first <= last) & (width >= needed))
    return Narrowed(turned.take(keep), rows[keep], width[keep])


def _side_lines(
    own: Boxes, cut: Strips, gaps: Gaps, reach: Array, cos: Array, tan: Array
) -> tuple[Array, Array]:
    """Return the lines, (n, 3, 2) as x and y of a point, that bound the left and the right side.

    Each is extreme at one of the three turns. The outer window itself counts as a point on the
    middle height, out to x / cos φ, since the lines are of sides divided by cos φ; points of edges
    beyond `reach` say nothing of the rectangles and are left out. So are points farther from the
    gap than twice the lean of the strip: the nearest one is always more extreme.
    """
    rows = gaps.strip
    lean = 2 * np.maximum(np.abs(cut.bottom[rows]), np.abs(cut.top[rows])) * tan + ROUNDING
    before = np.arange(cut.left.shape[1])[None, :] <= gaps.place[:, None]
    lefts = before & (cut.right[rows] >= (gaps.start - lean)[:, None])
    rights = ~before & (cut.left[rows] <= (gaps.end + lean)[:, None])
    turns = np.stack([-tan, np.zeros_like(tan), tan], axis=1)
    window = (_less(own.x[:, 0], 1 / cos), -_less(-own.x[:, 3], 1 / cos))
    sides = []
    for sign, beside, wall in ((1.0, lefts, window[0]), (-1.0, rights, window[1])):
        gap, edge = np.nonzero(beside)
        strip = rows[gap]
        gap = np.concatenate([gap, gap])
        x = np.concatenate([cut.left[strip, edge], cut.right[strip, edge]])
        y = np.concatenate([cut.left_y[strip, edge], cut.right_y[strip, edge]])
        near = np.abs(x) <= reach[gap]
        every = np.arange(len(rows))
        gap = np.concatenate([gap[near], every])
        x = np.concatenate([x[near], wall])
        y = np.concatenate([y[near], np.zeros(len(rows))])
        sides.append(sign * _extremes(gap, sign * x, sign * y, turns))
    return sides[0], sides[1]


def _extremes(gap: Indices, x: Array, y: Array, turns: Array) -> Array:
    """Return for each gap the points, (n, 3, 2), with the greatest x + y t at its three turns.

    Parameters
    ----------
    gap : (p,) array of int
        Which gap each point belongs to; every gap has one.
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
    first, last = -tan, tan
    for k in range(3):
        short = needed - ROUNDING - lines[:, k, 0]
        slope = lines[:, k, 1]
        meets = short / np.where(np.abs(slope) < 1e-12, np.inf, slope)
        first = np.where(slope > 1e-12, np.maximum(first, meets), first)
        last = np.where(slope < -1e-12, np.minimum(last, meets), last)
        never = (np.abs(slope) <= 1e-12) & (short > 0)
        last = np.where(never, first - 1.0, last)
    return first, last


def _corners(lines: Array, first: Array, last: Array) -> Array:
    """Return the ends of the turns left, and where two of three lines meet between, (n, 5)."""
    places = [first, last]
    for i, j in ((0, 1), (1, 2), (0, 2)):
        slope = lines[:, i, 1] - lines[:, j, 1]
        ahead = lines[:, j, 0] - lines[:, i, 0]
        meets = ahead / np.where(np.abs(slope) < 1e-12, np.inf, slope)
        places.append(np.clip(meets, first, np.maximum(first, last)))
    return np.stack(places, axis=1)


def _along(lines: Array, places: Array) -> Array:
    """Return the height of each line at each place, (n, places, lines)."""
    return lines[:, None, :, 0] + lines[:, None, :, 1] * places[:, :, None]


def _less(value: Array, factor: Array) -> Array:
    """Return the least of value·c for c between 1 and the factor."""
    return np.minimum(value, value * factor)
