"""Of many tops that are equally good, the one that a maker would choose.

Where limits hold a top back it can lie in many places, and a search ends at whichever it met first.
A maker would lay it along the grain or square with the panel, in the middle; and where that is not
to be had, where it stands clear of the edges all round. Nothing is moved that would cost size.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from ...geometry.scalar import last_where
from ..linear_program import maximised
from ..tie_breaking import plain_places
from ..wood.edges import Array
from .pose import Pose

if TYPE_CHECKING:
    from .family import TwoSizes

_AS_LARGE = 0.0002
"""mm of half a size: less than any sheet tells, and less than a hundred thousandth of a top."""

_MOST_MOVES = 40
"""Steps towards the clearest place; each is as long as the room that is left, so few are taken."""

_A_STEP = 0.1
"""Of the half width: how much farther than its clearance a top is moved at once."""

_TOUCHES = 0.02
"""mm from an edge within which a top is held by it, and slides along it."""

_WORTH_A_MOVE = 0.01
"""mm of clearance gained, below which a top is left where it is."""


def settled(family: TwoSizes, top: Pose) -> Pose:
    """Return a top as good as this one, give or take `_AS_LARGE`, in the plainest place.

    Plainest is a turn along the grain or along the longest edge, then the middle of the wood both
    ways, then one way; else the place where the least distance to an edge is greatest, and the
    middle of where it can slide along an edge that it touches.
    """
    shape = family.kind.shape_of(top)
    quarters = 4 if family.kind.period(shape) > math.pi else 2
    limits, own = family.sizing.wish.limits, np.array([top.x, top.y])
    for place in plain_places(family.wood.inner_edges, limits, top.turn, own, quarters):
        found = family.placed(place.centre, place.turn, shape)
        if found is not None and _as_good(family, found[1], top):
            return found[1] if place.in_the_middle else _at_rest(family, found[1])
    return _at_rest(family, top)


def _as_good(family: TwoSizes, one: Pose, other: Pose) -> bool:
    """Return whether a top is worth as much as one whose sizes are `_AS_LARGE` less."""
    least = family.sizing.score(other.half_length - _AS_LARGE, other.half_width - _AS_LARGE)
    return family.sizing.score(one.half_length, one.half_width) >= least


def _at_rest(family: TwoSizes, top: Pose) -> Pose:
    """Return the top moved, without turning, to where it stands clearest and can slide no more."""
    if len(family.wood.held):  # what must be held leaves it no such choice
        return top
    top = _clearest(family, top)
    room = family.contacts(top, _TOUCHES)
    for slope in room.slopes[room.clear < _TOUCHES, :2]:
        along = np.array([-slope[1], slope[0]]) / math.hypot(*slope)
        ends = [_slid(family, top, way) for way in (along, -along)]
        if math.dist(*ends) > 2 * _WORTH_A_MOVE:
            found = family.placed((ends[0] + ends[1]) / 2, top.turn, family.kind.shape_of(top))
            return found[1] if found is not None and _as_good(family, found[1], top) else top
    return top


def _slid(family: TwoSizes, top: Pose, way: Array) -> Array:
    """Return the middle of the top where it has slid one way as far as it can at no cost.

    It can slide so far where it can lie there: what it touches lets it go nowhere else.
    """
    own, shape = np.array([top.x, top.y]), family.kind.shape_of(top)

    def lies(far: float) -> bool:
        found = family.placed(own + far * way, top.turn, shape)
        return found is not None and _as_good(family, found[1], top)

    far = last_where(lies, 0.0, 2 * top.half_length) if lies(_WORTH_A_MOVE) else 0.0
    middle: Array = own + far * way
    return middle


def _clearest(family: TwoSizes, top: Pose) -> Pose:
    """Return the top moved, without turning, to where it stands clearest of the edges."""
    shape = family.kind.shape_of(top)
    for _ in range(_MOST_MOVES):
        room = family.contacts(top, 5 * _A_STEP * top.half_width)
        if not (room.clear < _A_STEP * top.half_width).any():
            room = family.contacts(top, math.inf)
        least = max(float(room.clear.min()), 0.0)
        reach = least + _A_STEP * top.half_width
        near = room.clear < least + 2 * reach
        rows = np.column_stack([-room.slopes[near, :2], np.ones(int(near.sum()))])
        most = np.array([reach, reach, reach])
        step = maximised(
            np.array([0.0, 0.0, 1.0]),
            rows,
            np.maximum(room.clear[near] - least, 0.0),
            np.array([-reach, -reach, 0.0]),
            most,
        ).step
        moved = _moved(family, top, step[:2], shape, least)
        if moved is None:
            return top
        top = moved
    return top


def _moved(family: TwoSizes, top: Pose, way: Array, shape: float, least: float) -> Pose | None:
    """Return the top moved some of the way, where that gains clearance."""
    for share in (1.0, 0.5, 0.25, 0.1):
        found = family.placed(np.array([top.x, top.y]) + share * way, top.turn, shape)
        if found is None or not _as_good(family, found[1], top):
            continue
        enough = least + _WORTH_A_MOVE
        if (family.contacts(found[1], enough).clear > enough).all():
            return found[1]
    return None
