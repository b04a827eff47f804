"""A top on legs: where under it the middle of a foot may stand, and the insets that are usual.

A foot stands wholly within the true parallel of the edge at its inset. The room of its middle is
what is left of that face when the foot has been led along all of its edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ..errors import OutlineError
from ..geometry import ORIGIN, Bounds, Path, Point, Points, Region, array_of, union
from ..geometry.polygon import convex_hull
from ..geometry.symmetry import is_symmetric
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from ..panel import Defect, Kind, Panel, SoundWood, Spoils
from ..panel.frame import frame_of
from ..top import Top
from .foot import Foot, FootShape
from .wish import LegsWish

if TYPE_CHECKING:
    from .plate import Plate

FOOT_INSET, PLATE_INSET = 60.0, 25.0
"""From the edge of the top to the outside of a foot, for toes and break-out, and to a fixing plate,
whose screws break out, mm (common practice)."""

SHARE_OF_SIZE = 1 / 6
"""Sides overhang at most this share of the width, ends of the length (common practice)."""

KNEES_FROM, KNEES = 1800.0, (300.0, 350.0)
"""A top this long where people sit has its ends free for their knees: they overhang the feet by so
much, least and most, mm (common practice)."""

PLACING, FINE, _HAIR = 0.01, 0.05, 1e-4
"""How near the line parallel to an oval is followed when a foot is placed, and the edge of a top of
any form, mm: nobody sets a leg closer. A foot that exactly fits has a room so wide, mm: a tenth of
what a written figure holds."""

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
        """The top cut in triangles, once for all legs; None of doors and unknown stiffness."""
        top, stiffness = self.top, self.top.panel.substance.stiffness
        if stiffness is None or top.panel.build.has_frame:
            return None
        from .plate import Plate, rigidity

        return Plate.cut(top.outline.path(), rigidity(stiffness, top.thickness, top.grain))


def under_feet(panel: Panel) -> tuple[Defect, ...]:
    """Return the defects that no foot and no screw stands on: what is mended bears again."""
    return tuple(
        defect
        for defect in panel.defects
        if not (defect.mend and defect.mend.bears) and defect.spoils.intersection(UNDER_FEET)
    )


@dataclass(frozen=True, slots=True)
class Insets:
    """How far the feet's outsides stay from the edge, mm."""

    side: float
    end: float
    """From the sides and from the ends."""
    round_about: float
    """From the edge anywhere."""


def insets_for(wish: LegsWish, outline: Outline, *, in_rows: bool = True) -> Insets:
    """Return the wished insets, or the usual ones where none are given.

    Usual is a foot whose outside keeps at least `FOOT_INSET`, and clear of an under-bevel. In rows
    its middle also stands a sixth in. A slab may reach nearer to the sides: no toes are in its way.
    """
    foot, length, width = wish.foot, outline.length, outline.width
    least = min(FOOT_INSET, width * SHARE_OF_SIZE)
    if foot.shape is FootShape.SLAB:
        least = min(least, max((width - foot.width) / 2, 0.0))
    least = max(least, wish.keep_in)
    side = end = least
    if in_rows:
        side = max(least, width * SHARE_OF_SIZE - foot.width / 2)
        end = max(least, length * SHARE_OF_SIZE - foot.length / 2)
        if wish.seats and length >= KNEES_FROM:
            end = min(max(length * SHARE_OF_SIZE, KNEES[0]), KNEES[1])
    given = [inset for inset in (wish.inset_side, wish.inset_end) if inset is not None]
    around = min(given) if wish.inset_side is not None else min([least, *given])
    side = side if wish.inset_side is None else wish.inset_side
    return Insets(side, end if wish.inset_end is None else wish.inset_end, around)


def room_for(wish: LegsWish, outline: Outline, *, in_rows: bool = True) -> Region:
    """Return where the middles of the wished feet may stand, and of the plates on their heads.

    Under any outline but one of the maker's own form it is symmetrical about both centrelines.
    """
    insets = insets_for(wish, outline, in_rows=in_rows)
    room = _room(outline, wish.foot, insets.round_about)
    if wish.plate is not None:
        inset = max(min(PLATE_INSET, outline.width * SHARE_OF_SIZE), wish.keep_in)
        room = room.meet(_room(outline, wish.on_top, inset))
    if not outline.free_sizes:
        return room
    half_length = outline.length / 2 - wish.foot.reach(0.0) - insets.end
    half_width = outline.width / 2 - wish.foot.reach(math.pi / 2) - insets.side
    if min(half_length, half_width) < -_HAIR:
        return Region.empty()
    box = Bounds.about(ORIGIN, max(half_length, _HAIR), max(half_width, _HAIR))
    return room.meet(Region.of(Path.round_box(box)))


def reach(room: Region, direction: float) -> Point:
    """Return the outermost place of a room, in which the origin lies, towards `direction`."""
    far = Point.polar(room.perimeter, direction)
    spans = room.chord(ORIGIN, far)
    return spans[-1][1] if spans else ORIGIN


@lru_cache(maxsize=256)
def _room(outline: Outline, foot: Foot, inset: float) -> Region:
    """Return where the middle of a foot may stand so far inside the edge, be it to a hair."""
    radius = foot.length / 2 if foot.is_round else 0.0
    for slack in (0.0, _HAIR):
        room = _inside(outline, inset + radius - slack)
        if not foot.is_round:
            room = room_of(room, foot)
        if not room.is_empty:
            break
    for flip, axis in (((-1.0, 1.0), "x"), ((1.0, -1.0), "y")) if outline.free_sizes else ():
        # an outline that is to have such a mirror keeps what room and mirror image share
        if not room.is_empty and not is_symmetric(outline.path(), axis):
            room = room.meet(union(Region.from_rings(p.exterior * flip) for p in room.pieces))
    return room


def _inside(outline: Outline, inset: float) -> Region:
    """Return the face of a top less an inset."""
    if not outline.free_sizes:
        return Region.from_rings(outline.inner(FINE)).shrunk(inset).simplified(FINE)
    try:
        return Region.of(outline.parallel(-inset, PLACING), tolerance=CHORD)
    except OutlineError:
        return Region.empty()


def room_of(wood: Region, foot: Foot) -> Region:
    """Return where the middle of a foot may stand for all of it to stand on a piece of wood."""
    if foot.is_round:
        return wood.shrunk(foot.length / 2)
    corners = array_of(foot.corners)
    swept = (
        Region.from_rings(convex_hull((edge[:, None] - corners[None]).reshape(-1, 2)))
        for edge in wood.edges
    )
    return wood.minus(union(swept))


def inside_by(face: Region, place: Point) -> float:
    """Return how far a place lies inside the edges of a face, mm; negative past them."""
    distance = face.edge_distance(place)
    return distance if face.holds_point(place) else -distance


def nearest_on(edges: NDArray[np.float64], places: Points) -> Points:
    """Return the nearest points, (n, 2), of some edges, (m, 2, 2): edge, start or end, x or y."""
    start, way = edges[:, 0], edges[:, 1] - edges[:, 0]
    share = ((places[:, None] - start) * way).sum(axis=2) / (way**2).sum(axis=1)
    on = start + np.clip(share, 0.0, 1.0)[..., None] * way
    nearest = np.hypot(*(on - places[:, None]).transpose(2, 0, 1)).argmin(axis=1)
    found: Points = on[np.arange(len(places)), nearest]
    return found
