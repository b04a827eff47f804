"""The line that a long side lies on, and where along it a bar stays clear of all edges of the wood.

No edge is dead straight. The line is parallel to the taut string from end to end and touches the
edge where it runs farthest into the wood, so the whole of the top on it is wood and proved to be.
What stands proud of the line, never more than `STRAIGHT` for each way that the edge may bow, is not
cut: the edge stays as it is.

The bar, upright between two heights and with a radius, is the strip that the core of a top sweeps.
What lies nearer to an edge than the radius is convex (the edge with a disk swept along it), so each
edge blocks one interval, whose ends come from the disks at the ends of the edge or from the
straights between them. Nothing is shrunk and nothing is curved by chords: free spans are exact but
for rounding.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...errors import LayoutError
from ...geometry.placement import Placement
from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from ...panel.edges import Edge
from ...panel.named_edges import require_straight, turn_along
from ..wish import STRAIGHT_SIDED, Limits, Wish
from ..wood.edges import Array

_ANGLE = 1e-9
"""What an edge may turn past the limit by rounding, radians."""
_ON = 1e-9
"""Shares of an edge's length that rounding may miss its ends by."""


@dataclass(frozen=True, slots=True)
class KeptLine:
    """A frame on a kept edge: x along it, y square into the wood."""

    frame: Placement
    """From the frame onto the panel."""
    length: float
    """How far the edge reaches along x from the origin, mm."""

    @classmethod
    def of(cls, wish: Wish, shape: str) -> KeptLine:
        """Return the line of the one edge that a wish keeps for a top of a shape.

        Raise a `LayoutError` for what cannot be kept.
        """
        assert wish.keeping is not None
        if shape not in STRAIGHT_SIDED:
            raise LayoutError(
                f"no long straight side of a top of shape {shape!r} can lie on an edge that is "
                f"kept: wish for {', '.join(STRAIGHT_SIDED)} or a piece as found"
            )
        if len(wish.keeping.edges) != 1:
            raise LayoutError(
                f"a {shape} has one long side on one kept edge, not on {len(wish.keeping.edges)}: "
                "keep one edge, or wish for a piece as found"
            )
        if wish.lipping > 0:
            raise LayoutError(
                "a lipping goes all round, so no edge of the panel can be kept: leave out one of "
                "the two"
            )
        edge = Edge(wish.keeping.edges[0].segments)
        require_straight(edge, "the kept edge")
        require_turn(turn_along(edge), wish.limits)
        deepest = edge.hollow if edge.hollow > ROUNDING else 0.0
        along = edge.direction
        return cls(Placement(edge.start + along.left * deepest, along.angle), edge.chord)


def require_turn(turn: float, limits: Limits) -> None:
    """Raise a `LayoutError` if a turn is farther from the grain than the limits allow."""
    off = abs(limits.off_grain(turn))
    if off > limits.most_turn + _ANGLE:
        raise LayoutError(
            f"the kept edge runs {math.degrees(off):.1f}° off the grain, and the top may turn "
            f"{math.degrees(limits.most_turn):g}° at most: allow more turn, or keep another edge"
        )


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

    Its two heights, mm, may be one. Of spans `within` a stretch of x; whether they lie in the wood
    is not asked.
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
