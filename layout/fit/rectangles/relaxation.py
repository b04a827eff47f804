"""A second, sharper bound for one small box of rectangles: all that holds them, at once.

The gaps bound the width and the height one after the other, and lose in proportion to the size of
the box. Where the best rectangle can slide, or grows in one way as it shrinks in another, many
boxes would have to be that small. Here all that holds the rectangles of a box is put together as
half-planes in five unknowns, the tangent t of the turn from the middle of the box and the sides
l, r, a, b divided by cos φ, and the best of them is bounded by a small linear programme.

Points beside. All rectangles cover the inner window. A point (x, y) of an edge in its strip that
cannot lie to their right lies to their left: l ≥ x + y t, exactly; and so on for the other sides.

The hull. Beyond the line of an edge of the wood's convex hull no corner lies, whatever the box:
that holds rectangles that may be lines, whose window is empty. With its inner normal n and distance
d from the pivot, the corner (x, y) of the divided sides obeys

    n_x (x − y t) + n_y (x t + y) ≥ d (1 + t²)

and x t differs from its value for the middle x by at most half the span of x times tan δ.

Sizes. A length is at most b − a plus twice the inset, as cos φ ≤ 1; so b − a is at least what is
asked for less that. The goal is replaced by a linear figure above it that touches at the middle
sizes: ln of the area is concave.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..linear_program import maximised
from .boxes import Boxes
from .gaps import Array, strips
from .holding import NOTHING, Points
from .sizes import Sizes

_ROUNDS = 2
"""Linear programmes for one box: the second touches the goal where the first one ended."""


@dataclass(frozen=True, slots=True)
class _Rows:
    """Half-planes ``rows @ x <= limits`` in t and the divided sides."""

    rows: Array
    limits: Array


def relaxed_bound(
    box: Boxes, edges: Array, hull: Array, sizes: Sizes, inset: float, held: Points = NOTHING
) -> float:
    """Return a score that no rectangle of a box, one row, beats; infinite where nothing is known.

    Parameters
    ----------
    edges : (e, 4) array
        Of a region that holds all inner rectangles; those that matter to the box.
    hull : (h, 4) array
        Edges of a convex region that holds them.
    inset : float
        How far an inner rectangle lies inside its top at most, mm.
    held : Points
        What the rectangles must hold.
    """
    x, y = box.x[0], box.y[0]
    if x[1] >= x[2] and y[1] >= y[2]:
        return math.inf
    delta = float(box.half[0])
    cos, tan = math.cos(delta), math.tan(delta)
    sides = np.array([[x[0], x[1]], [x[2], x[3]], [y[0], y[1]], [y[2], y[3]]])
    low = np.append(-tan, np.minimum(sides[:, 0], sides[:, 0] / cos) - ROUNDING)
    high = np.append(tan, np.maximum(sides[:, 1], sides[:, 1] / cos) + ROUNDING)
    middle = (low + high) / 2
    parts = [
        _points_beside(box, edges),
        _turned_back(_points_beside(box.quarter_turned(), edges)),
        _beyond(box, hull, low, high),
        _limits(sizes, 2 * inset, cos),
    ]
    if len(held.places):
        parts.append(_Rows(*held.half_planes(box.frames, cos, low, high)))
    scale = np.array([1 / max(1.0, float(np.abs(middle[1:]).max())), 1.0, 1.0, 1.0, 1.0])
    rows = np.vstack([part.rows for part in parts])
    limits = np.concatenate([part.limits for part in parts]) - rows @ middle + ROUNDING
    at, least = middle, math.inf
    for _ in range(_ROUNDS):
        length, width = at[4] - at[3] + 2 * inset, at[2] - at[1] + 2 * inset
        # a box without any top may end where nothing is left, and there nothing touches the goal
        aim = sizes.aim(length, width) if min(length, width) > 0 else None
        if aim is None:
            break
        slope = np.array([0.0, -aim.width, aim.width, -aim.length, aim.length])
        best = maximised(
            slope * scale, rows * scale, limits, (low - middle) / scale, (high - middle) / scale
        )
        figure = best.value + float(slope @ middle) + aim.figure(2 * inset, 2 * inset)
        least = min(least, sizes.worth_of(figure))
        at = middle + best.step * scale
    return least


def _points_beside(box: Boxes, edges: Array) -> _Rows:
    """Return the half-planes of points left and right of all rectangles.

    The strip is the one of `narrowed_along`. Of the points on either side those count that are
    extreme at the least, the middle and the greatest turn.
    """
    x, y = box.x[0], box.y[0]
    delta = float(box.half[0])
    sin, cos, tan = math.sin(delta), math.cos(delta), math.tan(delta)
    reach = max(-x[0], x[3]) + max(-y[0], y[3]) * sin
    bottom, top = y[1] + reach * sin, y[2] - reach * sin
    bottom = bottom / cos if bottom > 0 else bottom
    top = top / cos if top < 0 else top
    if top - bottom < ROUNDING:
        return _Rows(np.zeros((0, 5)), np.zeros(0))
    cut = strips(box.frames, np.array([bottom]), np.array([top]), edges)
    px = np.concatenate([cut.left[0], cut.right[0]])
    py = np.concatenate([cut.left_y[0], cut.right_y[0]])
    near = np.abs(px) <= reach
    px, py = px[near], py[near]
    lean = np.abs(py) * sin + np.abs(px) * (1 - cos) + ROUNDING
    rows, limits = [], []
    for sign, beside, side in ((1.0, px + lean < x[2], 1), (-1.0, px - lean > x[1], 2)):
        qx, qy = px[beside], py[beside]
        if len(qx) == 0:
            continue
        for t in (-tan, 0.0, tan):
            k = int(np.argmax(sign * (qx + qy * t)))
            row = np.zeros(5)
            row[0], row[side] = sign * qy[k], -sign
            rows.append(row)
            limits.append(-sign * qx[k])
    return _Rows(np.array(rows).reshape(-1, 5), np.array(limits))


def _turned_back(seen: _Rows) -> _Rows:
    """Return half-planes found from a frame a quarter turn on: its l, r, a, b are a, b, −r, −l."""
    rows = seen.rows
    return _Rows(
        np.stack([rows[:, 0], -rows[:, 4], -rows[:, 3], rows[:, 1], rows[:, 2]], axis=1),
        seen.limits,
    )


def _beyond(box: Boxes, hull: Array, low: Array, high: Array) -> _Rows:
    """Return the half-planes of the sides of a hull, beyond whose lines no corner lies."""
    tan = math.tan(float(box.half[0]))
    ax, ay, bx, by = (part[0] for part in box.frames.of(hull))
    long = np.hypot(bx - ax, by - ay)
    nx, ny = (ay - by) / long, (bx - ax) / long
    away = nx * ax + ny * ay
    count = np.arange(len(nx))
    side_x, side_y = np.where(nx > 0, 1, 2), np.where(ny > 0, 3, 4)
    middle, half = (low + high) / 2, (high - low) / 2
    rows = np.zeros((len(nx), 5))
    rows[:, 0] = -(ny * middle[side_x] - nx * middle[side_y])
    rows[count, side_x], rows[count, side_y] = -nx, -ny
    slack = tan * (np.abs(ny) * half[side_x] + np.abs(nx) * half[side_y])
    limits = slack - np.minimum(away, away * (1 + tan * tan))
    binds = rows @ middle + np.abs(rows) @ half > limits
    return _Rows(rows[binds], limits[binds])


def _limits(sizes: Sizes, inset: float, cos: float) -> _Rows:
    """Return the half-planes of the limits; `inset` is that of both sides together, mm."""
    long = np.array([0.0, 0.0, 0.0, -1.0, 1.0])
    wide = np.array([0.0, -1.0, 1.0, 0.0, 0.0])
    rows, limits = [], []
    for a, b, most in sizes.half_planes(sizes.least_length, sizes.least_width):
        rows.append(a * long + b * wide)
        # divided by cos φ a size is no less
        limits.append(max(most - inset * (a + b), (most - inset * (a + b)) / cos))
    return _Rows(np.array(rows), np.array(limits))
