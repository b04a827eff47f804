"""What the maker asks of the table on its legs, besides where they stand."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from ..errors import LegsError
from ..panel.build import Kind
from .movement import SWING
from .people import PLACE
from .sag import Burden
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

    goal: Goal = Goal.FIRMEST
    """What makes legs the best."""
    counts: tuple[int, ...] = ()
    """How many legs are compared, and the best of them taken; empty where the legs stand as they
    are wished."""
    spread: float = field(default=Burden().spread, metadata={"unit": "kg/m2"})
    """What lies on it for years, kg/m²."""
    force: float = field(default=Burden().force, metadata={"unit": "N"})
    """What presses on it for a while at the worst place, N."""
    creep: float | None = field(default=None, metadata={"unit": ""})
    """What a lasting load makes of the first sag; None for what is usual for the build."""
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
        self.burden(Kind.SOLID)  # holds the loads to their limits

    def burden(self, kind: Kind) -> Burden:
        """Return what a top of this build has to carry."""
        creep = Burden.on(kind).creep if self.creep is None else self.creep
        return Burden(self.spread, self.force, creep)
