"""The maker's own outline as a search sees it: a polygon about the middle of a circle round it.

The polygon lies within the true outline. So what is found for it is at most a hair too good, which
the proof looks after, and what is proved to have no place leaves none for the true one either.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry import Placement, Point, Region
from ...geometry.polygon import convex_hull
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ..wood.edges import Array, depths_in, nearest, repeats, turned_in

_MOST_ON_EDGE = 60
"""Probes on the edge."""

_ACROSS = 7
"""Rows of probes within, across the narrower side of the box round it."""

_MOST_PAIRS = 60_000
"""Points times edges that are looked at in one small step."""

_LEAST_KEPT = 8
"""Points with the least values that thinning keeps."""


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline about a middle of its own."""

    middle: Point
    """That middle, in the frame of the outline."""
    reach: float
    """How far its farthest point lies from there, mm."""
    edges: Array
    """(n, 2, 2) array: of the polygon, mm; the top lies to their left."""
    hull: Array
    """(h, 2, 2) array: of its convex hull."""
    corners: Array
    """(m, 2) array: those of its corners that stand out: no other can come nearest to an edge of
    the wood."""
    probes: Array
    """(k, 2) array: points of the top."""
    depths: Array
    """(k,) array: how deep in the top each of them lies, mm; 0 on its edge."""
    period: float
    """The turn after which it looks the same, radians."""
    region: Region
    """The polygon."""

    @classmethod
    def of(cls, outline: Outline) -> Shape:
        """Return the shape of an outline."""
        ring = outline.inner(PROOF_ALLOWANCE)
        middle = Region.from_rings(ring).round_middle
        ring = ring - [*middle]
        edges = _edges(ring)
        region = Region.from_rings(ring)
        probes, depths = _probes(edges, region)
        return cls(
            middle,
            float(np.hypot(*ring.T).max()) + ROUNDING,
            edges,
            _edges(convex_hull(ring)),
            edges[~turned_in(edges)[:, 0], 0],
            probes,
            depths,
            math.tau / repeats(ring - [*region.centroid], ROUNDING),
            region,
        )

    def placement(self, pose: Array) -> Placement:
        """Return where the outline lies when the middle is at x, y and it is turned by the third.

        Parameters
        ----------
        pose : (3,) array
            mm, mm, radians.
        """
        turn = math.remainder(float(pose[2]), math.tau) + 0.0
        where = Point.of(pose[:2])
        return Placement(where - self.middle.turned(turn), turn)

    def inside(self, points: Array) -> Array:
        """Return how deep the points, (n, 2) mm about the middle, lie in it; negative outside."""
        return depths_in(self.region, self.edges, points)


def thinned(values: Array, edges: Array) -> NDArray[np.intp]:
    """Return the numbers of as many points as can be held against all the edges at once.

    Parameters
    ----------
    values : (m,) array
        Of the points; some of those with the least are kept whatever else goes.
    edges : (n, 2, 2) array
    """
    stride = -(-len(values) * len(edges) // _MOST_PAIRS)
    if stride <= 1:
        return np.arange(len(values), dtype=np.intp)
    least = np.argsort(values, kind="stable")[:_LEAST_KEPT]
    return np.union1d(np.arange(0, len(values), stride), least).astype(np.intp)


def _edges(ring: Array) -> Array:
    return np.stack([ring, np.roll(ring, -1, axis=0)], axis=1)


def _probes(edges: Array, region: Region) -> tuple[Array, Array]:
    """Return points of the top and their depths: corners, its edge at even steps, and a grid."""
    lengths = np.hypot(*(edges[:, 1] - edges[:, 0]).T)
    stride = -(-len(edges) // (_MOST_ON_EDGE // 2))
    spacing = float(lengths.sum()) / (_MOST_ON_EDGE // 2)
    on_edge = [edges[::stride, 0]]
    for (start, end), length in zip(edges, lengths, strict=True):
        parts = math.floor(length / spacing)
        shares = np.arange(1, parts + 1)[:, None] / (parts + 1)
        on_edge.append(start + shares * (end - start))
    rim = np.concatenate(on_edge)
    low, high = edges[:, 0].min(axis=0), edges[:, 0].max(axis=0)
    step = float((high - low).min()) / _ACROSS
    x, y = (np.arange(a + step / 2, b, step) for a, b in zip(low, high, strict=True))
    grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    grid = grid[region.holds_points(grid)]
    depths = np.concatenate([np.zeros(len(rim)), nearest(edges, grid)])
    return np.concatenate([rim, grid]), depths
