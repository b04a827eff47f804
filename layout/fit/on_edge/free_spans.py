"""Where along a line a bar stays clear of all edges of the wood: free spans, found exactly.

The bar stands upright between two heights and has a radius: it is the strip that the core of a top
sweeps. An edge blocks the places where it comes nearer to the bar than the radius. What lies that
near to an edge is convex (the edge with a disk swept along it), so each edge blocks one interval,
whose ends come from the two discs at the ends of the edge or from the straights between them.
Nothing is shrunk and nothing is curved by chords: the spans are exact but for rounding.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_ON = 1e-9
"""Shares of an edge's length that rounding may miss its ends by."""


@dataclass(frozen=True, slots=True)
class Spans:
    """Free spans from left to right, and which edges end them."""

    ends: Array
    """(s, 2) array: from where to where along x, mm."""
    edges: NDArray[np.intp]
    """(s, 2) array of int: the edge that ends it on the left, and on the right; −1 where only the
    search ends there."""

    @property
    def lengths(self) -> Array:
        """How long they are, mm."""
        lengths: Array = self.ends[:, 1] - self.ends[:, 0]
        return lengths

    def where(self, chosen: NDArray[np.bool_]) -> Spans:
        """Return those that are chosen."""
        return Spans(self.ends[chosen], self.edges[chosen])


def free_spans(edges: Array, bar: tuple[float, float], radius: float, within: Array) -> Spans:
    """Return the spans of x where a bar keeps `radius` from all edges.

    Whether they lie in the wood is not asked.

    Parameters
    ----------
    edges : (e, 2, 2) array
        Edge, start or end, x or y; mm.
    bar : two floats
        Its heights, mm; they may be one.
    radius : float
        mm; an edge that is just so far away does not block.
    within : (2,) array
        From where to where along x spans are sought.
    """
    low, high = bar
    bottom, top = edges[:, :, 1].min(axis=1), edges[:, :, 1].max(axis=1)
    near = np.flatnonzero((bottom - radius < high) & (top + radius > low))
    blocked = reached(edges[near], bar, radius)
    order = np.argsort(blocked[:, 0], kind="stable")
    near, blocked = np.append(-1, near[order]), blocked[order]
    covered = np.append(within[0], blocked[:, 1])
    farthest = np.maximum.accumulate(covered)
    which = np.maximum.accumulate(np.where(covered == farthest, np.arange(len(covered)), 0))
    following = np.append(blocked[:, 0], np.inf)
    beyond = following >= within[1]
    ends = np.stack([farthest, np.where(beyond, within[1], following)], axis=1)
    names = np.stack([near[which], np.where(beyond, -1, np.append(near[1:], -1))], axis=1)
    return Spans(ends, names).where(ends[:, 0] <= ends[:, 1])


def reached(edges: Array, bar: tuple[float, float], radius: float) -> Array:
    """Return from where to where along x each edge blocks a bar, (e, 2) mm.

    It must come near enough to do so.
    """
    mirrored = edges * np.array([-1.0, 1.0])
    sides = [-_farthest(mirrored, *bar, radius), _farthest(edges, *bar, radius)]
    return np.stack(sides, axis=1)


def _farthest(edges: Array, low: float, high: float, radius: float) -> Array:
    """Return how far right each edge, swept by a disk, reaches between two heights.

    At the height of its right end it reaches farthest of all, and less the farther from there; so
    the height that counts is the one between the two that is nearest to it.
    """
    x, y = edges[:, :, 0], edges[:, :, 1]
    rows = np.arange(len(edges))
    level = np.clip(y[rows, x.argmax(axis=1)], low, high)
    over = level[:, None] - y
    discs = np.where(
        np.abs(over) <= radius, x + np.sqrt(np.maximum(radius**2 - over**2, 0.0)), -np.inf
    )
    run, rise = x[:, 1] - x[:, 0], y[:, 1] - y[:, 0]
    length = np.hypot(run, rise)
    length = np.where(length == 0, 1.0, length)
    # of the two straights only the one on the right matters: its normal points to the right
    side = np.where(rise >= 0, radius, -radius) / length
    start_x, start_y = x[:, 0] + side * rise, y[:, 0] - side * run
    flat = rise == 0
    share = (level - start_y) / np.where(flat, 1.0, rise)
    on = ~flat & (share >= -_ON) & (share <= 1 + _ON)
    straight = np.where(on, start_x + np.clip(share, 0.0, 1.0) * run, -np.inf)
    reach: Array = np.maximum(discs.max(axis=1), straight)
    return reach
