"""Which face lies up while a top is marked and sawn.

The teeth of a hand-held circular saw and of a jigsaw come up through the work and chip the face
that they leave, so the show face lies down, and everything is seen mirrored; a hole left by a nail
or a compass point is then in the underside too. A slab is marked on the face that its line is
struck on.
"""

from __future__ import annotations

from dataclasses import dataclass

from ..marking.step import Step
from ..panel.build import Kind
from ..panel.datum import Datum
from ..panel.defect import Face
from ..panel.panel import Panel

_CHIPS = (Kind.PLYWOOD, Kind.BLOCKBOARD, Kind.VENEERED, Kind.HOLLOW, Kind.PARTICLEBOARD, Kind.MDF)


@dataclass(frozen=True, slots=True)
class WorkFace:
    """How the show face lies while the top is marked and sawn."""

    show_face: Face
    """UP or DOWN."""
    why: str
    chips: bool
    """Whether the face of this build chips so readily that the line is knifed on it first."""

    @property
    def mirrored(self) -> bool:
        """Whether the panel is seen from its underside, left and right swapped."""
        return self.show_face is Face.DOWN

    @property
    def words(self) -> str:
        """How it lies, in three words."""
        return f"show face {'down' if self.mirrored else 'up'}"

    @property
    def step(self) -> Step:
        """What to do before the first mark."""
        if self.mirrored:
            what = (
                f"lay it show face DOWN: {self.why}. From here the drawings are MIRRORED: the "
                "figures stay, left and right swap."
            )
        else:
            what = f"lay it show face UP: {self.why}. The drawings show it so."
        return Step("Which face up", what, about="face")

    @property
    def score_step(self) -> Step | None:
        """What keeps the show face from chipping; None where it hardly does."""
        if not self.chips and self.mirrored:
            return None
        where = "on the show face, which lies down" if self.mirrored else "on the show face"
        return Step(
            "Knife the lines",
            f"knife every saw line {where}, through the veneer or a millimetre deep, along a "
            "straightedge, and tape it; a fine blade, fed slowly.",
            about="score",
        )


def work_face(panel: Panel, datum: Datum, wished: Face | None = None) -> WorkFace:
    """Return how the show face lies, as wished, or as suits the build and the datum."""
    chips = panel.build.kind in _CHIPS
    if wished is not None:
        return WorkFace(wished, "as the job asks", chips)
    if datum.struck and not panel.build.kind.is_board:
        return WorkFace(Face.UP, f"{datum.name} is struck on this face", chips)
    why = "the teeth of saw and jigsaw come up through the work and chip the face that lies up"
    return WorkFace(Face.DOWN, why, chips)
