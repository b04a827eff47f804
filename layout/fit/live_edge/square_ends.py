"""Pieces as found with square ends: between two kept edges exactly, on one by halving its width.

A higher piece holds the lower one, so its runs are parts of the lower one's runs: the best window
of the runs at the least height of a box, measured at its greatest, is a bound of all of them.

Where the whole of a run may be used it is the best window. Where the length is limited the best
has that length; sliding it by dx wins the width at one end and loses that at the other, so it is
best where the two are equal, or where one of its ends meets a bend of an edge or an end of the run.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from ...geometry.alike import first_of_best, greatest_first
from ...geometry.polygon import Region
from ...geometry.scalar import last_where
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING, SAME_PLACE
from ...panel.sound import SoundWood
from ..on_edge.line import free_runs
from ..wish import Goal, Span, Wish
from ..wood.edges import Array
from .band import Profile, Stretch
from .piece import LOOKS_A_BOX, BandPieces, Cuts, least_width

_FIRST = 16
"""Heights that are looked at first."""
_GRID, _FINER, _FINEST = 9, 3.0, 1e-5
"""Heights on either side of the best that polishing looks at, how much finer each look is than the
one before, and the step, mm, that it ends with."""
_FINE = 1e-9
"""mm to which the greatest least width is found."""
_AS_GOOD = 1e-9
"""A share by which the window in the middle may fall short of the best and still be taken."""


class SquarePieces(BandPieces):
    """The family of pieces with square ends on one or two kept edges.

    A box says from which height to which the upper side is ripped, mm.
    """

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        super().__init__(wood, wish, held)
        self._most = cache(self._window)  # a box of no height is asked again and again

    def first_boxes(self) -> Iterator[Stretch]:
        """Return boxes of all heights; one of no height at all between two edges."""
        low, high = self.tops
        if not self.ripped:
            yield 0.0, 0.0
        elif low < high:
            yield from pairwise(np.linspace(low, high, _FIRST + 1).tolist())

    def bound(self, box: Stretch, enough: float) -> float:
        """Return a score that no piece of the box beats; 0 where there is none."""
        self.looks += LOOKS_A_BOX
        low, high = box
        best = self._most(low, high + ROUNDING, PROOF_ALLOWANCE)
        return 0.0 if best is None else max(best.score, 0.0) + ROUNDING

    def sample(self, box: Stretch) -> tuple[float, Cuts] | None:
        """Return the best piece of the least height of a box."""
        return self._best(box[0])

    def _best(self, top: float) -> tuple[float, Cuts] | None:
        best = self._most(top, top, ROUNDING)
        return None if best is None else (best.score, Cuts(best.left, best.right, top))

    def _window(self, low: float, high: float, slack: float) -> Window | None:
        """Return the best window of any height from low to high, or of one that is sure to fit.

        Of many none is better; one keeps the limits but for some slack, mm.
        """
        limits, held, sure = self.wish.limits, self.to_hold[:, 0], low == high
        ground = self.inner if sure else self.outer
        narrow, wide = self.narrow.raised(low), self.wide.raised(high)
        least, most = (narrow, wide) if sure else (wide, narrow)
        blocked = [
            ground.blocked(low),
            least.outside(least_width(limits) - slack, np.inf),
            most.outside(-np.inf, limits.width.greatest + slack),
        ]
        runs = free_runs(np.concatenate(blocked), self.band.left, self.band.right)
        runs += (0.0 if sure else ROUNDING) * np.array([-1.0, 1.0])
        lengths = Span(max(limits.length.least - slack, 0.0), limits.length.greatest)
        within = float(held.min(initial=np.inf)), float(held.max(initial=-np.inf))
        return best_window(least, runs, Asked(self.wish.goal, lengths, within))

    def split(self, box: Stretch) -> Iterator[Stretch]:
        """Return the halves of a box; that of no height cannot be cut."""
        yield from pairwise((box[0], sum(box) / 2, box[1]) if self.ripped else box)

    def polish(self, score: float, top: Cuts) -> tuple[float, Cuts]:
        """Return the best piece of finer and finer grids of heights round this one's."""
        if not self.ripped:
            return score, top
        low, high = self.tops
        step = (high - low) / _FIRST
        while step > _FINEST:
            for height in np.clip(top.top + np.linspace(-step, step, _GRID), low, high).tolist():
                found = self._best(height)
                if found is not None and found[0] > score:
                    score, top = found
            step /= _FINER
        return score, top


