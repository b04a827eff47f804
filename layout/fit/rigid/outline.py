"""The maker's own outline as a search sees it: a polygon about the middle of a circle round it.

The polygon lies within the true outline: where it has no place, that has none either.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry import Placement, Point, Region
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ..wood.edges import Array, repeats, turned_in

_ON_EDGE = 30
"""Probes at even steps of the edge, and at corners, at most."""
_ACROSS = 7
"""Rows of probes within, across the narrower side of the box round it."""


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline about a middle of its own."""

    middle: Point
    """That middle, in the frame of the outline."""
    reach: float
    """How far its farthest point lies from there, mm."""
    region: Region
    edges: Array
    """(n, 2, 2) array: of the polygon, mm; the top lies to their left."""
    hull: Array
    """(h, 2, 2) array: of its convex hull."""
    corners: Array
    """(m, 2) array: those of its corners that stand out: no other can come nearest to an edge of
    the wood."""
    points: Array
    """(k, 2) array: these corners, and then probes, on its edge and within."""
    depths: Array
    """(k,) array: how deep in the top each of the points lies, mm; 0 on its edge."""
    period: float
    """The turn after which it looks the same, radians."""

    @classmethod
    def of(cls, outline: Outline) -> Shape:
        """Return the shape of an outline."""
        ring = outline.inner(PROOF_ALLOWANCE)
        middle = Region.from_rings(ring).round_middle
        region = Region.from_rings(ring - [*middle])
        edges = region.edges
        ring = edges[:, 0]
        corners, rim, grid = edges[~turned_in(edges)[:, 0], 0], _rim(edges), _grid(region)
        return cls(
            middle,
            float(np.hypot(*ring.T).max()) + ROUNDING,
            region,
            edges,
            Region.hull(ring).edges,
            corners,
            np.concatenate([corners, rim, grid]),
            np.concatenate([np.zeros(len(corners) + len(rim)), region.depths(grid)]),
            math.tau / repeats(ring - [*region.centroid], ROUNDING),
        )

    def placement(self, pose: Array) -> Placement:
        """Return where the outline lies in a pose, (3,): x and y of its middle, mm, and turn."""
        turn = math.remainder(float(pose[2]), math.tau) + 0.0
        return Placement(Point.of(pose[:2]) - self.middle.turned(turn), turn)


def _rim(edges: Array) -> Array:
    """Return corners and even steps of the edges, so many of either at most."""
    lengths = np.hypot(*(edges[:, 1] - edges[:, 0]).T)
    spacing = float(lengths.sum()) / _ON_EDGE
    rim = [edges[:: -(-len(edges) // _ON_EDGE), 0]]
    for (start, end), length in zip(edges, lengths, strict=True):
        parts = math.floor(length / spacing)
        rim.append(start + np.arange(1, parts + 1)[:, None] / (parts + 1) * (end - start))
    return np.concatenate(rim)


def _grid(region: Region) -> Array:
    """Return a grid of points within a region."""
    box = region.bounds
    step = min(box.width, box.height) / _ACROSS
    x = np.arange(box.left + step / 2, box.right, step)
    y = np.arange(box.bottom + step / 2, box.top, step)
    grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    return grid[region.holds_points(grid)]
