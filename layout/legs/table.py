"""A top for which legs are sought, and everything about it that their choice needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from ..geometry.point import Point
from ..geometry.polygon import Region
from ..panel import SoundWood
from ..top import Top
from .plan import UNDER_FEET, LegsPlan, place_legs
from .sag import plate_of
from .wish import LegsWish

if TYPE_CHECKING:
    from .plate import Plate


@dataclass(frozen=True)
class TableTop:
    """A top for which legs are sought."""

    top: Top
    tape_error: float = 0.0
    """How far any tape may have been out, mm."""

    @cached_property
    def bearing(self) -> SoundWood:
        """What is left of the panel for feet to stand on."""
        return self.top.sound_for(*UNDER_FEET, tape_error=self.tape_error)

    @cached_property
    def plate(self) -> Plate | None:
        """The top cut in triangles, once for all arrangements; None where no stiffness is known."""
        return plate_of(self.top)

    def on(self, wish: LegsWish) -> LegsPlan:
        """Return the wished legs placed under it."""
        return place_legs(wish, self.top, self.bearing)

    def bears(self, wish: LegsWish, middles: Sequence[Point]) -> bool:
        """Return whether the heads of all legs stand on sound wood."""
        heads = (wish.on_top.outside(m).placed(self.top.placement) for m in middles)
        return all(self.bearing.inner.holds(Region.of(head, "outside")) for head in heads)
