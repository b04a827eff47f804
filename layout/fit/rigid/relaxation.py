"""A sharp bound for a small box of poses: every contact taken as a half-space, all at once.

Each way from a corner to an edge changes in proportion to the move and to the sine of the turn, but
for what shrinks with the square of the box: that is added. So a small linear program of place, turn
and clearance bounds the clearance of every pose in the box: what one contact gives another takes.

A way past its edge counts as negative only where the whole piece lies to the left of the edge;
otherwise the corner might stand in wood beyond a slit.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..linear_program import maximised
from ..wood.edges import Array, Segments, turned
from .laid import Laid, Play

HalfPlanes = tuple[Array, Array]
"""Slopes, (k, 3), and limits, (k,)."""

NO_HELD: HalfPlanes = np.zeros((0, 3)), np.zeros(0)
"""Where nothing must be held."""


class _Ways(NamedTuple):
    """Ways from corners to edges that bound the clearance, all (k,) mm but the slopes."""

    slopes: Array
    """(k, 3) array: how each changes when the outline moves along x, along y, and turns."""
    most: Array
    """How long each is in the middle of the box, and what the slopes leave out."""
    shift: Array
    """How much the box lets it change."""


def bounded(
    laid: Laid, pose: Array, half: Array, most: float, held: HalfPlanes = NO_HELD
) -> tuple[float, Array]:
    """Return a clearance that no pose of a box beats, mm, and a move that may come near it.

    The box is about a pose, (3,), with half its sides, (3,): mm, mm, radians; `most` is a bound
    that is known already, mm. Only poses that keep to the half-planes of `held_in` count.
    """
    play, reach = Play.of(half), laid.shape.reach
    ways = _ways(laid, pose, play)
    if not len(ways.most):
        return most, np.zeros(3)
    start = float(ways.most.min())
    top = min(most, float((ways.most + ways.shift).min())) - start
    if top <= 0:
        return most, np.zeros(3)
    scale = np.array([1.0, 1.0, 1 / reach])
    side = np.array([half[0], half[1], math.sin(min(half[2], math.pi / 2))]) / scale
    slopes, limits = held
    # a step that holds more may clear less than none
    low = -float(ways.shift.max()) if len(limits) else 0.0
    rows = np.vstack([-ways.slopes, slopes]) * scale
    gains = np.repeat([1.0, 0.0], [len(ways.most), len(limits)])
    end = maximised(
        np.array([0.0, 0.0, 0.0, 1.0]),
        np.column_stack([rows, gains]),
        np.concatenate([ways.most - start, limits]),
        np.append(-side, low),
        np.append(side, top),
    )
    return min(most, start + end.value + ROUNDING), end.step[:3] * scale


def _ways(laid: Laid, pose: Array, play: Play) -> _Ways:
    """Return the ways that can bound the clearance in a box about a pose."""
    shape, ground = laid.shape, laid.ground
    own, others = turned(shape.corners, -float(pose[2])), ground.corners - pose[:2]
    farthest = play.middle + shape.reach * play.swing

    def nearest(arms: Array, depths: Array) -> Array:
        far = np.abs(depths)
        near: Array = arms[far <= far.min(initial=math.inf) + 2 * farthest]
        return near

    own = nearest(own, ground.region.depths(own + pose[:2]))
    others = nearest(others, laid.inside(ground.corners, pose))
    both = (
        _close(own, pose, play, ground.edges, farthest, ground.outermost),
        _close(others, pose, play, shape.edges, farthest),
    )
    return _Ways(*map(np.concatenate, zip(*both, strict=True)))


def _close(
    arms: Array,
    pose: Array,
    play: Play,
    edges: Array,
    farthest: float,
    endless: NDArray[np.bool_] | None = None,
) -> _Ways:
    """Return the ways between corners and edges that can be the shortest in the box.

    Arms lead from the outline's middle to the corners, (m, 2) mm on the panel. Of edges of the wood
    `endless`, (n,) of bool, says which have all of it to their left: the way to their line counts
    wherever the foot lies. Without it edges are those of the outline.
    """
    of_wood, turn = endless is not None, float(pose[2])
    side, frame = (1.0, 0.0) if of_wood else (-1.0, turn)
    at, points = Segments.of(edges), arms + pose[:2] if of_wood else turned(arms, turn)
    distances = at.distances(points)
    point, edge = np.nonzero(distances <= distances.min(initial=math.inf) + 2 * farthest)
    left, along, to_end, distance = at.ways(points[point], edge)
    open_ended = np.zeros(len(edge), dtype=np.bool_) if endless is None else endless[edge]
    square = (np.abs(along) <= at.half[edge]) | open_ended
    across, arm = at.across[edge], arms[point]
    to_end /= np.where(distance > 0, distance, 1.0)[:, None]
    normal = turned(np.where(square[:, None], across * side, to_end), -frame)
    swing = normal[:, 1] * arm[:, 0] - normal[:, 0] * arm[:, 1]
    slopes = side * np.column_stack([normal, swing])
    way, shift = np.where(square, left * side, distance), play.far(arm)
    # the foot may wander off the edge, and so the way grow
    room = np.where(square, at.half[edge] - np.abs(along), 0.0)
    over = np.where(open_ended, 0.0, np.maximum(shift - room, 0.0))
    ahead = np.maximum(way - shift, 0.0)
    most = way + np.hypot(ahead, over) - ahead
    most += np.maximum(-(normal * arm).sum(axis=1), 0.0) * play.bend
    most += 0.0 if of_wood else play.middle * play.swing
    valid = (way >= shift) | open_ended
    return _Ways(slopes[valid], most[valid], shift[valid])


def held_in(laid: Laid, held: Array, pose: Array, half: Array) -> HalfPlanes:
    """Return half-planes of moves in a box of poses: outside them some point is not held.

    What an outline holds, (h, 2) mm on the panel, lies on the inner side of each side of its hull.
    They are ``slopes @ (x, y, sin turn) <= limits``; only those that can be crossed in the box.
    """
    if not len(held):
        return NO_HELD
    play, turn, arms = Play.of(half), float(pose[2]), held - pose[:2]
    sides = Segments.of(laid.shape.hull)
    left, _ = sides.seen(turned(arms, turn))
    farthest = left.argmin(axis=0)
    inside, arm, normal = left.min(axis=0), arms[farthest], turned(sides.across, -turn)
    slopes = np.column_stack([normal, normal[:, 1] * arm[:, 0] - normal[:, 0] * arm[:, 1]])
    ahead = np.maximum(-(normal * arm).sum(axis=1), 0.0)
    limits = ahead * play.bend + play.middle * play.swing + PROOF_ALLOWANCE + inside
    tight = inside < play.far(arm)
    return slopes[tight], limits[tight]
