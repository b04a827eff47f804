"""Round holes taken as disks: screw holes by the hundred, each one place and one radius.

A drilled hole comes as a ring of dozens of edges. Coarse bounds need no more of it than a disk that
lies in it: a hair smaller than the hole, so they err on the safe side, and one distance a hole
instead of dozens. Small boxes are still bounded by the edges themselves.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from .edges import Array, Segments, rings_of, turned

LOSS = 0.5
"""mm that a disk in a hole may be smaller than the hole: corners of eight edges round 12 mm."""

_FEWEST = 8
"""Edges that make a ring worth it."""


@dataclass(frozen=True, slots=True)
class Disks:
    """Disks in holes of the wood."""

    places: Array
    """(k, 2) array: mm."""
    radii: Array
    """(k,) array: mm."""
    first: NDArray[np.intp]
    last: NDArray[np.intp]
    """(k,) array of int: the edges of each hole's ring among those of the wood, the last one not
    included."""

    @classmethod
    def of(cls, edges: Array) -> Disks:
        """Return disks for the round holes among edges, (n, 2, 2), given ring by ring."""
        found = []
        for start, end in pairwise(rings_of(edges).tolist()):
            if end - start >= _FEWEST:
                place, radius = _disk(edges[start:end])
                if radius > 0:
                    found.append((*place, radius, start, end))
        figures = np.array(found, dtype=np.float64).reshape(-1, 5)
        ranges = figures[:, 3:].astype(np.intp)
        return cls(figures[:, :2], figures[:, 2], ranges[:, 0], ranges[:, 1])

    @classmethod
    def none(cls) -> Disks:
        """Return no disks."""
        nothing = np.zeros(0, dtype=np.intp)
        return cls(np.zeros((0, 2)), np.zeros(0), nothing, nothing)

    def counted_from(self, start: int) -> Disks:
        """Return the disks by edges of which the first has number `start`."""
        return replace(self, first=self.first + start, last=self.last + start)

    def take(self, which: NDArray[np.intp] | NDArray[np.bool_]) -> Disks:
        """Return some of them."""
        return Disks(self.places[which], self.radii[which], self.first[which], self.last[which])

    def ways(self, turn: float, centres: Array) -> tuple[Array, Array]:
        """Return the ways from centres to the disks, (m, k) along and across a turn."""
        seen, own = turned(self.places, turn), turned(centres, turn)
        return seen[:, 0] - own[:, :1], seen[:, 1] - own[:, 1:]

    @property
    def edges(self) -> NDArray[np.intp]:
        """The edges of all their holes."""
        counts = self.last - self.first
        starts = np.repeat(self.first - (np.cumsum(counts) - counts), counts)
        return starts + np.arange(len(starts), dtype=np.intp)


def _disk(ring: Array) -> tuple[Array, float]:
    """Return the middle of a hole and the radius of a disk in it; 0 where the hole is not round.

    A ring with the wood to its left runs clockwise round a hole, so the middle lies to its right.
    """
    corners = ring[:, 0]
    middle: Array = corners.mean(axis=0)
    way, off = ring[:, 1] - ring[:, 0], middle - corners
    if np.any(way[:, 0] * off[:, 1] - way[:, 1] * off[:, 0] >= 0):
        return middle, 0.0
    within = float(Segments.of(ring).distances(middle[None]).min())
    around = float(np.hypot(*(corners - middle).T).max())
    return middle, within if around - within <= LOSS else 0.0
