"""A top for which legs are sought, and everything about it that their choice needs."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from ..panel import Defect, Kind, Panel, SoundWood, Spoils
from ..panel.frame import frame_of
from ..top import Top
from .sag import plate_of

if TYPE_CHECKING:
    from .plate import Plate


UNDER_FEET = (Spoils.BEARING, Spoils.CUTTING)
"""Feet and their screws stay clear of what spoils bearing and of what no screw may meet."""


@dataclass(frozen=True)
class TableTop:
    """A top for which legs are sought."""

    top: Top
    tape_error: float = 0.0
    """How far any tape may have been out, mm."""

    @cached_property
    def bearing(self) -> SoundWood:
        """What is left of the panel for feet to stand on; of a framed door its frame alone."""
        panel = replace(self.top.panel, defects=under_feet(self.top.panel))
        sound = replace(self.top, panel=panel).sound_for(*UNDER_FEET, tape_error=self.tape_error)
        frame = frame_of(panel) if panel.build.kind is Kind.FRAMED else None
        return sound if frame is None else sound.meet(SoundWood.exact(frame))

    @cached_property
    def plate(self) -> Plate | None:
        """The top cut in triangles, once for all arrangements; None where no stiffness is known."""
        return plate_of(self.top)


def under_feet(panel: Panel) -> tuple[Defect, ...]:
    """Return the defects that no foot and no screw stands on: what is mended bears again."""
    return tuple(
        defect
        for defect in panel.defects
        if not (defect.mend and defect.mend.bears) and defect.spoils.intersection(UNDER_FEET)
    )
