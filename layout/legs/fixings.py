"""What holds legs: screws that bite and do not come through, their holes, and joints of glue."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum

from ..errors import LegsError
from ..geometry import Point, Region, at_least, at_most
from ..keys.figures import ABOVE_0
from ..keys.key import take
from ..keys.plane import Pair
from ..panel.build import Kind
from ..top import Top
from .foot import Foot, FootShape
from .plan import LegMatter
from .room import inside_by
from .sag import bearing_points
from .wish import Fixing, FixingPlate, LegsWish

LEFT_UNDER_TIP = 6.0
"""Wood left between the tip of a screw and the show face, mm (common practice)."""

LEAST_BITE, PILOT = 3.0, 0.7
"""A screw bites at least this many of its diameters deep, or it pulls out (our choice); diameter of
a pilot hole, as a share of its own (common practice: 3.5 for 5)."""

RAIL = 20.0
"""How thick a batten or ledger is that holds a slab or apron leg, mm (common practice)."""

RACKS_FROM = 300.0
"""A leg longer than this on a single bolt works loose when the table is pushed, mm (our choice)."""

USUAL, LENGTHS = 5.0, (16.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0)
"""Diameter of the screws of a leg, and lengths that screws are sold in, mm (common practice)."""

SCREW = Pair(ABOVE_0, form="[diameter, length]")


def least_from_edge(kind: Kind) -> float:
    """Return how far a screw keeps from the edge, mm (common practice); layers of board split."""
    return 40.0 if kind.is_board else 25.0


@dataclass(frozen=True, slots=True)
class Screw:
    """A screw by its diameter and its length under the head, mm: ``0 < diameter < length``."""

    diameter: float
    length: float

    def __post_init__(self) -> None:
        pair = take(SCREW, self.size, "legs.screw", error=LegsError)
        for name, given in zip(("diameter", "length"), pair, strict=True):
            object.__setattr__(self, name, given)
        if not self.diameter < self.length:
            raise LegsError(
                f"a screw {self.diameter:g} mm thick and {self.length:g} mm long: "
                "it is longer than thick"
            )

    @property
    def size(self) -> tuple[float, float]:
        """Both, mm."""
        return self.diameter, self.length


def usual_screw(plate: float, top: float) -> Screw | None:
    """Return the longest screw sold that leaves enough under its tip; None where none bites.

    >>> usual_screw(3, 38), usual_screw(3, 15)
    (Screw(diameter=5.0, length=35.0), None)
    """
    least, most = plate + LEAST_BITE * USUAL, top - LEFT_UNDER_TIP + plate
    fit = [length for length in LENGTHS if at_least(length, least) and at_most(length, most)]
    return Screw(USUAL, fit[-1]) if fit else None


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
    """How deep to drill it, mm: to the tip, and no nearer to the face than half of what is left."""
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
    left, least_edge = top - bite, least_from_edge(kind)
    faults = {
        LegMatter.SCREW_COMES_THROUGH: left <= 0,
        LegMatter.SCREW_TOO_DEEP: 0 < left < LEFT_UNDER_TIP,
        LegMatter.SCREW_HARDLY_BITES: bite < LEAST_BITE * screw.diameter,
        LegMatter.SCREW_NEAR_EDGE: from_edge < least_edge,
    }
    return ScrewPlan(
        screw,
        plate,
        bite,
        left,
        pilot=screw.diameter * PILOT,
        pilot_depth=max(0.0, min(bite, top - max(left, LEFT_UNDER_TIP) / 2)),
        from_edge=least_edge,
        longest=max(0.0, top - LEFT_UNDER_TIP + plate),
        faults=tuple(fault for fault, is_found in faults.items() if is_found),
    )


IN_PLATE = 12.0
"""How far in from its edges a plate has its holes, mm (common practice), a quarter at most."""


@dataclass(frozen=True, slots=True)
class Hole:
    """A screw."""

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

    A plate is held near its corners, or by holes so far apart along and across the top, mm.
    """
    if wish.fixing is not Fixing.SCREWED:
        return ()
    face = Region.from_rings(top.outline.inner())
    return tuple(
        Hole(number, place, top.placement(place), inside_by(face, place))
        for number, middle in enumerate(middles, start=1)
        for place in _places(wish, middle, apart)
    )


