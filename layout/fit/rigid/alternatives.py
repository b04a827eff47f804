"""Other places for an outline of one size: many tried roughly, and the clearest spot near each."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..found import Fit
from ..stand import CLEARLY, Away, Stand
from ..wood.edges import Array
from .local_search import climbed
from .places import OwnPlaces, proved

_TURNS = 12
"""Turns that a whole turn is tried at; fewer where it looks the same before, or limits hold it."""

_ALONG = 10
"""Places tried along the longer side of the wood."""

_MOST_CROSSED = 0.1
"""Share of the outline's reach by which a rough place may cross an edge: climbing mends that."""


class OwnElsewhere:
    """Looks for other places on one sound wood."""

    def __init__(self, family: OwnPlaces, sound: SoundWood, held: Sequence[Region]) -> None:
        self.family, self.sound, self.held = family, sound, held

    def starts(self) -> Iterator[Stand]:
        """Yield places and turns where the outline all but fits, on a grid over the wood."""
        bounds = self.sound.outer.bounds
        step = max(bounds.width, bounds.height) / _ALONG
        xs = np.arange(bounds.left + step / 2, bounds.right, step)
        ys = np.arange(bounds.bottom + step / 2, bounds.top, step)
        least = -_MOST_CROSSED * self.family.shape.reach
        for turn in self._turns():
            for x in xs:
                for y in ys:
                    pose = np.array([x, y, turn])
                    clearance = max(
                        (p.climber.clearance(pose) for p in self.family.places), default=-math.inf
                    )
                    if clearance >= least:
                        yield self._stand(clearance, pose)

    def _turns(self) -> Array:
        turns = [
            np.linspace(low, high, max(1, math.ceil((high - low) / math.tau * _TURNS)) + 1)
            for low, high in self.family.spans
        ]
        once: Array = np.unique((np.concatenate(turns) % self.family.shape.period).round(9))
        return once

    def climbed(self, start: Stand, away: Away, least: float) -> Fit | None:
        """Return the clearest place reached from a start by ways on which it stays `away`."""
        turn = start.placement.turn
        middle = start.placement.centre + self.family.shape.middle.turned(turn)
        pose = np.array([middle.x, middle.y, turn])
        best: tuple[float, Array] | None = None
        for place in self.family.places:
            climber = replace(place.climber, stays=lambda p: away(self._stand(0, p)) >= CLEARLY)
            value = climber.clearance(pose)
            if value > -math.inf and (best is None or value > best[0]):
                best = climbed(climber, value, pose, self.family.spans)
        if best is None or away(self._stand(*best)) < CLEARLY:
            return None
        family = self.family
        return proved(family.own, family.shape.placement(best[1]), self.sound, self.held)

    def _stand(self, clearance: float, pose: Array) -> Stand:
        own = self.family.own
        return Stand(clearance, self.family.shape.placement(pose), own.length, own.width)
