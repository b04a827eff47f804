"""Where under a top the middle of a foot may stand, and the insets that are usual.

A foot that keeps `clear` inside the edge stands wholly within the line parallel to the edge at that
distance: the true parallel, not a smaller shape of the same kind. Seen from the middle of the top
that line has one distance in each direction, so the room is known by how far it reaches.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache

from ..errors import LegsError, OutlineError
from ..geometry.intersect import way_out
from ..geometry.path import Path
from ..geometry.point import ORIGIN, Point
from ..outlines import Outline
from .foot import Foot, FootShape
from .wish import LegsWish

FOOT_INSET = 60.0
"""From the edge of the top to the outside of a foot, mm: toes and break-out (common practice)."""

PLATE_INSET = 25.0
"""From the edge of the top to a fixing plate, mm: screws break out (common practice)."""

SHARE_OF_SIZE = 1 / 6
"""Sides overhang at most this share of the width, ends of the length (common practice)."""

KNEES_FROM = 1800.0
"""A top this long, mm, where people sit has its ends free for their knees (common practice)."""

KNEES = (300.0, 350.0)
"""How far such an end overhangs its feet, mm, least and most (common practice)."""

PLACING = 0.01
"""How near the line parallel to an oval is followed when a foot is placed, mm: far below what
anybody can set a leg to."""


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
    its middle also stands a sixth in, and an end where people sit overhangs by 300 to 350 mm. A
    slab may reach nearer to the sides: there are no toes in its way.
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
        if wish.seated and length >= KNEES_FROM:
            end = min(max(length * SHARE_OF_SIZE, KNEES[0]), KNEES[1])
    given = [inset for inset in (wish.inset_side, wish.inset_end) if inset is not None]
    around = min(given) if wish.inset_side is not None else min([least, *given])
    return Insets(
        side if wish.inset_side is None else wish.inset_side,
        end if wish.inset_end is None else wish.inset_end,
        around,
    )


def plate_inset(wish: LegsWish, outline: Outline) -> float:
    """Return how far a plate on a leg's head keeps from the edge, mm."""
    return max(min(PLATE_INSET, outline.width * SHARE_OF_SIZE), wish.keep_in)


@dataclass(frozen=True, slots=True)
class StandingRoom:
    """Where the middle of a foot may stand so that its outside keeps the insets.

    It is made symmetrical about both centrelines, so that feet placed by it are. In such a convex
    room a foot in one quarter is held back by its corners towards that quarter alone.
    """

    line: Path
    """The parallel to the top's edge that a foot's corners (a round foot's middle) must not cross.
    """
    corners: tuple[Point, ...]
    """The foot's upper right corners from its middle; the middle itself for a round foot."""
    half_length: float
    half_width: float
    """Most that the middle may stand off the centrelines, mm."""
    quarters: tuple[tuple[int, int], ...]
    """tuple of (int, int): which quarters of the top are looked at: one will do where all four are
    alike."""
    plate: StandingRoom | None = None
    """Of the plate on the leg's head, where there is one: it keeps `PLATE_INSET`."""

    @classmethod
    def for_wish(cls, wish: LegsWish, outline: Outline, *, in_rows: bool = True) -> StandingRoom:
        """Return the room of the wished feet, and of their plates, at the wished or usual insets.

        Raises
        ------
        LegsError
            If no room is left.
        """
        room = cls.under(outline, wish.foot, insets_for(wish, outline, in_rows=in_rows))
        if wish.plate is None:
            return room
        inset = plate_inset(wish, outline)
        return replace(room, plate=cls.under(outline, wish.on_top, Insets(inset, inset, inset)))

    @classmethod
    def under(cls, outline: Outline, foot: Foot, insets: Insets) -> StandingRoom:
        """Return the room under a top.

        Raises
        ------
        LegsError
            If no room is left.
        """
        half_length = outline.length / 2 - foot.reach(0.0) - insets.end
        half_width = outline.width / 2 - foot.reach(math.pi / 2) - insets.side
        radius = foot.length / 2 if foot.is_round else 0.0
        upper_right = tuple(c for c in foot.corners if c.x > -_HAIR and c.y > -_HAIR)
        narrow = LegsError(
            f"a foot {foot.length:g} by {foot.width:g} mm, {insets.side:g} mm in from the "
            f"sides and {insets.end:g} mm from the ends, finds no room under a top "
            f"{outline.length:g} by {outline.width:g} mm: make the insets or the foot smaller"
        )
        try:
            line = _line_inside(outline, insets.round_about + radius)
        except OutlineError:
            raise narrow from None
        room = cls(line, upper_right or (ORIGIN,), half_length, half_width, _unlike(outline))
        if min(half_length, half_width) < -_HAIR or not room._holds_a_foot:
            raise narrow
        return room

    @property
    def _holds_a_foot(self) -> bool:
        """Whether a foot in the middle of the top lies within the line, seen four ways."""
        ways = (Point(1, 0), Point(0, 1), Point(-1, 0), Point(0, -1))
        # a hair inwards, so that a foot that just touches the line is not taken to have left it
        within = [Point(max(c.x - _NUDGE, 0.0), max(c.y - _NUDGE, 0.0)) for c in self.corners]
        corners = (_to_quarter(c, quarter) for c in within for quarter in self.quarters)
        return all(
            math.isfinite(way_out(self.line, corner, way)) for corner in corners for way in ways
        )

    def reach(self, direction: float) -> float:
        """Return how far from the centre a middle may stand towards `direction`, radians; mm."""
        way = Point(abs(math.cos(direction)), abs(math.sin(direction)))
        limits = [
            self.half_length / way.x if way.x > 1e-15 else math.inf,
            self.half_width / way.y if way.y > 1e-15 else math.inf,
        ]
        for quarter in self.quarters:
            across = _to_quarter(way, quarter)
            limits += [way_out(self.line, _to_quarter(c, quarter), across) for c in self.corners]
        if self.plate is not None:
            limits.append(self.plate.reach(direction))
        return min(limits)

    def at(self, direction: float) -> Point:
        """Return the outermost place of a middle towards `direction`."""
        return Point.polar(self.reach(direction), direction)


@lru_cache(maxsize=256)
def _line_inside(outline: Outline, distance: float) -> Path:
    """Return the line parallel to the edge, `distance` inside it: many arrangements share one.

    Raises
    ------
    OutlineError
        If nothing is left so far inside.
    """
    return outline.parallel(-distance, PLACING)


_HAIR = 1e-9
_NUDGE = 1e-6
_QUARTERS = ((1, 1), (-1, 1), (-1, -1), (1, -1))


def _to_quarter(point: Point, quarter: tuple[int, int]) -> Point:
    return Point(point.x * quarter[0], point.y * quarter[1])


def _unlike(outline: Outline) -> tuple[tuple[int, int], ...]:
    """Return one quarter of a top that is symmetrical about both centrelines, else all four."""
    for step in range(1, 8):
        turn = step * math.pi / 16
        reach = outline.support(turn)
        for other in (math.pi - turn, math.pi + turn, -turn):
            if abs(outline.support(other) - reach) > _HAIR * outline.length:
                return _QUARTERS
    return _QUARTERS[:1]
