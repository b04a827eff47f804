"""A small concave programme under linear limits: the last steps of a convex top.

Newton's method, kept inside the limits by slacks that are driven to nothing (Mehrotra's predictor
and corrector; Nocedal and Wright, *Numerical Optimization*, 2nd ed., section 16.6). It asks no
limit whether it presses, so limits that are all but alike cannot send it round in a ring.
"""

from __future__ import annotations

import numpy as np

from .linear_program import Vector

_MOST_ROUNDS = 40

_DONE = 1e-11
"""How far the gain may stay below the best; crossings, as a share of the most room."""
_STEEP = 1e30
"""Where pulls grow to this, or slacks shrink to its inverse, the limits leave no room: give up."""


def balanced(gain: Vector, bend: Vector, rows: Vector, room: Vector) -> Vector:
    """Return the x with the most gain·x − x·bend·x / 2 where rows·x + room ≥ 0.

    The arrays are (n,), (n, n), (m, n) and (m,). `bend` is symmetric, without negative eigenvalues;
    the limits of a trust region are among the rows, so that the best is finite; room may be less
    than 0 by a little: the step then restores what is broken, where it can.
    """
    move = np.zeros(len(gain))
    scale = max(1.0, float(np.abs(room).max()))
    slack = np.maximum(room, 1e-2 * scale)
    pull = np.full(len(room), max(1e-3, float(np.abs(gain).max())))
    for _ in range(_MOST_ROUNDS):
        unmet = rows @ move + room - slack
        gap = float(slack @ pull) / len(room)
        is_met = np.abs(unmet).max() < _DONE * scale
        if (gap < _DONE and is_met) or slack.min() < 1 / _STEEP or pull.max() > _STEEP:
            break
        stiff = pull / slack
        matrix = bend + (rows.T * stiff) @ rows
        inverse = np.linalg.inv(matrix + 1e-13 * (1.0 + matrix.trace()) * np.eye(len(gain)))
        dx = inverse @ (gain - bend @ move - rows.T @ (stiff * unmet))
        ds = rows @ dx + unmet
        dz = -pull - stiff * ds
        reach = _reach(slack, ds, pull, dz, 1.0)
        ahead = float((slack + reach * ds) @ (pull + reach * dz)) / len(room)
        bent = (ds * dz - (ahead / gap) ** 3 * gap) / slack
        dx -= inverse @ (rows.T @ bent)
        ds = rows @ dx + unmet
        dz = -pull - bent - stiff * ds
        reach = _reach(slack, ds, pull, dz, 0.995)
        move, slack, pull = move + reach * dx, slack + reach * ds, pull + reach * dz
    return move


def _reach(slack: Vector, ds: Vector, pull: Vector, dz: Vector, share: float) -> float:
    """Return how far both may go and stay positive, at most 1."""
    most = max(float((-ds / slack).max()), float((-dz / pull).max()))
    return min(1.0, share / most) if most > 0 else 1.0
