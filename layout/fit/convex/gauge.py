"""How large a convex body must be to touch an edge: its gauge, to points and to segments.

The gauge of a way is the factor by which a body about 0, 0 must be scaled to reach its end. Scaled
up, it meets a line first where it would touch a parallel line; where that lies beyond an end of the
segment, the gauge, which is convex along the line, is least in that end.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array, Segments
from .sight import angle_of, near_angle, outward

_FEW = 2000
"""Pairs of bodies and edges that are no work to speak of."""
SAME = 1e-7
"""Corners that lie nearer to each other than this share of the size are one."""


class Touch(NamedTuple):
    """How far a body reaches along normals, (…), and where, (…, 2): ``normal · place == reach``."""

    reach: Array
    places: Array


Met = Callable[[Array], Array]
"""From m places of a body to by what factors it touches n edges there, (m, n): exact for the first
that it touches and wherever there are few, no more than that for others."""


class PowerBody:
    """The unit ball of the n-norm: |x|ⁿ + |y|ⁿ <= 1, for n >= 2."""

    def __init__(self, exponent: float) -> None:
        self.exponent = exponent
        self.far = 2 ** (0.5 - 1 / exponent)
        """How far from 0, 0 it reaches."""

    def gauge(self, ways: Array) -> Array:
        """Return the n-norm."""
        return _power_norm(ways, self.exponent)

    def dual(self, normals: Array) -> Array:
        """Return the dual norm, (…), of normals, (…, 2)."""
        return _power_norm(normals, self.exponent / (self.exponent - 1))

    def touch(self, normals: Array) -> Touch:
        """Return the norm dual to the n-norm (Hölder), and where it is reached."""
        reach = self.dual(normals)
        share = normals / np.maximum(reach, 1e-300)[..., None]
        return Touch(reach, np.sign(share) * np.abs(share) ** (1 / (self.exponent - 1)))

    def normals(self, ways: Array) -> Array:
        """Return sign(x) |x|ⁿ⁻¹ of the ways brought to the boundary."""
        share = ways / np.maximum(self.gauge(ways), 1e-300)[..., None]
        slopes: Array = np.sign(share) * np.abs(share) ** (self.exponent - 1)
        return slopes


def _power_norm(ways: Array, exponent: float) -> Array:
    """Return (|x|ⁿ + |y|ⁿ)^(1/n), scaled first so that no power over- or underflows."""
    x, y = np.abs(ways[..., 0]), np.abs(ways[..., 1])
    more = np.maximum(x, y)
    share = np.minimum(x, y) / np.maximum(more, 1e-300)
    norm: Array = more * (1.0 + share**exponent) ** (1 / exponent)
    return norm


class PolygonBody:
    """A convex polygon with 0, 0 inside, in units of the distance to its nearest side."""

    def __init__(self, corners: Array, size: float = 0.0) -> None:
        """Take its corners, anticlockwise; of such a size they lie on each other now and then."""
        way = corners - np.roll(corners, 1, axis=0)
        corners = corners[np.hypot(way[:, 0], way[:, 1]) > SAME * size]
        self.sides: Array = outward(np.stack([corners, np.roll(corners, -1, axis=0)], axis=1))
        """(k, 2) array: unit normals; side i runs from corner i to the next."""
        heights: Array = np.einsum("ij,ij->i", self.sides, corners)
        self.scale = float(heights.min())
        self.corners: Array = corners / self.scale
        """(k, 2) array: anticlockwise."""
        self.heights: Array = heights / self.scale
        """(k,) array: distances of the sides from 0, 0; the least is 1."""
        self.slopes: Array = self.sides / self.heights[:, None]
        """(k, 2) array: normals whose reach is 1."""
        reach = np.hypot(self.corners[:, 0], self.corners[:, 1])
        self.far = float(reach.max())
        self._corner_angles, self._corner_order = _sorted_angles(self.corners)
        self._side_angles, self._side_order = _sorted_angles(self.sides)
        lean = angle_of(self.sides)[:, None]
        self._apart = np.abs(near_angle(angle_of(self.corners), lean) - lean)
        self._reach = reach / self.heights[:, None]
        self.swelling = cache(self._swelling)

    def side_towards(self, ways: Array) -> NDArray[np.intp]:
        """Return through which side each of the ways, (…, 2), leaves the polygon."""
        place = np.searchsorted(self._corner_angles, angle_of(ways), side="right") - 1
        side: NDArray[np.intp] = self._corner_order[place]
        return side

    def corner_towards(self, normals: Array) -> NDArray[np.intp]:
        """Return which corner reaches farthest along each of the normals, (…, 2)."""
        place = np.searchsorted(self._side_angles, angle_of(normals), side="right") - 1
        corner: NDArray[np.intp] = (self._side_order[place] + 1) % len(self.corners)
        return corner

    def gauge(self, ways: Array) -> Array:
        """Return the factors, (…), that bring its boundary to the ends of the ways, (…, 2)."""
        factor: Array = (ways * self.normals(ways)).sum(axis=-1)
        return factor

    def touch(self, normals: Array) -> Touch:
        """Return its support in the directions of the normals, (…, 2), of any length."""
        places = self.corners[self.corner_towards(normals)]
        return Touch((normals * places).sum(axis=-1), places)

    def normals(self, ways: Array) -> Array:
        """Return the slopes of the gauge, (…, 2): normals whose reach is 1."""
        slopes: Array = self.slopes[self.side_towards(ways)]
        return slopes

    def _swelling(self, half_turn: float) -> float:
        """Return by what factor the body, turned by no more than `half_turn`, can outgrow itself.

        Turned so it lies in itself scaled by the greatest ``|v| cos(max(0, ∠(nᵢ, v) − δ)) / hᵢ``
        over its sides i and corners v.
        """
        off = np.maximum(self._apart - half_turn, 0.0)
        return float((self._reach * np.cos(off)).max())


Body = PowerBody | PolygonBody
"""A convex body with 0, 0 well inside: it holds the unit disk."""


def _sorted_angles(ways: Array) -> tuple[Array, NDArray[np.intp]]:
    """Return directions in rising order and whose they are; what lies before the first is last's.

    Index −1, for a direction before the first, is the last one.
    """
    angle = angle_of(ways)
    order = np.argsort(angle, kind="stable")
    return angle[order], order.astype(np.intp)


def gauge_met(body: Body, edges: Array) -> Met:
    """Return what tells how a body meets edges, (n, 2, 2): it lies between two disks.

    Only an edge no farther than the nearest lies from the inner one can be met first.
    """
    lines = Segments.of(edges)
    if body.far == 1.0:
        return lines.distances
    touches = [body.touch(side * lines.across) for side in (1.0, -1.0)]
    slides = [(lines.unit * touch.places).sum(axis=1) for touch in touches]
    figures = [*lines, *(touch.reach for touch in touches), *slides]

    def met(points: Array) -> Array:
        if len(points) * len(edges) < _FEW:
            return _factors(body, figures, points[:, None])
        least = lines.distances(points)
        first = least.min(axis=1)
        least /= body.far
        which, edge = np.nonzero(least <= first[:, None])
        least[which, edge] = _factors(body, [rows[edge] for rows in figures], points[which])
        return least

    return met


def _factors(body: Body, figures: list[Array], points: Array) -> Array:
    """Return the factors of edges and points, (…, 2), one by one: of lines, or else corners.

    Of edges it asks `Segments`, and for lines to the left and to the right the body's support and
    how far along the touching point lies.
    """
    across, unit, height, begin, half, left, right, left_slide, right_slide = figures
    level, start = height - (points * across).sum(axis=-1), begin - (points * unit).sum(axis=-1)
    ahead = level >= 0
    factor: Array = np.abs(level) / np.where(ahead, left, right)
    foot = factor * np.where(ahead, left_slide, right_slide) - start
    along = np.clip(foot, -half, half)
    corners = (start + along)[..., None] * unit + level[..., None] * across
    beyond = along != foot
    factor[beyond] = body.gauge(corners[beyond])
    return factor


def nearest_places(body: Body, edges: Array) -> Array:
    """Return the point of each of n edges that the body about 0, 0 meets first, (n, 2)."""
    lines = Segments.of(edges)
    touch = body.touch(np.where(lines.height > 0, 1.0, -1.0)[:, None] * lines.across)
    foot = touch.places * (np.abs(lines.height) / touch.reach)[:, None]
    along = np.einsum("ij,ij->i", lines.unit, foot) - lines.begin
    share = np.clip(along, -lines.half, lines.half) + lines.half
    places: Array = edges[:, 0] + share[:, None] * lines.unit
    return places
