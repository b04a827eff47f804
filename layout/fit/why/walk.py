"""Walking round a top: stops close together, and how near something lies at each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry.placement import Points
from ...geometry.point import Point
from ..convex.pose import segment_distances

Array = NDArray[np.float64]

_STOPS = 720
"""Stops in one way round, besides those at corners."""

_GAP = 1.01
"""Two stops farther apart than this many steps have others between them, which touch nothing."""

_ONE_PLACE = 0.01
"""Share of the way round within which two contacts with one thing are one place."""


@dataclass(frozen=True, slots=True)
class Stops:
    """Places on the way round, in order."""

    along: Array
    """(m,) array: how far round, mm."""
    at: Points
    """(m, 2) array: mm."""
    distance: Array
    """(m,) array: to the thing that is looked at, mm."""


@dataclass(frozen=True, slots=True)
class Walk:
    """The way round a polygon."""

    corners: Points
    """(n + 1, 2) array: the first comes again at the end, mm."""
    along: Array
    """(n + 1,) array: how far round each lies, mm."""

    @classmethod
    def round(cls, ring: Points) -> Walk:
        """Return the way round a ring, (n, 2) mm."""
        corners = np.vstack([ring, ring[:1]])
        steps = np.hypot(*np.diff(corners, axis=0).T)
        return cls(corners, np.concatenate([[0.0], np.cumsum(steps)]))

    @property
    def length(self) -> float:
        """The way round, mm."""
        return float(self.along[-1])

    def stops(self, edges: Points, reach: float) -> Stops:
        """Return the stops within about `reach` of some edges, (n, 2, 2) mm.

        Between two stops neither the way nor the edges bend, so one of them is nearest.
        """
        even = np.linspace(0.0, self.length, _STOPS, endpoint=False)
        along = np.unique(np.concatenate([self.along[:-1], even, self._abreast(edges, reach)]))
        at = np.stack([np.interp(along, self.along, self.corners[:, k]) for k in (0, 1)], axis=1)
        near = _in_reach(at, edges.reshape(-1, 2), reach)
        along, at = along[near], at[near]
        return Stops(along, at, _distances(edges, at))

    def point(self, along: float) -> Point:
        """Return the place so far round, mm."""
        x, y = (float(np.interp(along, self.along, self.corners[:, k])) for k in (0, 1))
        return Point(x, y)

    def middle_of(self, along: Array, held: NDArray[np.bool_], at: int) -> float:
        """Return how far round the middle lies of the stops one beside another that are held.

        Parameters
        ----------
        along : (m,) array
            Some stops, in order.
        at : int
            The stop among them that is to be one of these.
        """
        breaks = np.flatnonzero(~held)
        first = int(breaks[breaks < at].max(initial=-1)) + 1
        last = int(breaks[breaks > at].min(initial=len(held))) - 1
        half = ((along[last] - along[first]) % self.length) / 2
        return float((along[first] + half) % self.length)

    def share(self, along: Array, held: NDArray[np.bool_]) -> float:
        """Return the share of a stretch, given by its stops, along which something is held.

        It is 0 for a stretch so short that it is one place.
        """
        gaps = np.diff(along) % self.length
        if gaps.sum() < _ONE_PLACE * self.length:
            return 0.0
        without_gap = gaps <= _GAP * self.length / _STOPS
        return float((gaps * (held[:-1] & held[1:] & without_gap)).sum() / gaps.sum())

    def _abreast(self, edges: Points, reach: float) -> Array:
        """Return how far round the corners of the edges lie abreast, where they are in reach."""
        points = np.unique(edges.reshape(-1, 2), axis=0)
        points = points[_in_reach(points, self.corners, reach)]
        if not len(points):
            return np.zeros(0)
        start, end = self.corners[:-1], self.corners[1:]
        near = (np.minimum(start, end) <= points.max(axis=0) + reach).all(axis=1)
        near &= (np.maximum(start, end) >= points.min(axis=0) - reach).all(axis=1)
        start, way, along = start[near], (end - start)[near], self.along[:-1][near]
        squared = (way**2).sum(axis=1)
        off = points[:, None] - start
        share = np.clip((off * way).sum(axis=2) / squared, 0.0, 1.0)
        foot = start + share[..., None] * way
        close = ((points[:, None] - foot) ** 2).sum(axis=2) <= reach**2
        rows, columns = np.nonzero(close)
        found: Array = along[columns] + share[rows, columns] * np.sqrt(squared[columns])
        return found[found < self.length]


def runs(stops: Stops, touching: NDArray[np.bool_], length: float) -> Iterator[NDArray[np.intp]]:
    """Yield the stops of each place where a top touches, in order round it.

    Parameters
    ----------
    length : float
        The whole way round, mm.
    """
    found = np.flatnonzero(touching)
    if not len(found):
        return
    along = stops.along[found]
    gaps = np.diff(np.concatenate([along, along[:1] + length]))
    breaks = np.flatnonzero(gaps > _ONE_PLACE * length)
    if not len(breaks):
        yield found
        return
    turned = np.roll(found, -(breaks[-1] + 1))  # a run may go on past the first stop
    sizes = np.diff(np.concatenate([breaks[-1:] - len(found), breaks]))
    yield from np.split(turned, np.cumsum(sizes)[:-1])


def _in_reach(points: Points, others: Points, reach: float) -> NDArray[np.bool_]:
    """Return which points lie within `reach` of the upright box round others."""
    low, high = others.min(axis=0) - reach, others.max(axis=0) + reach
    inside: NDArray[np.bool_] = ((points >= low) & (points <= high)).all(axis=1)
    return inside


_AT_ONCE = 400_000
"""Distances that are worked out in one go."""


def _distances(edges: Points, points: Points) -> Array:
    """Return the distance from each point to the nearest edge, mm."""
    long = np.any(edges[:, 0] != edges[:, 1], axis=1)
    if not long.any():
        away = points - edges[0, 0]
        distance: Array = np.hypot(away[:, 0], away[:, 1])
        return distance
    start, end = edges[long, 0], edges[long, 1]
    chunk = max(1, _AT_ONCE // len(start))
    parts = [
        segment_distances(start, end, points[first : first + chunk]).min(axis=1)
        for first in range(0, len(points), chunk)
    ]
    return np.concatenate(parts) if parts else np.zeros(0)
