"""Small linear programs: a handful of unknowns between a few dozen half-planes, solved at once.

A general solver spends a thousand times longer on setting up than on these. The plain simplex
method on a condensed table does them in a fraction of a millisecond, and the way it breaks ties
(lowest row first) makes the answer the same every time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]

_MOST_PIVOTS = 200
"""Far above the dozen that programs of this size take; a rounding loop ends here."""

_ZERO = 1e-12
"""Entries of a table smaller than this, relative to its rows of length about 1, are nothing."""


@dataclass(frozen=True, slots=True)
class Optimum:
    """Where a linear program ends.

    Attributes
    ----------
    step : (d,) array
        The unknowns.
    weights : (m,) array
        What each half-plane weighs in the optimum: ``objective = weights @ rows`` but for the box.
    """

    step: Vector
    weights: Vector


def maximised(
    objective: Vector, rows: Vector, limits: Vector, low: Vector, high: Vector
) -> Optimum:
    """Return the step within ``low <= x <= high`` and ``rows @ x <= limits`` that goes farthest.

    Standing still must be allowed: ``low <= 0 <= high`` and ``limits >= 0``.

    Parameters
    ----------
    objective : (d,) array
    rows : (m, d) array
    limits : (m,) array
    low, high : (d,) arrays
    """
    size, count = len(objective), len(limits)
    eye = np.eye(size)
    upper = np.vstack([rows, eye, -eye])
    table = np.zeros((len(upper) + 1, 2 * size + 1))
    table[:-1, :size], table[:-1, size:-1] = upper, -upper
    table[:-1, -1] = np.maximum(np.concatenate([limits, high, -low]), 0.0)
    table[-1, :size], table[-1, size:-1] = -objective, objective
    outside = list(range(2 * size))
    inside = list(range(2 * size, 2 * size + len(upper)))
    for _ in range(_MOST_PIVOTS):
        if not _pivot(table, inside, outside):
            break
    step, weights = np.zeros(size), np.zeros(count)
    for row, name in enumerate(inside):
        if name < size:
            step[name] += table[row, -1]
        elif name < 2 * size:
            step[name - size] -= table[row, -1]
    for column, name in enumerate(outside):
        if 2 * size <= name < 2 * size + count:
            weights[name - 2 * size] = table[-1, column]
    return Optimum(step, weights)


def _pivot(table: Vector, inside: list[int], outside: list[int]) -> bool:
    """Swap one unknown in and one out; return whether there was one to swap."""
    gains = table[-1, :-1]
    column = int(np.argmin(gains))
    if gains[column] >= -_ZERO:
        return False
    heights = table[:-1, column]
    rising = heights > _ZERO
    if not rising.any():
        return False
    ratios = np.where(rising, table[:-1, -1] / np.where(rising, heights, 1.0), np.inf)
    row = int(np.argmin(ratios))
    pivot = table[row, column]
    across = table[row] / pivot
    down = table[:, column].copy()
    table -= np.outer(down, across)
    table[row] = across
    table[:, column] = -down / pivot
    table[row, column] = 1 / pivot
    inside[row], outside[column] = outside[column], inside[row]
    return True
