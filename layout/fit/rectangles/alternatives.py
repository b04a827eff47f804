"""Other places for a rectangle: many tried roughly, and a local best from any of them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.placement import Placement
from ...geometry.point import Point
from ..found import Fit
from ..stand import AT_THE_END, CLEARLY, Away, Stand
from ..wish import Goal
from .family import RoundedRectangles
from .finish import finished
from .inner import Inner
from .offset_wood import Recipe
from .sampling import ALIKE, Windows, widest
from .seeds import directions_of

_LEVELS = 11
"""Heights across the wood between any two of which a strip is looked at."""

_PLACE, _TURN = 0.04, math.radians(4)
"""Share of the wood's diagonal, and angle, within which the best of all rectangles will do."""

_ROUGHLY = 0.01
"""mm: so well a top is known on its way, at whose end none is the very best."""


class RectanglesElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: RoundedRectangles) -> None:
        self.sound, self.wish, self.held = family.wood, family.wish, family.parts
        self.polisher = family.polisher
        self.radius = family.radii[0 if self.wish.goal is Goal.AREA else 1]

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        recipe = Recipe.of(self.sound.inner, self.wish, (self.radius, self.radius))
        edges = recipe.ground.edges.reshape(-1, 4)
        if not len(edges):
            return
        low, high = self.polisher.turns
        low, high = (low, high) if math.isfinite(low) else (0.0, math.pi)
        windows = Windows.across(directions_of(edges, low, high), _LEVELS, edges)
        strip, sides, worth = widest(
            windows, slice(0, len(windows.bottom)), edges, recipe.sizes, recipe.inset
        )
        if not len(strip) or worth.max() <= 0:
            return
        turns, pivots = windows.frames.turn[strip], windows.frames.pivot[strip]
        tops = [
            Inner.between(*frame, self.radius) for frame in zip(turns, pivots, sides, strict=True)
        ]
        apart = _PLACE * math.hypot(*np.ptp(edges[:, :2], axis=0))
        middle = np.array([top.centre for top in tops])
        places = np.column_stack([middle / apart, turns / _TURN]).round()
        order = greatest_first(worth, tolerance=ALIKE * float(worth.max()))
        for i in order[np.sort(np.unique(places[order], axis=0, return_index=True)[1])]:
            free = math.isinf(self.polisher.turns[0])
            yield self._stand(tops[i].upright() if free else tops[i])

    def climbed(self, start: Stand, away: Away, least: float) -> Fit | Stand | None:
        """Return the best top that can be reached from a start by ways on which it stays `away`.

        Where it comes to the end of such a way, its turn and sizes are still made the best.
        """
        polisher = replace(self.polisher, stays=lambda top: away(self._stand(top)) >= CLEARLY)
        top = polisher.fitted(self._begun(start))
        if top is None:
            return None
        top = polisher.polished(top, _ROUGHLY)
        stand = self._stand(top)
        if stand.score < least:
            return stand
        if away(stand) > AT_THE_END:
            top = polisher.polished(top)
        else:
            top = replace(polisher, moves=False).polished(top, _ROUGHLY)
        return finished(self.sound, polisher, top, self.held)

    def _begun(self, start: Stand) -> Inner:
        inset = self.polisher.inset(self.radius) - self.wish.lipping
        half = np.array([start.width, start.length]) / 2 - inset
        turn, (low, high) = start.placement.turn - math.pi / 2, self.polisher.turns
        if math.isfinite(low):
            middle = (low + high) / 2
            turn = middle + math.remainder(turn - middle, math.pi)
        return Inner(turn, np.array([*start.placement.centre]), np.maximum(half, 0.0), self.radius)

    def _stand(self, top: Inner) -> Stand:
        t = self.wish.lipping
        placement = Placement(Point.of(top.centre), top.turn + math.pi / 2)
        length, width = self.polisher.of_size(top)
        return Stand(self.polisher.promise(top), placement, length - 2 * t, width - 2 * t)
