"""Round holes taken as disks: screw holes by the hundred, each one place and one radius.

Coarse bounds need no more of a ring of dozens of edges than a disk that lies in it, a hair smaller,
so that they err on the safe side. Small boxes are still bounded by the edges themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ...geometry.polygon import Region
from .edges import Array, rings_of, turned

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
    def of(cls, piece: Region, start: int = 0) -> Disks:
        """Return disks for the round holes of a piece of wood; its first edge has number `start`.

        And for the arcs of notches, and of holes that run into one another, where all of the disk
        is free of wood: no edge comes into it, and its middle lies outside.
        """
        edges = piece.edges
        arcs = [arc for ends in pairwise(rings_of(edges).tolist()) for arc in _arcs(edges, *ends)]
        middles = np.array([middle for _, _, middle in arcs]).reshape(-1, 2)
        found, done = [], 0
        for (first, last, middle), depth in zip(arcs, piece.depths(middles), strict=True):
            around = float(np.hypot(*(edges[first:last, 0] - middle).T).max())
            if first >= done and depth < 0 and around + depth <= LOSS:
                found.append((*middle, -depth, start + first, start + last))
                done = last
        figures = np.array(found, dtype=np.float64).reshape(-1, 5)
        ranges = figures[:, 3:].astype(np.intp)
        return cls(figures[:, :2], figures[:, 2], ranges[:, 0], ranges[:, 1])

    @classmethod
    def none(cls) -> Disks:
        """Return no disks."""
        nothing = np.zeros(0, dtype=np.intp)
        return cls(np.zeros((0, 2)), np.zeros(0), nothing, nothing)

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


def _middles(ring: Array) -> Array:
    """Return the middle of the circle through each edge and the one before it, (n, 2)."""
    back, ahead = ring[:, 0] - np.roll(ring[:, 0], 1, axis=0), ring[:, 1] - ring[:, 0]
    cross = 2 * (back[:, 0] * ahead[:, 1] - back[:, 1] * ahead[:, 0])
    cross[cross == 0] = np.inf
    one, other = (back * back).sum(axis=1), (ahead * ahead).sum(axis=1)
    x = -back[:, 1] * other - ahead[:, 1] * one
    y = ahead[:, 0] * one + back[:, 0] * other
    middles: Array = ring[:, 0] + np.stack([x, y], axis=1) / cross[:, None]
    return middles


def _arcs(edges: Array, start: int, end: int) -> Iterator[tuple[int, int, Array]]:
    """Yield which edges of a ring, from one to another not included, may lie on one circle.

    With its middle, (2,) mm: all of them, and then those where it hardly moves.
    """
    ring = edges[start:end]
    middles = _middles(ring)
    if len(ring) >= _FEWEST:
        yield start, end, ring[:, 0].mean(axis=0)
    apart = np.hypot(*(middles - np.roll(middles, 1, axis=0)).T) > LOSS / 4
    cuts = np.flatnonzero(apart & np.roll(apart, -1))
    for first, last in pairwise(dict.fromkeys([0, *cuts.tolist(), len(ring)])):
        if last - first >= _FEWEST:
            yield start + first, start + last, middles[first + 1 : last].mean(axis=0)
