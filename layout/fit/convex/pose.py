"""A top in a search: where its centre lies, how it is turned, and half of each size."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
"""Edges are (n, 2, 2): edge, start or end, x or y; mm, the wood to their left."""


_AT_ONCE = 20_000
"""Distances worked out together: what a processor keeps close at hand."""


class Pose(NamedTuple):
    """A core within a search; mm and radians, in the frame of the search."""

    x: float
    y: float
    turn: float
    half_length: float
    half_width: float


class Contacts(NamedTuple):
    """How far a top stands from what it must not cross, and how that changes as it moves."""

    clear: Array
    """(m,) array: distance left, mm; negative where it crosses."""
    slopes: Array
    """(m, 5) array: change of `clear` with each number of the pose."""
    places: Array
    """(m, 2) array: the nearest points of the edges."""
    edges: NDArray[np.intp]
    """(m,) array of int: which edge each belongs to."""


def turned(edges: Array, turn: float) -> Array:
    """Return points, (…, 2), seen from a frame that is turned by `turn`."""
    cos, sin = math.cos(turn), math.sin(turn)
    seen: Array = edges @ np.array([[cos, -sin], [sin, cos]])
    return seen


def blocks(rows: int, columns: int) -> Iterator[slice]:
    """Yield, of a table of so many rows and columns, the rows to be worked out together."""
    step = max(1, _AT_ONCE // max(1, columns))
    yield from (slice(first, first + step) for first in range(0, rows, step))


def segment_distances(starts: Array, ends: Array, points: Array) -> Array:
    """Return the distance from each of m points to each of n segments, (m, n) mm.

    The way from a segment is split in two: across its line, and along it beyond its ends.
    """
    way = (ends - starts) / 2
    half = np.hypot(way[:, 0], way[:, 1])
    unit = way / np.maximum(half, 1e-300)[:, None]
    unit[half == 0] = (1.0, 0.0)  # a point: any way will do
    middle = starts + way
    across = np.stack([-unit[:, 1], unit[:, 0]])
    away = points @ across
    away -= np.einsum("ji,ij->i", across, middle)
    beyond = points @ unit.T
    beyond -= np.einsum("ij,ij->i", unit, middle)
    np.abs(beyond, out=beyond)
    beyond -= half
    np.maximum(beyond, 0.0, out=beyond)
    beyond *= beyond
    away *= away
    away += beyond
    distance: Array = np.sqrt(away, out=away)
    return distance
