"""What a top must hold, in the bounds of a box: points that lie in its core.

A convex top holds a point P when in every direction n it reaches as far as P does:
``n·(P − c) <= reach(n)``. One direction gives one half-plane, and the direction in which the middle
top of the box meets P loses least. The reach of a top is no linear figure of its unknowns, but over
a small box it lies close under one.

A capsule, spine ±s and radius r, reaches r + |n·s|. Where the sign of n·s is known that is linear;
where it may change, twice its other part is added. Beside the spine the distance to its line is
taken: with sin φ = s2 / p, its half length, ``(Y − c2) cos φ <= r + (X − c1) s2 / p``, where the
quotient differs little from its middle one.

An oval {c + B s : |s| <= 1} reaches |B n|, at most û·B n / cos ψ, where û is the direction of B n
in the middle of the box and ψ bounds how far it wanders. At turn φ and shape p it points to
φ + atan(exp(−p) tan(α − φ)), α the direction of n. A superellipse reaches ‖Mᵀn‖ in the dual norm,
bounded alike.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from .boxes import Box
from .capsule_bound import shortest
from .convex import ConvexKind
from .convex_bound import convex_held_rows
from .pose import Array, Kind, turned
from .relaxed import HalfPlanes, Patch
from .superellipse import SuperellipseKind

_WIDE = 1.2
"""ψ, radians, beyond which a half-plane would say next to nothing."""


def least_radii(kind: Kind, box: Box, anchor: float, points: Array, reach: float) -> Array:
    """Return, for each cell, a radius that a top of the box needs to hold the points, mm.

    Parameters
    ----------
    reach : float
        How far the middle of a cell can lie from its corners, in the measure of the radius.
    """
    if kind.name == "capsule":  # of one turn the longest spine lies nearest to every point
        needed = kind.holding(box.turn, box.high, points, box.centres)
        return needed - reach - kind.growth(box.high, box.high, box.half_turn)[1]
    factor, addend = kind.growth(box.low, box.high, box.half_turn)
    needed = kind.holding(box.turn, anchor, points, box.centres)
    return (needed - reach) / factor - addend - kind.drift(box)


def with_held(kind: Kind, box: Box, patch: Patch, points: Array, planes: HalfPlanes) -> HalfPlanes:
    """Return half-planes with those of the points that every top of a box must hold.

    Of kinds of outline that are not known here the cells alone bound what they hold.
    """
    if kind.name not in _ROWS or not len(points):
        return planes
    rows, limits = _ROWS[kind.name](kind, box, patch, turned(points - patch.middle, box.turn))
    return replace(
        planes,
        rows=np.vstack([planes.rows, rows]),
        limits=np.concatenate([planes.limits, limits]),
    )


def _capsule_rows(kind: Kind, box: Box, patch: Patch, seen: Array) -> tuple[Array, Array]:
    least = shortest(box)
    middle, swing = (least + box.high) / 2, box.high * math.sin(box.half_turn)
    rows, limits = [], []
    for sign in (1.0, -1.0):
        way = seen - np.array([sign * middle, 0.0])
        far = np.hypot(way[:, 0], way[:, 1])
        n = np.where(far[:, None] > 0, way / np.maximum(far, 1e-12)[:, None], [[sign, 0.0]])
        along = sign * n[:, 0]
        worst = np.minimum(along * least, along * box.high) - np.abs(n[:, 1]) * swing
        slack = 2 * np.maximum(-worst, 0.0)
        rows.append(np.column_stack([-n, -sign * n, -np.ones(len(n))]))
        limits.append(slack - (n * seen).sum(axis=1) + along * least)
    sine, loss = math.sin(box.half_turn), 1 - math.cos(box.half_turn)
    length, span = (box.low + box.high) / 2, (box.high - box.low) / 2
    k = seen[:, 0] / length if length > 0 else np.zeros(len(seen))
    up = np.where(seen[:, 1] >= 0, 1.0, -1.0)
    zero = np.zeros(len(seen))
    rows.append(np.column_stack([zero, -up, zero, -up * k, zero - 1.0]))
    loose = loss * (np.abs(seen[:, 1]) + patch.across)
    loose += sine * (np.abs(seen[:, 0] - k * length) + patch.along + np.abs(k) * span)
    limits.append(loose - np.abs(seen[:, 1]))
    return np.vstack(rows), np.concatenate(limits)


def _oval_rows(kind: Kind, box: Box, patch: Patch, seen: Array) -> tuple[Array, Array]:
    p = (box.low + box.high) / 2
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    e = seen * squeeze
    far = np.hypot(e[:, 0], e[:, 1])
    known = far > 0
    seen, e = seen[known], e[known] / far[known, None]
    n = e * squeeze
    n /= np.hypot(n[:, 0], n[:, 1])[:, None]
    psi = _wander(box, np.arctan2(n[:, 1], n[:, 0]))
    use = psi < _WIDE
    seen, e, n = seen[use], e[use], n[use]
    u = e / np.cos(psi[use])[:, None]
    rows = np.column_stack(
        [-n, -u[:, 0] * n[:, 0], -u[:, 1] * n[:, 1], -u[:, 0] * n[:, 1] - u[:, 1] * n[:, 0]]
    )
    return rows, -(n * seen).sum(axis=1)


def _wander(box: Box, alpha: Array) -> Array:
    """Return how far, as an angle, B n can point from where it does in the middle of a box."""
    delta, p = box.half_turn, (box.low + box.high) / 2

    def lean(shape: float) -> Array:
        return np.arctan2(math.exp(-shape) * np.sin(alpha), np.cos(alpha))

    by_shape = np.maximum(np.abs(lean(box.low) - lean(p)), np.abs(lean(box.high) - lean(p)))
    off = np.abs(np.remainder(alpha + math.pi / 2, math.pi) - math.pi / 2)
    least = np.cos(np.minimum(off + delta, math.pi / 2)) ** 2
    most = np.cos(np.maximum(off - delta, 0.0)) ** 2
    thin, thick = math.exp(-box.high), math.exp(-box.low)
    peak = np.clip(np.sqrt(least / np.maximum(1 - least, 1e-300)), thin, thick)
    fastest = peak / (least + peak**2 * (1 - least))
    slowest = np.minimum(
        thin / (most + thin**2 * (1 - most)), thick / (most + thick**2 * (1 - most))
    )
    turning: Array = delta * np.maximum(np.abs(1 - fastest), np.abs(1 - slowest))
    return by_shape + turning


def _superellipse_rows(kind: Kind, box: Box, patch: Patch, seen: Array) -> tuple[Array, Array]:
    """Return ν·P − ν·c <= ŝ·Mᵀν / ψ, ψ the least of ŝ·u / ‖u‖ over the ways u that Mᵀν can point.

    As u turns away from where ŝ touches, to either side, the quotient falls.
    """
    assert isinstance(kind, SuperellipseKind)
    p, power = (box.low + box.high) / 2, kind.exponent
    dual = power / (power - 1)
    squeeze = np.array([math.exp(-p / 2), math.exp(p / 2)])
    known = seen.any(axis=1)
    seen, z = seen[known], seen[known] * squeeze
    z = z / (np.abs(z) ** power).sum(axis=1)[:, None] ** (1 / power)
    normal = np.sign(z) * np.abs(z) ** (power - 1) * squeeze
    normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
    alpha, psi = np.arctan2(normal[:, 1], normal[:, 0]), np.ones(len(z))
    for lean in (-box.half_turn, box.half_turn):
        for shape in (box.low, box.high):
            x, y = np.cos(alpha - lean), math.exp(-shape) * np.sin(alpha - lean)
            long = (np.abs(x) ** dual + np.abs(y) ** dual) ** (1 / dual)
            psi = np.minimum(psi, (z[:, 0] * x + z[:, 1] * y) / long)
    use = psi > math.cos(_WIDE)
    seen, normal, s = seen[use], normal[use], z[use] / psi[use, None]
    n1, n2 = normal.T
    rows = np.column_stack([-normal, -s[:, 0] * n1, -s[:, 1] * n2, -s[:, 0] * n2, s[:, 1] * n1])
    return rows, -(normal * seen).sum(axis=1)


def _convex_rows(kind: Kind, box: Box, patch: Patch, seen: Array) -> tuple[Array, Array]:
    assert isinstance(kind, ConvexKind)
    return convex_held_rows(kind.form, box, patch, seen)


_ROWS: dict[str, Callable[[Kind, Box, Patch, Array], tuple[Array, Array]]] = {
    "capsule": _capsule_rows,
    "oval": _oval_rows,
    "superellipse": _superellipse_rows,
    ConvexKind.name: _convex_rows,
}
