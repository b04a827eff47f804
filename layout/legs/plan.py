"""The legs worked out: where each stands, their weight, what tips and stands against them."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from ..concern import Concern
from ..geometry import Path, Point
from .foot import Foot


class LegMatter(Enum):
    """What stands against the legs and the table on them, or is worth knowing: `Concern.matter`.

    Of `Concern.who` the first is the number of a leg, or all are; what follows a single leg are the
    defects that are to blame. `found` and `limit` are mm, but N of a force and kg of a mass.
    """

    BEYOND_EDGE = "beyond the edge"
    POOR_BEARING = "poor bearing"
    OVERLAP = "overlap"
    TIPS_BY_ITSELF = "tips by itself"
    MOVED = "moved off a spoilt place"
    NEAR_EDGE = "near the edge"
    STICKS_OUT = "sticks out"
    TIPS_UNDER_LOAD = "tips under the load"
    CLIMBED_ON = "tips under who climbs on it"
    ROCKS_AS_BLOCKS = "loose legs rock"
    ROCKS = "rocks"
    LOOSE = "loose"
    HEAVY_LEGS = "heavy legs"

    HOLLOW = "nothing to bite"
    FRAME_UNKNOWN = "stiles and rails not known"
    NO_SCREW = "no screw holds"
    SCREW_COMES_THROUGH = "comes through"
    SCREW_TOO_DEEP = "too deep"
    SCREW_HARDLY_BITES = "hardly bites"
    SCREW_NEAR_EDGE = "near the edge of the wood"
    SLOT_RUNS_OUT = "slot at the edge of its plate"
    ONE_BOLT = "one bolt in a tall leg"
    GLUE_FIGHTS = "glue fights the wood"
    METAL_GLUED = "rigid glue on metal or masonry"
    HARD_SEAT = "masonry under the top"

    NO_BATTEN = "no room for a batten"
    BATTEN_MISSING = "fewer battens than wished"

    SAGS = "sags"
    SAGS_LATER = "sags in the end"
    SAG_UNKNOWN = "sag not known"
    WAIST = "a waist governs"

    LOW = "knees touch"
    NOBODY_SITS = "nobody sits"


GRAVE = frozenset(
    (LegMatter.BEYOND_EDGE, LegMatter.POOR_BEARING, LegMatter.OVERLAP, LegMatter.TIPS_BY_ITSELF)
)
"""The legs cannot stay as they are; the rest is worth knowing."""


@dataclass(frozen=True, slots=True)
class EdgeForce:
    """The vertical force at a place that just tips the table."""

    place: Point
    """On the top, mm from its centre."""
    force: float = field(metadata={"unit": "N"})
    """N; infinite where no force tips it."""


@dataclass(frozen=True, slots=True)
class Tipping:
    """What tips a table."""

    weight: float = field(metadata={"unit": "N"})
    """That holds it down, N."""
    edge: float
    """How far in from the edge the force presses, mm."""
    least: EdgeForce
    """Where it stands least firmly."""
    at_edge: EdgeForce
    """The same at its very edge."""
    side: float = field(metadata={"unit": "N"})
    end: float = field(metadata={"unit": "N"})
    """The force at the middle of a side and of an end, the lesser of the two, N."""
    around: tuple[EdgeForce, ...]
    """At even steps round the edge."""
    push: float = field(metadata={"unit": "N"})
    """The least level push at the height of the top that tips it, N, if no foot slides."""
    push_way: float = field(metadata={"unit": "rad"})
    """Which way that push goes, radians from the length of the top."""
    rocks: bool = False
    """Whether loose legs give way to that push before the table tips over as one."""


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg."""

    number: int
    """From 1, anticlockwise from the lower left of the top; the middle one last."""
    middle: Point
    """Of its head, from the centre of the top, x along its length, mm."""
    on_panel: Point
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
    """From its head, plate and all, to the edge of the top, mm; negative where it sticks out."""
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
