"""Small linear programs: a handful of unknowns between a few dozen half-planes, solved at once.

The plain simplex method on a condensed table, everything scaled to 1, takes a fraction of a
millisecond, which a general solver needs a thousand times over to set up. Whatever the pivots came
to, the weights of the half-planes prove the value that it hands back (weak duality).
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]
Names = NDArray[np.intp]

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


class Optimum(NamedTuple):
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

    The arrays are (d,), (m, d), (m,) and twice (d,), with ``low <= 0 <= high``. What half-planes
    break when standing still (negative limits) need not be kept wholly, at a penalty.
    """
    return Program(rows, limits, low, high).best(objective)


class Program:
    """Steps between half-planes, as of `maximised`, and how far those reach that are good enough.

    Rows that no step between the bounds can reach are left out. Where some are broken there is one
    more unknown: the share, from 0 to 1, of the broken limits that is kept.
    """

    def __init__(self, rows: Vector, limits: Vector, low: Vector, high: Vector) -> None:
        span = np.maximum(high, -low)
        self._penalty = 0.0
        self._is_broken = bool(limits.min(initial=0.0) < -_HAIR * span.max())
        if self._is_broken:
            lack = np.maximum(-limits, 0.0)
            self._penalty = _PENALTY * float(lack.max())
            rows, limits = np.column_stack([rows, lack]), np.maximum(limits, 0.0)
            low, high, span = np.append(low, 0.0), np.append(high, 1.0), np.append(span, 1.0)
        span[span == 0] = 1.0
        self._low, self._high, self._span = low, high, span
        scaled, least, most = rows * span, low / span, high / span
        steep = np.maximum(scaled * least, scaled * most).sum(axis=1)
        room = np.maximum(limits, 0.0)
        used = np.flatnonzero(room < steep)
        self._rows, self._limits, self._used, self._steep = rows, limits, used, steep[used]
        size, eye = len(span), np.eye(len(span))
        # rows and limits of what lies inside the table or outside: bounds first, then the rows
        self._sides = np.vstack([eye, -eye, scaled[used] / self._steep[:, None]])
        self._ends = ends = np.concatenate([most, -least, room[used] / self._steep])
        self._table = np.zeros((len(ends) + 1, 2 * size + 1))
        self._table[:-1] = np.column_stack([self._sides, -self._sides, ends])
        self._outside = np.arange(2 * size)
        self._inside = np.arange(2 * size, 2 * size + len(ends))

    def best(self, objective: Vector) -> Optimum:
        """Return the step that goes farthest."""
        value, weights = self.bound(objective)
        size = len(self._span)
        ways = np.zeros(2 * size + len(self._ends))
        ways[self._inside] = self._table[:-1, -1]
        step = ways[:size] - ways[size : 2 * size]
        touched = self._outside[self._outside >= 2 * size] - 2 * size
        if len(touched) == size:  # else some unknown is idle: it stays where it is in the table
            step = _solved(self._sides[touched], self._ends[touched], step)
        # things all but level with each other meet anywhere
        step = np.clip(step * self._span, self._low, self._high)
        return Optimum(step[: len(objective)], value, weights)

    def bound(self, objective: Vector) -> tuple[float, Vector]:
        """Return how far no step goes, and what each row weighs in the proof."""
        whole, penalty, unit = self._whole(objective)
        self._table[-1] = self._priced(whole * self._span / unit)
        for _ in range(_MOST_PIVOTS):
            if not _pivot(self._table, self._inside, self._outside):
                break
        value, weights = self._proved(whole[None], self._table[-1:, :-1] * unit)
        return float(value[0] - penalty), weights[0]

    def _proved(self, whole: Vector, losses: Vector) -> tuple[Vector, Vector]:
        """Return how far no step goes in each objective of all unknowns, (k, n), and the weights.

        About what each loses with what lies outside the table, (k, n), that weighs.
        """
        size = whole.shape[1]
        sides = np.zeros((len(whole), len(self._ends)))
        outside = np.flatnonzero(self._outside >= 2 * size)
        touched = self._outside[outside] - 2 * size
        sides[:, touched] = losses[:, outside]
        if len(touched) == size:
            exact = (whole * self._span).T
            sides[:, touched] = _solved(self._sides[touched].T, exact, sides[:, touched].T).T
        weights = np.zeros((len(whole), len(self._limits)))
        weights[:, self._used] = np.maximum(sides[:, 2 * size :], 0.0) / self._steep
        rest = whole - weights @ self._rows
        far = np.maximum(self._low * rest, self._high * rest).sum(axis=1)
        return weights @ self._limits + far, weights

    def ranges(self, objective: Vector, least: float, ways: Vector) -> Vector:
        """Return how far steps go each way, (k, n), that get so far in the objective just bounded.

        All that a step leaves to the things outside the table, each weighed by what the objective
        loses with it, is no more than that may lose; what lies inside is not asked.
        """
        asked, penalty, unit = self._whole(objective)
        whole, paid, _ = self._whole(ways)
        losses = np.maximum(self._table[-1, :-1], _ZERO)
        own = self._priced(whole * self._span)[:, :-1]
        share = np.maximum((-own / losses).max(axis=1), 0.0) / unit
        each = share[:, None]
        pushed, _ = self._proved(whole + each * asked, own + each * unit * losses)
        far: Vector = pushed - share * (least + penalty) - paid
        return far

    def _whole(self, objectives: Vector) -> tuple[Vector, Vector, float]:
        """Return objectives, (…, d), of all unknowns, what the share is worth, and the steepest."""
        penalties = self._penalty * np.abs(objectives).max(axis=-1)
        if self._is_broken:
            objectives = np.concatenate([objectives, penalties[..., None]], axis=-1)
        return objectives, penalties, float(np.abs(objectives * self._span).max()) or 1.0

    def _priced(self, objectives: Vector) -> Vector:
        """Return objectives as rows: what each has, and loses with each thing outside."""
        worth = np.zeros((*objectives.shape[:-1], 2 * len(self._span) + len(self._ends)))
        size = objectives.shape[-1]
        worth[..., :size], worth[..., size : 2 * size] = objectives, -objectives
        rows: Vector = worth[..., self._inside] @ self._table[:-1]
        rows[..., :-1] -= worth[..., self._outside]
        return rows


def _solved(matrix: Vector, ends: Vector, about: Vector) -> Vector:
    """Return what linear equations ask, or what it is about where rounding left them none."""
    try:
        return np.asarray(np.linalg.solve(matrix, ends), dtype=np.float64)
    except np.linalg.LinAlgError:
        return about


def _pivot(table: Vector, inside: Names, outside: Names) -> bool:
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
