"""How contacts look from the centres of a patch: at what angles, and whether they stay put."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .relaxation import Patch, wandering

_ALMOST_SQUARE = 1e-9
"""Less than a quarter turn by this is known to be less, radians."""


def outward(local: Array) -> Array:
    """Return unit normals of edges, (n, 2, 2), to their right: out of the wood; none of points."""
    way = local[:, 1] - local[:, 0]
    normal: Array = np.stack([way[:, 1], -way[:, 0]], axis=1)
    normal /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None]
    return normal


def facing(local: Array) -> Array:
    """Return unit normals of edges that point away from 0, 0."""
    normal = outward(local)
    away = np.einsum("ij,ij->i", normal, local[:, 0]) < 0
    normal[away] *= -1
    return normal


def near_angle(angle: Array, other: Array) -> Array:
    """Return `angle` plus whole turns, so that it lies within half a turn of `other`."""
    near: Array = other + np.remainder(angle - other + math.pi, math.tau) - math.pi
    return near


def angle_of(ways: Array) -> Array:
    """Return directions, radians from x."""
    angle: Array = np.arctan2(ways[..., 1], ways[..., 0])
    return angle


def directions(patch: Patch, feet: Array) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Return between which directions feet, (n, 2), are seen from the patch, and if that is known.

    They are given as seen from its middle, along its sides.
    """
    corners = np.array([(x, y) for x in (-1, 1) for y in (-1, 1)]) * (patch.along, patch.across)
    away = feet[:, None] - corners
    turn = np.arctan2(
        feet[:, :1] * away[..., 1] - feet[:, 1:] * away[..., 0],
        feet[:, :1] * away[..., 0] + feet[:, 1:] * away[..., 1],
    )
    known = np.abs(turn).max(axis=1) < math.pi / 2 - _ALMOST_SQUARE
    towards = angle_of(feet)
    return towards + turn.min(axis=1), towards + turn.max(axis=1), known


def stays_between(
    local: Array, normal: Array, slides: tuple[Array, Array], patch: Patch
) -> NDArray[np.bool_]:
    """Return which edges a top of a box can only touch between their ends.

    As a top grows about its centre it first meets the line of an edge in its touching point. Where
    that stays between the ends for all tops of the box, a top clear of the edge is clear of the
    whole line.
    Edges and normals, away from it, are seen from the middle of the patch; the touching point lies
    off the normal, seen from a centre, by angles between the two `slides`.
    """
    height = np.einsum("ij,ij->i", normal, local[:, 0])
    unit = np.stack([-normal[:, 1], normal[:, 0]], axis=1)
    rises = wandering(normal, patch.along, patch.across)
    beside = wandering(unit, patch.along, patch.across)
    near, far = height - rises, height + rises
    square = math.pi / 2 - _ALMOST_SQUARE
    known = (slides[0] > -square) & (slides[1] < square) & (near > 0)
    least, most = (np.tan(np.clip(slide, -square, square)) for slide in slides)
    low = np.minimum(least * near, least * far) - beside
    high = np.maximum(most * near, most * far) + beside
    along = np.einsum("nij,nj->ni", local, unit)
    stays: NDArray[np.bool_] = (along.min(axis=1) <= low) & (high <= along.max(axis=1)) & known
    return stays
