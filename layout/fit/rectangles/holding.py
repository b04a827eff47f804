"""Points that a rectangle must hold: in the bounds of a box, among samples, and while polishing.

A core with round corners of radius c holds a point where the rectangle of its corner centres lies
no farther than c from it. So each side lies at most c short of every point; and at a corner the
ways (dx, dy) that a point lies beyond both sides obey dx² + dy² <= c²: what the one side leaves
undone the other must make good.

Of a box of rectangles only a rectangle near the one of the corner centres is known, `out` inside
it. The sharpest corners of the box hold most, so c is theirs.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from .boxes import Boxes
from .contacts import Room
from .gaps import Array, Frames

_STEERS = 10.0
"""How much a rectangle counts less for a point that it misses by its own size."""

_CORNERS = ((1, 3), (1, -3), (-1, 3), (-1, -3))
"""Right or left, and top or bottom, of the four corners."""


@dataclass(frozen=True, slots=True)
class Points:
    """Points that the rectangles of some boxes must hold."""

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
        px, py = self._seen(boxes.frames)
        least_x, most_x = _over_turns(px, py, boxes.half)
        least_y, most_y = _over_turns(py, -px, boxes.half)
        x, y = boxes.x.copy(), boxes.y.copy()
        # how far the sides must at least reach: left and bottom, and right and top as their mirrors
        for _ in range(2):
            lack_x = np.stack([x[:, :1] - most_x, least_x - x[:, 3:]]) - self.out
            lack_y = np.stack([y[:, :1] - most_y, least_y - y[:, 3:]]) - self.out
            spare_x, spare_y = self._spare(lack_y), self._spare(lack_x)
            x[:, 1] = np.minimum(x[:, 1], (most_x + spare_x).min(axis=1))
            x[:, 2] = np.maximum(x[:, 2], (least_x - spare_x).max(axis=1))
            y[:, 1] = np.minimum(y[:, 1], (most_y + spare_y).min(axis=1))
            y[:, 2] = np.maximum(y[:, 2], (least_y - spare_y).max(axis=1))
        return replace(boxes, x=x, y=y)

    def _spare(self, lack: Array) -> Array:
        """Return how far short of each point a side may stay, (c, m), for what the others lack.

        `lack`, (2, c, m), is how far the point surely lies beyond either side across.
        """
        beyond = np.clip(lack.max(axis=0), 0.0, self.radius)
        spare: Array = self.out + np.sqrt(self.radius**2 - beyond**2) + ROUNDING
        return spare

    def _seen(self, frames: Frames) -> tuple[Array, Array]:
        px, py, _, _ = frames.of(np.concatenate([self.places, self.places], axis=1))
        return px, py

    def share(self, frames: Frames, sides: Array) -> Array:
        """Return what share of their worth is left to rectangles, (n, 4), that miss points."""
        if len(self.places) == 0 or len(sides) == 0:
            return np.ones(len(sides))
        px, py = self._seen(frames)
        spare = self.out + self.radius
        dx = np.maximum(sides[:, :1] - px, px - sides[:, 1:2])
        dy = np.maximum(sides[:, 2:3] - py, py - sides[:, 3:])
        miss = np.maximum(np.maximum(dx, dy).max(axis=1) - spare, 0.0)
        size = np.maximum(sides[:, 1] - sides[:, 0], sides[:, 3] - sides[:, 2]) + 1.0
        share: Array = 1 / (1 + _STEERS * miss / size)
        return share

    def half_planes(
        self, frames: Frames, cos: float, low: Array, high: Array
    ) -> tuple[Array, Array]:
        """Return rows and limits in t and the sides divided by cos φ, for one box.

        A point lies at x + y t and y − x t in divided measures, and in any direction n no farther
        beyond a corner than ``c + out (|n_x| + |n_y|)``, divided by cos φ.

        Parameters
        ----------
        cos : float
            Of the half turn.
        low, high : (5,) arrays
            Of t and the divided sides.
        """
        px, py = (part[0] for part in self._seen(frames))
        middle, half = (low + high) / 2, (high - low) / 2
        rows, limits = [], []
        for right, top in _CORNERS:
            sx, sy = math.copysign(1, right), math.copysign(1, top)
            i, j = (2 if sx > 0 else 1), (4 if sy > 0 else 3)
            dx = np.maximum(sx * (px - middle[i]) - self.out, 0.0)
            dy = np.maximum(sy * (py - middle[j]) - self.out, 0.0)
            met = np.arctan2(dy, dx)
            for angle in (met, *(np.full(len(px), k * math.pi / 8) for k in range(5))):
                nx, ny = sx * np.cos(angle), sy * np.sin(angle)
                row = np.zeros((len(px), 5))
                row[:, 0] = nx * py - ny * px
                row[:, i], row[:, j] = -nx, -ny
                reach = self.radius + self.out * (np.abs(nx) + np.abs(ny))
                rows.append(row)
                limits.append(np.maximum(reach, reach / cos) - nx * px - ny * py)
        every, limit = np.vstack(rows), np.concatenate(limits)
        binds = every @ middle + np.abs(every) @ half > limit
        return every[binds], limit[binds]


NOTHING = Points(np.zeros((0, 2)), 0.0, 0.0)
"""For tops that need not hold anything."""


def _over_turns(along: Array, across: Array, half: Array) -> tuple[Array, Array]:
    """Return the least and the most of ``along cos φ + across sin φ`` over turns of ±half."""
    cos, loose = np.cos(half)[:, None], np.abs(across) * np.sin(half)[:, None]
    return (
        np.minimum(along, along * cos) - loose,
        np.maximum(along, along * cos) + loose,
    )


def missed(points: Array, sides: Array, clearance: float) -> float:
    """Return by how much a rectangle misses the worst of the points, seen in its frame, mm."""
    if len(points) == 0:
        return 0.0
    left, right, bottom, top = sides
    dx = np.maximum(np.maximum(left - points[:, 0], points[:, 0] - right), 0.0)
    dy = np.maximum(np.maximum(bottom - points[:, 1], points[:, 1] - top), 0.0)
    return max(0.0, float(np.hypot(dx, dy).max()) - clearance)


def hold(points: Array, sides: Array, clearance: float) -> Room:
    """Return how firmly each point is held: off the four sides, and off a corner it lies beyond.

    Parameters
    ----------
    points : (m, 2) array
        In the rectangle's frame, mm.
    """
    x, y = points.T
    flat = [_off_side(points, sides, clearance, side) for side in range(4)]
    right, top = x > (sides[0] + sides[1]) / 2, y > (sides[2] + sides[3]) / 2
    dx, dy = x - np.where(right, sides[1], sides[0]), y - np.where(top, sides[3], sides[2])
    beyond = (np.where(right, dx, -dx) > 0) & (np.where(top, dy, -dy) > 0)
    x, y, dx, dy = x[beyond], y[beyond], dx[beyond], dy[beyond]
    count, away = np.arange(len(x)), np.hypot(dx, dy)
    nx, ny = dx / away, dy / away
    moves = np.zeros((len(x), 2, 5))
    moves[:, 0, 0], moves[:, 1, 0] = y, -x
    moves[count, 0, 1 + right[beyond].astype(int)] = -1.0
    moves[count, 1, 3 + top[beyond].astype(int)] = -1.0
    aside = -ny[:, None] * moves[:, 0] + nx[:, None] * moves[:, 1]
    curve = -aside[:, :, None] * aside[:, None, :] / away[:, None, None]
    curve[:, 0, 0] += nx * x + ny * y
    slope = -(nx[:, None] * moves[:, 0] + ny[:, None] * moves[:, 1])
    parts = [*flat, Room(clearance - away, slope, curve)]
    return Room(
        np.concatenate([part.value for part in parts]),
        np.concatenate([part.slope for part in parts]),
        np.concatenate([part.curve for part in parts]),
    )


def _off_side(points: Array, sides: Array, clearance: float, side: int) -> Room:
    """Return how far within one side the points lie, the clearance added."""
    x, y = points.T
    sign = 1.0 if side % 2 == 0 else -1.0
    at, turning = (x, y) if side < 2 else (y, -x)
    slope, curve = np.zeros((len(points), 5)), np.zeros((len(points), 5, 5))
    slope[:, 0], slope[:, side + 1] = sign * turning, -sign
    curve[:, 0, 0] = -sign * at
    return Room(sign * (at - sides[side]) + clearance, slope, curve)
