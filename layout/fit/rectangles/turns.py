"""Boxes of turns of rounded rectangles, cut down to what may beat the best one found."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ..found import Fit
from ..goal import turn_spans
from ..wish import Span, Wish
from ..wood.edges import blocks
from .boxes import Boxes
from .gap_bound import Narrowing
from .hull_bound import cut_by_turn
from .offset_wood import Ground, Piece, Recipe

_FIRST_TURNS = 24
"""Boxes that a half turn is cut into at first."""
HALVINGS = 4
"""How often a box is halved in one step: its parts are all looked at in one sweep."""
_MOST_VAIN, _GAIN = 6, 0.2
"""How many boxes of turns are cut in vain for a bound of slim tops at most, and by what share of
what a bound is too high it must fall where a cut is not in vain."""
_LOOKS_AN_EDGE, _LOOKS_A_CUT = 5, 25_000
"""Looks at an edge (`Family.looks`) that a box takes of each edge, and that a cut takes where boxes
of turns are cut for a bound of slim tops: as measured."""
_MOST_AT_ONCE = 150_000
"""Edges of boxes that are looked at together: each takes up to 2 KB, in many strips."""


@dataclass(frozen=True, slots=True)
class Box:
    """Rectangles of some turns, places and radii, and a score that none of them beats."""

    bound: float
    recipe: Recipe
    boxes: Boxes | None
    """One row; None where the bound is too close to the best found to be looked into."""
    piece: Piece
    """Of the ground that they lie in."""


class Turns:
    """Boxes of all turns that a wish allows, over the pieces of some ground."""

    def __init__(self, wish: Wish, ground: Ground) -> None:
        self.wish, self.ground, self.looks = wish, ground, 0.0
        low, high = (end - math.pi / 2 for end in turn_spans(wish.limits, math.pi)[0])
        self.half_turn = low, high
        """From where to where x must be turned to have every top once, radians."""
        self._best: tuple[float, Fit] | None = None

    def _all_turns(self, recipe: Recipe) -> Iterator[Box]:
        """Yield boxes of all turns over each piece of the ground."""
        count = max(1, math.ceil(float(np.ptp(self.half_turn)) / math.pi * _FIRST_TURNS))
        for piece in recipe.pieces:
            whole = Boxes.of_turns(*self.half_turn, count, piece.region.corners)
            yield from self._judged(whole, recipe, piece)

    def bound_by_turns(self, radii: tuple[float, float], widest: float) -> float:
        """Return a score that no slim top beats by what few boxes of turns leave."""
        recipe = self.ground.recipe(radii, Span(0.0, widest), slim=True)
        left, vain, target = list(self._all_turns(recipe)), 0, self._target
        while left and vain < _MOST_VAIN:
            box = left.pop(max(range(len(left)), key=lambda i: left[i].bound))
            if box.boxes is None or box.bound <= target:
                return box.bound
            self.looks += _LOOKS_A_CUT
            parts = cut_by_turn(box.boxes, box.piece.sides, recipe.sizes, recipe.inset, target)
            for _ in range(HALVINGS):
                parts = parts.halved()
            fewer = self._judged(parts, recipe, box.piece)
            enough = box.bound - _GAIN * (box.bound - target)
            vain += any(part.bound > enough for part in fewer)
            left += fewer
        return max((box.bound for box in left), default=0.0)

    def _moved(self, box: Box, other: Recipe) -> list[Box]:
        """Return boxes of the same tops by another recipe; its inset moves the sides.

        Of the pieces that a top lies in by either the one holds the other.
        """
        assert box.boxes is not None
        boxes, every, own = (
            box.boxes.widened(box.recipe.inset - other.inset),
            other.pieces,
            box.piece,
        )
        held = [p for p in every if len(every) == 1 or p.region.touches_or_crosses(own.region)]
        return [part for piece in held for part in self._judged(boxes, other, piece)]

    def _judged(self, boxes: Boxes, recipe: Recipe, piece: Piece) -> list[Box]:
        """Return what is left of the boxes, and a closed box for what is not of interest."""
        target = self._target
        parts = [self._closed(recipe, piece)] if target > 0 else []
        looks, every = len(boxes) * len(piece.edges), np.arange(len(boxes))
        self.looks += _LOOKS_AN_EDGE * looks
        narrowing = Narrowing(recipe, piece.edges, target)
        for some in blocks(len(boxes), len(piece.edges), _MOST_AT_ONCE):
            left, bounds = narrowing.judged(boxes.take(every[some]))
            for row in np.flatnonzero(bounds > target):
                parts.append(Box(float(bounds[row]), recipe, left.take(np.array([row])), piece))
        return parts

    def _closed(self, recipe: Recipe, piece: Piece) -> Box:
        """Return a box for tops that are no better than the target, nor than limits allow."""
        return Box(min(self._target, recipe.sizes.ceiling), recipe, None, piece)

    @property
    def _target(self) -> float:
        """The score that a top must beat to matter: the best found, and the gap allowed above."""
        return self._least / (1 - 0.999 * self.wish.gap)

    @property
    def _least(self) -> float:
        """The score in hand: of the best found, or what the wish says a top must beat."""
        return self._best[0] if self._best else self.wish.beats
