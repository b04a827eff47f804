"""One connected piece of wood as a search for an own outline sees it.

Depth is the distance to where the wood ends, negative outside it. It changes by no more than the
way gone, so its value in the middle of a square bounds it in the whole square: a table of squares
tells at once how deep a point can lie at most.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry.polygon import Region, convex_hull
from ...geometry.tolerance import ROUNDING
from ..convex.depth import nearest
from .outline import Array, outstanding

_SQUARES_ALONG = 256
"""Squares along the longer side of the wood."""

_BLOCK = 8
"""Squares along the side of a block, whose nearest edges are sought together."""


@dataclass(frozen=True, slots=True)
class Ground:
    """A piece of wood."""

    region: Region
    edges: Array
    """(n, 2, 2) array: mm, the wood to their left."""
    outermost: NDArray[np.bool_]
    """(n,) array of bool: which edges have the whole piece to their left."""
    corners: Array
    """(m, 2) array: corners where the wood turns inwards: none but these can come nearest to an
    edge of a top."""
    low: Array
    """(2,) array: where the table starts, mm."""
    side: float
    """Of its squares, mm."""
    most: Array
    """(p, q) array: how deep a point of each square can lie, mm."""

    @classmethod
    def of(cls, piece: Region) -> Ground:
        """Return the ground of a region in one piece."""
        rings = [piece.exterior, *piece.holes]
        edges = np.concatenate(
            [np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings]
        )
        corners = np.concatenate([ring[~outstanding(ring)] for ring in rings])
        low, side, most = _table(piece, edges)
        outermost = _outermost(edges, convex_hull(piece.exterior))
        return cls(piece, edges, outermost, corners, low, side, most)

    def deepest(self, x: Array, y: Array) -> Array:
        """Return a depth, mm, that the points at x and y do not exceed.

        A point beyond the table lies no deeper than the nearest one of the box round the wood.
        """
        i = ((x - self.low[0]) * (1 / self.side)).astype(np.intp)
        j = ((y - self.low[1]) * (1 / self.side)).astype(np.intp)
        np.clip(i, 0, self.most.shape[0] - 1, out=i)
        np.clip(j, 0, self.most.shape[1] - 1, out=j)
        i *= self.most.shape[1]
        i += j
        found: Array = self.most.ravel()[i]
        return found

    def beyond(self, points: Array) -> NDArray[np.bool_]:
        """Return which of the points, (n, 2) mm, lie off the table, which then tells little."""
        x, y = points.T
        low, high = self.low, self.low + self.side * np.array(self.most.shape)
        off: NDArray[np.bool_] = (x < low[0]) | (x > high[0]) | (y < low[1]) | (y > high[1])
        return off

    def depth(self, points: Array) -> Array:
        """Return how deep the points, (n, 2) mm, lie."""
        depth = nearest(self.edges, points)
        depth[~self.region.holds_points(points)] *= -1
        return depth


def _table(piece: Region, edges: Array) -> tuple[Array, float, Array]:
    """Return where the table starts, the side of its squares, and the table.

    A block of squares needs only the edges that can be nearest to one of them.
    """
    box = piece.bounds
    side = max(box.width, box.height) / _SQUARES_ALONG
    low = np.array([box.left, box.bottom])
    shape = [int(extent / side / _BLOCK) + 1 for extent in (box.width, box.height)]
    inside_block = (np.arange(_BLOCK) + 0.5) * side
    own = np.stack(np.meshgrid(inside_block, inside_block, indexing="ij"), axis=-1)
    starts = [low[k] + _BLOCK * side * np.arange(shape[k]) for k in (0, 1)]
    corners = np.stack(np.meshgrid(*starts, indexing="ij"), axis=-1)
    middles = corners.reshape(-1, 2) + _BLOCK * side / 2
    reach = _BLOCK * side / np.sqrt(2)
    depth = np.zeros((shape[0], shape[1], _BLOCK, _BLOCK))
    near = nearest(edges, middles)
    points = corners[:, :, None, None] + own
    for number, middle in enumerate(middles):
        i, j = divmod(number, shape[1])
        close = _within(edges, middle, float(near[number]) + 2 * reach)
        squares = points[i, j].reshape(-1, 2)
        depth[i, j] = nearest(edges[close], squares).reshape(_BLOCK, _BLOCK)
    flat = np.moveaxis(points, 2, 1).reshape(-1, 2)
    most = np.moveaxis(depth, 2, 1).reshape(-1)
    most[~piece.holds_points(flat)] *= -1
    most += side / np.sqrt(2) + ROUNDING
    return low, side, most.reshape(shape[0] * _BLOCK, shape[1] * _BLOCK)


def _within(edges: Array, point: Array, distance: float) -> NDArray[np.bool_]:
    """Return which edges may come within a distance of a point."""
    way = edges[:, 1] - edges[:, 0]
    share = ((point - edges[:, 0]) * way).sum(axis=1) / (way * way).sum(axis=1)
    foot = edges[:, 0] + np.clip(share, 0.0, 1.0)[:, None] * way
    near: NDArray[np.bool_] = np.hypot(*(foot - point).T) <= distance * (1 + 1e-9)
    return near


def _outermost(edges: Array, hull: Array) -> NDArray[np.bool_]:
    """Return which edges have the whole hull to their left, but for rounding."""
    way = edges[:, 1] - edges[:, 0]
    way = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    off = hull[None] - edges[:, :1]
    left = way[:, :1] * off[..., 1] - way[:, 1:] * off[..., 0]
    held: NDArray[np.bool_] = left.min(axis=1) >= -ROUNDING
    return held
