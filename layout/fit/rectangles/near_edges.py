"""Which edges can matter to a box of rectangles: the smaller the box, the fewer.

Edges beyond the outer window's right side touch no strip between its sides, nor do those above it.
Those beyond its left side touch none either, but tell inside from outside: how many of them a level
line crosses. A run of them, end to end, is crossed as often, odd or even, as the one edge from its
start to its end, which lies to the left as well; so each run becomes one edge. So do those below
the window, for upright lines.
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
    again is allowed for their leaning within that box. The lines go on to the left and below: an
    edge farther away than M moves by as much as its own distance makes it.
    """
    if len(edges) <= _FEW:
        return edges
    x, y = box.x[0], box.y[0]
    reach = max(-x[0], x[3]) + max(-y[0], y[3])
    ends = np.stack([part[0] for part in box.frames.of(edges)])
    pad = 3 * np.maximum(np.abs(ends).max(axis=0), reach) * box.half[0] + 1.0
    low_x, high_x = np.minimum(ends[0], ends[2]), np.maximum(ends[0], ends[2])
    low_y, high_y = np.minimum(ends[1], ends[3]), np.maximum(ends[1], ends[3])
    left, below = high_x < x[0] - pad, high_y < y[0] - pad
    level = ~below & (low_y < y[3] + pad)
    upright = ~left & (low_x < x[3] + pad)
    beyond = [_joined(edges[level & left]), _joined(edges[upright & below])]
    return np.concatenate([edges[level & upright], *beyond])


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
