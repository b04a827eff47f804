"""The legs that the maker wishes for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..errors import LegsError
from ..geometry.point import Point
from ..geometry.tolerance import SAME_POINT
from .foot import Foot, FootShape
from .materials import MASONRY, METALS

__all__ = ["Fixing", "FixingPlate", "Foot", "FootShape", "Goal", "Lean", "LegsWish"]

STEEPEST = 30.0
"""No leg is splayed farther, degrees (our choice)."""


class Goal(Enum):
    """What makes legs the best; the value is the name that a job file uses."""

    MOST_STABLE = "most stable"
    LEAST_SAG = "sags least"
    KNEE_ROOM = "most knee room"
    EVEN_OVERHANG = "even overhang"


class Fixing(Enum):
    """How the legs are held to the top; the value is the name that a job file uses."""

    SCREWED = "screwed"
    GLUED = "glued"
    LOOSE = "loose"


class Lean(Enum):
    """Which way splayed legs lean from top to floor; the value is the name a job file uses."""

    OUTWARDS = "outwards"
    ENDS = "towards the ends"
    SIDES = "towards the sides"


@dataclass(frozen=True, slots=True)
class FixingPlate:
    """A metal plate on the head of a leg that takes its screws.

    Raises
    ------
    LegsError
        If a size is not above 0.
    """

    length: float
    width: float
    thickness: float
    """Along and across the top, mm."""

    def __post_init__(self) -> None:
        if not all(0 < v < math.inf for v in (self.length, self.width, self.thickness)):
            raise LegsError(
                f"a plate {self.length:g} by {self.width:g} by {self.thickness:g} mm is not above 0"
            )

    @property
    def mass(self) -> float:
        """Of steel, kg."""
        return METALS["steel"].mass(self.length * self.width, self.thickness)

    @property
    def form(self) -> Foot:
        """What it covers, as a foot of its sizes does."""
        return Foot(FootShape.RECTANGULAR, self.length, self.width)


@dataclass(frozen=True, slots=True)
class LegsWish:
    """How many legs, of what kind, and where.

    Raises
    ------
    LegsError
        If a figure is out of its limits.
    """

    count: int = 4
    """At least 3 where no places are given; 2 of slabs."""
    foot: Foot = Foot(FootShape.SQUARE, 60.0, 60.0)  # noqa: RUF009 frozen, so it may be shared
    at: tuple[Point, ...] = ()
    """Middles of the feet from the centre of the top, x along its length, mm; empty to place
    `count` legs by inset."""
    inset_side: float | None = None
    inset_end: float | None = None
    """From the top's edge to the outside of the foot, at the sides and at the ends, mm; None for
    what is usual."""
    height: float = 700.0
    """From the floor to the underside of the top, plate and all, mm."""
    mass: float | None = None
    """Of one leg, kg; None to work it out from size, height and density."""
    density: float = 650.0
    """Of the legs, kg/m³."""
    fixing: Fixing = Fixing.SCREWED
    load: float = 600.0
    """Vertical force at the edge that the table is held against, N."""
    seated: bool = True
    """Whether people sit at it: then a long top overhangs more at its ends, for their knees."""
    plate: FixingPlate | None = None
    """On the head of each leg."""
    splay_deg: float = 0.0
    """How far a leg leans from upright, degrees."""
    lean: Lean = Lean.OUTWARDS
    """Which way it leans, seen from above."""
    material: str = ""
    """Of the legs, by its name; empty where only a density is known."""
    keep_in: float = 0.0
    """Nothing is fixed nearer to the edge of the top than this, mm: a bevel under it."""

    def __post_init__(self) -> None:
        count = len(self.at) or self.count
        least = 2 if self.foot.shape is FootShape.SLAB else 3
        if count < least:
            raise LegsError(f"{count} legs do not stand: {least} at least")
        if not 0 <= self.splay_deg <= STEEPEST:
            raise LegsError(f"a splay of {self.splay_deg:g}° is not from 0 to {STEEPEST:g}°")
        for name, value in (
            ("inset_side", self.inset_side),
            ("inset_end", self.inset_end),
            ("mass", self.mass),
            ("density", self.density),
            ("load", self.load),
            ("keep_in", self.keep_in),
        ):
            if value is not None and not 0 <= value < math.inf:
                raise LegsError(f"{name} of {value:g} is below 0")
        rest = self.height - (self.plate.thickness if self.plate else 0.0)
        if not 0 < rest < math.inf:
            raise LegsError(f"a leg {rest:g} mm long is not above 0")

    @property
    def splay(self) -> float:
        """How far a leg leans from upright, radians."""
        return math.radians(self.splay_deg)

    @property
    def is_masonry(self) -> bool:
        """Whether the legs are brick, fired clay or concrete."""
        return self.material in MASONRY

    @property
    def leg_length(self) -> float:
        """Along the leg, from the floor to the plate or the top, mm: longer where it is splayed."""
        rest = self.height - (self.plate.thickness if self.plate else 0.0)
        return rest / math.cos(self.splay)

    @property
    def leg_mass(self) -> float:
        """Of one leg with its plate, kg."""
        if self.mass is not None:
            return self.mass
        plate = self.plate.mass if self.plate else 0.0
        return self.foot.mass(self.leg_length, self.density) + plate

    @property
    def on_top(self) -> Foot:
        """What holds both foot and plate, if one is longer and the other wider."""
        if self.plate is None or (self.foot.is_round and self.plate.length < self.foot.length):
            return self.foot
        return Foot(
            FootShape.RECTANGULAR,
            max(self.plate.length, self.foot.length),
            max(self.plate.width, self.foot.width),
        )

    def on_floor(self, middle: Point) -> Point:
        """Return where the foot of a leg stands whose head is at `middle`."""
        way = {
            Lean.OUTWARDS: middle,
            Lean.ENDS: Point(middle.x, 0.0),
            Lean.SIDES: Point(0.0, middle.y),
        }[self.lean]
        if not self.splay or way.norm < SAME_POINT:
            return middle
        return middle + way.unit() * (self.height * math.tan(self.splay))
