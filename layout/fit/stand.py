"""A top that stands somewhere, in so few words that many can be compared, and how two differ."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Protocol, TypeVar

import numpy as np

from ..geometry.placement import Placement
from ..outlines import Outline
from .found import Fit
from .local_search import Movable

MOVED = 0.08
"""Share of the length by which a top must be moved to be clearly another one."""
TURNED = math.radians(5)
"""By how much it must be turned."""
RESIZED = 0.1
"""Share by which it must be longer or wider: a top that is only smaller is no other one."""
CLEARLY = 1 - 1e-9
"""How different it must be: clearly, but for rounding, as a limit may allow it just so far."""
AT_THE_END = 1.05
"""A top no more different than this from one chosen before has come to the end of its way."""

_LOOKS_THE_SAME = 0.04
"""A top that changes by less than this share of its width when it is turned looks the same."""
_STEPS, _FOLDS = 240, (8, 6, 5, 4, 3, 2)
"""Ways in which its reach is looked at; and parts of a whole turn, each some of those, after which
an outline may look the same, finest first."""

Top = TypeVar("Top")


@dataclass(frozen=True, slots=True)
class Stand:
    """A core somewhere on the wood."""

    score: float
    """What the goal counts."""
    placement: Placement
    length: float
    width: float
    """Of the core, mm."""

    @classmethod
    def of(cls, fit: Fit) -> Stand:
        """Return where the core of a fit stands."""
        return cls(fit.score, fit.placement, fit.core.length, fit.core.width)

    def difference(self, other: Stand, period: float) -> float:
        """Return how clearly this top differs from another: 1 and more is clearly.

        Moved, turned, and longer or wider count each in its own measure, and the greatest counts.
        After a turn by the period, radians, the outline looks the same; 0 where no turn counts.
        """
        moved = self.placement.centre.distance_to(other.placement.centre) / (MOVED * other.length)
        resized = (max(self.length / other.length, self.width / other.width) - 1) / RESIZED
        turn = self.placement.turn - other.placement.turn
        turned = abs(math.remainder(turn, period)) / TURNED if period else 0.0
        return max(moved, turned, resized)


class Elsewhere(Protocol[Top]):
    """What a family offers to those who look for other places than the best."""

    @property
    def tops(self) -> Movable[Top]:
        """The tops, as a local search moves them."""

    def starts(self) -> Iterable[Stand]:
        """Return real tops, as large as they may be where they stand, of many places and turns."""

    def like(self, start: Stand) -> Top:
        """Return the top where a start stands, whether it fits or not."""

    def stand(self, top: Top) -> Stand:
        """Return where a top stands."""

    def finished(self, top: Top, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top; one that rests is a local best, or nearly."""


def period_of(outline: Outline, alike: float = _LOOKS_THE_SAME) -> float:
    """Return the least turn after which an outline looks the same, radians; 0 where any does.

    How far it reaches in every direction tells it, to that share of the width.
    """
    reach = np.array([outline.support(math.tau * i / _STEPS) for i in range(_STEPS)])
    alike *= outline.width
    if np.ptp(reach) <= alike:
        return 0.0
    for fold in _FOLDS:
        if np.abs(reach - np.roll(reach, _STEPS // fold)).max() <= alike:
            return math.tau / fold
    return math.tau
