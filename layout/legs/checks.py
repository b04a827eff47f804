"""What stands against the legs as placed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ..geometry.path import Path
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from ..panel import Defect, SoundWood
from .concern import Concern, LegProblem
from .tipping import Tipping
from .wish import Fixing, LegsWish

NEAR = 25.0
"""A foot or its plate nearer to the edge than this breaks out (common practice), mm."""


def problems_of(
    wish: LegsWish,
    feet: Sequence[tuple[float, Path]],
    tipping: Tipping,
    bearing: SoundWood,
    defects: Sequence[Defect],
) -> tuple[LegProblem, ...]:
    """Return every problem, grave ones first.

    Parameters
    ----------
    feet : sequence of (float, Path)
        Of each leg the least distance to the edge, mm, and its print on the panel.
    """
    prints = [Region.from_rings(path.points(CHORD, "outside")) for _, path in feet]
    found = [
        *_at_the_edge([overhang for overhang, _ in feet]),
        *_on_poor_wood(prints, bearing, defects),
        *_in_one_another(prints),
        *_standing(wish, tipping, len(feet)),
    ]
    return tuple(sorted(found, key=lambda problem: not problem.is_grave))


def _at_the_edge(overhangs: Sequence[float]) -> Iterator[LegProblem]:
    for number, overhang in enumerate(overhangs, start=1):
        if overhang < -CHORD:
            yield LegProblem(Concern.BEYOND_EDGE, (number,), -overhang)
        elif overhang < NEAR - CHORD:
            yield LegProblem(Concern.NEAR_EDGE, (number,), overhang, limit=NEAR)


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
