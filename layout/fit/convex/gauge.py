"""How large a convex body must be to touch an edge: its gauge, to points and to segments.

A body is a convex shape about 0, 0. Its gauge of a way is the factor by which it must be scaled to
reach the end of that way. Scaled up about a point, it meets a line first where it would touch a
parallel line: the distance of the line over the body's support, and the touching point is known
beforehand, edge by edge. Where that point lies beyond an end of the segment, the gauge, which is
convex along the line, is least in that end.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import NamedTuple, Protocol

import numpy as np

from ..wood.edges import Array, Segments

_FEW = 2000
"""Pairs of bodies and edges that are no work to speak of."""


class Touch(NamedTuple):
    """How far a body reaches along normals, and where."""

    reach: Array
    """(n,) array."""
    places: Array
    """(n, 2) array: with ``normal · place == reach``."""


Met = Callable[[Array], Array]
"""From m places of a body to by what factors it touches n edges there, (m, n): exact for the first
that it touches and wherever there are few, no more than that for others."""


class Body(Protocol):
    """A convex body with 0, 0 well inside: it holds the unit disk."""

    far: float
    """How far from 0, 0 it reaches."""

    def gauge(self, ways: Array) -> Array:
        """Return the factors, (…), that bring its boundary to the ends of the ways, (…, 2)."""
        ...

    def touch(self, normals: Array) -> Touch:
        """Return its support in the directions of the normals, (n, 2), of any length."""
        ...

    def normals(self, ways: Array) -> Array:
        """Return the slopes of the gauge, (…, 2): normals whose reach is 1."""
        ...


class PowerBody:
    """The unit ball of the n-norm: |x|ⁿ + |y|ⁿ <= 1, for n >= 2."""

    def __init__(self, exponent: float) -> None:
        self.exponent = exponent
        self.far = 2 ** (0.5 - 1 / exponent)

    def gauge(self, ways: Array) -> Array:
        """Return the n-norm."""
        return _power_norm(ways, self.exponent)

    def dual(self, normals: Array) -> Array:
        """Return the dual norm, (…), of normals, (…, 2)."""
        return _power_norm(normals, self.exponent / (self.exponent - 1))

    def touch(self, normals: Array) -> Touch:
        """Return the norm dual to the n-norm (Hölder), and where it is reached."""
        reach = self.dual(normals)
        share = normals / np.maximum(reach, 1e-300)[:, None]
        return Touch(reach, np.sign(share) * np.abs(share) ** (1 / (self.exponent - 1)))

    def normals(self, ways: Array) -> Array:
        """Return sign(x) |x|ⁿ⁻¹ of the ways brought to the boundary."""
        share = ways / self.gauge(ways)[..., None]
        slopes: Array = np.sign(share) * np.abs(share) ** (self.exponent - 1)
        return slopes


def _power_norm(ways: Array, exponent: float) -> Array:
    """Return (|x|ⁿ + |y|ⁿ)^(1/n), scaled first so that no power over- or underflows."""
    x, y = np.abs(ways[..., 0]), np.abs(ways[..., 1])
    more = np.maximum(x, y)
    share = np.minimum(x, y) / np.maximum(more, 1e-300)
    norm: Array = more * (1.0 + share**exponent) ** (1 / exponent)
    return norm


def gauge_met(body: Body, edges: Array) -> Met:
    """Return what tells how a body meets edges, (n, 2, 2): it lies between two disks.

    Only an edge no farther than the nearest lies from the inner one can be met first.
    """
    if body.far == 1.0:
        return Segments.of(edges).distances

    @cache
    def ready() -> tuple[Segments, list[Array]]:
        lines = Segments.of(edges)
        return lines, _figures(body, edges, lines)

    def met(points: Array) -> Array:
        if len(points) == 1:
            return body.gauge(nearest_places(body, edges - points))[None]
        lines, figures = ready()
        if len(points) * len(edges) < _FEW:
            return _factors(body, figures, points[:, None])
        least = lines.distances(points)
        first = least.min(axis=1)
        least /= body.far
        which, edge = np.nonzero(least <= first[:, None])
        least[which, edge] = _factors(body, [rows[edge] for rows in figures], points[which])
        return least

    return met


def _figures(body: Body, edges: Array, lines: Segments) -> list[Array]:
    """Return what `_factors` asks of edges, (n, 2, 2) in the frame of the body.

    Their ends, unit vectors along and to the right, how far along both they start, their lengths,
    and for the body before the line and behind it the support and how far the touching point lies.
    """
    unit, normal = lines.unit, -lines.across
    places = [lines.begin - lines.half, -lines.height]
    touches = [body.touch(ways) for ways in (normal, -normal)]
    slides = [np.einsum("ij,ij->i", unit, touch.places) for touch in touches]
    reaches = [touch.reach for touch in touches]
    return [edges, unit, normal, *places, 2 * lines.half, *reaches, *slides]


def _factors(body: Body, figures: list[Array], points: Array) -> Array:
    """Return the factors of edges and points, (…, 2), one by one: of lines, or else corners."""
    edges, unit, normal, start, level, length, *touching = figures
    height = level - (points * normal).sum(axis=-1)
    before = height >= 0
    factor: Array = np.abs(height) / np.where(before, touching[0], touching[1])
    slide = np.where(before, touching[2], touching[3])
    foot = factor * slide + (points * unit).sum(axis=-1) - start
    late = foot > length
    beyond = late | (foot < 0)
    corners = np.where(late[..., None], edges[..., 1, :], edges[..., 0, :]) - points
    factor[beyond] = body.gauge(corners[beyond])
    return factor


def disk_factors(body: Body, squeeze: Array, x: Array, y: Array, radii: Array) -> Array:
    """Return at least by what factors the body touches the disk that it touches first, (m, k).

    The point of a disk is taken that lies towards the body as the gauge falls steepest there. Of
    disks that others lie before no more than their factors are returned.
    The plane times `squeeze`, (2,), makes the tops the body; x and y, (m, k), lead from centres of
    tops to the middles of the disks, mm.
    """
    far = np.hypot(x * squeeze[0], y * squeeze[1])
    least: Array = np.maximum(far - radii * squeeze.max(), 0.0) / body.far
    which, disk = np.nonzero(least <= far.min(axis=1)[:, None])
    ways, radius = np.stack([x[which, disk], y[which, disk]], axis=1), radii[disk]
    inside = np.hypot(ways[:, 0], ways[:, 1]) <= radius
    ways[inside] = 1.0
    inwards = body.normals(ways * squeeze) * squeeze
    points = ways - inwards * (radius / np.hypot(inwards[:, 0], inwards[:, 1]))[:, None]
    least[which, disk] = np.where(inside, 0.0, body.gauge(points * squeeze))
    return least


def nearest_places(body: Body, edges: Array) -> Array:
    """Return the point of each of n edges that the body about 0, 0 meets first, (n, 2)."""
    lines = Segments.of(edges)
    touch = body.touch(np.where(lines.height > 0, 1.0, -1.0)[:, None] * lines.across)
    foot = touch.places * (np.abs(lines.height) / touch.reach)[:, None]
    along = np.einsum("ij,ij->i", lines.unit, foot) - lines.begin
    share = np.clip(along, -lines.half, lines.half) + lines.half
    places: Array = edges[:, 0] + share[:, None] * lines.unit
    return places
