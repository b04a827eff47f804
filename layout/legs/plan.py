"""The legs worked out: where each stands, what they weigh, whether the table stands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import reduce

import numpy as np

from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.placement import Placement, Points
from ..geometry.point import ORIGIN, Point
from ..geometry.polygon import Region, convex_hull
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from ..panel import Defect, SoundWood
from .arrangement import middles_for
from .checks import problems_of
from .concern import LegProblem
from .foot import Foot
from .rim import Rim
from .tipping import Tipping, tipping_of
from .wish import Fixing, LegsWish


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg.

    Attributes
    ----------
    number : int
        From 1, anticlockwise from the lower left of the top; the middle one last.
    middle : Point
        Of its foot, from the centre of the top, x along its length, mm.
    on_panel : Point
        The same place on the panel.
    print : Path
        Outside of the foot on the panel.
    hollow : Path or None
        Inside of a ring's wall on the panel.
    overhang : float
        Least distance from the foot to the edge of the top, mm; negative where it sticks out.
    """

    number: int
    middle: Point
    on_panel: Point
    print: Path
    hollow: Path | None
    overhang: float


@dataclass(frozen=True, slots=True)
class Overhang:
    """How far the top reaches beyond its feet, mm.

    Attributes
    ----------
    side, end : float
        Across and along, beyond the outermost feet; the greater of the two sides or ends.
    corner : float
        Outwards from the centre through the farthest corner of the polygon of the feet.
    least : float
        From any foot to the nearest edge.
    """

    side: float
    end: float
    corner: float
    least: float


@dataclass(frozen=True, slots=True)
class LegsPlan:
    """Where the legs go and what follows from it; forces are estimates, not a test.

    Attributes
    ----------
    legs : tuple of Leg
    foot : Foot
    height : float
        Of a leg, mm.
    leg_mass, top_mass : float
        Of one leg and of the top, kg.
    feet : tuple of Point
        Corners of the polygon of the feet on the floor, anticlockwise, mm from the top's centre.
    overhang : Overhang
    tipping : Tipping
    load : float
        What the least tipping force is held against, N.
    problems : tuple of LegProblem
    """

    legs: tuple[Leg, ...]
    foot: Foot
    height: float
    leg_mass: float = field(metadata={"unit": "kg"})
    top_mass: float = field(metadata={"unit": "kg"})
    feet: tuple[Point, ...]
    overhang: Overhang
    tipping: Tipping
    load: float = field(metadata={"unit": "N"})
    problems: tuple[LegProblem, ...]

    @property
    def mass(self) -> float:
        """Of the whole table, kg."""
        return self.top_mass + self.leg_mass * len(self.legs)

    @property
    def stands(self) -> bool:
        """Whether nothing grave stands against these legs."""
        return not any(problem.is_grave for problem in self.problems)


def place_legs(
    wish: LegsWish,
    outline: Outline,
    placement: Placement,
    bearing: SoundWood,
    top_mass: float,
    defects: Sequence[Defect] = (),
) -> LegsPlan:
    """Return the legs under a top, checked.

    Parameters
    ----------
    outline, placement
        The finished top and where it lies on the panel.
    bearing : SoundWood
        What is left of the panel for feet to stand on.
    top_mass : float
        kg.
    defects : sequence of Defect, optional
        Those that spoil bearing, to name in a problem.

    Raises
    ------
    LegsError
        If no foot finds room at the insets asked for.
    """
    foot = wish.foot
    middles = wish.at or middles_for(wish, outline)
    top = Region.from_rings(outline.inner())
    legs = tuple(
        Leg(
            number,
            middle,
            placement(middle),
            foot.outside(middle).placed(placement),
            _placed(foot.hollow(middle), placement),
            _overhang(top, foot, middle),
        )
        for number, middle in enumerate(middles, start=1)
    )
    leg_mass = foot.mass(wish.height, wish.density) if wish.mass is None else wish.mass
    feet = footprint(foot, middles)
    corners = tuple(Point(float(x), float(y)) for x, y in feet)
    farthest_corner = max(corners, key=lambda point: point.norm)
    held = 0.0 if wish.fixing is Fixing.LOOSE else leg_mass
    masses = [(top_mass, top.centroid), *((held, middle) for middle in middles)]
    tipping = tipping_of(outline, feet, *_weighed(masses))
    return LegsPlan(
        legs,
        foot,
        wish.height,
        leg_mass,
        top_mass,
        corners,
        _overhangs(outline, foot, middles, farthest_corner, min(leg.overhang for leg in legs)),
        tipping,
        wish.load,
        problems_of(wish, [(leg.overhang, leg.print) for leg in legs], tipping, bearing, defects),
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


def _overhangs(
    outline: Outline, foot: Foot, middles: Sequence[Point], corner: Point, least: float
) -> Overhang:
    print_ = Bounds.around(middles)
    return Overhang(
        side=(outline.width - foot.width) / 2 - min(print_.top, -print_.bottom),
        end=(outline.length - foot.length) / 2 - min(print_.right, -print_.left),
        corner=Rim.of(outline.path()).way_out(ORIGIN, corner.unit()) - corner.norm,
        least=least,
    )


def _weighed(masses: Sequence[tuple[float, Point]]) -> tuple[float, Point]:
    """Return the whole mass and its centre."""
    whole = math.fsum(mass for mass, _ in masses)
    moment = reduce(Point.__add__, (place * mass for mass, place in masses))
    return whole, moment * (1 / whole) if whole else ORIGIN
