"""Pieces as found with square ends: between two kept edges exactly, on one by halving its width.

Between two edges there is nothing to search: the best window of the free runs is the piece. On one
edge the other side is ripped at some height. A higher piece holds the lower one, so its runs are
parts of the lower one's runs: the best window of the runs at the least height of a box, measured at
its greatest, is a bound of all of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from itertools import pairwise

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...panel.sound import SoundWood
from ..on_edge.free_spans import free_runs
from ..wish import Span, Wish
from .piece import LOOKS_A_BOX, BandPieces, Cuts, least_width
from .profile import Stretch
from .windows import Asked, best_window

_FIRST = 16
"""Heights that are looked at first."""

_GRID, _FINER, _FINEST = 9, 3.0, 1e-5
"""Heights on either side of the best that polishing looks at, how much finer each look is than the
one before, and the step, mm, that it ends with."""


class SquarePieces(BandPieces):
    """The family of pieces with square ends on one or two kept edges.

    A box says from which height to which the upper side is ripped, mm.
    """

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        super().__init__(wood, wish, held)
        self._bound = cache(self._most)

    def first_boxes(self) -> Iterator[Stretch]:
        """Return boxes of all heights; one of no height at all between two edges."""
        if not self.ripped:
            yield 0.0, 0.0
            return
        low, high = self.tops
        if low < high:
            for step, following in pairwise(np.linspace(low, high, _FIRST + 1)):
                yield float(step), float(following)

    def bound(self, box: Stretch, enough: float) -> float:
        """Return a score that no piece of the box beats; 0 where there is none."""
        self.looks += LOOKS_A_BOX
        return self._bound(box)

    def _most(self, box: Stretch) -> float:
        low, high = box
        slack = PROOF_ALLOWANCE
        limits = self.wish.limits
        blocked = np.concatenate(
            [
                self.outer.blocked(low),
                self.raised(self.wide, high).outside(least_width(limits) - slack, np.inf),
                self.raised(self.narrow, low).outside(-np.inf, limits.width.greatest + slack),
            ]
        )
        runs = free_runs(blocked, self.band.left, self.band.right)
        runs += np.array([-ROUNDING, ROUNDING])
        best = best_window(
            self.raised(self.wide, high + ROUNDING), runs, self._asked(PROOF_ALLOWANCE)
        )
        return 0.0 if best is None else max(best.score, 0.0) + ROUNDING

    def sample(self, box: Stretch) -> tuple[float, Cuts] | None:
        """Return the best piece of the least height of a box."""
        return self._best(box[0])

    def _best(self, top: float) -> tuple[float, Cuts] | None:
        profile, limits = self.raised(self.narrow, top), self.wish.limits
        wide = self.raised(self.wide, top)
        blocked = np.concatenate(
            [
                self.inner.blocked(top),
                profile.outside(least_width(limits) - ROUNDING, np.inf),
                wide.outside(-np.inf, limits.width.greatest + ROUNDING),
            ]
        )
        runs = free_runs(blocked, self.band.left, self.band.right)
        best = best_window(profile, runs, self._asked(ROUNDING))
        return None if best is None else (best.score, Cuts(best.left, best.right, top))

    def _asked(self, slack: float) -> Asked:
        lengths, held = self.wish.limits.length, self.to_hold
        span = Span(max(lengths.least - slack, 0.0), lengths.greatest)
        if not len(held):
            return Asked(self.wish.goal, span)
        left, right = float(held[:, 0].min()), float(held[:, 0].max())
        return Asked(self.wish.goal, span, (left, right))

    def split(self, box: Stretch) -> Iterator[Stretch]:
        """Return the halves of a box; that of no height cannot be cut."""
        (low, high), middle = box, sum(box) / 2
        if self.ripped:
            yield low, middle
            yield middle, high
        else:
            yield box

    def polish(self, score: float, top: Cuts) -> tuple[float, Cuts]:
        """Return the best piece of finer and finer grids of heights round this one's."""
        if not self.ripped:
            return score, top
        low, high = self.tops
        step = (high - low) / _FIRST
        while step > _FINEST:
            for off in np.linspace(-step, step, _GRID):
                found = self._best(min(max(top.top + float(off), low), high))
                if found is not None and found[0] > score:
                    score, top = found
            step /= _FINER
        return score, top
