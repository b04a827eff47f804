"""The legs worked out: where each stands, what they weigh, whether the table stands."""

from __future__ import annotations

from dataclasses import dataclass, field

from ..concern import Concern
from ..geometry import Path, Point
from .concern import GRAVE
from .foot import Foot
from .tipping import EdgeForce, Tipping


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
