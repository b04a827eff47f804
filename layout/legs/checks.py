"""What stands against the legs as placed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from ..concern import Concern
from ..geometry.polygon import Region, union
from ..geometry.tolerance import CHORD
from ..panel.materials import ONE_LIFTS
from .concern import GRAVE, LegMatter
from .plan import Leg, LegsPlan
from .room import PLATE_INSET
from .table import TableTop, under_feet
from .wish import Fixing, LegsWish


def problems_of(
    wish: LegsWish, plan: LegsPlan, on_floor: Sequence[float], table: TableTop
) -> tuple[Concern, ...]:
    """Return every problem, grave ones first; `on_floor` is how far in each foot stands, mm."""
    prints = [
        union(Region.of(path, "outside") for path in (leg.print, leg.plate) if path is not None)
        for leg in plan.legs
    ]
    found = [
        *_at_the_edge(plan.legs, on_floor, max(PLATE_INSET, wish.keep_in)),
        *_on_poor_wood(plan.legs, prints, table),
        *_in_one_another(prints),
        *_standing(wish, plan),
    ]
    return tuple(sorted(found, key=lambda problem: problem.matter not in GRAVE))


def _at_the_edge(legs: Sequence[Leg], on_floor: Sequence[float], least: float) -> Iterator[Concern]:
    for leg in legs:
        head, who = leg.overhang, (f"{leg.number}",)
        if head < -CHORD:
            yield Concern(LegMatter.BEYOND_EDGE, who, -head)
        elif head < least - CHORD:
            yield Concern(LegMatter.NEAR_EDGE, who, head, least)
    past = {
        f"{leg.number}": -foot
        for leg, foot in zip(legs, on_floor, strict=True)
        if foot < -CHORD and foot < leg.overhang - CHORD
    }
    if past:
        yield Concern(LegMatter.STICKS_OUT, tuple(past), max(past.values()))


def _on_poor_wood(
    legs: Sequence[Leg], prints: Sequence[Region], table: TableTop
) -> Iterator[Concern]:
    for leg, foot in zip(legs, prints, strict=True):
        if not table.bearing.inner.holds(foot):
            defects = under_feet(table.top.panel)
            touched = [d.name for d in defects if d.reach().touches_or_crosses(foot)]
            yield Concern(LegMatter.POOR_BEARING, (f"{leg.number}", *touched))
    moved = {f"{leg.number}": leg.moved for leg in legs if leg.moved}
    if moved:
        yield Concern(LegMatter.MOVED, tuple(moved), max(moved.values()))


def _in_one_another(prints: Sequence[Region]) -> Iterator[Concern]:
    for (one, foot), (other, second) in combinations(enumerate(prints, start=1), 2):
        if foot.meet(second).area > CHORD * foot.perimeter:
            yield Concern(LegMatter.OVERLAP, (f"{one}", f"{other}"))


def _standing(wish: LegsWish, plan: LegsPlan) -> Iterator[Concern]:
    least = plan.weakest.force
    if least <= 0:
        yield Concern(LegMatter.TIPS_BY_ITSELF)
    else:
        if least < wish.pressed * (1 - NO_BETTER):
            yield Concern(LegMatter.TIPS_UNDER_LOAD, found=least, limit=wish.pressed)
        if plan.tipping.at_edge.force < CLIMBER:
            yield Concern(LegMatter.CLIMBED_ON, found=plan.tipping.at_edge.force, limit=CLIMBER)
    if wish.fixing is Fixing.LOOSE:
        yield Concern(LegMatter.LOOSE)
    if plan.tipping.rocks:
        yield Concern(LegMatter.ROCKS_AS_BLOCKS, found=plan.tipping.push)
    if plan.leg_mass >= HEAVY_LEG:
        yield Concern(LegMatter.HEAVY_LEGS, found=plan.leg_mass)
    if len(plan.legs) > 3:
        yield Concern(LegMatter.ROCKS)


NO_BETTER = 0.01
"""No estimate of a force is better than this share: a stance that falls short by less holds (ours).
"""

HEAVY_LEG = ONE_LIFTS / 2
"""From this mass, kg, a leg that falls over breaks a foot (our choice)."""

CLIMBER = 400.0
"""What a child who climbs on an edge brings, N: one of ten years and about 40 kg (from memory)."""
