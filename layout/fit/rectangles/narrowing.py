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
from .offset_wood import Recipe

_HEIGHTS = (0.5, 0.0, 1.0)
"""Which parts of a strip are looked at where not all of it can be: middle, foot, head."""


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What boxes are cut down for."""

    recipe: Recipe
    edges: Array
    """(e, 2, 2) array: of a region that holds all inner rectangles."""
    target: float
    """Score that a top must beat to be of interest."""

    def judged(self, boxes: Boxes) -> tuple[Boxes, Array]:
        """Return the boxes left, and a score for each that none of its rectangles beats."""
        boxes, most = self._left(boxes, boxes.sides[..., 3] - boxes.sides[..., 0])
        for height in _HEIGHTS:
            for axis in (0, 1):
                boxes = boxes.recentred()
                seen = boxes.quarter_turned() if axis else boxes
                found = narrowed_along(seen, self.edges, self.needed(boxes, most)[:, axis], height)
                most = most[found.parent]
                most[:, axis] = np.minimum(found.width, most[:, axis])
                own = found.boxes.quarter_turned(-1) if axis else found.boxes
                boxes, most = self._left(own, most)
        wide, long = most.T + 2 * self.recipe.inset
        return boxes, self.recipe.sizes.most(long, wide)

    def needed(self, boxes: Boxes, most: Array) -> Array:
        """Return the least sizes of inner rectangles along x and y that are of interest, (c, 2).

        Of boxes in which they are `most` wide and high, (c, 2) mm.
        """
        wide, long = most.T + 2 * self.recipe.inset
        long, wide = self.recipe.sizes.needed(long, wide, self.target)
        # no rectangle of a box is smaller than its inner window, and what is added all round it
        # makes none longer for its width
        least = np.maximum(np.stack([wide, long], axis=1) - 2 * self.recipe.inset, 0.0)
        window = boxes.sides[..., 2] - boxes.sides[..., 1]
        ratio = max(1.0, self.recipe.sizes.wish.limits.ratio.least)
        window[:, 1] = np.maximum(window[:, 1], window[:, 0] * ratio)
        return np.maximum(least, window)

    def _left(self, boxes: Boxes, most: Array) -> tuple[Boxes, Array]:
        """Return the boxes without the rectangles that are too small, and none that are empty."""
        boxes = self.recipe.must.narrowed(boxes.narrowed(self.needed(boxes, most)))
        rows = boxes.possible()
        return boxes.take(rows), most[rows]
