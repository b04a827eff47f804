"""The top: an outline in its place on the panel that it is cut from.

Every craft takes one: the marks, the cuts, the legs and the template of a top all follow from it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property, reduce

from ..geometry import Path, Placement, Region
from ..geometry.polygon import Polygon
from ..outlines import Outline
from ..panel import Panel, SoundWood, Spoils
from ..panel.datum import Datum
from .runs import Runs, runs_of

_LONG = 1.1
"""Length over width from which a top is seen to lie some way (our choice)."""


@dataclass(frozen=True)
class Top:
    """A top on its panel."""

    panel: Panel = field(metadata={"json": False})
    outline: Outline
    """The finished top as it is made; its sizes are those of the sheets."""
    exact: Outline | None = field(default=None, kw_only=True)
    """The finished top as it was found, before rounding; None where no search found it."""
    placement: Placement
    """Where its centre lies on the panel, and its turn."""
    lipping: float = 0.0
    """Thickness of the lipping round the core, mm; 0 for none."""
    kept: tuple[Path, ...] = field(default=(), metadata={"json": False})
    """Edges of the panel that stay, the wood on their left: nothing is cut where it lies on them.
    """

    def line(self, outside: float = 0.0) -> Path:
        """Return the true parallel of the finish line on the panel, mm outside it, or inside."""
        return self.outline.line(outside).placed(self.placement)

    @cached_property
    def finish(self) -> Path:
        """The finished edge, on the panel."""
        return self.line()

    @property
    def polygon(self) -> Polygon:
        """The finished top on the panel as a shapely geometry, inside the true outline, mm."""
        return Region.of(self.finish).polygon

    @cached_property
    def core(self) -> Path:
        """The line that is cut, on the panel: `lipping` inside the finish line."""
        return self.line(-self.lipping)

    @cached_property
    def runs(self) -> Runs:
        """The core line, broken where it lies on edges that are kept."""
        return runs_of(self.core, self.kept)

    @property
    def core_length(self) -> float:
        """The length of the core, mm."""
        return self.outline.length - 2 * self.lipping

    @property
    def core_width(self) -> float:
        """The width of the core, mm."""
        return self.outline.width - 2 * self.lipping

    @property
    def area(self) -> float:
        """The area of the finished top, mm²."""
        return self.outline.area

    @property
    def thickness(self) -> float:
        """What it is made of is so thick, mm: flattened where it is, else as found."""
        return self.panel.made_thickness

    @property
    def mass(self) -> float:
        """The mass of the finished top, kg, a lipping weighed as the panel."""
        return self.panel.substance.mass(self.area, self.thickness)

    @property
    def grain(self) -> float:
        """Direction of the grain from the length of the top, radians."""
        return self.panel.grain - self.placement.turn

    @property
    def off_grain(self) -> float:
        """How far its length lies from the grain, radians: 0 to a quarter turn.

        0 for a top about as long as it is wide: it has no length that the eye follows.
        """
        is_long = self.outline.length > _LONG * self.outline.width
        return abs(math.remainder(self.grain, math.pi)) if is_long else 0.0

    def turn_from(self, datum: Datum) -> float:
        """Return how far its long axis turns from the datum, radians."""
        return self.placement.turn - datum.frame.turn

    def sound_for(self, *purposes: Spoils, tape_error: float = 0.0) -> SoundWood:
        """Return what of its panel is left for all of these purposes."""
        sound = (self.panel.sound_for(purpose, tape_error=tape_error) for purpose in purposes)
        return reduce(SoundWood.meet, sound)
