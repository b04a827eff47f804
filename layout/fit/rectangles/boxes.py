"""Boxes of rectangles, by turn and the places of their sides, and the gaps of edges in strips.

Edges are clipped to a strip, sorted from left to right, and a running maximum of their right ends
shows where nothing lies; how many edges cross its middle to the left, odd or even, tells inside
from outside.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array

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


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes of rectangles, one a row.

    In a frame turned like the rectangle itself, about the pivot of its box, the left side lies
    between x₀ and x₁, the right one between x₂ and x₃, and so the lower and upper one along y. So
    none leaves the outer window (x₀, x₃) × (y₀, y₃), and all cover the inner one, (x₁, x₂) ×
    (y₁, y₂), where that is not empty.
    """

    frames: Frames
    """Of the middle turns."""
    half: Array
    """(c,) array: how far a box turns either way, radians."""
    sides: Array
    """(c, 2, 4) array: x₀ to x₃ and y₀ to y₃, mm."""

    def __len__(self) -> int:
        return len(self.half)

    def take(self, rows: Indices | slice) -> Boxes:
        """Return the boxes of these rows."""
        return Boxes(self.frames.take(rows), self.half[rows], self.sides[rows])

    @classmethod
    def of_turns(cls, low: float, high: float, count: int, corners: Array) -> Boxes:
        """Return boxes of all rectangles among corners, (n, 2), turned from `low` to `high`."""
        half = (high - low) / (2 * count)
        turn = low + half * np.arange(1, 2 * count, 2, dtype=np.float64)
        middle = (corners.max(axis=0) + corners.min(axis=0)) / 2
        reach = float(np.hypot(*(corners - middle).T).max()) + 1.0
        sides = np.tile([-reach, reach, -reach, reach], (count, 2, 1))
        return cls(Frames(turn, np.tile(middle, (count, 1))), np.full(count, half), sides)

    @classmethod
    def joined(cls, *many: Boxes) -> Boxes:
        """Return all boxes, one after another."""
        parts = zip(*((b.frames.turn, b.frames.pivot, b.half, b.sides) for b in many), strict=True)
        turn, pivot, half, sides = (np.concatenate(part) for part in parts)
        return cls(Frames(turn, pivot), half, sides)

    def quarter_turned(self, way: int = 1) -> Boxes:
        """Return the same rectangles seen from a frame a quarter turn on (1) or back (−1).

        From one turned on, y lies along x and −x along y.
        """
        frames = Frames(self.frames.turn + way * math.pi / 2, self.frames.pivot)
        sides = self.sides[:, ::-1].copy()
        behind = 1 if way > 0 else 0
        sides[:, behind] = -sides[:, behind, ::-1]
        return Boxes(frames, self.half, sides)

    def recentred(self) -> Boxes:
        """Return boxes of the same rectangles with pivots in the middle of the outer windows.

        From a pivot s away a side lies less far by s_x cos φ + s_y sin φ.
        """
        middle = (self.sides[..., 0] + self.sides[..., 3]) / 2
        turn = self.frames.turn
        out = (middle @ [1, 1j]) * np.exp(1j * turn)
        pivot = self.frames.pivot + np.stack([out.real, out.imag], axis=1)
        least, most = _over_turns(middle, middle[:, ::-1], self.half)
        sides = self.sides - np.stack([most, least, most, least], axis=2)
        return Boxes(Frames(turn, pivot), self.half, sides)

    def narrowed(self, least: Array) -> Boxes:
        """Return boxes without the rectangles smaller than `least`, (c, 2), along x or y."""
        sides = self.sides.copy()
        sides[..., 1] = np.minimum(sides[..., 1], sides[..., 3] - least)
        sides[..., 2] = np.maximum(sides[..., 2], sides[..., 0] + least)
        return replace(self, sides=sides)

    def possible(self) -> Indices:
        """Return the rows of boxes that hold anything."""
        hold = self.sides[..., ::2] <= self.sides[..., 1::2] + ROUNDING
        return np.flatnonzero(hold.all(axis=(1, 2)))

    def widened(self, by: float) -> Boxes:
        """Return the boxes for rectangles whose sides lie so much farther out."""
        return replace(self, sides=self.sides + by * np.array([-1.0, -1.0, 1.0, 1.0]))

    def halved(self) -> Boxes:
        """Return boxes half as large, each cut across what makes its bound loosest.

        A lower or upper side that may lie anywhere within e costs e times the width, a turn within
        ±δ both sizes squared times δ. Left and right sides the gaps between the edges settle.
        """
        wide, high = (self.sides[..., 3] - self.sides[..., 0]).T
        y = self.sides[:, 1]
        costs = [self.half * (wide**2 + high**2), *((y[:, 1::2] - y[:, ::2]).T * wide)]
        choice = np.argmax(np.stack(costs, axis=1), axis=1)
        lower, upper = self.sides.copy(), self.sides.copy()
        for number, first in ((1, 0), (2, 2)):
            rows = np.flatnonzero(choice == number)
            middle = (y[rows, first] + y[rows, first + 1]) / 2
            lower[rows, 1, first + 1] = upper[rows, 1, first] = middle
        off = np.where(choice == 0, self.half / 2, 0.0)
        turn, pivot, half = self.frames.turn, self.frames.pivot, self.half - off
        both = ((turn - off, lower), (turn + off, upper))
        return Boxes.joined(*(Boxes(Frames(own, pivot), half, sides) for own, sides in both))


def _over_turns(along: Array, across: Array, half: Array) -> tuple[Array, Array]:
    """Return the least and the most of ``along cos φ + across sin φ`` over turns of ±half.

    At least it is min(along, along cos δ) − |across| sin δ, and the like above.
    """
    cos = np.cos(half)[..., None]
    loose = np.abs(across) * np.sin(half)[..., None]
    return np.minimum(along, along * cos) - loose, np.maximum(along, along * cos) + loose


@dataclass(frozen=True, slots=True)
class Points:
    """Points that the rectangles of some boxes must hold.

    A core with round corners of radius c holds a point where the rectangle of its corner centres
    lies no farther than c from it. So each side lies at most c short of every point; and at a
    corner the ways (dx, dy) that a point lies beyond both sides obey dx² + dy² <= c²: what the one
    side leaves undone the other must make good.

    Of a box of rectangles only a rectangle near the one of the corner centres is known, `out`
    inside it. The sharpest corners of the box hold most, so c is theirs.
    """

    places: Array
    """(m, 2) array: mm."""
    out: float
    """How far outside the rectangles of the box the corner centres of their cores lie, mm."""
    radius: float
    """The least corner radius of those cores, mm."""

    def narrowed(self, boxes: Boxes) -> Boxes:
        """Return the boxes without the rectangles that cannot hold the points."""
        if len(self.places) == 0 or len(boxes) == 0:
            return boxes
        seen = boxes.frames.seen(self.places)
        least, most = _over_turns(seen, seen[:, ::-1], boxes.half[:, None])
        sides = boxes.sides.copy()
        # how far the sides must at least reach, for what those across surely lack
        for _ in range(2):
            lack = np.maximum(sides[..., :1] - most, least - sides[..., 3:]) - self.out
            beyond = np.clip(lack[:, ::-1], 0.0, self.radius)
            spare = self.out + np.sqrt(self.radius**2 - beyond**2) + ROUNDING
            sides[..., 1] = np.minimum(sides[..., 1], (most + spare).min(axis=2))
            sides[..., 2] = np.maximum(sides[..., 2], (least - spare).max(axis=2))
        return replace(boxes, sides=sides)
