"""What the maker asks of the table on its legs, besides where they stand."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from ..errors import LegsError
from .movement import SWING
from .people import PLACE
from .sag import Loads, creep_of
from .screws import Screw
from .wish import Goal

__all__ = ["Glue", "TableWish"]


class Glue(Enum):
    """How a glued joint gives; the value is the name that a job file uses."""

    RIGID = "rigid"
    FLEXIBLE = "flexible"


@dataclass(frozen=True, slots=True)
class TableWish:
    """What the maker asks of the table as a whole.

    Raises
    ------
    LegsError
        If a figure is out of its limits.
    """

    goal: Goal = Goal.MOST_STABLE
    """What makes legs the best."""
    counts: tuple[int, ...] = ()
    """How many legs are compared, and the best of them taken; empty where the legs stand as they
    are wished."""
    long_term: float = field(default=Loads().long_term, metadata={"unit": "kg/m2"})
    """What lies on it for years, kg/m²."""
    point: float = field(default=Loads().point, metadata={"unit": "N"})
    """What presses on it for a while at the worst place, N."""
    creep: float | None = field(default=None, metadata={"unit": ""})
    """What a lasting load makes of the first sag; None for what is usual for the material."""
    place: float = PLACE
    """Edge that a diner takes, mm."""
    screw: Screw | None = None
    """None to have one proposed."""
    holes: tuple[float, float] | None = None
    """How far the outer screw holes of a plate lie apart, along and across the top, mm; None for
    holes near its corners."""
    glue: Glue = Glue.RIGID
    """Of legs that are glued."""
    framed: bool = False
    """Whether rails or an apron join the legs."""
    swing: float = field(default=SWING, metadata={"unit": "%"})
    """Of the wood's moisture over a year, %."""
    quartered: bool = False
    """Whether solid wood is sawn on the quarter."""

    def __post_init__(self) -> None:
        if any(count < 2 for count in self.counts):
            raise LegsError(f"{min(self.counts)} legs do not stand: compare 3 and more")
        if not 0 < self.place < math.inf:
            raise LegsError(f"a place of {self.place:g} mm seats nobody: it is above 0")
        if self.holes is not None and not all(0 < apart < math.inf for apart in self.holes):
            raise LegsError("the holes of a plate lie apart: give more than 0")
        if not 0 <= self.swing <= 30:
            raise LegsError(f"a moisture swing of {self.swing:g} % is not from 0 to 30 %")
        self.loads("")  # holds them to their limits

    def loads(self, material: str) -> Loads:
        """Return what a top of a material of that name has to carry."""
        return Loads(
            self.long_term, self.point, creep_of(material) if self.creep is None else self.creep
        )
