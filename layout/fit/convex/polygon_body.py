"""A convex polygon as a body that grows: its sides, its corners, and how it looks when turned."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .gauge import Touch
from .sight import angle_of, near_angle, outward

SAME = 1e-7
"""Corners that lie nearer to each other than this share of the size are one."""


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
        """Return its support in the directions of the normals, (n, 2), of any length."""
        places = self.corners[self.corner_towards(normals)]
        return Touch(np.einsum("ij,ij->i", normals, places), places)

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


def _sorted_angles(ways: Array) -> tuple[Array, NDArray[np.intp]]:
    """Return directions in rising order and whose they are; what lies before the first is last's.

    Index −1, for a direction before the first, is the last one.
    """
    angle = angle_of(ways)
    order = np.argsort(angle, kind="stable")
    return angle[order], order.astype(np.intp)
