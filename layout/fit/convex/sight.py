"""How contacts look from the centres of a patch: at what angles, and whether they stay put."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .boxes import Patch

_ALMOST_SQUARE = math.pi / 2 - 1e-9
"""Radians: what is no more is known to be less than a quarter turn."""
_SECTORS, _EACH = 16, 2
"""Directions round a top, and how many of the nearest edges are looked at in each."""


def nearest_all_round(way: Array, distance: Array, places: int = 1) -> NDArray[np.intp]:
    """Return which edges are among the nearest in their direction.

    Ways, (n, 2), lead to them from the middle of the top, or from one place in it after the other.
    """
    each = len(way) // places
    if each <= 2 * _SECTORS:
        return np.arange(len(way), dtype=np.intp)
    sector = np.floor((angle_of(way) / math.pi + 1) * (_SECTORS / 2)).astype(np.intp)
    sector += 2 * _SECTORS * (np.arange(len(way)) // each)
    order = np.lexsort((distance, sector))
    sector = sector[order]
    rank = np.arange(len(order)) - np.searchsorted(sector, sector)
    return np.sort(order[rank < _EACH])


def planes_above(figures: Array, corners: Array) -> tuple[Array, Array]:
    """Return planes that lie, by a little, above convex figures of what wanders within a box.

    Slopes, (n, k), for the half sides of the box, and levels in its middle, (n,); of figures,
    (n, c), in its corners, (c, k) of 1 and −1.
    """
    slopes = figures @ corners / len(corners)
    return slopes, (figures - slopes @ corners.T).max(axis=1)


def wandering(unit: Array, sides: tuple[float, float] | Array) -> Array:
    """Return how far along `unit` a point may lie off the middle of a rectangle of half sides."""
    reach: Array = np.abs(unit[:, 0]) * sides[0] + np.abs(unit[:, 1]) * sides[1]
    return reach


def outward(local: Array) -> Array:
    """Return unit normals of edges, (n, 2, 2), to their right: out of the wood; none of points."""
    way = local[:, 1] - local[:, 0]
    normal: Array = np.stack([way[:, 1], -way[:, 0]], axis=1)
    normal /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None]
    return normal


def facing(local: Array) -> Array:
    """Return unit normals of edges that point away from 0, 0."""
    normal = outward(local)
    normal[np.einsum("ij,ij->i", normal, local[:, 0]) < 0] *= -1
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
    corners = np.array([(x, y) for x in (-1, 1) for y in (-1, 1)]) * patch.sides
    away = feet[:, None] - corners
    turn = np.arctan2(
        feet[:, :1] * away[..., 1] - feet[:, 1:] * away[..., 0],
        feet[:, :1] * away[..., 0] + feet[:, 1:] * away[..., 1],
    )
    known, towards = np.abs(turn).max(axis=1) < _ALMOST_SQUARE, angle_of(feet)
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
    rises, beside = wandering(normal, patch.sides), wandering(unit, patch.sides)
    near, far = height - rises, height + rises
    known = (slides[0] > -_ALMOST_SQUARE) & (slides[1] < _ALMOST_SQUARE) & (near > 0)
    least, most = (np.tan(np.clip(slide, -_ALMOST_SQUARE, _ALMOST_SQUARE)) for slide in slides)
    low = np.minimum(least * near, least * far) - beside
    high = np.maximum(most * near, most * far) + beside
    along = np.einsum("nij,nj->ni", local, unit)
    stays: NDArray[np.bool_] = (along.min(axis=1) <= low) & (high <= along.max(axis=1)) & known
    return stays


def cross_within(lines: Array, inner: Array, outer: Array) -> NDArray[np.bool_]:
    """Return which lines, (n, 2, 2), are met between their ends on all ways across them.

    The ways lead from places among the inner ones, which lie to the left of all of these, to places
    among the outer ones: what some span, given by its corners, (k, 2).
    """
    way, places = lines[:, 1] - lines[:, 0], np.concatenate([inner, outer]) - lines[:, :1]
    out = np.einsum("nij,nj->ni", places, outward(lines))
    square = np.maximum((way * way).sum(axis=1), 1e-300)
    share = np.einsum("nij,nj->ni", places, way) / square[:, None]
    here, there = out[:, :, None], out[:, None]
    crosses = (here <= 0) & (there > 0)
    part = here / np.where(crosses, here - there, 1.0)
    at = share[:, :, None] + part * (share[:, None] - share[:, :, None])
    within = (~crosses | ((at >= 0) & (at <= 1))).all(axis=(1, 2))
    known: NDArray[np.bool_] = within & (out[:, : len(inner)] < 0).all(axis=1)
    return known
