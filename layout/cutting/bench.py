"""What every cut of one job is made with: the top on its panel, datum and tools."""

from __future__ import annotations

from dataclasses import dataclass

from ..marking.instruments import StringCompass
from ..marking.marks import compasses_for
from ..outlines import Circle
from ..panel.datum import Datum
from ..top import Top
from .tools import Tools


@dataclass(frozen=True, slots=True)
class Bench:
    """What every cut of one job is made with."""

    top: Top
    datum: Datum
    tools: Tools

    @property
    def turn(self) -> float:
        """The direction of the core's box; a circle is boxed along the datum."""
        round_one = isinstance(self.top.outline, Circle)
        return self.datum.frame.turn if round_one else self.top.placement.turn

    @property
    def compasses(self) -> tuple[StringCompass, ...]:
        """What the arcs of the top are swung with."""
        return compasses_for(self.top, self.datum)

    @property
    def is_slab(self) -> bool:
        """Whether it is cut roughly to length, flattened, rested and marked again first."""
        return self.datum.struck and self.top.panel.flattened is not None
