"""The legs that the maker wishes for."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..errors import LegsError
from ..geometry.point import Point
from .foot import Foot, FootShape

__all__ = ["Fixing", "Foot", "FootShape", "LegsWish"]


class Fixing(Enum):
    """How the legs are held to the top; the value is the name that a job file uses."""

    SCREWED = "screwed"
    GLUED = "glued"
    LOOSE = "loose"


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
    seated : bool
        Whether people sit at it: then a long top overhangs more at its ends, for their knees.

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
    seated: bool = True

    def __post_init__(self) -> None:
        count = len(self.at) or self.count
        if count < 3:
            raise LegsError(f"{count} legs do not stand: 3 at least")
        for name, value in (
            ("inset_side", self.inset_side),
            ("inset_end", self.inset_end),
            ("mass", self.mass),
            ("density", self.density),
            ("load", self.load),
        ):
            if value is not None and not 0 <= value < math.inf:
                raise LegsError(f"{name} of {value:g} is below 0")
        if not 0 < self.height < math.inf:
            raise LegsError(f"a leg {self.height:g} mm long is not above 0")
