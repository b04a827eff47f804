"""A second, sharper bound for small boxes: every contact taken as a half-plane, all at once.

Cells bound the size edge by edge, and lose in proportion to the size of the box. But at the best
top its contacts hold each other in balance: what one gives when the top moves, another takes. Seen
in the right unknowns (place, and some of size, shape and turn) an edge along which the top
lies is a half-plane exactly, and a corner is one but for an angle ψ that shrinks with the box. So
the best top of a box is bounded by a small linear program, which loses only in proportion to the
square of the box's size.

Here is what the kinds of outline share: the patch of centres, the half-planes, and what is best.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..linear_program import Program
from ..wood.edges import Array

WIDE = 1.2
"""Angle, radians, by which a contact may wander before its half-plane says next to nothing."""

_SECTORS = 16
"""Directions round a top; in each, the nearest edges are looked at."""

_EACH = 2
"""How many of them."""


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle of centres, in the frame of a box."""

    middle: Array
    """(2,) array: in the frame of the search, mm."""
    along: float
    across: float
    """Half its sides, along the turn of the box and across it, mm."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What is to be maximised: a linear figure of the shape unknowns, and its worth."""

    figure: Array
    """Its slopes, and last its value where all unknowns are 0."""
    worth: Callable[[float], float]
    """From the figure to a score; it never falls."""
    needed: Callable[[float], float]
    """From a score to a figure that is worth no more."""


class Rows(NamedTuple):
    """Half-planes ``rows @ x <= limits``."""

    rows: Array
    limits: Array

    @classmethod
    def joined(cls, *parts: Rows) -> Rows:
        """Return all of them; what some say nothing of comes last."""
        limits = np.concatenate([limits for _, limits in parts])
        all_rows, first = np.zeros((len(limits), max(rows.shape[1] for rows, _ in parts))), 0
        for rows, _ in parts:
            all_rows[first : first + len(rows), : rows.shape[1]] = rows
            first += len(rows)
        return cls(all_rows, limits)


@dataclass(frozen=True, slots=True)
class HalfPlanes:
    """What every top of a box obeys: ``rows @ x <= limits`` and ``low <= x <= high``.

    x holds the way from the middle of the patch, along and across, and the shape unknowns.
    """

    rows: Array
    limits: Array
    low: Array
    high: Array

    def and_also(self, more: Rows) -> HalfPlanes:
        """Return them with more rows."""
        return replace(self, **Rows.joined(Rows(self.rows, self.limits), more)._asdict())

    def best(self, aim: Aim) -> tuple[float, Array, Callable[[float], Array]]:
        """Return a score that nothing within beats, where it is reached, and what tells of centres.

        The last tells where centres lie of what is worth more than a score: least and greatest,
        (2, 2).
        """
        slope, start = aim.figure[:-1], float(aim.figure[-1])
        scale = float(np.abs(slope).max())
        objective = np.zeros(len(self.low))
        objective[2 : 2 + len(slope)] = slope / scale
        program = Program(self.rows, self.limits, self.low, self.high)
        end = program.best(objective)

        def places(enough: float) -> Array:
            least = (aim.needed(enough) - start) / scale
            ways = np.eye(2, len(objective))
            far = program.ranges(objective, least, np.vstack([-ways, ways]))
            return np.array([-far[:2], far[2:]])

        return aim.worth(end.value * scale + start), end.step, places


def planes_above(figures: Array, corners: Array) -> tuple[Array, Array]:
    """Return planes that lie, by a little, above convex figures of what wanders within a box.

    Slopes, (n, k), for the half sides of the box, and levels in its middle, (n,); of figures,
    (n, c), in its corners, (c, k) of 1 and −1.
    """
    slopes = figures @ corners / len(corners)
    return slopes, (figures - slopes @ corners.T).max(axis=1)


class Edges(NamedTuple):
    """Edges of the wood, and which of them lie on its hull: their lines bound all of it."""

    ends: Array
    """(n, 2, 2) array: mm, the wood to their left."""
    outermost: NDArray[np.bool_]
    """(n,) array of bool."""


def nearest_all_round(way: Array, distance: Array, places: int = 1) -> NDArray[np.intp]:
    """Return which edges are among the nearest in their direction.

    Ways, (n, 2), lead to them from the middle of the top, or from one place in it after the other.
    """
    each = len(way) // places
    if each <= 2 * _SECTORS:
        return np.arange(len(way), dtype=np.intp)
    angle = np.arctan2(way[:, 1], way[:, 0])
    sector = np.floor((angle / math.pi + 1) * (_SECTORS / 2)).astype(np.intp)
    sector += 2 * _SECTORS * (np.arange(len(way)) // each)
    order = np.lexsort((distance, sector))
    sorted_sector = sector[order]
    first = np.searchsorted(sorted_sector, sorted_sector)
    rank = np.arange(len(order)) - first
    return np.sort(order[rank < _EACH])


def wandering(unit: Array, along: float, across: float) -> Array:
    """Return how far along `unit` a point of such a rectangle may lie off its middle."""
    reach: Array = np.abs(unit[:, 0]) * along + np.abs(unit[:, 1]) * across
    return reach
