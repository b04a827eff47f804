"""How deep in the wood a point lies at most: a table, so that hopeless places cost next to nothing.

Depth is the distance to the nearest edge, negative outside. It changes by no more than the way
gone, so its value in the nodes of a grid bounds it everywhere. It is exact there but for round
holes, which count as one disk each: near them it may be more than exact, never less.
"""

from __future__ import annotations

import math

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from .edges import Array, nearest
from .round_holes import LOSS, Disks

_FEWEST_NODES, _MOST_NODES = 48, 160
"""Nodes along the longer side of the wood; as many as the distances allow."""
_MOST_DISTANCES = 1_500_000
"""Worked out for a table, about."""


class Depths:
    """Upper bounds of the depth of points in a region."""

    def __init__(self, region: Region, edges: Array, disks: Disks) -> None:
        box = region.bounds
        others = np.setdiff1d(np.arange(len(edges)), disks.edges)
        long, wide = max(box.width, box.height), min(box.width, box.height)
        each = (len(others) + len(disks.radii)) * wide / long
        along = math.sqrt(_MOST_DISTANCES / max(each, 1.0))
        self.step = long / min(max(along, _FEWEST_NODES), _MOST_NODES)
        """Between nodes, mm."""
        self._low = np.array([box.left, box.bottom])
        self._high = np.array([box.right, box.top])
        counts = np.ceil((self._high - self._low) / self.step).astype(int) + 1
        x, y = (low + self.step * np.arange(n) for low, n in zip(self._low, counts, strict=True))
        flat = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
        depth = nearest(edges[others], flat)
        to_disks = _to_disks(disks, flat)
        np.minimum(depth, np.maximum(to_disks, 0.0), out=depth)
        outside = ~region.holds_points(flat)
        # in the hole of a disk the wood may be nearer than the disk, and than any edge looked at
        depth[outside] = np.where(to_disks[outside] <= LOSS, 0.0, -depth[outside])
        self._depth = depth.reshape(counts[0], counts[1])
        self.greatest = float(depth.max()) + self.step / math.sqrt(2) + ROUNDING
        """No point lies deeper, mm."""
        self.deepest: Array = flat[int(depth.argmax())]
        """(2,) array: the node that lies deepest."""

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


def _to_disks(disks: Disks, points: Array) -> Array:
    """Return the distance from each of the points, (m, 2) mm, to the nearest disk."""
    best = np.full(len(points), np.inf)
    for place, radius in zip(disks.places, disks.radii, strict=True):
        np.minimum(best, np.hypot(*(points - place).T) - radius, out=best)
    return best
