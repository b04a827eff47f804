"""Other places for an outline of one size: a grid of them, at some turns."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ...geometry import Region
from ..found import Fit
from ..stand import Stand
from ..wood.edges import Array
from .places import OwnPlaces, proved

_TURNS = 12
"""Turns that a whole turn is tried at; fewer where it looks the same before, or limits hold it."""

_ALONG = 10
"""Places tried along the longer side of the wood."""

_MOST_CROSSED = 0.1
"""Share of the outline's reach by which a rough place may cross an edge: climbing mends that."""


class OwnElsewhere:
    """Looks for other places on one sound wood."""

    def __init__(self, family: OwnPlaces, held: Sequence[Region]) -> None:
        self.family, self.tops, self.held = family, family.climber, held

    def starts(self) -> Iterator[Stand]:
        """Yield places and turns where the outline all but fits, on a grid over the wood."""
        bounds = self.family.wood.outer.bounds
        step = max(bounds.width, bounds.height) / _ALONG
        xs = np.arange(bounds.left + step / 2, bounds.right, step)
        ys = np.arange(bounds.bottom + step / 2, bounds.top, step)
        for low, high in self.family.spans:
            count = max(1, math.ceil((high - low) / math.tau * _TURNS))
            for turn in np.linspace(low, high, count + 1):
                for place in np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2):
                    start = self.stand(np.append(place, turn))
                    if start.score >= -_MOST_CROSSED * self.family.shape.reach:
                        yield start

    def like(self, start: Stand) -> Array:
        """Return the pose where a start stands."""
        turn = start.placement.turn
        return np.array([*(start.placement.centre + self.family.shape.middle.turned(turn)), turn])

    def stand(self, top: Array) -> Stand:
        """Return where the outline stands."""
        own = self.family.own
        placement = self.family.shape.placement(top)
        return Stand(self.tops.clearance(top), placement, own.length, own.width)

    def finished(self, top: Array, *, rests: bool) -> Fit | None:
        """Return the proved fit of a pose."""
        family = self.family
        return proved(family.own, family.shape.placement(top), family.wood, self.held)
