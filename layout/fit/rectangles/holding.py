"""Points that a rectangle must hold: in the bounds of a box, and among samples.

A core with round corners of radius c holds a point where the rectangle of its corner centres lies
no farther than c from it. So each side lies at most c short of every point; and at a corner the
ways (dx, dy) that a point lies beyond both sides obey dx² + dy² <= c²: what the one side leaves
undone the other must make good.

Of a box of rectangles only a rectangle near the one of the corner centres is known, `out` inside
it. The sharpest corners of the box hold most, so c is theirs.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from .boxes import Boxes
from .gaps import Array, Frames

_STEERS = 10.0
"""How much a rectangle counts less for a point that it misses by its own size."""


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


NOTHING = Points(np.zeros((0, 2)), 0.0, 0.0)
"""For tops that need not hold anything."""


def _over_turns(along: Array, across: Array, half: Array) -> tuple[Array, Array]:
    """Return the least and the most of ``along cos φ + across sin φ`` over turns of ±half."""
    cos, loose = np.cos(half)[:, None], np.abs(across) * np.sin(half)[:, None]
    return (
        np.minimum(along, along * cos) - loose,
        np.maximum(along, along * cos) + loose,
    )
