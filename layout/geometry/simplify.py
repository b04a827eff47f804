"""A ring with fewer points, the same ones whatever arithmetic it was made with."""

from __future__ import annotations

import numpy as np

from .alike import first_of_best
from .placement import Points
from .tolerance import SAME_PLACE

_ALIKE = 1e-4
"""Radians within which two corners are as sharp: far more than rounding turns ways that are
`SAME_PLACE` long or longer."""


def fewer(ring: Points, tolerance: float) -> Points:
    """Return points of a ring, (n, 2) mm, that keep all of it within `tolerance` and `SAME_PLACE`.

    Points that are one place are one point.

    From the sharpest corner on the next point that is kept is the last one to which length times
    turn of the way is at most four times the tolerance: a way s long that turns by t in all strays
    at most s·t/4 from its chord, since to stray by d it must turn by at least d/s₁ + d/s₂ with
    s₁ + s₂ = s. The rule that keeps the point farthest from a chord would have to choose between
    two that are as far on every even curve, and rounding would choose.
    """
    ring = ring[np.hypot(*(ring - np.roll(ring, 1, axis=0)).T) > SAME_PLACE]
    if len(ring) < 4:
        return ring
    ways = np.roll(ring, -1, axis=0) - ring
    before = np.roll(ways, 1, axis=0)
    across = before[:, 0] * ways[:, 1] - before[:, 1] * ways[:, 0]
    turns = np.abs(np.arctan2(across, (before * ways).sum(axis=1)))
    sharp = (int(i) for i in np.flatnonzero(turns >= turns.max() - _ALIKE))
    first = first_of_best(sharp, lambda i: turns[i], lambda i: tuple(ring[i]), tolerance=_ALIKE)
    ring = np.roll(ring, -first, axis=0)
    so_far = np.concatenate([[0.0], np.cumsum(np.roll(np.hypot(*ways.T), -first))])
    turned = np.cumsum(np.roll(turns, -first))
    kept, last = [0], len(ring)
    while True:
        here = kept[-1]
        strays = (so_far[here + 1 :] - so_far[here]) * (turned[here:last] - turned[here])
        there = here + max(1, int(np.searchsorted(strays, 4 * tolerance, side="right")))
        if there >= last:
            return ring[kept] if len(kept) > 2 else ring
        kept.append(there)