def plate_keeps_in(wish: LegsWish, kind: Kind, apart: tuple[float, float] | None) -> float:
    """Return how far in from the edge a plate lies so that its screws do not break out, mm."""
    if wish.plate is None or wish.fixing is not Fixing.SCREWED:
        return 0.0
    return least_from_edge(kind) - min(in_plate(wish.plate, apart))


def in_plate(plate: FixingPlate, apart: tuple[float, float] | None) -> tuple[float, float]:
    """Return how far in from its ends and its sides a plate has its holes, mm."""
    if apart is not None:
        return (plate.length - apart[0]) / 2, (plate.width - apart[1]) / 2
    return min(IN_PLATE, plate.length / 4), min(IN_PLATE, plate.width / 4)


def _places(wish: LegsWish, middle: Point, apart: tuple[float, float] | None) -> list[Point]:
    plate = wish.plate
    if plate is not None:
        from_end, from_side = in_plate(plate, apart)
        x, y = plate.length / 2 - from_end, plate.width / 2 - from_side
        return [middle + Point(*at) for at in ((-x, -y), (x, -y), (x, y), (-x, y))]
    if wish.foot.shape is FootShape.SLAB:
        return bearing_points(wish.foot, middle)
    return [middle]


class Glue(Enum):
    """How a glued joint gives; the value is the name that a job file uses."""

    RIGID = "rigid"
    FLEXIBLE = "flexible"


CURE = (2.0, 3.0)
"""What a moisture-curing adhesive cures in from its edge a day, mm (common practice)."""

BED = {Glue.RIGID: 0.2, Glue.FLEXIBLE: 2.0}
"""How thick it lies, mm (common practice: 200 g of wood glue a square metre; an adhesive that gives
and is squeezed thinner has nothing left to give)."""

SPARE = 1.2
"""What is bought is so many times what lies in the joints: the rest is squeezed out (ours)."""

CARTRIDGE = 310.0
"""What a cartridge of adhesive holds, ml (common practice: 290 to 310)."""

RIGID_DAYS = 1.0
"""Until a joint of wood glue is loaded, days (common practice)."""


@dataclass(frozen=True, slots=True)
class Bed:
    """Adhesive in its joints, with a fifth more for what is squeezed out."""

    area: float
    bed: float
    """cm², so many mm thick."""
    pack: float = 0.0
    """What a cartridge holds, ml; 0 where it is counted in ml."""

    @property
    def volume(self) -> float:
        """In ml."""
        return self.area * self.bed / 10 * SPARE

    @property
    def need(self) -> float:
        """Cartridges, or ml."""
        return math.ceil(self.volume / self.pack - 1e-9) if self.pack else self.volume


@dataclass(frozen=True, slots=True)
class GlueJoint:
    """The joint of one leg and the top."""

    area: float = field(metadata={"unit": "mm2"})
    """mm²; of a ring or a tube only its wall."""
    block: tuple[float, float] | None
    """Length and width, or twice the diameter, of a block that would fill a hollow leg and more
    than double its joint, mm; None for a solid leg."""
    block_area: float = field(metadata={"unit": "mm2"})
    """What that block adds, mm²."""
    bed: float
    """How thick the adhesive lies, mm."""
    volume: float = field(metadata={"unit": "ml"})
    """To buy for all legs, ml."""
    cartridges: int
    """So many of a flexible adhesive; 0 of wood glue, which comes in bottles."""
    least_days: float = field(metadata={"unit": "d"})
    most_days: float = field(metadata={"unit": "d"})
    """Until it may be loaded, days: a flexible adhesive has then cured to the middle of the widest
    joint, a filled leg's block among them."""


def glue_joint(foot: Foot, legs: int = 4, glue: Glue = Glue.FLEXIBLE) -> GlueJoint:
    """Return the joint under each of so many legs of this section.

    >>> glue_joint(Foot.square(60)).most_days
    15.0
    """
    bought = Bed((foot.section + foot.free) * legs / 100, BED[glue], CARTRIDGE)
    cartridges, least, most = 0, RIGID_DAYS, RIGID_DAYS
    if glue is Glue.FLEXIBLE:
        cartridges, (most, least) = int(bought.need), (foot.thin / 2 / pace for pace in CURE)
    block = foot.inside if foot.shape.has_wall else None
    volume = bought.volume
    return GlueJoint(foot.section, block, foot.free, BED[glue], volume, cartridges, least, most)
