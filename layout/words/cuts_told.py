"""What every sentence about a cut shares: where its line meets the edges.

A saw line and its guide are rounded away from the top, never towards it: the blade then leaves a
little more, not less.
"""

from __future__ import annotations

from functools import singledispatch

from ..cutting.cut import EdgePoint
from ..geometry.point import Point
from .say import Passage, Say

_SLIGHT = 0.02
"""A coordinate that moves a line by no more than this share of itself is rounded to the nearest:
that is a fiftieth of a division at most."""


@singledispatch
def words_of(act: object, say: Say) -> Passage:
    """Return what is told of an act, in the units of a tape and from a datum.

    Raises
    ------
    TypeError
        If nobody has found words for it.
    """
    raise TypeError(f"there are no words for {type(act).__name__}")


def offsets_of(place: EdgePoint, waste: Point, say: Say) -> tuple[float, float]:
    """Return the offsets of a place on a line as they are told, mm: off the top."""
    way = waste.turned(-say.datum.frame.turn)
    return _off(place.along, way.x, say), _off(place.square, way.y, say)


def _off(length: float, way: float, say: Say) -> float:
    return say.tape.towards(length, way if abs(way) > _SLIGHT else 0.0)


def from_corner(place: EdgePoint, waste: Point, say: Say) -> float:
    """Return how far a place is told to lie from its corner, mm: off the top."""
    corners = (r.point for r in say.datum.references if r.name == place.corner)
    corner = next(corners, place.point)
    way = place.point - corner
    return _off(place.distance, way.dot(waste) / max(way.norm, 1.0), say)
