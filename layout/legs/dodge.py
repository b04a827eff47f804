"""Feet that land on spoilt wood are moved by the least that frees them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from ..geometry.distance import nearest
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..outlines import Outline
from .foot import Foot
from .free_room import apart
from .room import room_for, room_of
from .wish import LegsWish

_CLEAR = 0.1
"""A foot is moved this much farther than it must, mm: no tape shows it, and rounding cannot put it
back on what it was moved off."""


def sound_room(wish: LegsWish, outline: Outline, sound: Region) -> Region:
    """Return where middles of feet may stand: at their insets, and on sound wood.

    Parameters
    ----------
    sound : Region
        What bears, in the frame of the top.
    """
    return room_for(wish, outline, in_rows=False).meet(room_of(sound, wish.on_top))


def dodged(
    middles: Sequence[Point], foot: Foot, room: Region, bears: Callable[[Point], bool]
) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """Return the places of feet that bear, as near as can be to those wished, and how far moved.

    One that finds none beside the others stays where it is.

    Parameters
    ----------
    room : Region
        Where they may stand.
    bears : callable
        Whether a foot with its middle at a place stands on sound wood.
    """
    held, moved = list(middles), [0.0] * len(middles)
    inner = room.shrunk(_CLEAR)
    for k, middle in enumerate(middles):
        if inner.is_empty or bears(middle):
            continue
        _, place = nearest(Region.at(middle), inner)
        if apart([place, *held[:k], *held[k + 1 :]], foot):
            held[k], moved[k] = place, middle.distance_to(place)
    return tuple(held), tuple(moved)


def least_gap(middles: Sequence[Point], foot: Foot) -> float:
    """Return the least that is clear between two feet, mm; infinite for one alone."""
    gaps = [
        one.distance_to(other) - foot.reach((other - one).angle) - foot.reach((one - other).angle)
        for i, one in enumerate(middles)
        for other in middles[:i]
    ]
    return min(gaps, default=math.inf)
