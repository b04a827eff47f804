"""The legs worked out: where each stands, what they weigh, whether the table stands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

from ..concern import Concern
from ..errors import LegsError
from ..geometry import ORIGIN, Bounds, Path, Placement, Point, Region, array_of, first_of_best
from ..geometry.intersect import way_out
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SAME_POINT
from ..outlines import Outline
from ..panel import Defect, Panel, SoundWood, Spoils
from ..top import Top
from .checks import problems_of
from .concern import GRAVE
from .foot import Foot
from .sag import bearing_points
from .stability import IN_A_ROW, counts_at_edge, footprint, held_down, row_width, whole_table
from .tipping import EdgeForce, Tipping, rocking_force, tipping_of
from .wish import Fixing, LegsWish


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg."""

    number: int
    """From 1, anticlockwise from the lower left of the top; the middle one last."""
    middle: Point
    """Of its head, from the centre of the top, x along its length, mm."""
    on_panel: Point
    """The same place on the panel."""
    print: Path
    """Outside of the leg on the panel."""
    hollow: Path | None
    """Inside of a ring's wall on the panel."""
    plate: Path | None
    """Of the plate on its head, on the panel."""
    floor: Point
    """Where its foot stands on the floor, from the centre of the top, mm."""
    floor_print: Path | None
    """What that foot covers, on the panel; None where it stands under its head."""
    overhang: float
    """Least distance from its head, plate and all, to the edge of the top, mm; negative where it
    sticks out."""
    moved: float = 0.0
    """How far it was moved to stand on sound wood, mm; 0 where it stands as laid out."""


@dataclass(frozen=True, slots=True)
class Overhang:
    """How far the top reaches beyond its feet, mm."""

    side: float
    end: float
    """Across and along, beyond the outermost legs; the greater of the two sides or ends."""
    corner: float
    """Outwards from the centre through the farthest corner of the polygon round the legs."""
    least: float
    """From any leg, plate and all, to the nearest edge."""


@dataclass(frozen=True, slots=True)
class LegsPlan:
    """Where the legs go and what follows from it; forces are estimates, not a test."""

    legs: tuple[Leg, ...]
    foot: Foot
    height: float
    """From the floor to the underside of the top, mm."""
    leg_length: float
    """Of a leg without its plate, along it, mm."""
    leg_mass: float = field(metadata={"unit": "kg"})
    top_mass: float = field(metadata={"unit": "kg"})
    mass: float = field(metadata={"unit": "kg"})
    """Of one leg with its plate, of the top, and of the whole table, kg."""
    feet: tuple[Point, ...]
    """Corners of the polygon of the feet on the floor, anticlockwise, mm from the top's centre."""
    overhang: Overhang
    tipping: Tipping
    weakest: EdgeForce
    """What the load is held against: the force at the very edge where somebody may sit on it, else
    the one a standard presses inside it."""
    at_edge: bool
    """Whether that is the very edge."""
    load: float = field(metadata={"unit": "N"})
    """What it should stand, N."""
    problems: tuple[Concern, ...]

    @property
    def stands(self) -> bool:
        """Whether nothing grave stands against these legs."""
        return not any(problem.matter in GRAVE for problem in self.problems)


UNDER_FEET = (Spoils.BEARING, Spoils.CUTTING)
"""Feet and their screws stay clear of what spoils bearing and of what no screw may meet."""


def place_legs(
    wish: LegsWish,
    top: Top,
    bearing: SoundWood,
    middles: Sequence[Point],
    moved: Sequence[float] = (),
) -> LegsPlan:
    """Return the legs under a top, checked; a push at its edge counts from its upper face.

    Parameters
    ----------
    bearing : SoundWood
        What is left of the panel for feet to stand on.
    middles : sequence of Point
        Where they stand, mm from the centre of the top.
    moved : sequence of float, optional
        How far each was moved off spoilt wood to stand there, mm.

    Raises
    ------
    LegsError
        If legs stand at one place, or in a row.
    """
    outline = top.outline
    require_footing(wish.foot, middles)
    region = Region.from_rings(outline.inner())
    shifts = moved or [0.0] * len(middles)
    legs = tuple(
        _leg(wish, n, m, shift, region, top.placement)
        for n, (m, shift) in enumerate(zip(middles, shifts, strict=True), start=1)
    )
    tipping = _tipping(wish, top, middles, region.centroid)
    on_floor = [_overhang(region, wish.foot, leg.floor) for leg in legs]
    defects = under_feet(top.panel)
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
        _overhangs(outline, wish.foot, legs),
        tipping,
        tipping.at_edge if at_edge else tipping.least,
        at_edge,
        wish.pressed,
        (),
    )
    return replace(plan, problems=problems_of(wish, plan, on_floor, bearing, defects))


