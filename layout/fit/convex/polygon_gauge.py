"""A convex polygon as a body that grows: its sides, its corners, and how it looks when turned."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .gauge import Touch


class PolygonBody:
    """A convex polygon with 0, 0 inside, in units of the distance to its nearest side."""

    def __init__(self, corners: Array) -> None:
        way = np.roll(corners, -1, axis=0) - corners
        way /= np.hypot(way[:, 0], way[:, 1])[:, None]
        self.sides: Array = np.stack([way[:, 1], -way[:, 0]], axis=1)
        """(k, 2) array: unit normals; side i runs from corner i to the next."""
        heights: Array = np.einsum("ij,ij->i", self.sides, corners)
        self.scale = float(heights.min())
        self.corners: Array = corners / self.scale
        """(k, 2) array: anticlockwise."""
        self.heights: Array = heights / self.scale
        """(k,) array: distances of the sides from 0, 0; the least is 1."""
        self.far = float(np.hypot(self.corners[:, 0], self.corners[:, 1]).max())
        self._swellings: dict[float, float] = {}
        self._slopes: Array = self.sides / self.heights[:, None]
        self._corner_angles, self._corner_order = _sorted_angles(self.corners)
        self._side_angles, self._side_order = _sorted_angles(self.sides)
        angle = np.arctan2(self.corners[:, 1], self.corners[:, 0])
        lean = np.arctan2(self.sides[:, 1], self.sides[:, 0])[:, None]
        self._apart = np.abs(np.remainder(angle - lean + math.pi, math.tau) - math.pi)
        self._reach = np.hypot(self.corners[:, 0], self.corners[:, 1]) / self.heights[:, None]

    def side_towards(self, ways: Array) -> NDArray[np.intp]:
        """Return through which side each of the ways, (…, 2), leaves the polygon."""
        angle = np.arctan2(ways[..., 1], ways[..., 0])
        place = np.searchsorted(self._corner_angles, angle, side="right") - 1
        side: NDArray[np.intp] = self._corner_order[place]
        return side

    def corner_towards(self, normals: Array) -> NDArray[np.intp]:
        """Return which corner reaches farthest along each of the normals, (…, 2)."""
        angle = np.arctan2(normals[..., 1], normals[..., 0])
        place = np.searchsorted(self._side_angles, angle, side="right") - 1
        corner: NDArray[np.intp] = (self._side_order[place] + 1) % len(self.corners)
        return corner

    def gauge(self, ways: Array) -> Array:
        """Return the factors, (…), that bring its boundary to the ends of the ways, (…, 2)."""
        factor: Array = (ways * self._slopes[self.side_towards(ways)]).sum(axis=-1)
        return factor

    def touch(self, normals: Array) -> Touch:
        """Return its support in the directions of the normals, (n, 2), of any length."""
        places = self.corners[self.corner_towards(normals)]
        return Touch(np.einsum("ij,ij->i", normals, places), places)

    def normals(self, ways: Array) -> Array:
        """Return the slopes of the gauge, (n, 2): normals whose reach is 1."""
        slopes: Array = self._slopes[self.side_towards(ways)]
        return slopes

    def swelling(self, half_turn: float) -> float:
        """Return by what factor the body, turned by no more than `half_turn`, can outgrow itself.

        Turned so it lies in itself scaled by the greatest ``|v| cos(max(0, ∠(nᵢ, v) − δ)) / hᵢ``
        over its sides i and corners v.
        """
        if half_turn not in self._swellings:
            off = np.maximum(self._apart - half_turn, 0.0)
            self._swellings[half_turn] = float((self._reach * np.cos(off)).max())
        return self._swellings[half_turn]


def _sorted_angles(ways: Array) -> tuple[Array, NDArray[np.intp]]:
    """Return directions in rising order and whose they are; what lies before the first is last's.

    Index −1, for a direction before the first, is the last one.
    """
    angle = np.arctan2(ways[:, 1], ways[:, 0])
    order = np.argsort(angle, kind="stable")
    return angle[order], order.astype(np.intp)
