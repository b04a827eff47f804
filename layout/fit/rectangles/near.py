"""Which edges can matter to a box of rectangles: the smaller the box, the fewer.

Edges beyond the outer window's right side, above it or below it touch no strip between its sides.
Those beyond its left side touch none either, but tell inside from outside: how many of them a
level line crosses. A run of them, end to end, is crossed as often, odd or even, as the one edge
from its start to its end, which lies to the left as well; so each run becomes one edge.
"""

from __future__ import annotations

import numpy as np

from .boxes import Boxes
from .gaps import Array

_FEW = 24
"""Edges that are not worth looking through."""


def near_edges(box: Boxes, edges: Array) -> Array:
    """Return the edges, (n, 4), that boxes within this one, a single row, must be held against.

    A frame of a smaller box is turned by at most δ from this one's. Its strips reach to where the
    rectangles do, M = max |x| + max |y| from the pivot, so they move by at most M δ, and as much
    again is allowed for their leaning within that box.
    """
    if len(edges) <= _FEW:
        return edges
    x, y = box.x[0], box.y[0]
    reach = max(-x[0], x[3]) + max(-y[0], y[3])
    pad = 3 * float(reach * box.half[0]) + 1.0
    ax, ay, bx, by = (part[0] for part in box.frames.of(edges))
    low_x, high_x = np.minimum(ax, bx), np.maximum(ax, bx)
    level = (np.minimum(ay, by) < y[3] + pad) & (np.maximum(ay, by) > y[0] - pad)
    left = level & (high_x < x[0] - pad)
    near = level & ~left & (low_x < x[3] + pad)
    return np.concatenate([edges[near], _joined(edges[left])])


def _joined(edges: Array) -> Array:
    """Return one edge for each run of edges that follow each other end to end."""
    if len(edges) == 0:
        return edges
    follows = np.all(edges[1:, :2] == edges[:-1, 2:], axis=1)
    first = np.flatnonzero(np.concatenate([[True], ~follows]))
    last = np.concatenate([first[1:], [len(edges)]]) - 1
    runs = np.concatenate([edges[first, :2], edges[last, 2:]], axis=1)
    open_runs: Array = runs[np.any(runs[:, :2] != runs[:, 2:], axis=1)]
    return open_runs
