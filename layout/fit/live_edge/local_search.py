"""From a piece as found to the best near it: its cuts are moved, then out until they touch."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from ...geometry.scalar import last_where
from .outline import Cuts

_FINER, _FINEST = 2.5, 1e-4
"""How much finer each step is than the one before, and the step, mm, that it ends with."""

_WORTH_IT = 1e-6
"""Share of a score by which a step must raise it to be taken again."""

_FINELY = 1e-3
"""Of a step: how near it is found where a cut can go no farther."""

_ENDS = ((0, 0), (1, 1), (-1, -1), (1, 0), (0, -1))
"""Steps of both ends along x: none, along, and one of them in."""


@dataclass(frozen=True, slots=True)
class Climber:
    """Improves pieces."""

    worth: Callable[[Cuts], float]
    """The score of a piece; 0 where it does not fit."""
    can_be: Callable[[Cuts], bool]
    outwards: Sequence[tuple[str, int]]
    """The cuts that make a piece better where they lie farther out, and which way that is."""
    lifts: bool
    """Whether its upper side can be moved."""

    def climbed(self, score: float, cuts: Cuts, step: float) -> tuple[float, Cuts]:
        """Return a local best reached by steps of at most so much, mm, and its score."""
        while step > _FINEST:
            better = False
            for found in self._moves(cuts, step):
                for name, way in self.outwards:
                    found = self._out(found, name, way * step)
                worth = self.worth(found)
                if worth > score:
                    better = better or worth > score * (1 + _WORTH_IT)
                    score, cuts = worth, found
            step /= 1.0 if better else _FINER
        return score, cuts

    def _moves(self, cuts: Cuts, step: float) -> Iterator[Cuts]:
        for lift, (left, right) in product((-1, 0, 1) if self.lifts else (0,), _ENDS):
            yield Cuts(cuts.left + left * step, cuts.right + right * step, cuts.top + lift * step)

    def _out(self, cuts: Cuts, name: str, step: float) -> Cuts:
        """Return a piece with one cut as far out as it gets within two steps."""

        def moved(by: float) -> Cuts:
            return replace(cuts, **{name: getattr(cuts, name) + by * step})

        def fits(by: float) -> bool:
            return self.can_be(moved(by))

        return moved(last_where(fits, -2.0, 2.0, _FINELY)) if fits(-2.0) else cuts
