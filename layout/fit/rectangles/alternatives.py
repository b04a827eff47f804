"""Other places for a rectangle: many tried roughly, and a local best from any of them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...geometry import Placement, Point
from ..found import Fit
from ..stand import AT_THE_END, CLEARLY, Away, Stand
from ..wish import Goal
from .family import RoundedRectangles
from .inner import Inner
from .offset_wood import Ground
from .sampling import Windows, rectangles

_ROUGHLY = 0.01
"""mm: so well a top is known on its way, at whose end none is the very best."""


class RectanglesElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: RoundedRectangles) -> None:
        self.family, self.wish, self.polisher = family, family.wish, family.polisher
        self.radius = family.radii[0 if self.wish.goal is Goal.AREA else 1]

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        family = self.family
        recipe = Ground(family.wood.inner, self.wish, family.held).recipe(
            (self.radius, self.radius)
        )
        if not recipe.pieces:
            return
        edges = np.concatenate([piece.edges for piece in recipe.pieces])
        windows = Windows.across(*family.half_turn, edges)
        yield from map(self._stand, rectangles(windows, edges, recipe))

    def climbed(self, start: Stand, away: Away, least: float) -> Fit | Stand | None:
        """Return the best top that can be reached from a start by ways on which it stays `away`."""
        polisher = replace(self.polisher, away=lambda top: away(self._stand(top)) - CLEARLY)
        begun = polisher.begun(start.placement, start.length, start.width, self.radius)
        top = polisher.fitted(begun)
        if top is None:
            return None
        top = polisher.polished(top, _ROUGHLY)
        stand = self._stand(top)
        if stand.score < least:
            return stand
        if away(stand) > AT_THE_END:
            top = polisher.polished(top)
        return polisher.finished(self.family.wood, top, self.family.parts)

    def _stand(self, top: Inner) -> Stand:
        t = self.wish.lipping
        placement = Placement(Point.of(top.centre), top.turn + math.pi / 2)
        length, width = self.polisher.of_size(top)
        return Stand(self.polisher.promise(top), placement, length - 2 * t, width - 2 * t)
