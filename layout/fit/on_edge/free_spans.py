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

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array
from .line import KeptLine

_ON = 1e-9
"""Shares of an edge's length that rounding may miss its ends by."""


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two polygons of the sound wood, in the frame of the line."""

    wood: Region
    edges: Array
    """(e, 2, 2) array: of the wood."""
    within: Array
    """(2,) array: from where to where along x the edge is kept, mm: straights lie there."""

    @classmethod
    def of(cls, wood: Region, line: KeptLine) -> Side:
        """Return a polygon as it lies on a line."""
        own = wood.placed(line.frame.inverse)
        return cls(own, own.edges, np.array([-ROUNDING, line.length + ROUNDING]))

    def straights(self, width: float, radius: float) -> Array:
        """Return where the straight of a top stays clear, (s, 2): from the first to the last place.

        The core of a top of some width is the strip that lies `radius` inside all its sides; its
        straight is as long. A top is taken less by `ROUNDING` all round, so contact is no
        collision and no straight that fits is left out.
        """
        if width <= 2 * ROUNDING:
            return self.within[None]
        middle, inset = width / 2, max(radius, ROUNDING)
        bar = (inset, width - inset) if inset < middle else (middle, middle)
        spans = free_spans(self.edges, bar, max(radius - ROUNDING, 0.0), self.within)
        middles = np.column_stack([spans.mean(axis=1), np.full(len(spans), middle)])
        return spans[self.wood.holds_points(middles)]


def free_spans(edges: Array, bar: tuple[float, float], radius: float, within: Array) -> Array:
    """Return the spans of x, (s, 2), where a bar keeps `radius` from all edges.

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
    start, end = edges[:, :, 1].T  # a least along rows of two takes thirty times as long
    is_near = np.minimum(start, end) - radius < high
    near = edges[is_near & (np.maximum(start, end) + radius > low)]
    mirrored = near * np.array([-1.0, 1.0])
    sides = [-_farthest(mirrored, *bar, radius), _farthest(near, *bar, radius)]
    return free_runs(np.stack(sides, axis=1), float(within[0]), float(within[1]))


def free_runs(blocked: Array, left: float, right: float) -> Array:
    """Return what of a stretch is left between blocked parts, (n, 2), from left to right."""
    order = np.argsort(blocked[:, 0], kind="stable")
    starts, ends = blocked[order].T
    covered = np.maximum.accumulate(np.append(left, ends))
    runs = np.stack([covered, np.append(np.minimum(starts, right), right)], axis=1)
    free: Array = runs[runs[:, 0] <= runs[:, 1]]
    return free


def _farthest(edges: Array, low: float, high: float, radius: float) -> Array:
    """Return how far right each edge, swept by a disk, reaches between two heights.

    At the height of its right end it reaches farthest of all, and less the farther from there; so
    the height that counts is the one between the two that is nearest to it.
    """
    x, y = edges[:, :, 0], edges[:, :, 1]
    level = np.clip(np.where(x[:, 1] > x[:, 0], y[:, 1], y[:, 0]), low, high)
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
    reach: Array = np.maximum(np.maximum(*discs.T), straight)
    return reach
