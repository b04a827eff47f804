"""Legs placed under a top: what each covers, how far the top overhangs, what tips the table."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

from ..errors import LegsError
from ..geometry import ORIGIN, Bounds, Point, Region, array_of, first_of_best
from ..geometry.intersect import way_out
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SAME_POINT
from ..geometry.turned_box import narrowest_strip
from ..outlines import Outline
from .checks import problems_of
from .foot import Foot
from .plan import Leg, LegsPlan, Overhang
from .room import inside_by
from .sag import bearing_points
from .stability import IN_A_ROW, counts_at_edge, footprint, held_down, whole_table
from .table import TableTop
from .tipping import Tipping, rocking_force, tipping_of
from .wish import Fixing, LegsWish


def place_legs(
    wish: LegsWish, table: TableTop, middles: Sequence[Point], moved: Sequence[float] = ()
) -> LegsPlan:
    """Return the legs under a top, checked; a push at its edge counts from its upper face.

    `moved` is how far each was moved off spoilt wood to stand where it does, mm.

    Raises
    ------
    LegsError
        If legs stand at one place, or in a row.
    """
    top = table.top
    require_footing(wish.foot, middles)
    face = Region.from_rings(top.outline.inner())
    shifts = moved or [0.0] * len(middles)
    legs = tuple(
        _leg(wish, number, middle, shift, face, table)
        for number, (middle, shift) in enumerate(zip(middles, shifts, strict=True), start=1)
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
    borne = [p for middle in middles for p in bearing_points(foot, middle)]
    if narrowest_strip(array_of(borne)) < IN_A_ROW:
        raise LegsError(
            f"{len(middles)} legs in a row do not stand: move one at least {IN_A_ROW:g} mm out of "
            "it, or make the insets at the sides smaller"
        )
    for (i, one), (j, other) in combinations(enumerate(middles, start=1), 2):
        if one.distance_to(other) <= SAME_PLACE:
            raise LegsError(f"legs {i} and {j} stand at one place: move them apart")


def _tipping(wish: LegsWish, table: TableTop, middles: Sequence[Point], centre: Point) -> Tipping:
    """Return what tips it; a loose top over the line on which it lies, its legs no help."""
    top = table.top
    height, own = wish.height + top.thickness, (top.mass, centre)
    whole, held = whole_table(wish, middles, own), held_down(wish, middles, own)
    over_feet = tipping_of(top.outline, whole.feet, whole.mass, height, whole.centre)
    if wish.fixing is not Fixing.LOOSE:
        return over_feet
    tips = tipping_of(top.outline, held.feet, held.mass, height, held.centre)
    thin = min(wish.foot.length, wish.foot.width)
    rocking = rocking_force(top.mass, wish.leg_mass * len(middles), thin, wish.height)
    if rocking >= over_feet.push:
        return replace(tips, push=over_feet.push, push_way=over_feet.push_way)
    way = 0.0 if wish.foot.length <= wish.foot.width else math.pi / 2
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
    middles = Bounds.around(leg.middle for leg in legs)
    corners = map(Point.of, footprint(foot, [leg.middle for leg in legs]))
    corner = first_of_best(corners, lambda p: p.norm, lambda p: (p.x, p.y), tolerance=ROUNDING)
    across, along = foot.reach(math.pi / 2), foot.reach(0.0)
    return Overhang(
        side=outline.width / 2 - across - min(middles.top, -middles.bottom),
        end=outline.length / 2 - along - min(middles.right, -middles.left),
        corner=way_out(outline.path(), ORIGIN, corner.unit()) - corner.norm,
        least=min(leg.overhang for leg in legs),
    )
