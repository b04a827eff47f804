"""A top for which legs are sought, and everything about it that their choice needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from ..geometry import Point, Region
from ..panel import Kind, SoundWood
from ..panel.frame import frame_of
from ..top import Top
from .arrangement import middles_for
from .free_room import dodged, sound_room
from .plan import UNDER_FEET, LegsPlan, place_legs, under_feet
from .sag import plate_of
from .stability import Stability
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
        """What is left of the panel for feet to stand on; of a framed door its frame alone."""
        panel = replace(self.top.panel, defects=under_feet(self.top.panel))
        sound = replace(self.top, panel=panel).sound_for(*UNDER_FEET, tape_error=self.tape_error)
        frame = frame_of(panel) if panel.build.kind is Kind.FRAMED else None
        return sound if frame is None else sound.meet(SoundWood.exact(frame))

    @cached_property
    def sound(self) -> Region:
        """The same in the frame of the top."""
        return self.bearing.inner.placed(self.top.placement.inverse)

    @cached_property
    def plate(self) -> Plate | None:
        """The top cut in triangles, once for all arrangements; None where no stiffness is known."""
        return plate_of(self.top)

    def stability(self, wish: LegsWish) -> Stability:
        """Return how the wished legs are held against a force at its edge."""
        return Stability.under(wish, self.top.outline, self.top.mass, self.top.thickness)

    def places(self, wish: LegsWish) -> tuple[tuple[Point, ...], tuple[float, ...]]:
        """Return where the wished feet stand, and how far each was moved to stand on sound wood.

        Where the maker says where they stand nothing is moved.

        Raises
        ------
        LegsError
            If no foot finds room.
        """
        if wish.at:
            return wish.at, (0.0,) * len(wish.at)
        return self.settled(wish, middles_for(wish, self.top.outline, self.stability(wish)))

    def settled(
        self, wish: LegsWish, middles: Sequence[Point]
    ) -> tuple[tuple[Point, ...], tuple[float, ...]]:
        """Return places with each foot that would stand on spoilt wood moved off it."""
        if self.bears(wish, middles):
            return tuple(middles), (0.0,) * len(middles)
        return dodged(
            middles, wish.foot, self.room(wish), lambda middle: self.bears(wish, [middle])
        )

    def room(self, wish: LegsWish) -> Region:
        """Return where feet may stand at their insets and on sound wood, in the top's frame."""
        return sound_room(wish, self.top.outline, self.sound)

    def on(self, wish: LegsWish) -> LegsPlan:
        """Return the wished legs placed under it."""
        return self.standing_at(wish, *self.places(wish))

    def standing_at(
        self, wish: LegsWish, middles: Sequence[Point], moved: Sequence[float] = ()
    ) -> LegsPlan:
        """Return the wished legs at these places.

        Raises
        ------
        LegsError
            If legs stand at one place, or in a row.
        """
        return place_legs(wish, self.top, self.bearing, middles, moved)

    def bears(self, wish: LegsWish, middles: Sequence[Point]) -> bool:
        """Return whether the heads of all legs stand on sound wood."""
        heads = (wish.on_top.outside(m).placed(self.top.placement) for m in middles)
        return all(self.bearing.inner.holds(Region.of(head, "outside")) for head in heads)
