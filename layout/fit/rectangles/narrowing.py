"""Cutting boxes of rectangles down, along one axis and the other, to what can still be better.

What the gaps leave of the width says how high a rectangle must be to score enough, and a rectangle
of a known least height covers the middle of its window, where the next look for gaps begins. So
each round along one axis sharpens the next along the other.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .boxes import Boxes
from .gap_bound import narrowed_along
from .gaps import Array
from .holding import NOTHING, Points
from .sizes import Sizes

_HEIGHTS = (0.5, 0.0, 1.0)
"""Which parts of a strip are looked at where not all of it can be: middle, foot, head."""


@dataclass(frozen=True, slots=True)
class Sized:
    """Boxes and how wide and how high their rectangles can be at most, mm."""

    boxes: Boxes
    wide: Array
    high: Array

    @classmethod
    def by_windows(cls, boxes: Boxes) -> Sized:
        """Return boxes whose rectangles may fill their outer windows."""
        return cls(boxes, boxes.x[:, 3] - boxes.x[:, 0], boxes.y[:, 3] - boxes.y[:, 0])


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What boxes are cut down for."""

    edges: Array
    """(e, 4) array: of a region that holds all inner rectangles."""
    sizes: Sizes
    inset: float
    """How far an inner rectangle lies inside its top, mm."""
    target: float
    """Score that a top must beat to be of interest."""
    held: Points = NOTHING
    """What the rectangles must hold."""

    def judged(self, boxes: Boxes) -> tuple[Boxes, Array]:
        """Return the boxes left, and a score for each that none of its rectangles beats."""
        left = self._left(Sized.by_windows(boxes))
        for height in _HEIGHTS:
            left = self._left(self._along_x(left, height))
            left = self._left(self._along_y(left, height))
        inset = 2 * self.inset
        return left.boxes, self.sizes.most(left.high + inset, left.wide + inset)

    def _along_x(self, left: Sized, height: float) -> Sized:
        found = narrowed_along(left.boxes.recentred(), self.edges, self.needed(left)[0], height)
        wide = np.minimum(found.width, left.wide[found.parent])
        return Sized(found.boxes, wide, left.high[found.parent])

    def _along_y(self, left: Sized, height: float) -> Sized:
        boxes = left.boxes.recentred().quarter_turned()
        found = narrowed_along(boxes, self.edges, self.needed(left)[1], height)
        high = np.minimum(found.width, left.high[found.parent])
        return Sized(found.boxes.quarter_turned_back(), left.wide[found.parent], high)

    def needed(self, left: Sized) -> tuple[Array, Array]:
        """Return the least width and height of inner rectangles that are of interest."""
        inset = 2 * self.inset
        long, wide = self.sizes.needed(left.high + inset, left.wide + inset, self.target)
        # no rectangle of a box is smaller than its inner window, and what is added all round it
        # makes none longer for its width
        across, up = (side[:, 2] - side[:, 1] for side in (left.boxes.x, left.boxes.y))
        wide = np.maximum(np.maximum(wide - inset, across), 0.0)
        up = np.maximum(up, across * max(1.0, self.sizes.wish.limits.ratio.least))
        return wide, np.maximum(np.maximum(long - inset, up), 0.0)

    def _left(self, sized: Sized) -> Sized:
        """Return the boxes without the rectangles that are too small, and none that are empty."""
        boxes = self.held.narrowed(sized.boxes.narrowed(*self.needed(sized)))
        rows = boxes.possible()
        return Sized(boxes.take(rows), sized.wide[rows], sized.high[rows])
