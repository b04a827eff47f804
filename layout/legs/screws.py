"""Screws that bite and do not come through, and the holes that hold legs to the top."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ..errors import LegsError
from ..geometry import ORIGIN, Point, Region, at_least, at_most
from ..keys.figures import ABOVE_0
from ..keys.key import take
from ..keys.plane import Pair
from ..panel.build import Kind
from ..top import Top
from .concern import LegMatter
from .foot import FootShape
from .room import inside_by
from .sag import bearing_points
from .wish import Fixing, LegsWish

LEFT_UNDER_TIP = 6.0
"""Wood left between the tip of a screw and the show face, mm (common practice)."""

FROM_EDGE = 25.0
"""Least distance of a screw from the edge of solid wood, mm (common practice)."""

FROM_EDGE_BOARD = 40.0
"""The same in board, whose layers split off (common practice)."""


def least_from_edge(kind: Kind) -> float:
    """Return how far a screw keeps from the edge of a top of this build, mm."""
    return FROM_EDGE_BOARD if kind.is_board else FROM_EDGE


LEAST_BITE = 3.0
"""A screw bites at least this many of its diameters deep, or it pulls out (our choice)."""

PILOT = 0.7
"""Diameter of a pilot hole, as a share of the screw's (common practice: 3.5 for 5)."""


RAIL = 20.0
"""Thickness of the batten or the ledger through which a slab, or a leg under an apron, is held, mm
(common practice)."""

RACKS_FROM = 300.0
"""A leg longer than this on a single bolt works loose when the table is pushed, mm (our choice)."""

LENGTHS = (16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0)
"""Lengths that screws are sold in, mm (common practice)."""

USUAL = 5.0
"""Diameter of the screws of a leg, mm (common practice)."""


SCREW = Pair(ABOVE_0, form="[diameter, length]")


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw by its diameter and its length under the head, mm.

    Raises
    ------
    LegsError
        If not ``0 < diameter < length``.
    """

    diameter: float
    length: float

    def __post_init__(self) -> None:
        pair = take(SCREW, (self.diameter, self.length), "legs.screw", error=LegsError)
        object.__setattr__(self, "diameter", pair[0])
        object.__setattr__(self, "length", pair[1])
        if not self.diameter < self.length:
            raise LegsError(
                f"a screw {self.diameter:g} mm thick and {self.length:g} mm long: "
                "it is longer than thick"
            )


def usual_screw(plate: float, top: float, diameter: float = USUAL) -> Screw | None:
    """Return the longest screw sold that leaves enough under its tip; None where none bites.

    >>> usual_screw(3, 38), usual_screw(3, 15)
    (Screw(diameter=5.0, length=35.0), None)
    """
    most = top - LEFT_UNDER_TIP + plate
    least = plate + LEAST_BITE * diameter
    fit = [
        length
        for length in LENGTHS
        if at_least(length, max(least, diameter + 1)) and at_most(length, most)
    ]
    return Screw(diameter, fit[-1]) if fit else None


@dataclass(frozen=True, slots=True)
class ScrewPlan:
    """A screw in a top."""

    screw: Screw
    through: float
    """What it passes through first, mm: a plate, a batten or a rail."""
    bite: float
    """How deep it goes into the top, mm."""
    left: float
    """Wood left under its tip, mm; negative where it comes through."""
    pilot: float
    """Diameter of its pilot hole, mm."""
    pilot_depth: float
    """How deep to drill that, mm: to the tip, and never nearer to the face than half of what is
    left."""
    from_edge: float
    """Least distance from the edge of the top, mm."""
    longest: float
    """The longest screw that leaves enough under its tip, mm."""
    faults: tuple[LegMatter, ...]

    @property
    def is_refused(self) -> bool:
        """Whether it must not be driven."""
        return LegMatter.SCREW_COMES_THROUGH in self.faults


def screw_in(
    screw: Screw, plate: float, top: float, kind: Kind, from_edge: float = math.inf
) -> ScrewPlan:
    """Return how a screw holds in a top through something so thick, 0 for nothing; all in mm."""
    bite = max(screw.length - plate, 0.0)
    left = top - bite
    least_edge = least_from_edge(kind)
    faults = []
    if left <= 0:
        faults.append(LegMatter.SCREW_COMES_THROUGH)
    elif left < LEFT_UNDER_TIP:
        faults.append(LegMatter.SCREW_TOO_DEEP)
    if bite < LEAST_BITE * screw.diameter:
        faults.append(LegMatter.SCREW_HARDLY_BITES)
    if from_edge < least_edge:
        faults.append(LegMatter.SCREW_NEAR_EDGE)
    return ScrewPlan(
        screw,
        plate,
        bite,
        left,
        pilot=screw.diameter * PILOT,
        pilot_depth=max(0.0, min(bite, top - max(left, LEFT_UNDER_TIP) / 2)),
        from_edge=least_edge,
        longest=max(0.0, top - LEFT_UNDER_TIP + plate),
        faults=tuple(faults),
    )


IN_PLATE = 12.0
"""The holes of a plate lie this far inside its edges, mm (common practice); at most a quarter of
its width."""


@dataclass(frozen=True, slots=True)
class Hole:
    """One screw."""

    leg: int
    """Number of the leg that it holds."""
    place: Point
    """mm from the centre of the top."""
    on_panel: Point
    from_edge: float
    """From its middle to the edge of the top, mm; negative past it."""


def holes_of(
    wish: LegsWish, middles: Sequence[Point], top: Top, apart: tuple[float, float] | None = None
) -> tuple[Hole, ...]:
    """Return the screws of legs with these middles, leg by leg; none of glued or loose ones.

    A plate is held near its corners, or by holes so far apart along and across the top, mm; a slab
    in its middle and near its ends, any other leg by one screw in its middle.
    """
    if wish.fixing is not Fixing.SCREWED:
        return ()
    face = Region.from_rings(top.outline.inner())
    held = []
    for number, middle in enumerate(middles, start=1):
        for place in _places(wish, middle, apart):
            held.append(Hole(number, place, top.placement(place), inside_by(face, place)))
    return tuple(held)


def plate_keeps_in(wish: LegsWish, kind: Kind, apart: tuple[float, float] | None) -> float:
    """Return how far in from the edge a plate lies so that its screws do not break out, mm."""
    if wish.plate is None or wish.fixing is not Fixing.SCREWED:
        return 0.0
    hole = _places(wish, ORIGIN, apart)[2]
    inside = min(wish.plate.length / 2 - hole.x, wish.plate.width / 2 - hole.y)
    return least_from_edge(kind) - inside


def _places(wish: LegsWish, middle: Point, apart: tuple[float, float] | None) -> list[Point]:
    plate = wish.plate
    if plate is not None:
        inside = [size - 2 * min(IN_PLATE, size / 4) for size in (plate.length, plate.width)]
        x, y = (v / 2 for v in (apart or inside))
        return [middle + Point(*at) for at in ((-x, -y), (x, -y), (x, y), (-x, y))]
    if wish.foot.shape is FootShape.SLAB:
        return bearing_points(wish.foot, middle)
    return [middle]
