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
from .boxes import Boxes, over_turns
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
        seen = boxes.frames.seen(self.places)
        least, most = over_turns(seen, seen[:, ::-1], boxes.half[:, None])
        sides = boxes.sides.copy()
        # how far the sides must at least reach, for what those across surely lack
        for _ in range(2):
            lack = np.maximum(sides[..., :1] - most, least - sides[..., 3:]) - self.out
            beyond = np.clip(lack[:, ::-1], 0.0, self.radius)
            spare = self.out + np.sqrt(self.radius**2 - beyond**2) + ROUNDING
            sides[..., 1] = np.minimum(sides[..., 1], (most + spare).min(axis=2))
            sides[..., 2] = np.maximum(sides[..., 2], (least - spare).max(axis=2))
        return replace(boxes, sides=sides)

    def share(self, frames: Frames, sides: Array) -> Array:
        """Return what share of their worth is left to rectangles, (n, 2, 2), that miss points."""
        if len(self.places) == 0 or len(sides) == 0:
            return np.ones(len(sides))
        seen = frames.seen(self.places)
        miss = np.maximum(sides[..., :1] - seen, seen - sides[..., 1:]).max(axis=(1, 2))
        miss = np.maximum(miss - self.out - self.radius, 0.0)
        share: Array = 1 / (1 + _STEERS * miss / (np.ptp(sides, axis=2).max(axis=1) + 1.0))
        return share
