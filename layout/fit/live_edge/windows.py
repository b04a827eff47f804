"""The best stretch of a piece with square ends, along the runs that are free: exact.

Where the whole of a run may be used it is the best. Where the length is limited the best window
has that length; sliding it by dx wins the width at one end and loses that at the other, so it is
best where the two are equal, or where one of its ends meets a bend of an edge or an end of the run.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...geometry.alike import first_of_best, greatest_first
from ...geometry.tolerance import SAME_PLACE
from ..on_edge.free_spans import free_runs
from ..wish import Goal, Span
from ..wood.edges import Array
from .profile import Profile

_HALVINGS = 50
"""Steps that close in on the greatest least width: to a part in 10¹⁵."""

_AS_GOOD = 1e-9
"""A share by which the window in the middle may fall short of the best and still be taken."""


@dataclass(frozen=True, slots=True)
class Window:
    """From where to where a piece goes, mm, and what that is worth."""

    left: float
    right: float
    score: float

    @property
    def length(self) -> float:
        """How long it is, mm."""
        return self.right - self.left


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
        lambda window: (window.length if by_length else 0.0, window.score),
        lambda window: (window.left,),
        tolerance=(SAME_PLACE, _AS_GOOD * most),
    )


def _in_run(profile: Profile, run: Array, asked: Asked) -> Window:
    """Return the window of a run with the greatest area, as long as may be."""
    left, right = float(run[0]), float(run[1])
    length = asked.lengths.greatest
    if right - left <= length:
        score = float(profile.area(left, right))
        return Window(left, right, score if asked.goal is not Goal.LENGTH else right - left)
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
    score = length if asked.goal is Goal.LENGTH else float(areas[best])
    return Window(start, start + length, score)


def _widest(profile: Profile, runs: list[Array], asked: Asked) -> Window | None:
    """Return the longest window whose least width is the greatest that the least length allows.

    Its score is an upper end of that width; the window itself keeps the lower end.
    """

    def at(level: float) -> list[Array]:
        parts = [free_runs(profile.outside(level, np.inf), *(float(v) for v in r)) for r in runs]
        return [part for found in parts for part in found if asked.suits(part)]

    low, high = 0.0, float(profile.height.max(initial=0.0))
    held = at(low)
    if not held:
        return None
    if found := at(high):
        low, held = high, found
    for _ in range(_HALVINGS):
        level = (low + high) / 2
        if found := at(level):
            low, held = level, found
        else:
            high = level
    made = [_in_run(profile, run, asked) for run in held]
    longest = _best(made, by_length=True)
    return Window(longest.left, longest.right, high)
