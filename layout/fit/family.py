"""Tops of two sizes, searched by turn and shape; their place and size are solved inside a box.

A box holds all tops whose turn and shape number lie in two spans and whose centre lies in one of a
set of square cells. Within it the largest radius is proved: no radius grows faster, as the centre
moves, than the kind of outline allows, so a cell whose middle is too close to an edge is dropped,
and the others are cut in four until they are small against what the spans leave open. Cells and
edges that can no longer matter are not looked at again in the smaller boxes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from ..geometry.tolerance import PROOF_ALLOWANCE
from .boxes import Box
from .polish import polished
from .pose import Array, Kind, Pose
from .sizing import Sizing
from .wood import Wood

_MOST_CELLS = 4000
"""Cells beyond which a box is rather cut than looked at more closely."""

_FIRST_TURNS = 8
"""Spans that a half turn is cut into at first; any number would do."""

_OFF_GRID = 0.37
"""Where in a span the grain lies at first: not at its end, where it would lie in two spans."""

_HOLD = PROOF_ALLOWANCE
"""How much deeper, mm, a top must hold what it must, so that it still does once it is drawn in."""


class TwoSizes:
    """A family for the search: one kind of outline on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        self.wood = wood
        self.sizing = sizing
        self.kind: Kind = sizing.kind

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes of every turn and shape allowed, with coarse cells over the whole wood."""
        low, high = self.sizing.shapes
        high = self.kind.longest_shape(high, self.wood.diameter)
        if low > high:
            return
        centres, half = self.wood.cells()
        clear = np.zeros(len(centres), dtype=bool)
        near = np.arange(len(self.wood.outer_edges), dtype=np.intp)
        for turn, half_turn in self._turns(high):
            for one, other in self.kind.first_shapes(low, high):
                yield Box(turn, half_turn, one, other, centres, half, clear, near)

    def _turns(self, high: float) -> list[tuple[float, float]]:
        limits = self.sizing.wish.limits
        if high == 0:
            return [(0.0, 0.0)]
        if limits.most_turn >= math.pi / 2:
            half = math.pi / 2 / _FIRST_TURNS
            first = limits.grain + (1 - 2 * _OFF_GRID) * half
            return [(first + 2 * i * half, half) for i in range(_FIRST_TURNS)]
        pieces = max(1, math.ceil(limits.most_turn / (math.pi / 2) * _FIRST_TURNS))
        half = limits.most_turn / pieces
        start = limits.grain - limits.most_turn + half
        return [(start + 2 * i * half, half) for i in range(pieces)]

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats, or `enough` where that is higher."""
        if math.isinf(box.high):
            return self.sizing.upper_of_tail(box.low, self.wood.diameter / 2)
        factor, addend = self.kind.growth(box.low, box.high, box.half_turn)
        anchor = self.kind.anchor(box.low, box.high)
        while True:
            edges = self.wood.outer_edges[box.near]
            distances = self.kind.distances(box.turn, anchor, edges, box.centres)
            least = distances.min(axis=1)
            reach = self.kind.reach(box.turn, anchor, box.half)
            clear, gone = self._inside(box, least > reach)
            most = (least + reach) * factor + addend
            scores = self.sizing.upper(box.low, box.high, most)
            keep = (scores > enough) & ~gone
            if len(self.wood.held):
                keep &= self._least(box, anchor, reach) <= most
            if not keep.any():
                return enough
            slack = (
                reach + factor * factor * (least[keep] + reach) + 2 * addend + self.kind.drift(box)
            )
            box.near = box.near[(distances[keep] <= slack[:, None]).any(axis=0)]
            box.centres, box.clear = box.centres[keep], clear[keep]
            largest = float(least[keep].max())
            box.radius = largest
            fine = max(self.sizing.wish.gap / 20, (factor - 1) / 10) * largest
            fine = max(fine, (addend + self.kind.drift(box)) / 10)
            order = int(np.argmax(least[keep]))
            if reach <= fine or 4 * int(keep.sum()) > _MOST_CELLS:
                box.centres[[0, order]] = box.centres[[order, 0]]
                box.clear[[0, order]] = box.clear[[order, 0]]
                return float(scores[keep].max())
            _quarter(box)

    def _least(self, box: Box, anchor: float, reach: float) -> Array:
        """Return, for each cell, a radius that a top of the box must have to hold what it must."""
        needed = self.kind.holding(box.turn, anchor, self.wood.held, box.centres)
        factor, addend = self.kind.growth(box.low, box.high, box.half_turn)
        least: Array = (needed - reach) / factor - addend - self.kind.drift(box)
        return least

    def _inside(
        self, box: Box, free: NDArray[np.bool_]
    ) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
        """Return which cells lie wholly inside the wood, and which wholly outside."""
        clear, gone = box.clear.copy(), np.zeros_like(box.clear)
        doubtful = np.flatnonzero(~clear)
        if len(doubtful):
            inside = self.wood.holds_points(box.centres[doubtful])
            clear[doubtful] = inside & free[doubtful]
            gone[doubtful] = ~inside & free[doubtful]
        return clear, gone

    def sample(self, box: Box) -> tuple[float, Pose] | None:
        """Return the score of the largest top found with the turn and shape of the box's middle."""
        if math.isinf(box.high):
            return None
        return self.placed(box.centres[0], box.turn, (box.low + box.high) / 2)

    def placed(self, centre: Array, turn: float, p: float) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of a place, turn and shape, if any fits."""
        if not self.wood.holds_points(centre[None], inner=True)[0]:
            return None
        edges = self.wood.inner_edges
        radius = float(self.kind.distances(turn, p, edges, centre[None]).min())
        sizes = self.sizing.best(p, radius)
        if sizes is None:
            return None
        if len(self.wood.held):
            needed = self.kind.holding(turn, p, self.wood.held, centre[None])[0] + _HOLD
            if self.kind.sizes(p, needed)[1] > sizes[1]:
                return None
        pose = Pose(float(centre[0]), float(centre[1]), turn, *sizes)
        return self.sizing.score(*sizes), pose

    def split(self, box: Box) -> Iterable[Box]:
        """Return two halves of the box: of its turns or of its shapes, whichever is looser."""
        parts: list[tuple[float, float, float, float]]
        if math.isinf(box.high):
            cut = box.low + 1.0
            parts = [
                (box.turn, box.half_turn, box.low, cut),
                (box.turn, box.half_turn, cut, box.high),
            ]
        elif self.kind.prefers_turn(box.low, box.high, box.half_turn, box.radius):
            half = box.half_turn / 2
            parts = [(box.turn + side * half, half, box.low, box.high) for side in (-1, 1)]
        else:
            cut = (box.low + box.high) / 2
            parts = [
                (box.turn, box.half_turn, box.low, cut),
                (box.turn, box.half_turn, cut, box.high),
            ]
        for part in parts:
            yield Box(*part, box.centres, box.half, box.clear, box.near)

    def polish(self, score: float, top: Pose) -> tuple[float, Pose]:
        """Return the top moved to a local best."""
        return polished(self, score, top)


def _quarter(box: Box) -> None:
    """Cut every cell of the box in four."""
    half = box.half / 2
    shifts = np.array([[-half, -half], [-half, half], [half, -half], [half, half]])
    box.centres = (box.centres[:, None] + shifts).reshape(-1, 2)
    box.clear = np.repeat(box.clear, 4)
    box.half = half
