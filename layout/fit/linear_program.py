"""Small linear programs: a handful of unknowns between a few dozen half-planes, solved at once.

A general solver spends a thousand times longer on setting up than on these. The plain simplex
method on a condensed table does them in a fraction of a millisecond. Everything is scaled to 1
first, and of rows that stop a step at as good as the same place the steepest is swapped: a swap on
a nearly level row would blow rounding up into a step that crosses half-planes. The value that it
hands back is no guess: whatever the pivots came to, the weights of the half-planes prove it (weak
duality).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]

_MOST_PIVOTS = 150
"""Far above the dozen or two that programs of this size take; a rounding loop ends here."""

_ZERO = 1e-8
"""Entries of a table, whose greatest are about 1, smaller than this are nothing."""

_ALIKE = 1e-10
"""Share of the longest step by which a half-plane may be crossed to swap on a steeper row (the
two passes of P. M. J. Harris, "Pivot selection methods of the Devex LP code", 1973)."""

_HAIR = 1e-10
"""Share of the longest step by which a half-plane that is broken counts as touched."""

_PENALTY = 300.0
"""What a broken half-plane costs a millimetre, in steps of an objective whose steepest slope is 1.
Any figure gives a valid bound; this is above what half-planes weigh in practice."""


@dataclass(frozen=True, slots=True)
class Optimum:
    """Where a linear program ends."""

    step: Vector
    """(d,) array: the unknowns."""
    value: float
    """A proved bound: no allowed step gets farther."""
    weights: Vector
    """(m,) array: by which the half-planes, added up, prove it; none is negative."""


def maximised(
    objective: Vector, rows: Vector, limits: Vector, low: Vector, high: Vector
) -> Optimum:
    """Return the step within ``low <= x <= high`` and ``rows @ x <= limits`` that goes farthest.

    Where standing still breaks half-planes (their limits are negative), keeping less than the whole
    of them may be bought at a penalty, so that there is always an answer.

    Parameters
    ----------
    objective : (d,) array
    rows : (m, d) array
    limits : (m,) array
    low, high : (d,) arrays
        ``low <= 0 <= high``.
    """
    span = np.maximum(high, -low)
    if limits.min(initial=0.0) < -_HAIR * span.max():
        return _bought(objective, rows, limits, low, high)
    step, weights = _solved(objective, rows, np.maximum(limits, 0.0), low, high)
    rest = objective - weights @ rows
    value = float(weights @ limits + np.maximum(low * rest, high * rest).sum())
    return Optimum(step, value, weights)


def _bought(objective: Vector, rows: Vector, limits: Vector, low: Vector, high: Vector) -> Optimum:
    """Solve with one more unknown: the share, from 0 to 1, of the broken limits that is kept."""
    lack = np.maximum(-limits, 0.0)
    penalty = _PENALTY * float(np.abs(objective).max() * lack.max())
    whole = maximised(
        np.append(objective, penalty),
        np.column_stack([rows, lack]),
        np.maximum(limits, 0.0),
        np.append(low, 0.0),
        np.append(high, 1.0),
    )
    return Optimum(whole.step[:-1], whole.value - penalty, whole.weights)


def _solved(
    objective: Vector, rows: Vector, limits: Vector, low: Vector, high: Vector
) -> tuple[Vector, Vector]:
    """Return the best step and what each row weighs in it; every limit is at least 0.

    Rows that no step within `low` and `high` can reach are left out.
    """
    span = np.maximum(high, -low)
    span[span == 0] = 1.0
    rows = rows * span
    steep = np.maximum(rows * (low / span), rows * (high / span)).sum(axis=1)
    binding = np.flatnonzero(limits < steep)
    steep = steep[binding]
    unit = float(np.abs(objective * span).max()) or 1.0
    step, weights = np.zeros(len(span)), np.zeros(len(rows))
    step, weights[binding] = _simplex(
        objective * span / unit,
        rows[binding] / steep[:, None],
        limits[binding] / steep,
        low / span,
        high / span,
    )
    weights[binding] *= unit / steep
    return step * span, weights


def _simplex(
    objective: Vector, rows: Vector, limits: Vector, low: Vector, high: Vector
) -> tuple[Vector, Vector]:
    """Return the best step and what each row weighs in it."""
    size, count = len(objective), len(limits)
    eye = np.eye(size)
    upper = np.vstack([rows, eye, -eye])
    table = np.zeros((len(upper) + 1, 2 * size + 1))
    table[:-1, :size], table[:-1, size:-1] = upper, -upper
    table[:-1, -1] = np.concatenate([limits, high, -low])
    table[-1, :size], table[-1, size:-1] = -objective, objective
    outside = list(range(2 * size))
    inside = list(range(2 * size, 2 * size + len(upper)))
    for _ in range(_MOST_PIVOTS):
        if not _pivot(table, inside, outside):
            break
    touched = [name - 2 * size for name in outside if name >= 2 * size]
    if len(touched) != size:  # some unknown is idle: it stays where it is
        return _read(table, inside, outside, count)
    corner, ends = upper[touched], np.concatenate([limits, high, -low])[touched]
    weights = np.zeros(len(upper))
    weights[touched] = np.maximum(np.linalg.solve(corner.T, objective), 0.0)
    return np.linalg.solve(corner, ends), weights[:count]


def _read(
    table: Vector, inside: list[int], outside: list[int], count: int
) -> tuple[Vector, Vector]:
    """Return the step and the weights as they stand in the table."""
    size = len(outside) // 2
    step, weights = np.zeros(size), np.zeros(count)
    for row, name in enumerate(inside):
        if name < size:
            step[name] += table[row, -1]
        elif name < 2 * size:
            step[name - size] -= table[row, -1]
    for column, name in enumerate(outside):
        if 2 * size <= name < 2 * size + count:
            weights[name - 2 * size] = max(0.0, table[-1, column])
    return step, weights


def _pivot(table: Vector, inside: list[int], outside: list[int]) -> bool:
    """Swap one unknown in and one out; return whether there was one to swap."""
    gains = table[-1, :-1]
    column = int(gains.argmin())
    if gains[column] >= -_ZERO:
        return False
    heights = table[:-1, column]
    rising = np.flatnonzero(heights > _ZERO)
    if not len(rising):
        return False
    steep, room = heights[rising], np.maximum(table[rising, -1], 0.0)
    stopped = room / steep <= ((room + _ALIKE) / steep).min()
    row = int(rising[np.where(stopped, steep, 0.0).argmax()])
    pivot = table[row, column]
    across = table[row] / pivot
    down = table[:, column].copy()
    table -= down[:, None] * across
    table[row] = across
    table[:, column] = down / -pivot
    table[row, column] = 1 / pivot
    inside[row], outside[column] = outside[column], inside[row]
    return True
