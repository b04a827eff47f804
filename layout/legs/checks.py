"""What stands against the legs as placed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ..geometry.path import Path
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from ..panel import Defect, SoundWood
from .concern import Concern, LegProblem
from .room import PLATE_INSET
from .tipping import Tipping
from .wish import Fixing, LegsWish


def problems_of(
    wish: LegsWish,
    feet: Sequence[tuple[float, float, Path]],
    tipping: Tipping,
    bearing: SoundWood,
    defects: Sequence[Defect],
) -> tuple[LegProblem, ...]:
    """Return every problem, grave ones first.

    Parameters
    ----------
    feet : sequence of (float, float, Path)
        Of each leg the least distance from its head and from its foot on the floor in to the edge
        of the top, mm, and the print of its head on the panel.
    """
    prints = [Region.of(path, "outside") for _, _, path in feet]
    found = [
        *_at_the_edge([(head, foot) for head, foot, _ in feet], max(PLATE_INSET, wish.keep_in)),
        *_on_poor_wood(prints, bearing, defects),
        *_in_one_another(prints),
        *_standing(wish, tipping, len(feet)),
    ]
    return tuple(sorted(found, key=lambda problem: not problem.is_grave))


def _at_the_edge(overhangs: Sequence[tuple[float, float]], least: float) -> Iterator[LegProblem]:
    for number, (head, _) in enumerate(overhangs, start=1):
        if head < -CHORD:
            yield LegProblem(Concern.BEYOND_EDGE, (number,), -head)
        elif head < least - CHORD:
            yield LegProblem(Concern.NEAR_EDGE, (number,), head, limit=least)
    past = {
        number: -foot
        for number, (head, foot) in enumerate(overhangs, start=1)
        if foot < -CHORD and foot < head - CHORD
    }
    if past:
        yield LegProblem(Concern.STICKS_OUT, tuple(past), max(past.values()))


def _on_poor_wood(
    prints: Sequence[Region], bearing: SoundWood, defects: Sequence[Defect]
) -> Iterator[LegProblem]:
    for number, foot in enumerate(prints, start=1):
        if not bearing.inner.holds(foot):
            touched = [d.name for d in defects if d.reach().touches_or_crosses(foot)]
            yield LegProblem(Concern.POOR_BEARING, (number,), blame=tuple(touched))


def _in_one_another(prints: Sequence[Region]) -> Iterator[LegProblem]:
    for (one, foot), (other, second) in combinations(enumerate(prints, start=1), 2):
        if foot.meet(second).area > CHORD * foot.perimeter:
            yield LegProblem(Concern.OVERLAP, (one, other))


def _standing(wish: LegsWish, tipping: Tipping, count: int) -> Iterator[LegProblem]:
    least = tipping.least.force
    if least <= 0:
        yield LegProblem(Concern.TIPS_BY_ITSELF)
    elif least < wish.load:
        yield LegProblem(Concern.TIPS_UNDER_LOAD, force=least, limit=wish.load)
    if wish.fixing is Fixing.LOOSE:
        yield LegProblem(Concern.LOOSE)
    if count > 3:
        yield LegProblem(Concern.ROCKS)
