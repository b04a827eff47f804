"""Wood as a search for an own outline sees it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry.polygon import Region, convex_hull
from ..wood.depth import Depths
from ..wood.edges import Array, depths_in, outermost, turned_in
from ..wood.round_holes import Disks

_NODES = 256
"""Of the table of depths, along the longer side of the wood."""


@dataclass(frozen=True, slots=True)
class Ground:
    """A piece of wood, or all of it."""

    region: Region
    edges: Array
    """(n, 2, 2) array: mm, the wood to their left."""
    outermost: NDArray[np.bool_]
    """(n,) array of bool: which edges have all of it to their left."""
    corners: Array
    """(m, 2) array: corners where the wood turns inwards: none but these can come nearest to an
    edge of a top."""
    depths: Depths

    @classmethod
    def of(cls, region: Region) -> Ground:
        """Return the ground of a region."""
        edges = region.edges
        corners = edges[turned_in(edges)[:, 0], 0]
        own = outermost(edges, convex_hull(region.corners))
        return cls(region, edges, own, corners, Depths(region, edges, Disks.none(), _NODES))

    def depth(self, points: Array) -> Array:
        """Return how deep the points, (n, 2) mm, lie."""
        return depths_in(self.region, self.edges, points)
