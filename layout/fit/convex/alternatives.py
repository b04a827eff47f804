"""Other places for a top of two sizes: many tried roughly, and a local best from any of them."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from ...geometry import Placement, Point, Region, first_of_best
from ...panel.sound import SoundWood
from ..found import Fit
from ..stand import AT_THE_END, CLEARLY, Away, Stand
from ..wood.edges import Array
from .closing import closed_in
from .family import TwoSizes
from .local_search import polished
from .pose import Pose
from .proof import proved
from .sizing import Sizing
from .wood import Piece, Wood

_TURNS = 12
"""Turns that a half turn is tried at."""

_SHAPES = 5
"""Shapes that are tried, from the roundest to one as long as the wood and slim in it."""

_SLIM = 0.6
"""Share of the wood's lesser extent that the slimmest is wide."""

_PLACES = 8
"""Places that are kept for each turn and shape: those with most room, well apart."""

_APART = 0.06
"""Share of the wood's diameter that they stand apart."""

_ALIKE = 1e-6
"""mm of room within which two places are equal: rounding must not tell which is taken."""

_ROUGHLY = 2e-5
"""Share of its half width: a top on its way is known so well; at its end none is the very best."""


class RoundElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(
        self, wood: Wood, sizing: Sizing, sound: SoundWood, held: Sequence[Region]
    ) -> None:
        self.wood, self.sizing, self.sound, self.held = wood, sizing, sound, held

    def starts(self) -> Iterator[Stand]:
        """Yield the best tops of some turns, shapes and places."""
        family = TwoSizes(self.wood, self.sizing)
        for piece in self.wood.pieces:
            centres = self._centres(piece)
            for p in self._shapes(piece):
                for turn in self._turns(p):
                    for centre in self._roomiest(centres, turn, p):
                        found = family.placed(centre, turn, p)
                        if found is not None:
                            yield self._stand(*found)

    def _centres(self, piece: Piece) -> Array:
        """Return places all over a piece of wood."""
        cells, (half, _) = piece.cells(0.0)
        quarters = np.array([[-1, -1], [-1, 1], [1, -1], [1, 1]]) * half / 2
        centres: Array = (cells[:, None] + quarters).reshape(-1, 2)
        return centres[self.wood.holds_points(centres, inner=True)]

    def _shapes(self, piece: Piece) -> list[float]:
        low, high = self.sizing.shapes
        extent = np.ptp(piece.corners, axis=0) / 2
        slim = Pose(0.0, 0.0, 0.0, float(extent.max()), float(extent.min()) * _SLIM)
        high = min(high, max(low, self.sizing.kind.shape_of(slim)))
        return [float(p) for p in np.linspace(low, high, _SHAPES if high > low else 1)]

    def _turns(self, p: float) -> Array:
        limits, period = self.sizing.wish.limits, self.sizing.kind.period(p)
        if period == 0:
            return np.zeros(1)
        most = min(limits.most_turn, period / 2)
        count = max(1, math.ceil(most / (math.pi / 2) * _TURNS))
        steps = np.arange(-count, count + 1) / count if most > 0 else np.zeros(1)
        return limits.grain + most * (steps if most < period / 2 else steps[1:])

    def _roomiest(self, centres: Array, turn: float, p: float) -> Iterator[Array]:
        """Yield the centres with the most room for a top of that turn and shape, well apart."""
        if not len(centres):
            return
        edges = self.wood.inner_edges
        room = self.sizing.kind.distances(turn, p, edges, centres).min(axis=1)
        for _ in range(_PLACES):
            alike = np.flatnonzero(room >= room.max() - _ALIKE)
            best = int(
                first_of_best(alike, lambda i: room[i], lambda i: centres[i], tolerance=_ALIKE)
            )
            if room[best] <= 0:
                return
            yield centres[best]
            away = np.hypot(*(centres - centres[best]).T)
            room[away < _APART * self.wood.diameter] = -1.0

    def climbed(self, start: Stand, away: Away, least: float) -> Fit | Stand | None:
        """Return the best top that can be reached from a start by ways on which it stays `away`.

        Where it comes to the end of such a way, its turn and shape are still made the best.
        """
        centre = start.placement.centre - self.wood.middle
        at = np.array([centre.x, centre.y])
        turn, half = start.placement.turn, (start.length / 2, start.width / 2)
        pose = Pose(centre.x, centre.y, turn, *half)
        family = _Staying(self.wood, self.sizing, lambda *found: away(self._stand(*found)))
        found = family.placed(at, turn, self.sizing.kind.shape_of(pose))
        if found is None:
            return None
        score, top = polished(family, *found, last=_ROUGHLY)
        stand = self._stand(score, top)
        if score < least:
            return stand
        if away(stand) > AT_THE_END:
            top = closed_in(family, polished(family, score, top)[1])
        else:
            family.fixed = np.array([top.x, top.y])
            top = polished(family, score, top, last=_ROUGHLY)[1]
        return proved(top, self.wood.middle, self.sizing, self.sound, self.held)

    def _stand(self, score: float, top: Pose) -> Stand:
        centre = Point(top.x, top.y) + self.wood.middle
        return Stand(score, Placement(centre, top.turn), 2 * top.half_length, 2 * top.half_width)


class _Staying(TwoSizes):
    """Tops that stay where they may, and, once it is fixed, at one centre."""

    def __init__(self, wood: Wood, sizing: Sizing, away: Callable[[float, Pose], float]) -> None:
        super().__init__(wood, sizing)
        self.away = away
        self.fixed: Array | None = None

    def placed(self, centre: Array, turn: float, p: float) -> tuple[float, Pose] | None:
        """Return the best top of a place, turn and shape, if it fits and stays."""
        found = super().placed(centre if self.fixed is None else self.fixed, turn, p)
        return found if found is not None and self.away(*found) >= CLEARLY else None
