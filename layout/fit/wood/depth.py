"""How deep in the wood a point lies at most: a table, so that hopeless places cost next to nothing.

Depth is the distance to the nearest edge, negative outside. It changes by no more than the way
gone, so its value in the nodes of a grid, which is exact, bounds it everywhere.
"""

from __future__ import annotations

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from .edges import Array

_NODES = 96
"""Along the longer side of the wood."""


class Depths:
    """Upper bounds of the depth of points in a region."""

    def __init__(self, region: Region) -> None:
        box = region.bounds
        self._low, self._high = np.array([[box.left, box.bottom], [box.right, box.top]])
        sides = self._high - self._low
        self.step = float(sides.max()) / _NODES
        """Between nodes, mm."""
        counts = np.ceil(sides / self.step).astype(int) + 1
        nodes = self._low + self.step * np.moveaxis(np.indices(counts), 0, -1)
        self._depth = region.depths(nodes.reshape(-1, 2)).reshape(counts)
        self.greatest = float(self._depth.max()) + self.step / np.sqrt(2) + ROUNDING
        """No point lies deeper, mm."""
        deep = nodes[self._depth >= self._depth.max() - self.step / 8]
        self.deepest: Array = deep[len(deep) // 2]
        """(2,) array: the middle one of the nodes that lie deepest, to an eighth of a step."""

    def most(self, points: Array) -> Array:
        """Return a depth, mm, that none of the points, (…, 2), exceeds."""
        within = np.minimum(np.maximum(points, self._low), self._high)
        away = points - within
        out = np.hypot(away[..., 0], away[..., 1])
        steps = (within - self._low) / self.step
        node = np.rint(steps)
        steps -= node
        i, j = node[..., 0].astype(np.intp), node[..., 1].astype(np.intp)
        depth: Array = self._depth[i, j] + self.step * np.hypot(steps[..., 0], steps[..., 1])
        return np.where(out > 0, ROUNDING - out, depth)
