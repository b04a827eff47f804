"""Round holes taken as disks: screw holes by the hundred, each one place and one radius.

A drilled hole comes as a ring of dozens of edges. Coarse bounds need no more of it than a disk that
lies in it: a hair smaller than the hole, so they err on the safe side, and one distance a hole
instead of dozens. Small boxes are still bounded by the edges themselves.
"""

from __future__ import annotations

from collections.abc import Iterator
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
        """Return disks for the round holes among edges, (n, 2, 2), given ring by ring.

        And for the arcs of notches, and of holes that run into one another, where all of the disk
        is free of wood.
        """
        found = []
        for start, end in pairwise(rings_of(edges).tolist()):
            ring = edges[start:end]
            if end - start >= _FEWEST:
                place, radius = _disk(ring, ring[:, 0].mean(axis=0), ring)
                if radius > 0:
                    found.append((*place, radius, start, end))
                    continue
            middles = _middles(ring)
            for first, last in _arcs(middles):
                if last - first >= _FEWEST:
                    middle = middles[first + 1 : last].mean(axis=0)
                    place, radius = _disk(ring[first:last], middle, edges)
                    # no edge comes into the disk: it is free of wood where its middle is
                    if radius > 0 and not _is_in_wood(edges, place):
                        found.append((*place, radius, start + first, start + last))
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


def _arcs(middles: Array) -> Iterator[tuple[int, int]]:
    """Yield which edges of a ring, from one to another not included, lie on one circle."""
    apart = np.hypot(*(middles - np.roll(middles, 1, axis=0)).T) > LOSS / 4
    cuts = np.flatnonzero(apart & np.roll(apart, -1))
    yield from pairwise(dict.fromkeys([0, *cuts.tolist(), len(middles)]))


def _is_in_wood(edges: Array, point: Array) -> bool:
    """Return whether a point lies within rings: a line from it crosses them an odd number of times.

    That an arc turns its hollow side to a point does not tell: beyond a thin slot is wood again.
    """
    (x, y), (to_x, to_y) = edges[:, 0].T - point[:, None], edges[:, 1].T - point[:, None]
    passes = (y > 0) != (to_y > 0)
    crossed = x - y * (to_x - x) / np.where(passes, to_y - y, 1.0) > 0
    return bool(np.count_nonzero(passes & crossed) % 2)


def _disk(ring: Array, middle: Array, edges: Array) -> tuple[Array, float]:
    """Return the middle of a hole and the radius of a disk in it; 0 where the hole is not round.

    A ring with the wood to its left runs clockwise round a hole, so the middle lies to its right.
    The last edges are those that may come into the disk.
    """
    corners = ring[:, 0]
    way, off = ring[:, 1] - ring[:, 0], middle - corners
    if np.any(way[:, 0] * off[:, 1] - way[:, 1] * off[:, 0] >= 0):
        return middle, 0.0
    within = float(Segments.of(edges).distances(middle[None]).min())
    around = float(np.hypot(*(corners - middle).T).max())
    return middle, within if around - within <= LOSS else 0.0
