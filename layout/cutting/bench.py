"""What every cut of one job is made with: panel, datum, tools, and where the core lies."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..geometry.path import Path
from ..geometry.placement import Placement
from ..marking.instruments import StringCompass
from ..marking.marks import compasses_for
from ..outlines import Circle, Outline
from ..panel.datum import Datum
from ..panel.panel import Panel
from ..top.runs import Runs, runs_of
from .tools import Tools


@dataclass(frozen=True, slots=True)
class Bench:
    """What every cut of one job is made with; `kept` are edges of the panel that stay."""

    panel: Panel
    datum: Datum
    tools: Tools
    outline: Outline
    placement: Placement
    lipping: float
    kept: tuple[Path, ...] = ()

    @property
    def runs(self) -> Runs:
        """The line that is cut, broken where it lies on edges that are kept."""
        return _runs(self.outline, self.placement, self.lipping, self.kept)

    @property
    def turn(self) -> float:
        """The direction of the core's box; a circle is boxed along the datum."""
        round_one = isinstance(self.outline, Circle)
        return self.datum.frame.turn if round_one else self.placement.turn

    @property
    def compasses(self) -> tuple[StringCompass, ...]:
        """What the arcs of the top are swung with."""
        turn = self.placement.turn - self.datum.frame.turn
        return compasses_for(self.outline, turn, self.lipping)

    @property
    def half_length(self) -> float:
        """Half the length of the core, mm."""
        return self.outline.length / 2 - self.lipping

    @property
    def half_width(self) -> float:
        """Half the width of the core, mm."""
        return self.outline.width / 2 - self.lipping

    @property
    def thickness(self) -> float:
        """Of the wood when the curve is cut, mm."""
        return self.panel.made_thickness

    @property
    def is_slab(self) -> bool:
        """Whether it is cut roughly to length, flattened, rested and marked again first."""
        return self.datum.struck and self.panel.flattened is not None


def core_path(outline: Outline, placement: Placement, lipping: float) -> Path:
    """Return the line that is cut, on the panel: the finish line less the lipping."""
    own = outline.parallel(-lipping) if lipping else outline.path()
    return own.placed(placement)


@lru_cache(maxsize=8)
def _runs(outline: Outline, placement: Placement, lipping: float, kept: tuple[Path, ...]) -> Runs:
    return runs_of(core_path(outline, placement, lipping), kept)
