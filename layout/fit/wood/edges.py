"""Edges as arrays, (n, 2, 2): edge, start or end, x or y; mm, the wood to their left."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING

Array = NDArray[np.float64]

_FEW = 256
"""Edges that are sooner all looked at than chosen from."""
_MOST_PAIRS = 200_000
"""Edges and edges that their lines may meet, looked at together."""
_STRAIGHT = 1e-12
"""Sine of a turn that is none."""
_ON = 1e-9
"""mm: a point so near to an edge lies on it, and deeper is square to the edge."""
_AT_ONCE = 20_000
"""Distances worked out together: what a processor keeps close at hand."""


def turned(edges: Array, turn: float) -> Array:
    """Return points, (…, 2), seen from a frame that is turned by `turn`.

    As complex numbers, since a product with a matrix of two rows is the slower by far.
    """
    seen = np.ascontiguousarray(edges).view(np.complex128) * cmath.rect(1.0, -turn)
    return seen.view(np.float64)


class EdgesAround:
    """Edges by where they lie: whoever asks of a place looks only at those round it."""

    def __init__(self, edges: Array) -> None:
        way = (edges[:, 1] - edges[:, 0]) / 2
        self.edges = edges
        self._middles, self._halves = edges[:, 0] + way, np.hypot(way[:, 0], way[:, 1])

    def within(self, place: Array, turn: float, sizes: tuple[float, float]) -> Array:
        """Return all edges that come into a box about a place, (2,) mm, and maybe others.

        The sizes are half those of the box, along the turn and across it, mm.
        """
        if len(self.edges) <= _FEW:
            return self.edges
        away = np.abs(turned(self._middles - place, turn)) - self._halves[:, None]
        return self.edges[(away[:, 0] <= sizes[0]) & (away[:, 1] <= sizes[1])]

    def nearest(self, place: Array) -> Array:
        """Return some of the edges nearest to a place."""
        if len(self.edges) <= _FEW:
            return self.edges
        away = self._middles - place
        least = np.hypot(away[:, 0], away[:, 1]) - self._halves
        return self.edges[np.argpartition(least, _FEW)[:_FEW]]


def outermost(edges: Array, hull: Array) -> NDArray[np.bool_]:
    """Return which edges have the whole hull, (m, 2) mm, to their left, but for rounding."""
    left, _ = Segments.of(edges).seen(hull)
    held: NDArray[np.bool_] = left.min(axis=0) >= -ROUNDING
    return held


def rings_of(edges: Array) -> NDArray[np.intp]:
    """Return the first edge of each ring, of edges given ring by ring, and how many there are.

    A ring ends where it comes back to its start: the next may start in the same place.
    """
    new = np.any(edges[1:, 0] != edges[:-1, 1], axis=1)
    starts = list[int]()
    for first, last in pairwise([0, *(np.flatnonzero(new) + 1).tolist(), len(edges)]):
        while first < last:
            starts.append(first)
            back = np.flatnonzero((edges[first:last, 1] == edges[first, 0]).all(axis=1))
            first += int(back[0]) + 1 if len(back) else last - first
    return np.array([*starts, len(edges)], dtype=np.intp)


def _following(edges: Array) -> NDArray[np.intp]:
    """Return the next edge of each in its ring, of edges given ring by ring."""
    rings, after = rings_of(edges), np.arange(1, len(edges) + 1)
    after[rings[1:] - 1] = rings[:-1]
    return after


def turned_in(edges: Array) -> NDArray[np.bool_]:
    """Return where edges, given ring by ring, have half a turn or more to their left, (n, 2).

    At the start and at the end of each.
    """
    after, way = _following(edges), edges[:, 1] - edges[:, 0]
    unit = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    ahead = unit[after]
    ends = np.zeros((len(edges), 2), dtype=np.bool_)
    ends[:, 1] = unit[:, 0] * ahead[:, 1] - unit[:, 1] * ahead[:, 0] < _STRAIGHT
    ends[after, 0] = ends[:, 1]
    return ends


def drawn_out(edges: Array, free: NDArray[np.bool_], far: float) -> Array:
    """Return edges, given ring by ring, with all that their lines go on before they meet wood.

    At most so far, mm, and so far where they are `free`, (n,) of bool: outermost. No point of them
    lies within the wood, so a top can no more hold one than cross the edge itself.
    """
    inwards, reach = turned_in(edges), np.full((len(edges), 2), far)
    reach[inwards & ~free[:, None]] = 0.0
    after = _following(edges)
    before = np.argsort(after)
    asked, lines = np.flatnonzero(~free & ~inwards.all(axis=1)), Segments.of(edges)
    for some in blocks(len(asked), len(edges), _MOST_PAIRS):
        own = asked[some]
        of = Segments(*(figures[own] for figures in lines))
        (left, along), (next_left, next_along) = of.seen(edges[:, 0]), of.seen(edges[:, 1])
        meets = (np.minimum(left, next_left) <= ROUNDING) & (
            np.maximum(left, next_left) >= -ROUNDING
        )
        for known in (own, before[own], after[own]):
            meets[known, np.arange(len(own))] = False
        crosses = left * next_left < 0
        share = left / np.where(crosses, left - next_left, 1.0)
        at = along + share * (next_along - along)
        low = np.where(crosses, at, np.minimum(along, next_along))
        high = np.where(crosses, at, np.maximum(along, next_along))
        back = np.where(meets & (low < -of.half), np.maximum(-of.half - high, 0.0), far)
        ahead = np.where(meets & (high > of.half), np.maximum(low - of.half, 0.0), far)
        reach[own] = np.minimum(reach[own], np.column_stack([back.min(axis=0), ahead.min(axis=0)]))
    ways: Array = reach[..., None] * lines.unit[:, None] * np.array([[-1.0], [1.0]])
    return edges + ways


def diameter(hull: Array) -> float:
    """Return the greatest distance between two corners of a hull, (n, 2) mm."""
    return max(float(np.hypot(*(hull - corner).T).max()) for corner in hull)


def repeats(ring: Array, within: float) -> int:
    """Return how often a ring, about its own middle, comes to lie on itself in a whole turn."""
    count = len(ring)
    for times in range(count, 1, -1):
        if count % times == 0:
            off = turned(ring, math.tau / times) - np.roll(ring, count // times, axis=0)
            if np.abs(off).max() < within:
                return times
    return 1


def ways_in(edges: Array, points: Array, inside: NDArray[np.bool_]) -> tuple[Array, Array]:
    """Return how deep points, (m, 2) mm, lie among edges, and the unit vectors deeper, (m, 2).

    Those that are not `inside`, (m,) of bool, not to the left of the edges, lie less than 0 deep.
    """
    seen, which = Segments.of(edges), np.zeros(len(points), dtype=np.intp)
    for some in blocks(len(points), len(edges)):
        which[some] = seen.distances(points[some]).argmin(axis=1)
    _, _, off, far = seen.ways(points, which)
    side, square = np.where(inside, 1.0, -1.0), far < _ON
    deeper = side[:, None] * off / np.where(square, 1.0, far)[:, None]
    return side * far, np.where(square[:, None], seen.across[which], deeper)


def blocks(rows: int, columns: int, at_once: int = _AT_ONCE) -> Iterator[slice]:
    """Yield, of a table of so many rows and columns, the rows to be worked out together."""
    step = max(1, at_once // max(1, columns))
    yield from (slice(first, first + step) for first in range(0, rows, step))


class Segments(NamedTuple):
    """Edges, or points, ready to be measured from."""

    across: Array
    unit: Array
    """(n, 2) arrays: unit vectors to the left of each and along it."""
    height: Array
    begin: Array
    """(n,) arrays: how far along both its middle lies, mm."""
    half: Array
    """(n,) array: half its length, mm."""

    @classmethod
    def of(cls, edges: Array) -> Segments:
        """Return edges, (n, 2, 2) mm."""
        ends = np.ascontiguousarray(edges).view(np.complex128)[..., 0]
        way = (ends[:, 1] - ends[:, 0]) / 2
        half = np.abs(way)
        unit = way / np.maximum(half, 1e-300)
        unit[half == 0] = 1.0  # a point: any way will do
        middle = (ends[:, 0] + way) * unit.conj()
        across, along = (ways.view(np.float64).reshape(-1, 2) for ways in (unit * 1j, unit))
        return cls(across, along, middle.imag, middle.real, half)

    def seen(self, points: Array) -> tuple[Array, Array]:
        """Return how far m points lie to the left of each, and along it from its middle, (m, n)."""
        left, along = points @ self.across.T, points @ self.unit.T
        left -= self.height
        along -= self.begin
        return left, along

    def ways(self, points: Array, which: NDArray[np.intp]) -> tuple[Array, Array, Array, Array]:
        """Return how each of k points, (k, 2) mm, lies to one of them.

        How far to its left, how far along from its middle, the way from its nearest place, (k, 2),
        and how long that is.
        """
        across, unit, half = self.across[which], self.unit[which], self.half[which]
        left = (points * across).sum(axis=1) - self.height[which]
        along = (points * unit).sum(axis=1) - self.begin[which]
        beyond = along - np.clip(along, -half, half)
        way = left[:, None] * across + beyond[:, None] * unit
        return left, along, way, np.hypot(left, beyond)

    def distances(self, points: Array) -> Array:
        """Return the distance from each of m points to each of them, (m, n) mm.

        The way from a segment is split in two: across its line, and along it beyond its ends.
        """
        away, beyond = self.seen(points)
        np.abs(beyond, out=beyond)
        beyond -= self.half
        np.maximum(beyond, 0.0, out=beyond)
        beyond *= beyond
        away *= away
        away += beyond
        distance: Array = np.sqrt(away, out=away)
        return distance
