"""What every cut of one job is made with: the top on its panel, datum, tools, and which face is up.

The teeth of a hand-held saw and of a jigsaw come up through the work and chip the face that they
leave, so the show face lies down, and everything is seen mirrored; holes of nails and compass
points are then in the underside too. A slab is marked on the face that its line is struck on.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..marking.instruments import StringCompass
from ..marking.marks import compasses_for
from ..panel import Face, Kind
from ..panel.datum import Datum
from ..top import Top
from .tools import Stroke, Tools

_CHIPS = (Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.VENEERED, Kind.HOLLOW, Kind.PARTICLEBOARD, Kind.MDF)


class FaceReason(Enum):
    """Why that face lies up."""

    ASKED = "the job asks for it"
    STRUCK = "the datum is struck on this face"
    TEETH = "the teeth chip the face that lies up"


@dataclass(frozen=True, slots=True)
class WorkFace:
    """How the show face lies while the top is marked and sawn."""

    show_face: Face
    """UP or DOWN."""
    why: FaceReason
    chips: bool
    """Whether the face of this build chips so readily that the line is knifed on it first."""

    @property
    def mirrored(self) -> bool:
        """Whether the panel is seen from its underside, left and right swapped."""
        return self.show_face is Face.DOWN


@dataclass(frozen=True, slots=True)
class Bench:
    """What every cut of one job is made with."""

    top: Top
    datum: Datum
    tools: Tools

    @property
    def turn(self) -> float:
        """The direction of the core's box; a circle is boxed along the datum."""
        return (self.datum.frame if self.top.outline.is_round else self.top.placement).turn

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
        """How the show face lies, as the maker wishes, or as suits the build and the datum."""
        wished, kind = self.tools.show_face, self.top.panel.build.kind
        face, why = Face.DOWN, FaceReason.TEETH
        if wished is not None:
            face, why = wished, FaceReason.ASKED
        elif self.datum.struck and not kind.is_board:
            face, why = Face.UP, FaceReason.STRUCK
        return WorkFace(face, why, kind in _CHIPS)

    @property
    def keeps_left(self) -> bool:
        """Whether the saw, seen show face up, keeps the wood on its left: under its wider side."""
        left, right = self.tools.guide_left, self.tools.guide_right
        return (right is None or (left is not None and left >= right)) != self.face.mirrored

    def guide(self, *, keeps_left: bool) -> tuple[float | None, str]:
        """Return how far a saw's guide stands from a line, mm, and on which side of the blade."""
        left, tools = keeps_left != self.face.mirrored, self.tools
        return (tools.guide_left, "left") if left else (tools.guide_right, "right")

    def left_by(self, stroke: Stroke) -> float:
        """Return what a stroke of saw or jigsaw leaves outside the line, mm."""
        curved = not self.top.runs.is_straight
        return self.tools.left_by(stroke, self.top.thickness, curved=curved)
