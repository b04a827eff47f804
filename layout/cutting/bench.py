"""What every cut of one job is made with: the top on its panel, datum and tools."""

from __future__ import annotations

from dataclasses import dataclass

from ..marking.instruments import StringCompass
from ..marking.marks import compasses_for
from ..panel.datum import Datum
from ..top import Top
from .tools import Stroke, Tools
from .work_face import WorkFace, work_face


@dataclass(frozen=True, slots=True)
class Bench:
    """What every cut of one job is made with."""

    top: Top
    datum: Datum
    tools: Tools

    @property
    def turn(self) -> float:
        """The direction of the core's box; a circle is boxed along the datum."""
        round_one = self.top.outline.is_round
        return self.datum.frame.turn if round_one else self.top.placement.turn

    @property
    def compasses(self) -> tuple[StringCompass, ...]:
        """What the arcs of the top are swung with."""
        return compasses_for(self.top, self.datum)

    @property
    def is_slab(self) -> bool:
        """Whether it is cut roughly to length, flattened, rested and marked again first."""
        return self.datum.struck and self.top.panel.flattened is not None

    @property
    def face(self) -> WorkFace:
        """How the work lies while it is sawn."""
        return work_face(self.top.panel, self.datum, self.tools.show_face)

    @property
    def guide_side(self) -> str:
        """On which side of the blade a guide stands: that of the wider side of the base."""
        tools = self.tools
        left = tools.guide is None or tools.guide == tools.guide_left
        return "left" if left else "right"

    @property
    def keeps_left(self) -> bool:
        """Whether the saw is pushed with the kept wood on its left, seen show face up."""
        return (self.guide_side == "left") != self.face.mirrored

    def left_by(self, stroke: Stroke) -> float:
        """Return what a stroke of saw or jigsaw leaves outside the line, mm."""
        curved = not self.top.runs.is_straight
        return self.tools.left_by(stroke, self.top.thickness, curved=curved)
