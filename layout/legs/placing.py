"""Legs placed under a top: what each covers, what tips the table, what stands against them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

from ..concern import Concern
from ..errors import LegsError
from ..geometry import ORIGIN, Bounds, Point, Region, array_of, first_of_best, union
from ..geometry.intersect import way_out
from ..geometry.tolerance import CHORD, ROUNDING, SAME_PLACE, SAME_POINT
from ..geometry.turned_box import narrowest_strip
from ..outlines import Outline
from ..panel.materials import ONE_LIFTS
from .foot import Foot
from .plan import GRAVE, Leg, LegMatter, LegsPlan, Overhang, Tipping
from .room import PLATE_INSET, TableTop, inside_by, under_feet
from .sag import borne_at
from .tipping import (
    GRAVITY,
    IN_A_ROW,
    counts_at_edge,
    footprint,
    held_down,
    tipping_of,
    whole_table,
)
from .wish import Fixing, LegsWish

NO_BETTER = 0.01
"""A stance that falls short of the load by less than this share holds: no estimate is better."""

HEAVY_LEG = ONE_LIFTS / 2
"""From this mass, kg, a leg that falls over breaks a foot (our choice)."""

CLIMBER = 400.0
"""What a child who climbs on an edge brings, N: one of ten years and about 40 kg (from memory)."""


def place_legs(
    wish: LegsWish, table: TableTop, middles: Sequence[Point], moved: Sequence[float]
) -> LegsPlan:
    """Return the legs under a top, checked; a `LegsError` tells of a row, or two at one place."""
    top = table.top
    require_footing(wish.foot, middles)
    face = Region.from_rings(top.outline.inner())
    legs = tuple(
        _leg(wish, number, middle, shift, face, table)
        for number, (middle, shift) in enumerate(zip(middles, moved, strict=True), start=1)
    )
    tipping = _tipping(wish, table, middles, face.centroid)
    at_edge = counts_at_edge(wish, top.thickness)
    plan = LegsPlan(
        legs,
        wish.foot,
        wish.height,
        wish.leg_length,
        wish.leg_mass,
        top.mass,
        top.mass + wish.leg_mass * len(legs),
        tuple(map(Point.of, footprint(wish.foot, [leg.floor for leg in legs]))),
        _overhangs(top.outline, wish.foot, legs),
        tipping,
        tipping.at_edge if at_edge else tipping.least,
        at_edge,
        wish.pressed,
        (),
    )
    on_floor = [_overhang(face, wish.foot, leg.floor) for leg in legs]
    return replace(plan, problems=problems_of(wish, plan, on_floor, table))


def require_footing(foot: Foot, middles: Sequence[Point]) -> None:
    """Raise a `LegsError` where legs stand at one place, or all in a row.

    A row of slabs stands on what these are long.
    """
    if narrowest_strip(array_of(borne_at(foot, middles))) < IN_A_ROW:
        raise LegsError(
            f"{len(middles)} legs in a row do not stand: move one at least {IN_A_ROW:g} mm out of "
            "it, or make the insets at the sides smaller"
        )
    for (i, one), (j, other) in combinations(enumerate(middles, start=1), 2):
        if one.distance_to(other) <= SAME_PLACE:
            raise LegsError(f"legs {i} and {j} stand at one place: move them apart")


def _tipping(wish: LegsWish, table: TableTop, middles: Sequence[Point], centre: Point) -> Tipping:
    """Return what tips it; a loose top over the line on which it lies, or as a parallelogram."""
    top, foot = table.top, wish.foot
    height, own = wish.height + top.thickness, (top.mass, centre)
    whole, held = whole_table(wish, middles, own), held_down(wish, middles, own)
    over_feet = tipping_of(top.outline, whole, height)
    if wish.fixing is not Fixing.LOOSE:
        return over_feet
    tips = tipping_of(top.outline, held, height)
    legs = wish.leg_mass * len(middles)
    rocking = (top.mass + legs / 2) * GRAVITY * foot.thin / wish.height
    if rocking >= over_feet.push:
        return replace(tips, push=over_feet.push, push_way=over_feet.push_way)
    way = 0.0 if foot.length <= foot.width else math.pi / 2
    return replace(tips, push=rocking, push_way=way, rocks=True)


def _leg(
    wish: LegsWish, number: int, middle: Point, moved: float, face: Region, table: TableTop
) -> Leg:
    foot, placement = wish.foot, table.top.placement
    plate = None if wish.plate is None else wish.plate.form
    floor, hollow = wish.on_floor(middle), foot.hollow(middle)
    leans = floor.distance_to(middle) > SAME_POINT
    return Leg(
        number,
        middle,
        placement(middle),
        foot.outside(middle).placed(placement),
        hollow and hollow.placed(placement),
        None if plate is None else plate.outside(middle).placed(placement),
        floor,
        foot.outside(floor).placed(placement) if leans else None,
        min(_overhang(face, head, middle) for head in (foot, plate) if head is not None),
        moved,
    )


def _overhang(face: Region, foot: Foot, middle: Point) -> float:
    """Return the least distance from a foot to the edge of the top; negative where it is past."""
    if foot.is_round:
        return inside_by(face, middle) - foot.length / 2
    corners = [middle + corner for corner in foot.corners]
    least = min(inside_by(face, corner) for corner in corners)
    # a hollow edge comes nearest beside a side of the foot
    return least if least <= 0 else face.edge_distance(Region.from_rings(array_of(corners)))


def _overhangs(outline: Outline, foot: Foot, legs: Sequence[Leg]) -> Overhang:
    middles = [leg.middle for leg in legs]
    corners, box = map(Point.of, footprint(foot, middles)), Bounds.around(middles)
    corner = first_of_best(corners, lambda p: p.norm, tuple, tolerance=ROUNDING)
    across, along = foot.reach(math.pi / 2), foot.reach(0.0)
    return Overhang(
        side=outline.width / 2 - across - min(box.top, -box.bottom),
        end=outline.length / 2 - along - min(box.right, -box.left),
        corner=way_out(outline.path(), ORIGIN, corner.unit()) - corner.norm,
        least=min(leg.overhang for leg in legs),
    )


def problems_of(
    wish: LegsWish, plan: LegsPlan, on_floor: Sequence[float], table: TableTop
) -> tuple[Concern, ...]:
    """Return every problem, grave ones first; `on_floor` is how far in each foot stands, mm."""
    prints = [
        union(Region.of(path, "outside") for path in (leg.print, leg.plate) if path is not None)
        for leg in plan.legs
    ]
    pairs = combinations(enumerate(prints, start=1), 2)
    found = [
        *_at_the_edge(plan.legs, on_floor, max(PLATE_INSET, wish.keep_in)),
        *_on_poor_wood(plan.legs, prints, table),
        *(
            Concern(LegMatter.OVERLAP, (f"{one}", f"{other}"))
            for (one, foot), (other, second) in pairs
            if foot.meet(second).area > CHORD * foot.perimeter
        ),
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


def _standing(wish: LegsWish, plan: LegsPlan) -> Iterator[Concern]:
    tips, least, load = plan.tipping, plan.weakest.force, wish.pressed
    falls, climbed = least <= 0, tips.at_edge.force
    found = (
        (Concern(LegMatter.TIPS_BY_ITSELF), falls),
        (Concern(LegMatter.TIPS_UNDER_LOAD, (), least, load), 0 < least < load * (1 - NO_BETTER)),
        (Concern(LegMatter.CLIMBED_ON, (), climbed, CLIMBER), climbed < CLIMBER and not falls),
        (Concern(LegMatter.LOOSE), wish.fixing is Fixing.LOOSE),
        (Concern(LegMatter.ROCKS_AS_BLOCKS, found=tips.push), tips.rocks),
        (Concern(LegMatter.HEAVY_LEGS, found=plan.leg_mass), plan.leg_mass >= HEAVY_LEG),
        (Concern(LegMatter.ROCKS), len(plan.legs) > 3),
    )
    yield from (concern for concern, due in found if due)
