"""The free gaps that edges leave in many strips at once, each between two heights in its own frame.

Edges are clipped to the strip, sorted from left to right, and a running maximum of their right ends
shows where nothing lies; how many edges cross the middle of the strip to the left, odd or even,
tells inside from outside.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING

Array = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Frames:
    """One frame a row: x along `turn`, y across it, origin at the pivot."""

    turn: Array
    """(c,) array: radians."""
    pivot: Array
    """(c, 2) array: mm."""

    def take(self, rows: Indices | slice) -> Frames:
        """Return the frames of these rows."""
        return Frames(self.turn[rows], self.pivot[rows])

    def seen(self, points: Array) -> Array:
        """Return points, (m, 2), as they lie in every frame, (c, 2, m)."""
        turned = np.exp(-1j * self.turn)[:, None]
        own = (points @ [1, 1j]) * turned - (self.pivot @ [1, 1j])[:, None] * turned
        return np.stack([own.real, own.imag], axis=1)


@dataclass(frozen=True, slots=True)
class Strips:
    """The edges in every strip, clipped to it and sorted by their left ends."""

    left: Array
    right: Array
    """(c, e) array: the ends of each clipped edge along x; infinite for edges outside the strip."""
    left_y: Array
    right_y: Array
    """(c, e) array: their heights."""
    covered: Array
    """(c, e) array: how far right the edges up to this one reach."""
    inside: NDArray[np.bool_]
    """(c, e) array of bool: whether the ground to the right of all edges up to this one is wood."""

    def gaps(self, low: Array, high: Array, least: Array) -> Gaps:
        """Return the gaps inside wood that reach `least` wide within [low, high], each (c,).

        Two edges that share a corner leave none between them, also for rectangles that are lines.
        """
        following = np.full_like(self.left, np.inf)
        following[:, :-1] = self.left[:, 1:]
        start = np.maximum(self.covered, low[:, None])
        end = np.minimum(following, high[:, None])
        free = self.inside & (following >= self.covered + ROUNDING)
        strip, place = np.nonzero(free & (end - start >= least[:, None]))
        return Gaps(strip, place, start[strip, place], end[strip, place])


@dataclass(frozen=True, slots=True)
class Gaps:
    """Free gaps: in which strip, after which of its sorted edges, from where to where along x."""

    strip: Indices
    place: Indices
    start: Array
    end: Array


def strips(frames: Frames, bottom: Array, top: Array, edges: Array) -> Strips:
    """Return the directed edges of the wood, (e, 2, 2), clipped to each strip and sorted.

    The strips lie between two heights in their frames, (c,) mm each. An edge that only touches a
    strip from outside does not count: sides may lie on edges.
    """
    low, high = bottom[:, None], top[:, None]
    starts, ends = frames.seen(edges[:, 0]), frames.seen(edges[:, 1])
    least, most = np.minimum(starts[:, 1], ends[:, 1]), np.maximum(starts[:, 1], ends[:, 1])
    apart = (most <= low) | (least >= high)
    some = np.flatnonzero(~apart.all(axis=0))
    apart = apart[:, some]
    (ax, ay), (bx, by) = (np.moveaxis(seen[:, :, some], 1, 0) for seen in (starts, ends))
    middle = (low + high) / 2
    rise = by - ay
    slope = (bx - ax) / np.where(rise == 0, np.inf, rise)
    start_y = np.minimum(np.maximum(ay, low), high)
    end_y = np.minimum(np.maximum(by, low), high)
    start_x, end_x = ax + (start_y - ay) * slope, bx + (end_y - by) * slope
    ahead = start_x <= end_x
    left = np.where(apart, np.inf, np.where(ahead, start_x, end_x))
    order = np.argsort(left, axis=1)
    rows = np.arange(len(left))[:, None]
    right = np.where(apart, np.inf, np.where(ahead, end_x, start_x))[rows, order]
    crossing = ((ay > middle) != (by > middle))[rows, order]
    return Strips(
        left[rows, order],
        right,
        np.where(ahead, start_y, end_y)[rows, order],
        np.where(ahead, end_y, start_y)[rows, order],
        np.maximum.accumulate(right, axis=1),
        np.logical_xor.accumulate(crossing, axis=1),
    )
