"""What each defect costs: how much larger the top would be were that one mended or accepted.

The search is asked again in the wood without the defect, but only for tops that beat the one in
hand, and, as half a per cent is near enough to decide by, in a wood with fewer corners.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import Enum

from ...geometry import ranked
from ...panel.defect import Defect
from ...panel.panel import Panel
from ..branch_and_bound import Progress
from ..coarse import coarser
from ..found import Fit
from ..islands import best_round_islands
from ..points import Ground
from ..wish import Wish
from .contacts import matters

WORTH_IT = 0.005
"""A gain below this share is not worth a plug."""

_GAP = 0.005
"""Gap at which a search for a gain ends."""
_ROUGH = 1e-4
"""Share of the wood's diagonal by which it is taken a little wrong: 0.2 mm on 2 m."""
_EFFORT = 160_000
"""Boxes times edges of the wood that all searches together may look at: a second or two."""
_MOST_EDGES = 1500
"""Edges of the wood, with few corners, beyond which no search would come to an end in that time."""
_STEPS = (20, 200)
"""Boxes after which one search ends in any case: at least and at most."""
_DEFECTS = (3, 12)
"""Defects that are looked at, as many as the effort allows: those touched, then the largest."""
_ALIKE = 1.0
"""mm² within which two defects are as large."""


class Lies(Enum):
    """Where a defect lies for the larger top; the value is what JSON says."""

    INSIDE = "inside"
    ACROSS = "across"
    BESIDE = "beside"


@dataclass(frozen=True, slots=True)
class Cost:
    """What one defect costs, or all those together that hold the top."""

    names: tuple[str, ...]
    """Of the defects."""
    gain: float
    """How much better a top was found without them, as a share of the score in hand; 0 for none."""
    most: float
    """No top without them is better by more than this share."""
    fit: Fit | None
    """The better top."""
    lies: Lies | None
    """Where the defect lies for that top; None where there is none, and of several."""

    @property
    def is_worth_it(self) -> bool:
        """Whether mending gains enough to be thought about."""
        return self.gain >= WORTH_IT

    @property
    def is_settled(self) -> bool:
        """Whether the gain found and the most that there can be are one figure to a maker."""
        return self.most - self.gain <= 2 * _GAP


def costs_of(
    fit: Fit,
    panel: Panel,
    wish: Wish,
    ground: Callable[[Panel], Ground],
    touched: Iterable[str] = (),
    progress: Progress | None = None,
) -> tuple[Cost, ...]:
    """Return what the defects outside a top cost, the dearest first.

    Each is tried alone, and all that the top touches together: where two screw holes stop it, none
    of them is worth a plug alone. Several are told where they gain more than the dearest alone.

    An outline that comes in one size cannot grow, so nothing is told of it; nor of a wood so full
    of holes that no search would end in a second or two.

    The fit is the best top of a family, the wish for that family alone. `ground` leads from a
    panel, with a defect less, to where tops may lie on it; `touched` names what the top touches.
    Where progress, told of each search in turn, says stop, the gain and bound reached are told.
    """
    if fit.clearance is not None:
        return ()
    edges = len(coarser(ground(panel).wood, _ROUGH).outer.edges)
    if edges > _MOST_EDGES:
        return ()
    count = min(max(_EFFORT // (_STEPS[0] * edges), _DEFECTS[0]), _DEFECTS[1])
    names = tuple(touched)
    outside = [d for d in panel.defects if matters(d, panel) and not fit.within.holds(d.extent)]
    defects = ranked(
        outside,
        lambda d: (float(d.name in names), d.extent.area),
        lambda d: tuple(d.place.bounds.middle),
        tolerance=(0.0, _ALIKE),
    )[:count]
    steps = min(max(_EFFORT // (max(len(defects), 1) * edges), _STEPS[0]), _STEPS[1])
    steps = min(wish.most_steps, steps)
    least = replace(wish, gap=_GAP, beats=fit.score, most_steps=steps)

    def cost(*without: Defect) -> Cost:
        left = ground(panel.without_defect(*(defect.name for defect in without)))
        return _cost(fit, without, left, least, progress)

    costs = [cost(defect) for defect in defects]
    together = [defect for defect in defects if defect.name in names]
    if len(together) > 1:
        most = max(each.gain for each in costs)
        costs += [every for every in (cost(*together),) if every.gain >= most + WORTH_IT]
    return tuple(ranked(costs, lambda cost: (cost.gain, cost.most), tolerance=(1e-6, 1e-6)))


def _cost(
    fit: Fit, defects: tuple[Defect, ...], without: Ground, wish: Wish, progress: Progress | None
) -> Cost:
    # a side that lies on a kept edge would leave a wood taken a little wrong
    wood = without.wood if wish.keeping else coarser(without.wood, _ROUGH)
    answer = best_round_islands(wood, wish, without.islands, progress)
    names = tuple(defect.name for defect in defects)
    better, most = answer.fit, answer.bound / fit.score - 1
    if better is None or better.score <= fit.score:
        return Cost(names, 0.0, max(most, 0.0), None, None)
    gain, core, extent = better.score / fit.score - 1, better.within, defects[0].extent
    lies = Lies.ACROSS if core.meet(extent).area > 0 else Lies.BESIDE
    lies = Lies.INSIDE if core.holds(extent) else lies
    return Cost(names, gain, max(most, gain), better, lies if len(defects) == 1 else None)
