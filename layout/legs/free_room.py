"""Where feet stand under an outline of any form: out in its corners, however these lie.

No centreline need be an axis of such a top, so nothing is mirrored. The room of the middles is a
polygon: the face less the inset, moved by each corner of the foot and met. Feet are put in those of
its corners that lie farthest in even directions, or where even rays from the middle of its weight
leave it; of all these the firmest stance is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from functools import lru_cache

import numpy as np

from ..errors import LegsError
from ..geometry.alike import first_of_best, ranked
from ..geometry.placement import Placement, array_of
from ..geometry.point import ORIGIN, Point
from ..geometry.polygon import Region, union
from ..geometry.tolerance import ROUNDING, SAME_PLACE
from ..outlines import Freeform, Outline
from .foot import Foot
from .wish import LegsWish

_PHASES = (0.5, 0.0, 0.25, 0.75)
"""By how much of a step the first direction is off the length of the top, tried in turn."""

_FINE = 0.05
"""How near the room of the middles is followed, mm: nobody sets a leg closer."""


def stances(
    wish: LegsWish, outline: Freeform, inset: float, plate: float
) -> Iterator[tuple[Point, ...]]:
    """Yield sets of places for the wished number of feet, each anticlockwise.

    Parameters
    ----------
    inset, plate : float
        From the edge to the outside of a foot and of the plate on its head, mm.

    Raises
    ------
    LegsError
        If no foot finds room, or not so many.
    """
    room = _room(outline, wish.foot, inset)
    if wish.plate is not None:
        room = room.meet(_room(outline, wish.on_top, plate))
    if room.is_empty:
        raise LegsError(
            f"a foot {wish.foot.length:g} by {wish.foot.width:g} mm, {inset:g} mm in from the "
            f"edge, finds no room under the {outline.title}: make the insets or the foot smaller"
        )
    found = 0
    middle = middle_of(outline)
    for places in _sets(wish.count, room, middle, outline):
        if _apart(places, wish.foot):
            found += 1
            yield _in_order(places, middle)
    if not found:
        raise LegsError(
            f"{wish.count} feet {wish.foot.length:g} by {wish.foot.width:g} mm find no room beside "
            f"each other under the {outline.title}: take fewer, or smaller ones"
        )


@lru_cache(maxsize=64)
def middle_of(outline: Outline) -> Point:
    """Return where the weight of a top lies, from the middle of its box, mm."""
    if not isinstance(outline, Freeform):
        return ORIGIN
    return Region.from_rings(outline.inner(_FINE)).centroid


@lru_cache(maxsize=256)
def _room(outline: Freeform, foot: Foot, inset: float) -> Region:
    """Return where the middle of a foot may stand, for its outside to keep an inset."""
    face = Region.from_rings(outline.inner(_FINE))
    clear = face.shrunk(inset + (foot.length / 2 if foot.is_round else 0.0))
    clear = clear.simplified(_FINE)
    room = clear
    for corner in foot.corners:
        room = room.meet(clear.placed(Placement(-corner)))
    return room.minus(_round_hollows(clear, foot)) if foot.corners else room


def _round_hollows(clear: Region, foot: Foot) -> Region:
    """Return where a foot would have a hollow corner between its own corners."""
    corners = array_of(foot.corners)
    prints = []
    for piece in clear.pieces:
        ring = piece.exterior
        arriving, leaving = ring - np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0) - ring
        turns = arriving[:, 0] * leaving[:, 1] - arriving[:, 1] * leaving[:, 0]
        prints += [Region.from_rings(place - corners) for place in ring[turns < 0]]
    return union(prints)


def _sets(count: int, room: Region, middle: Point, outline: Outline) -> Iterator[tuple[Point, ...]]:
    """Yield places in corners of the room, then where rays leave it."""
    corners = [Point.of(row) for piece in room.pieces for row in piece.exterior]
    if count == 2:
        spans = _spans(room, middle, Point(1.0, 0.0), outline)
        yield from ((start, end) for start, end in spans[:1])
        return
    for phase in _PHASES:
        turns = [math.tau * (k + phase) / count for k in range(count)]
        ways = [Point(math.cos(t) / outline.length, math.sin(t) / outline.width) for t in turns]
        yield tuple(
            first_of_best(corners, way.dot, lambda p: (p.x, p.y), tolerance=ROUNDING)
            for way in ways
        )
        rays = [
            Point(math.cos(t) * outline.length, math.sin(t) * outline.width).unit() for t in turns
        ]
        if room.holds_point(middle):
            yield tuple(_leaves(room, middle, ray, outline) for ray in rays)


def _leaves(room: Region, middle: Point, ray: Point, outline: Outline) -> Point:
    """Return where a ray from within first leaves the room."""
    return room.chord(middle, middle + ray * (outline.length + outline.width))[0][1]


def _spans(room: Region, middle: Point, way: Point, outline: Outline) -> list[tuple[Point, Point]]:
    """Return the stretches of a line through the middle that lie in the room, the longest first."""
    reach = way * (outline.length + outline.width)
    spans = room.chord(middle - reach, middle + reach)
    return ranked(spans, lambda span: span[0].distance_to(span[1]), tolerance=SAME_PLACE)


def _apart(places: Sequence[Point], foot: Foot) -> bool:
    """Return whether no two feet overlap."""
    return all(
        one.distance_to(other) > foot.reach((other - one).angle) + foot.reach((one - other).angle)
        for i, one in enumerate(places)
        for other in places[:i]
        if one != other
    ) and len(set(places)) == len(places)


def _in_order(places: Sequence[Point], middle: Point) -> tuple[Point, ...]:
    """Return places anticlockwise round the middle, from the lower left one."""
    held = sorted(places, key=lambda p: (p - middle).angle)
    first = first_of_best(
        range(len(held)),
        lambda i: -(held[i].x + held[i].y),
        lambda i: (held[i].x, held[i].y),
        tolerance=SAME_PLACE,
    )
    return (*held[first:], *held[:first])
