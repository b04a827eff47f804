"""The band beside a ring, as many small quadrilaterals: a strip on each edge, a fan at each corner.

An offset that is drawn as one line may go astray where short edges of an arc run up to a corner.
The union of these pieces cannot: each of them lies where it must, whatever its neighbours do.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from .placement import Points

Quads = NDArray[np.float64]
"""An (n, 5, 2) array of closed quadrilaterals, mm."""


def band(ring: Points, by: float, *, around: bool, segments: int) -> Quads:
    """Return the pieces of the band `by` wide to the right of a closed ring; to its left below 0.

    Parameters
    ----------
    ring : (n, 2) array
        The first point is not repeated, and no two neighbours are one.
    around : bool
        Whether the fans reach out to the true round corners or stay within them.
    segments : int
        Of a quarter turn of a fan.
    """
    normals = _normals(ring)
    ends = np.roll(ring, -1, axis=0)
    strips = [ring, ends, ends + by * normals, ring + by * normals, ring]
    return np.concatenate([np.stack(strips, axis=1), _fans(ends, normals, by, around, segments)])


def moved_ends(ring: Points, by: float) -> Points:
    """Return both ends of every edge of a ring moved `by` to the right, (2n, 2) mm."""
    shift = by * _normals(ring)
    return np.concatenate([ring + shift, np.roll(ring, -1, axis=0) + shift])


def _normals(ring: Points) -> Points:
    ways = np.roll(ring, -1, axis=0) - ring
    ways /= np.hypot(*ways.T)[:, None]
    return np.stack([ways[:, 1], -ways[:, 0]], axis=1)


def _fans(corners: Points, normals: Points, by: float, around: bool, segments: int) -> Quads:
    """Return the fans at corners that open, each in slices of at most a quarter over `segments`."""
    after = np.roll(normals, -1, axis=0)
    sines = normals[:, 0] * after[:, 1] - normals[:, 1] * after[:, 0]
    turns = np.arctan2(sines, (normals * after).sum(axis=1))
    opens = np.flatnonzero(turns * by > 0)
    counts = np.maximum(1, np.ceil(np.abs(turns[opens]) / (np.pi / 2 / segments)).astype(int))
    which = np.repeat(opens, counts)
    slices = np.repeat(counts, counts)
    index = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    step = turns[which] / slices
    first = np.arctan2(normals[which, 1], normals[which, 0])

    def at(number: NDArray[np.float64], reach: NDArray[np.float64] | float) -> Points:
        angle, far = first + step * number, np.reshape(by * reach, (-1, 1))
        places: Points = corners[which] + far * np.stack([np.cos(angle), np.sin(angle)], axis=1)
        return places

    # the outer slices share their sides with the strips, to the last digit
    start = np.where((index == 0)[:, None], corners[which] + by * normals[which], at(index, 1.0))
    last = (index == slices - 1)[:, None]
    end = np.where(last, corners[which] + by * after[which], at(index + 1, 1.0))
    half = np.cos(step / 2)
    tip = at(index + 0.5, 1 / half if around else half)
    return np.stack([corners[which], start, tip, end, corners[which]], axis=1)
