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
from .offset_wood import Ground
from .sampling import Windows, rectangles


class RectanglesElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: RoundedRectangles) -> None:
        self.family, self.wish, self.tops = family, family.wish, family.polisher
        self.radius = family.radii[0 if self.wish.goal is Goal.AREA else 1]

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        family = self.family
        ground = Ground(family.wood.inner, self.wish, family.held)
        recipe = ground.recipe((self.radius, self.radius))
        if not recipe.pieces:
            return
        edges = np.concatenate([piece.edges for piece in recipe.pieces])
        windows = Windows.across(*family.half_turn, edges)
        for top in rectangles(windows, edges, recipe):
            yield self.stand(self.tops.trimmed(top))

    def like(self, start: Stand) -> Inner:
        """Return the rectangle where a start stands."""
        return self.tops.begun(start.placement, start.length, start.width, self.radius)

    def stand(self, top: Inner) -> Stand:
        """Return where a top stands."""
        t = self.wish.lipping
        placement = Placement(Point.of(top.centre), top.turn + math.pi / 2)
        length, width = self.tops.of_size(top)
        return Stand(self.tops.promise(top), placement, length - 2 * t, width - 2 * t)

    def finished(self, top: Inner, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top."""
        return self.tops.finished(self.family.wood, top, self.family.parts)
