"""A small concave programme under linear limits: the last steps of a convex top.

Few unknowns, some dozens of limits. Newton's method on the conditions of the optimum, kept inside
the limits by slacks that are driven to nothing (Mehrotra's predictor and corrector; Nocedal and
Wright, *Numerical Optimization*, 2nd ed., section 16.6).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_MOST_ROUNDS = 40
_DONE = 1e-11
_STEEP = 1e30
"""Where pulls grow to this, or slacks shrink to its inverse, the limits leave no room: give up."""


@dataclass(frozen=True, slots=True)
class Step:
    """The best step, and how hard each limit holds it back."""

    move: Array
    """(n,) array."""
    pull: Array
    """(m,) array: multipliers of the limits, not negative; zero for a limit that is not touched."""


def best_step(gain: Array, curve: Array, rows: Array, room: Array, accuracy: float = _DONE) -> Step:
    """Return the x with the most gain·x − x·curve·x / 2 where rows·x + room ≥ 0.

    Parameters
    ----------
    gain : (n,) array
    curve : (n, n) array
        Symmetric, without negative eigenvalues.
    rows : (m, n) array
        With the limits of a trust region among them, so that the best is finite.
    room : (m,) array
        May be a little negative: the step then restores what is broken, where it can.
    accuracy : float
        How far the gain may stay below the best.
    """
    move = np.zeros(len(gain))
    scale = max(1.0, float(np.abs(room).max()))
    slack = np.maximum(room, 1e-2 * scale)
    pull = np.ones(len(room)) * max(1e-3, float(np.abs(gain).max()))
    across = rows.T
    for _ in range(_MOST_ROUNDS):
        unmet = rows @ move + room - slack
        gap = float(slack @ pull) / len(room)
        if gap < accuracy and np.abs(unmet).max() < accuracy * scale:
            break
        if slack.min() < 1 / _STEEP or pull.max() > _STEEP:
            break
        stiff = pull / slack
        matrix = curve + (across * stiff) @ rows
        matrix.ravel()[:: len(matrix) + 1] += 1e-13 * (1.0 + matrix.trace())
        inverse = np.linalg.inv(matrix)
        dx = inverse @ (gain - curve @ move - across @ (stiff * unmet))
        ds = rows @ dx + unmet
        dz = -pull - stiff * ds
        reach = _reach(slack, ds, pull, dz, 1.0)
        ahead = float((slack + reach * ds) @ (pull + reach * dz)) / len(room)
        bent = (ds * dz - (ahead / gap) ** 3 * gap) / slack
        dx -= inverse @ (across @ bent)
        ds = rows @ dx + unmet
        dz = -pull - bent - stiff * ds
        reach = _reach(slack, ds, pull, dz, 0.995)
        move, slack, pull = move + reach * dx, slack + reach * ds, pull + reach * dz
    return Step(move, pull)


def _reach(slack: Array, ds: Array, pull: Array, dz: Array, share: float) -> float:
    """Return how far both may go and stay positive, at most 1."""
    most = max(float((-ds / slack).max()), float((-dz / pull).max()))
    return min(1.0, share / most) if most > 0 else 1.0


def positive_part(matrix: Array) -> Array:
    """Return the symmetric matrix without its negative eigenvalues."""
    values, vectors = np.linalg.eigh(matrix)
    if values[0] >= 0:
        return matrix
    positive: Array = (vectors * np.maximum(values, 0.0)) @ vectors.T
    return positive
