"""Boxes of rectangles: every turn and every place of the four sides between two values each.

A box holds all rectangles whose turn is within `half` of its frame's turn and whose left side,
in a frame turned like the rectangle itself, lies between ``x[0]`` and ``x[1]``, the right one
between ``x[2]`` and ``x[3]``, the lower one between ``y[0]`` and ``y[1]``, the upper one between
``y[2]`` and ``y[3]``. So none leaves the outer window (x[0], x[3]) × (y[0], y[3]), and all cover
the inner window (x[1], x[2]) × (y[1], y[2]), where that is not empty.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from .gaps import Array, Frames, Indices


@dataclass(frozen=True, slots=True)
class Boxes:
    """Boxes of rectangles, one a row."""

    turn: Array
    half: Array
    """(c,) array: direction of x in the middle of the box, and how far it turns either way,
    radians."""
    pivot: Array
    """(c, 2) array: the point that the sides are measured from, mm."""
    x: Array
    y: Array
    """(c, 4) array: where the sides may lie, mm."""

    def __len__(self) -> int:
        return len(self.turn)

    @property
    def frames(self) -> Frames:
        """The frames of the middle turns."""
        return Frames(self.turn, self.pivot)

    @property
    def _parts(self) -> tuple[Array, ...]:
        return self.turn, self.half, self.pivot, self.x, self.y

    def take(self, rows: Indices) -> Boxes:
        """Return the boxes of these rows."""
        return Boxes(*(part[rows] for part in self._parts))

    @classmethod
    def of_turns(cls, low: float, high: float, count: int, corners: Array) -> Boxes:
        """Return boxes of all rectangles among corners, (n, 2), turned from `low` to `high`."""
        half = (high - low) / (2 * count)
        turn = low + half * np.arange(1, 2 * count, 2, dtype=np.float64)
        middle = (corners.max(axis=0) + corners.min(axis=0)) / 2
        reach = float(np.hypot(*(corners - middle).T).max()) + 1.0
        window = np.tile([-reach, reach, -reach, reach], (count, 1))
        return cls(turn, np.full(count, half), np.tile(middle, (count, 1)), window, window.copy())

    @classmethod
    def joined(cls, *many: Boxes) -> Boxes:
        """Return all boxes, one after another."""
        every = zip(*(boxes._parts for boxes in many), strict=True)
        return cls(*(np.concatenate(part) for part in every))

    def quarter_turned(self) -> Boxes:
        """Return the same rectangles seen from a frame a quarter turn on: x is y, and y is −x."""
        return replace(self, turn=self.turn + math.pi / 2, x=self.y, y=-self.x[:, ::-1])

    def quarter_turned_back(self) -> Boxes:
        """Return the same rectangles seen from a frame a quarter turn back."""
        return replace(self, turn=self.turn - math.pi / 2, x=-self.y[:, ::-1], y=self.x)

    def recentred(self) -> Boxes:
        """Return boxes of the same rectangles with pivots in the middle of the outer windows.

        A side at x from one pivot lies at x − s·e from another that is s away, e being the
        direction across the side. Over the turns of the box s·e = s_x cos φ + s_y sin φ, which
        lies between min(s_x, s_x cos δ) − |s_y| sin δ and the like above.
        """
        cos, sin = np.cos(self.turn), np.sin(self.turn)
        right = (self.x[:, 0] + self.x[:, 3]) / 2
        up = (self.y[:, 0] + self.y[:, 3]) / 2
        shift = np.stack([right * cos - up * sin, right * sin + up * cos], axis=1)
        return replace(
            self,
            pivot=self.pivot + shift,
            x=_moved(self.x, right, up, self.half),
            y=_moved(self.y, up, right, self.half),
        )

    def narrowed(self, wide: Array, high: Array) -> Boxes:
        """Return boxes without the rectangles less than `wide` along x or `high` along y."""
        return replace(self, x=_apart(self.x, wide), y=_apart(self.y, high))

    def possible(self) -> Indices:
        """Return the rows of boxes that hold anything."""
        hold = [
            side[:, i] <= side[:, i + 1] + ROUNDING for side in (self.x, self.y) for i in (0, 2)
        ]
        return np.flatnonzero(np.logical_and.reduce(hold))

    def widened(self, by: float) -> Boxes:
        """Return the boxes for rectangles whose sides lie so much farther out."""
        out = by * np.array([-1.0, -1.0, 1.0, 1.0])
        return replace(self, x=self.x + out, y=self.y + out)

    def _costs(self) -> Array:
        """Return what turns, lower and upper sides cost the bound by not being known, (c, 3) mm².

        A side that may lie anywhere within e costs e times the width; a turn within ±δ costs both
        sizes squared times δ.
        """
        wide, high = self.x[:, 3] - self.x[:, 0], self.y[:, 3] - self.y[:, 0]
        return np.stack(
            [
                self.half * (wide**2 + high**2),
                (self.y[:, 1] - self.y[:, 0]) * wide,
                (self.y[:, 3] - self.y[:, 2]) * wide,
            ],
            axis=1,
        )

    def halved(self) -> Boxes:
        """Return boxes half as large: each cut across what makes its bound loosest.

        Left and right sides are not cut: the gaps between the edges settle them.
        """
        choice = np.argmax(self._costs(), axis=1)
        turns = choice == 0
        half = np.where(turns, self.half / 2, self.half)
        lower = replace(
            self, half=half, turn=self.turn - np.where(turns, half, 0.0), y=self.y.copy()
        )
        upper = replace(
            self, half=half, turn=self.turn + np.where(turns, half, 0.0), y=self.y.copy()
        )
        for number, first in ((1, 0), (2, 2)):
            rows = np.flatnonzero(choice == number)
            middle = (self.y[rows, first] + self.y[rows, first + 1]) / 2
            lower.y[rows, first + 1] = middle
            upper.y[rows, first] = middle
        return Boxes.joined(lower, upper)


def _moved(sides: Array, along: Array, across: Array, half: Array) -> Array:
    """Return side places measured from a pivot moved by `along` and `across`."""
    cos, loose = np.cos(half), np.abs(across) * np.sin(half)
    least = np.minimum(along, along * cos) - loose
    most = np.maximum(along, along * cos) + loose
    shift: Array = np.stack([most, least, most, least], axis=1)
    return sides - shift


def _apart(sides: Array, size: Array) -> Array:
    """Return side places that leave room for `size` between two opposite sides."""
    narrow = sides.copy()
    narrow[:, 1] = np.minimum(sides[:, 1], sides[:, 3] - size)
    narrow[:, 2] = np.maximum(sides[:, 2], sides[:, 0] + size)
    return narrow
