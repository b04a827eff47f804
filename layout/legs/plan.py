"""The legs worked out: where each stands, what they weigh, whether the table stands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import reduce

import numpy as np

from ..geometry.alike import first_of_best
from ..geometry.bounds import Bounds
from ..geometry.intersect import way_out
from ..geometry.path import Path
from ..geometry.placement import Placement, Points
from ..geometry.point import ORIGIN, Point
from ..geometry.polygon import Region, convex_hull
from ..geometry.tolerance import CHORD, ROUNDING, SAME_POINT
from ..outlines import Outline
from ..panel import SoundWood, Spoils
from ..top import Top
from .arrangement import middles_for
from .checks import problems_of
from .concern import LegProblem
from .foot import Foot
from .tipping import Tipping, tipping_of
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
    load: float = field(metadata={"unit": "N"})
    """What the least tipping force is held against, N."""
    problems: tuple[LegProblem, ...]

    @property
    def stands(self) -> bool:
        """Whether nothing grave stands against these legs."""
        return not any(problem.is_grave for problem in self.problems)


UNDER_FEET = (Spoils.BEARING, Spoils.CUTTING)
"""Feet and their screws stay clear of what spoils bearing and of what no screw may meet."""


def place_legs(wish: LegsWish, top: Top, bearing: SoundWood) -> LegsPlan:
    """Return the legs under a top, checked; a push at its edge counts from its upper face.

    Parameters
    ----------
    bearing : SoundWood
        What is left of the panel for feet to stand on.

    Raises
    ------
    LegsError
        If no foot finds room at the insets asked for.
    """
    outline, top_mass = top.outline, top.mass
    middles = wish.at or middles_for(wish, outline)
    region = Region.from_rings(outline.inner())
    legs = tuple(_leg(wish, n, m, region, top.placement) for n, m in enumerate(middles, start=1))
    feet = footprint(wish.foot, [leg.floor for leg in legs])
    tipping = _tipping(
        wish, outline, legs, (top_mass, region.centroid), wish.height + top.thickness
    )
    on_floor = [_overhang(region, wish.foot, leg.floor) for leg in legs]
    heads = [
        (leg.overhang, foot, leg.plate or leg.print)
        for leg, foot in zip(legs, on_floor, strict=True)
    ]
    defects = [d for d in top.panel.defects if d.spoils.intersection(UNDER_FEET)]
    return LegsPlan(
        legs,
        wish.foot,
        wish.height,
        wish.leg_length,
        wish.leg_mass,
        top_mass,
        top_mass + wish.leg_mass * len(legs),
        tuple(map(Point.of, feet)),
        _overhangs(outline, wish.foot, legs),
        tipping,
        wish.load,
        problems_of(wish, heads, tipping, bearing, defects),
    )


def _tipping(
    wish: LegsWish, outline: Outline, legs: Sequence[Leg], top: tuple[float, Point], height: float
) -> Tipping:
    """Return what tips it; a loose top over the line on which it lies, its legs no help."""
    feet = footprint(wish.foot, [leg.floor for leg in legs])
    masses = [top, *((wish.leg_mass, leg.middle.midpoint(leg.floor)) for leg in legs)]
    mass, centre = _weighed(masses)
    whole = tipping_of(outline, feet, mass, height, centre)
    if wish.fixing is not Fixing.LOOSE:
        return whole
    contact = footprint(wish.on_top, [leg.middle for leg in legs])
    alone = tipping_of(outline, contact, top[0], height, top[1])
    return replace(alone, push=whole.push, push_way=whole.push_way)


def _leg(wish: LegsWish, number: int, middle: Point, top: Region, placement: Placement) -> Leg:
    foot, head = wish.foot, wish.on_top
    plate = None if wish.plate is None else head.outside(middle).placed(placement)
    floor = wish.on_floor(middle)
    leans = floor.distance_to(middle) > SAME_POINT
    return Leg(
        number,
        middle,
        placement(middle),
        foot.outside(middle).placed(placement),
        _placed(foot.hollow(middle), placement),
        plate,
        floor,
        foot.outside(floor).placed(placement) if leans else None,
        _overhang(top, head, middle),
    )


def footprint(foot: Foot, middles: Sequence[Point]) -> Points:
    """Return the convex polygon round all feet, (n, 2) mm, anticlockwise; it lies inside theirs."""
    return convex_hull(np.vstack([foot.outside(middle).points(CHORD) for middle in middles]))


def _placed(path: Path | None, placement: Placement) -> Path | None:
    return None if path is None else path.placed(placement)


def _overhang(top: Region, foot: Foot, middle: Point) -> float:
    """Return the least distance from a foot to the edge of the top; negative where it is past."""
    if foot.is_round:
        distance = top.edge_distance(middle)
        return (distance if top.holds_point(middle) else -distance) - foot.length / 2
    corners = [middle + corner for corner in foot.corners]
    distances = [(top.edge_distance(c), top.holds_point(c)) for c in corners]
    return min(distance if within else -distance for distance, within in distances)


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


def _weighed(masses: Sequence[tuple[float, Point]]) -> tuple[float, Point]:
    """Return the whole mass and its centre."""
    whole = math.fsum(mass for mass, _ in masses)
    moment = reduce(Point.__add__, (place * mass for mass, place in masses))
    return whole, moment * (1 / whole) if whole else ORIGIN
