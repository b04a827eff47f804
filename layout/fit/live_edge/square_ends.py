"""Pieces as found with square ends: between two kept edges exactly, on one by halving its width.

Between two edges there is nothing to search: the best window of the free runs is the piece. On one
edge the other side is ripped at some height. A higher piece holds the lower one, so its runs are
parts of the lower one's runs: the best window of the runs at the least height of a box, measured at
its greatest, is a bound of all of them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...panel.sound import SoundWood
from ..found import Fit
from ..on_edge.free_spans import Array
from ..on_edge.standing import LOOKS_A_BOX
from ..wish import Limits, Span, Wish
from .band import Band, Ground, held_corners
from .piece import Cuts, finished, require_wish
from .profile import Profile, free_runs
from .windows import Asked, best_window

_FIRST = 16
"""Heights that are looked at first."""

_GRID, _FINER, _FINEST = 9, 3.0, 1e-5
"""Heights on either side of the best that polishing looks at, how much finer each look is than the
one before, and the step, mm, that it ends with."""


@dataclass(frozen=True, slots=True)
class Heights:
    """From which height to which the upper side is ripped, mm."""

    low: float
    high: float


class SquarePieces:
    """The family of pieces with square ends on one or two kept edges."""

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        require_wish(wish)
        self.looks = 0.0
        self.wood, self.wish, self.held = wood, wish, held
        self.band = band = Band.of(wish)
        self.inner = Ground.of(band, wood.inner)
        self.outer = self.inner if wood.inner is wood.outer else Ground.of(band, wood.outer)
        self.narrow, self.wide = band.profile("inside"), band.profile("outside")
        self.to_hold = held_corners(band, held)
        self._bounds: dict[Heights, float] = {}

    def first_boxes(self) -> Iterator[Heights]:
        """Return boxes of all heights; one of no height at all between two edges."""
        if self.band.upper is not None:
            yield Heights(0.0, 0.0)
            return
        low, high = heights(self.band, self.outer, self.wish.limits, self.to_hold)
        if low < high:
            for step, following in pairwise(np.linspace(low, high, _FIRST + 1)):
                yield Heights(float(step), float(following))

    def bound(self, box: Heights, enough: float) -> float:
        """Return a score that no piece of the box beats; 0 where there is none."""
        if box not in self._bounds:
            self.looks += LOOKS_A_BOX
            self._bounds[box] = self._bound(box)
        return self._bounds[box]

    def _bound(self, box: Heights) -> float:
        slack = PROOF_ALLOWANCE
        limits = self.wish.limits
        blocked = np.concatenate(
            [
                self.outer.blocked(box.low),
                self._raised(self.wide, box.high).outside(_least(limits) - slack, np.inf),
                self._raised(self.narrow, box.low).outside(-np.inf, limits.width.greatest + slack),
            ]
        )
        runs = free_runs(blocked, self.band.left, self.band.right)
        runs += np.array([-ROUNDING, ROUNDING])
        best = best_window(
            self._raised(self.wide, box.high + ROUNDING), runs, self._asked(PROOF_ALLOWANCE)
        )
        return 0.0 if best is None else max(best.score, 0.0) + ROUNDING

    def sample(self, box: Heights) -> tuple[float, Cuts] | None:
        """Return the best piece of the least height of a box."""
        return self._best(box.low)

    def _best(self, top: float) -> tuple[float, Cuts] | None:
        profile, limits = self._raised(self.narrow, top), self.wish.limits
        wide = self._raised(self.wide, top)
        blocked = np.concatenate(
            [
                self.inner.blocked(top),
                profile.outside(_least(limits) - ROUNDING, np.inf),
                wide.outside(-np.inf, limits.width.greatest + ROUNDING),
            ]
        )
        runs = free_runs(blocked, self.band.left, self.band.right)
        best = best_window(profile, runs, self._asked(ROUNDING))
        return None if best is None else (best.score, Cuts(best.left, best.right, top))

    def _raised(self, profile: Profile, top: float) -> Profile:
        return profile if self.band.upper is not None else profile.raised(top)

    def _asked(self, slack: float) -> Asked:
        lengths, held = self.wish.limits.length, self.to_hold
        span = Span(max(lengths.least - slack, 0.0), lengths.greatest)
        if not len(held):
            return Asked(self.wish.goal, span)
        left, right = float(held[:, 0].min()), float(held[:, 0].max())
        return Asked(self.wish.goal, span, (left, right))

    def split(self, box: Heights) -> Iterator[Heights]:
        """Return the halves of a box; that of no height cannot be cut."""
        middle = (box.low + box.high) / 2
        if self.band.upper is None:
            yield Heights(box.low, middle)
            yield Heights(middle, box.high)
        else:
            yield box

    def polish(self, score: float, top: Cuts) -> tuple[float, Cuts]:
        """Return the best piece of finer and finer grids of heights round this one's."""
        if self.band.upper is not None:
            return score, top
        low, high = heights(self.band, self.outer, self.wish.limits, self.to_hold)
        step = (high - low) / _FIRST
        while step > _FINEST:
            for off in np.linspace(-step, step, _GRID):
                found = self._best(min(max(top.top + float(off), low), high))
                if found is not None and found[0] > score:
                    score, top = found
            step /= _FINER
        return score, top

    def finish(self, top: Cuts) -> Fit | None:
        """Return the fit of a piece, proved in the wood."""
        return finished(self.band, top, self.wood, self.held, self.wish, rounded=False)


def _least(limits: Limits) -> float:
    """Return the least width asked for, mm, never quite nothing."""
    return max(limits.width.least, 2 * PROOF_ALLOWANCE)


def heights(band: Band, ground: Ground, limits: Limits, held: Array) -> tuple[float, float]:
    """Return from where to where the upper side may be ripped on one kept edge, mm."""
    lowest = float(band.lower.bounds.bottom)
    low = max([lowest + _least(limits) - CHORD, *(float(y) for y in held[:, 1])])
    high = float(ground.wood.bounds.top)
    if limits.width.greatest < np.inf:
        high = min(high, float(band.lower.bounds.top) + limits.width.greatest + CHORD)
    return low, high
