"""Which face lies up while a top is marked and sawn.

The teeth of a hand-held circular saw and of a jigsaw come up through the work and chip the face
that they leave, so the show face lies down, and everything is seen mirrored; a hole left by a nail
or a compass point is then in the underside too. A slab is marked on the face that its line is
struck on.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from ..panel.build import Kind
from ..panel.datum import Datum
from ..panel.defect import Face
from ..panel.panel import Panel

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

    @property
    def is_knifed(self) -> bool:
        """Whether the saw lines are knifed on the show face, so that it does not chip."""
        return self.chips or not self.mirrored


def work_face(panel: Panel, datum: Datum, wished: Face | None = None) -> WorkFace:
    """Return how the show face lies, as wished, or as suits the build and the datum."""
    chips = panel.build.kind in _CHIPS
    if wished is not None:
        return WorkFace(wished, FaceReason.ASKED, chips)
    if datum.struck and not panel.build.kind.is_board:
        return WorkFace(Face.UP, FaceReason.STRUCK, chips)
    return WorkFace(Face.DOWN, FaceReason.TEETH, chips)
