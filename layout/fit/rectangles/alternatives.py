"""Other places for a rectangle: the rectangles in the gaps between edges."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from ...geometry import Placement, Point
from ..found import Fit
from ..stand import Stand
from ..wish import Goal
from .family import RoundedRectangles
from .inner import Inner
from .offset_wood import Recipe
from .sampling import Windows


class RectanglesElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: RoundedRectangles) -> None:
        self.family, self.wish, self.tops = family, family.wish, family.polisher
        self.radius = family.radii[0 if self.wish.goal is Goal.AREA else 1]

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        recipe = Recipe.of(self.family.wood.inner, self.wish, (self.radius, self.radius))
        edges = recipe.ground.edges.reshape(-1, 4)
        if not len(edges):
            return
        windows = Windows.across(*self.family.half_turn, edges)
        for top in self.family.found(windows, edges, recipe):
            yield self.stand(self.tops.trimmed(top))

    def like(self, start: Stand) -> Inner:
        """Return the rectangle where a start stands."""
        inset = self.tops.inset(self.radius) - self.wish.lipping
        half = np.array([start.width, start.length]) / 2 - inset
        turn, (low, high) = start.placement.turn - math.pi / 2, self.tops.turns
        if math.isfinite(low):
            middle = (low + high) / 2
            turn = middle + math.remainder(turn - middle, math.pi)
        centre = np.array([*start.placement.centre])
        return Inner(turn, centre, np.maximum(half, 0.0), self.radius)

    def stand(self, top: Inner) -> Stand:
        """Return where a top stands."""
        t = self.wish.lipping
        placement = Placement(Point.of(top.centre), top.turn + math.pi / 2)
        length, width = self.tops.of_size(top)
        return Stand(self.tops.promise(top), placement, length - 2 * t, width - 2 * t)

    def finished(self, top: Inner, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top."""
        return self.tops.finished(self.family.wood, top, self.family.parts)
