"""A top for which legs are sought, and everything about it that their choice needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..outlines import Outline
from ..panel import Defect, Panel, SoundWood, Spoils
from .plan import LegsPlan, place_legs
from .sag import TopBoard
from .wish import LegsWish

if TYPE_CHECKING:
    from .plate import Plate


@dataclass(frozen=True)
class TableTop:
    """A top for which legs are sought.

    Attributes
    ----------
    outline, placement
        The finished top and where it lies on the panel.
    bearing : SoundWood
        What is left of the panel for feet to stand on.
    mass : float
        kg.
    thickness : float
        mm.
    defects : tuple of Defect
        Those that spoil bearing, to name in a problem.
    board : TopBoard or None
        What bends; None where its stiffness is not known, and sag is not told.
    """

    outline: Outline
    placement: Placement
    bearing: SoundWood
    mass: float = field(metadata={"unit": "kg"})
    thickness: float
    defects: tuple[Defect, ...] = ()
    board: TopBoard | None = None

    @classmethod
    def from_panel(
        cls, panel: Panel, outline: Outline, placement: Placement, *, tape_error: float = 0.0
    ) -> TableTop:
        """Return the top that is cut from a panel.

        Feet and their screws stay clear of what spoils bearing and of what no screw may meet.

        Parameters
        ----------
        tape_error : float
            How far any tape may have been out, mm.
        """
        bearing = panel.sound_for(Spoils.BEARING, tape_error=tape_error)
        screwable = panel.sound_for(Spoils.CUTTING, tape_error=tape_error)
        wood, thickness = panel.substance, panel.made_thickness
        board = None
        if wood.stiffness is not None:
            grain = panel.grain - placement.turn
            board = TopBoard(outline, thickness, wood.density, wood.stiffness, grain)
        return cls(
            outline,
            placement,
            bearing.meet(screwable),
            outline.area * thickness * wood.density * 1e-9,
            thickness,
            tuple(d for d in panel.defects if d.spoils & {Spoils.BEARING, Spoils.CUTTING}),
            board,
        )

    @cached_property
    def plate(self) -> Plate | None:
        """The top cut in triangles, once for all arrangements."""
        return None if self.board is None else self.board.plate()

    def on(self, wish: LegsWish) -> LegsPlan:
        """Return the wished legs placed under it."""
        return place_legs(
            wish,
            self.outline,
            self.placement,
            self.bearing,
            self.mass,
            self.defects,
            thickness=self.thickness,
        )

    def bears(self, wish: LegsWish, middles: Sequence[Point]) -> bool:
        """Return whether the heads of all legs stand on sound wood."""
        heads = (wish.on_top.outside(m).placed(self.placement) for m in middles)
        return all(self.bearing.inner.holds(Region.of(head, "outside")) for head in heads)
