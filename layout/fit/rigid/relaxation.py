"""A sharp bound for a small box of poses: every contact taken as a half-space, all at once.

Taken one by one, a contact can give way by as much as the box lets the outline move. But at the
best place the contacts hold each other in balance: what one gives, another takes. Each way from a
corner to an edge changes in proportion to the move and to the sine of the turn, but for what is
left over, which shrinks with the square of the box: that is added. So a small linear program of
place, turn and clearance bounds the clearance of every pose in the box.

A way past its edge counts as negative only where the whole piece lies to the left of the edge;
otherwise the corner might stand in wood beyond a slit.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..linear_program import maximised
from ..wood.edges import Array, turned
from .contacts import Rows, past_hull, to_outline, to_wood
from .ground import Ground
from .outline import Shape, thinned

_MOST_HELD = 24
"""Sides of the outline that half-planes of what must be held are taken of: the tightest."""

HalfPlanes = tuple[Array, Array]
"""Slopes, (k, 3), and limits, (k,)."""

NO_HELD: HalfPlanes = np.zeros((0, 3)), np.zeros(0)
"""Where nothing must be held."""


class Limit(NamedTuple):
    """What no pose of a box beats."""

    most: float
    """A clearance, mm."""
    move: Array
    """(3,) array: from the middle of the box to a pose that may come near it: mm, mm, radians."""


def ways(shape: Shape, ground: Ground, pose: Array, half: Array, corners: Array) -> Rows:
    """Return the ways that can bound the clearance in a box of poses about a pose.

    Parameters
    ----------
    half : (3,) array
        Half the sides of the box: mm, mm, radians.
    corners : (m, 2) array
        Those of the wood that may matter, mm.
    """
    move = math.hypot(half[0], half[1])
    farthest = move + shape.reach * swing(half[2])
    own = turned(shape.corners, -float(pose[2])) + pose[:2]
    deepest = ground.depths.about(own[:, 0], own[:, 1])
    near = np.nonzero(deepest <= deepest.min() + 2 * farthest + 2 * ground.depths.step)[0]
    near = near[thinned(deepest[near], ground.edges)]
    rows = to_wood(shape.corners[near], pose, ground, 2 * farthest)
    far = np.hypot(*(corners - pose[:2]).T)
    close = far <= shape.reach + rows.way.min() + 2 * farthest
    if close.any():
        nearest = np.nonzero(close)[0]
        nearest = nearest[thinned(far[nearest], shape.edges)]
        rows = rows.joined(to_outline(corners[nearest], pose, shape, 2 * farthest))
    return rows


def plain_bound(shape: Shape, ground: Ground, pose: Array, half: Array, corners: Array) -> float:
    """Return a clearance that no pose of a box beats: that of its middle, point by point, and more.

    Each point of the outline has its depth in the wood less that in the outline, each corner of the
    wood its distance from the outline, and each can gain what the box lets it move.
    """
    move = math.hypot(half[0], half[1])
    points = np.concatenate([shape.corners, shape.probes])
    gain = np.hypot(*points.T) * swing(half[2]) + move
    gain -= np.concatenate([np.zeros(len(shape.corners)), shape.depths])
    there = turned(points, -float(pose[2])) + pose[:2]
    most = ground.depths.about(there[:, 0], there[:, 1]) + gain
    near = (most <= most.min() + 2 * ground.depths.step) | ground.depths.beyond(there)
    least = float((ground.depth(there[near]) + gain[near]).min())
    away = corners - pose[:2]
    far = np.hypot(*away.T)
    close = far < shape.reach
    if close.any():
        own = turned(away[close], float(pose[2]))
        out = far[close] * swing(half[2]) + move - shape.inside(own)
        least = min(least, float(out.min()))
    return least + ROUNDING


def swing(half_turn: float) -> float:
    """Return how far a turn moves a point at most, for each mm of its arm."""
    return 2 * math.sin(min(half_turn, math.pi) / 2)


def held_in(shape: Shape, held: Array, pose: Array, half: Array) -> tuple[Array, Array]:
    """Return half-planes of moves in a box of poses: outside them some point is not held.

    What an outline holds lies on the inner side of each side of its hull.

    Parameters
    ----------
    held : (h, 2) array
        Points of the panel, mm.

    Returns
    -------
    slopes, limits : (k, 3) and (k,) arrays
        Of ``slopes @ (x, y, sin turn) <= limits``; only those that can be crossed in the box.
    """
    if not len(held):
        return NO_HELD
    rows = past_hull(held, pose, shape)
    move, bend = math.hypot(half[0], half[1]), 1 - math.cos(half[2])
    rows = rows[rows.way + move + rows.arm * swing(half[2]) > 0]
    ahead = -(rows.slopes[:, :2] * (held[rows.point] - pose[:2])).sum(axis=1)
    loose = np.maximum(ahead, 0.0) * bend + move * swing(half[2]) + PROOF_ALLOWANCE
    limits = loose - rows.way
    tight = np.argsort(limits, kind="stable")[:_MOST_HELD]
    return rows.slopes[tight], limits[tight]


def bounded(
    shape: Shape, rows: Rows, half: Array, most: float, held: HalfPlanes = NO_HELD
) -> Limit:
    """Return a clearance that no pose of a box beats, and a move that may come near it.

    Parameters
    ----------
    rows : Rows
        At the middle of the box.
    half : (3,) array
        Half the sides of the box: mm, mm, radians.
    most : float
        A bound that is known already, mm.
    held : tuple of two arrays
        Of `held_in`: only poses that keep to them count.
    """
    move = math.hypot(half[0], half[1])
    shift = move + rows.arm * swing(half[2])
    least = rows.way - shift
    over = np.maximum(shift - rows.room, 0.0)
    ahead = np.maximum(least, 0.0)
    aside = np.hypot(ahead, over) - ahead
    twist = np.where(rows.of_wood, 0.0, move * swing(half[2]))
    limit = rows.way + rows.sink * (1 - math.cos(half[2])) + aside + twist
    valid = (least >= 0) | np.isinf(rows.room)
    if not valid.any():
        return Limit(most, np.zeros(3))
    start = float(limit[valid].min())
    top = min(most, float((limit + shift)[valid].min())) - start
    if top <= 0:
        return Limit(most, np.zeros(3))
    scale = np.array([1.0, 1.0, 1 / shape.reach])
    side = np.array([half[0], half[1], math.sin(min(half[2], math.pi / 2))]) / scale
    slopes, limits = held
    # a step that holds more may clear less than none
    low = -float(shift[valid].max()) if len(limits) else 0.0
    end = maximised(
        np.array([0.0, 0.0, 0.0, 1.0]),
        np.column_stack(
            [
                np.vstack([-rows.slopes[valid], slopes]) * scale,
                np.repeat([1.0, 0.0], [int(valid.sum()), len(limits)]),
            ]
        ),
        np.concatenate([limit[valid] - start, limits]),
        np.append(-side, low),
        np.append(side, top),
    )
    return Limit(min(most, start + end.value + ROUNDING), end.step[:3] * scale)
