"""How deep in the wood a point lies at most: a table, so that hopeless places cost next to nothing.

Depth is the distance to the nearest edge, negative outside. It changes by no more than the way
gone, so its exact value in the nodes of a grid bounds it everywhere.
"""

from __future__ import annotations

import numpy as np

from ...geometry.polygon import Region
from .pose import Array, segment_distances

_NODES_ALONG = 48
"""Nodes along the longer side of the wood."""

_AT_ONCE = 20_000
"""Distances worked out together: what a processor keeps close at hand."""


class Depths:
    """Upper bounds of the depth of points in a region.

    Attributes
    ----------
    deepest : (2,) array
        The node that lies deepest.
    """

    def __init__(self, region: Region, edges: Array) -> None:
        box = region.bounds
        self._step = max(box.width, box.height) / _NODES_ALONG
        self._low = np.array([box.left, box.bottom])
        self._high = np.array([box.right, box.top])
        counts = np.ceil((self._high - self._low) / self._step).astype(int) + 1
        x, y = (low + self._step * np.arange(n) for low, n in zip(self._low, counts, strict=True))
        nodes = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1)
        flat = nodes.reshape(-1, 2)
        depth = nearest(edges, flat)
        depth[~region.holds_points(flat)] *= -1
        self._depth = depth.reshape(counts[0], counts[1])
        self._last = counts - 1
        self.deepest: Array = flat[int(depth.argmax())]

    def most(self, points: Array) -> Array:
        """Return a depth, mm, that none of the points, (…, 2), exceeds."""
        within = np.minimum(np.maximum(points, self._low), self._high)
        out = np.hypot(*np.moveaxis(points - within, -1, 0))
        near = np.rint((within - self._low) / self._step).astype(np.intp)
        near = np.minimum(near, self._last)
        way = np.hypot(*np.moveaxis(self._low + near * self._step - within, -1, 0))
        depth: Array = self._depth[near[..., 0], near[..., 1]] + way
        return np.where(out > 0, -out, depth)


def nearest(edges: Array, points: Array) -> Array:
    """Return the distance from each of the points, (m, 2) mm, to the nearest edge."""
    rows = max(1, _AT_ONCE // max(1, len(edges)))
    parts = [
        segment_distances(edges[:, 0], edges[:, 1], points[i : i + rows]).min(axis=1)
        for i in range(0, len(points), rows)
    ]
    return np.concatenate(parts)
