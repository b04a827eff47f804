"""The legs that the maker wishes for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..errors import LegsError
from ..geometry.point import Point


class FootShape(Enum):
    """What a foot looks like from above; the value is the name that a job file uses."""

    ROUND = "round"
    SQUARE = "square"
    RECTANGULAR = "rectangular"
    RING = "ring"


class Fixing(Enum):
    """How the legs are held to the top; the value is the name that a job file uses."""

    SCREWED = "screwed"
    GLUED = "glued"
    LOOSE = "loose"


@dataclass(frozen=True, slots=True)
class Foot:
    """The print of one leg under the top.

    Attributes
    ----------
    shape : FootShape
    length, width : float
        Along and across the top, mm; the diameter or side where both are one.
    wall : float
        Thickness of a ring's wall, mm; 0 for a solid foot.

    Raises
    ------
    LegsError
        If a size is not above 0, or a ring's wall is not between 0 and its radius.
    """

    shape: FootShape
    length: float
    width: float
    wall: float = 0.0

    def __post_init__(self) -> None:
        if not (0 < self.length < math.inf and 0 < self.width < math.inf):
            raise LegsError(f"a foot of {self.length:g} by {self.width:g} mm is not above 0")
        ring = self.shape is FootShape.RING
        if ring and not 0 < self.wall < min(self.length, self.width) / 2:
            raise LegsError(
                f"a ring {self.length:g} mm wide with a wall of {self.wall:g} mm: "
                "the wall is above 0 and below half the width"
            )

    @classmethod
    def round(cls, diameter: float) -> Foot:
        """Return a round foot of this diameter, mm."""
        return cls(FootShape.ROUND, diameter, diameter)

    @classmethod
    def square(cls, side: float) -> Foot:
        """Return a square foot of this side, mm."""
        return cls(FootShape.SQUARE, side, side)

    @classmethod
    def ring(cls, diameter: float, wall: float) -> Foot:
        """Return a hollow round foot, mm."""
        return cls(FootShape.RING, diameter, diameter, wall)


@dataclass(frozen=True, slots=True)
class LegsWish:
    """How many legs, of what kind, and where.

    Attributes
    ----------
    count : int
        At least 3 where no places are given.
    foot : Foot
    at : tuple of Point
        Middles of the feet from the centre of the top, x along its length, mm; empty to place
        `count` legs by inset.
    inset_side, inset_end : float or None
        From the top's edge to the outside of the foot, at the sides and at the ends, mm; None for
        what is usual.
    height : float
        Length of a leg, mm.
    mass : float or None
        Of one leg, kg; None to work it out from size, height and density.
    density : float
        Of the legs, kg/m³.
    fixing : Fixing
    load : float
        Vertical force at the edge that the table is held against, N.

    Raises
    ------
    LegsError
        If a figure is out of its limits.
    """

    count: int = 4
    foot: Foot = Foot(FootShape.SQUARE, 60.0, 60.0)  # noqa: RUF009 frozen, so it may be shared
    at: tuple[Point, ...] = ()
    inset_side: float | None = None
    inset_end: float | None = None
    height: float = 700.0
    mass: float | None = None
    density: float = 650.0
    fixing: Fixing = Fixing.SCREWED
    load: float = 600.0

    def __post_init__(self) -> None:
        if self.count < 3:
            raise LegsError(f"{self.count} legs do not stand: 3 at least")
        for name, value in (
            ("inset_side", self.inset_side),
            ("inset_end", self.inset_end),
            ("mass", self.mass),
        ):
            if value is not None and not 0 <= value < math.inf:
                raise LegsError(f"{name} of {value:g} is below 0")
        if not 0 < self.height < math.inf:
            raise LegsError(f"a leg {self.height:g} mm long is not above 0")