class Window(NamedTuple):
    """From where to where a piece goes, mm, and what that is worth."""

    left: float
    right: float
    score: float


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a window."""

    goal: Goal
    lengths: Span
    """mm."""
    within: tuple[float, float] = (np.inf, -np.inf)
    """A window must reach from the one to the other, or beyond; infinite and reversed for none."""

    def suits(self, run: Array) -> bool:
        """Return whether a run is long enough, and holds what the window must hold."""
        holds = run[0] <= self.within[0] and run[1] >= self.within[1]
        least = max(self.lengths.least, self.within[1] - self.within[0], 0.0)
        greatest = self.lengths.greatest
        return bool(holds and run[1] - run[0] >= least and least <= greatest)


def best_window(profile: Profile, runs: Array, asked: Asked) -> Window | None:
    """Return the best window in any of the runs, or None where none is long enough."""
    suited = [run for run in runs if asked.suits(run)]
    if asked.goal is Goal.WIDTH:
        return _widest(profile, suited, asked)
    made = [_in_run(profile, run, asked) for run in suited]
    return _best(made, by_length=asked.goal is Goal.LENGTH) if made else None


def _best(made: list[Window], *, by_length: bool) -> Window:
    """Return the longest or the best of some windows, of alike ones the one farthest left."""
    most = max(window.score for window in made)
    return first_of_best(
        made,
        lambda window: (window.right - window.left if by_length else 0.0, window.score),
        lambda window: (window.left,),
        tolerance=(SAME_PLACE, _AS_GOOD * most),
    )


def _in_run(profile: Profile, run: Array, asked: Asked) -> Window:
    """Return the window of a run with the greatest area, as long as may be."""
    left, right = float(run[0]), float(run[1])
    start, length = left, min(right - left, asked.lengths.greatest)
    if right - left > length:
        first, last = max(left, asked.within[1] - length), min(right - length, asked.within[0])
        middle = min(max((left + right - length) / 2, first), last)
        bends = np.concatenate([profile.x, profile.x - length])
        starts = np.unique(np.append(bends[(bends > first) & (bends < last)], [first, last]))
        gain = profile.at(starts + length) - profile.at(starts)
        turns = (gain[:-1] > 0) & (gain[1:] < 0)
        share = gain[:-1][turns] / (gain[:-1] - gain[1:])[turns]
        starts = np.concatenate([starts, starts[:-1][turns] + share * np.diff(starts)[turns]])
        areas = profile.area(starts, starts + length)
        best = int(greatest_first(areas, tolerance=_AS_GOOD * float(areas.max()))[0])
        good = float(profile.area(middle, middle + length)) >= float(areas[best]) * (1 - _AS_GOOD)
        start = middle if good else float(starts[best])
    end = start + length
    score = length if asked.goal is Goal.LENGTH else float(profile.area(start, end))
    return Window(start, end, score)


def _widest(profile: Profile, runs: list[Array], asked: Asked) -> Window | None:
    """Return the longest window whose least width is the greatest that the least length allows.

    Its score is an upper end of that width; the window itself keeps the lower end.
    """

    def at(level: float) -> list[Array]:
        parts = [free_runs(profile.outside(level, np.inf), *(float(v) for v in r)) for r in runs]
        return [part for found in parts for part in found if asked.suits(part)]

    high = float(profile.height.max(initial=0.0))
    if not at(0.0):
        return None
    level = high if at(high) else last_where(lambda level: bool(at(level)), 0.0, high, _FINE)
    longest = _best([_in_run(profile, run, asked) for run in at(level)], by_length=True)
    return Window(longest.left, longest.right, min(level + _FINE, high))