def under_feet(panel: Panel) -> tuple[Defect, ...]:
    """Return the defects that no foot and no screw stands on: what is mended bears again."""
    return tuple(
        defect
        for defect in panel.defects
        if not (defect.mend and defect.mend.bears) and defect.spoils.intersection(UNDER_FEET)
    )


def require_footing(foot: Foot, middles: Sequence[Point]) -> None:
    """Raise a `LegsError` where legs stand at one place, or all in a row.

    A row of slabs stands on what these are long.
    """
    borne = [p for middle in middles for p in bearing_points(foot, middle)]
    if row_width(borne) < IN_A_ROW:
        raise LegsError(
            f"{len(middles)} legs in a row do not stand: move one at least {IN_A_ROW:g} mm out of "
            "it, or make the insets at the sides smaller"
        )
    for (i, one), (j, other) in combinations(enumerate(middles, start=1), 2):
        if one.distance_to(other) <= SAME_PLACE:
            raise LegsError(f"legs {i} and {j} stand at one place: move them apart")


def _tipping(wish: LegsWish, top: Top, middles: Sequence[Point], centre: Point) -> Tipping:
    """Return what tips it; a loose top over the line on which it lies, its legs no help."""
    height, own = wish.height + top.thickness, (top.mass, centre)
    table = whole_table(wish, middles, own)
    whole = tipping_of(top.outline, table.feet, table.mass, height, table.centre)
    if wish.fixing is not Fixing.LOOSE:
        return whole
    alone = held_down(wish, middles, own)
    tips = tipping_of(top.outline, alone.feet, alone.mass, height, alone.centre)
    thin = min(wish.foot.length, wish.foot.width)
    rocking = rocking_force(top.mass, wish.leg_mass * len(middles), thin, wish.height)
    if rocking >= whole.push:
        return replace(tips, push=whole.push, push_way=whole.push_way)
    way = 0.0 if wish.foot.length <= wish.foot.width else math.pi / 2
    return replace(tips, push=rocking, push_way=way, rocks=True)


def _leg(
    wish: LegsWish, number: int, middle: Point, moved: float, top: Region, placement: Placement
) -> Leg:
    foot = wish.foot
    plate = None if wish.plate is None else wish.plate.form
    heads = (foot,) if plate is None else (foot, plate)
    floor = wish.on_floor(middle)
    leans = floor.distance_to(middle) > SAME_POINT
    return Leg(
        number,
        middle,
        placement(middle),
        foot.outside(middle).placed(placement),
        _placed(foot.hollow(middle), placement),
        None if plate is None else plate.outside(middle).placed(placement),
        floor,
        foot.outside(floor).placed(placement) if leans else None,
        min(_overhang(top, head, middle) for head in heads),
        moved,
    )


def _placed(path: Path | None, placement: Placement) -> Path | None:
    return None if path is None else path.placed(placement)


def _overhang(top: Region, foot: Foot, middle: Point) -> float:
    """Return the least distance from a foot to the edge of the top; negative where it is past."""
    if foot.is_round:
        distance = top.edge_distance(middle)
        return (distance if top.holds_point(middle) else -distance) - foot.length / 2
    corners = [middle + corner for corner in foot.corners]
    distances = [(top.edge_distance(c), top.holds_point(c)) for c in corners]
    least = min(distance if within else -distance for distance, within in distances)
    if least <= 0:
        return least
    # a hollow edge comes nearest beside a side of the foot
    return min(least, top.edge_distance(Region.from_rings(array_of(corners))))


def _overhangs(outline: Outline, foot: Foot, legs: Sequence[Leg]) -> Overhang:
    middles = Bounds.around(leg.middle for leg in legs)
    hull = footprint(foot, [leg.middle for leg in legs])
    corners = map(Point.of, hull)
    corner = first_of_best(corners, lambda p: p.norm, lambda p: (p.x, p.y), tolerance=ROUNDING)
    across, along = foot.reach(math.pi / 2), foot.reach(0.0)
    return Overhang(
        side=outline.width / 2 - across - min(middles.top, -middles.bottom),
        end=outline.length / 2 - along - min(middles.right, -middles.left),
        corner=way_out(outline.path(), ORIGIN, corner.unit()) - corner.norm,
        least=min(leg.overhang for leg in legs),
    )
