"""Polish: from a good top to the local best, pressed against its true contacts.

Near a top, the room to each edge changes almost in proportion to its five numbers (place, turn and
two half sizes), and so does its worth. The best small step is a linear program; steps are taken as
long as the top that then really fits is better, and tried smaller where it is not.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ..linear_program import maximised
from ..wood.edges import Array
from .pose import Contacts, Pose

if TYPE_CHECKING:
    from .family import TwoSizes

_FIRST_STEP = 0.1
"""Of the half width."""

_LAST_STEP = 1e-7
"""Of the half width; steps smaller than this change no printed figure."""

CLOSE = 1e-5
"""The same where closing in finds what is left."""

_MOST_STEPS = 80

_NOTHING = 1e-10
"""Of the half width: where no step promises to gain more, mm, the top is at its contacts."""

_BESIDE = 0.03
"""Of the half width: at a tenth a hexagon was met that climbs higher than its neighbour."""

_MIDDLE = 1e-3
"""Of the half width."""

_ROUNDS = 8
"""Steps in which a top is brought to hold what it must; each squares what is still missing."""


def polished(
    family: TwoSizes, score: float, top: Pose, *, last: float = _LAST_STEP
) -> tuple[float, Pose]:
    """Return a local best reached from a top, never a worse one, by steps down to `last`."""
    trust, least = _FIRST_STEP * top.half_width, last * top.half_width
    for _ in range(_MOST_STEPS):
        if trust < least:
            break
        moved, promise = _moved(family, top, trust)
        if promise < max(_NOTHING, last / 100) * top.half_width:
            break
        found = None if moved is None else placed_like(family, moved)
        if found is not None and found[0] > score:
            trust *= 2.0 if found[0] > score * (1 + 1e-9) else 0.5
            score, top = found
        else:
            trust /= 4
    return score, top


def beside(one: Pose, other: Pose) -> bool:
    """Return whether two tops lie so close that a polish of either ends in the same local best."""
    far = np.abs(np.array(one) - np.array(other)) * [1.0, 1.0, one.half_length, 1.0, 1.0]
    return float(far.max()) < _BESIDE * one.half_width


def brought_in(family: TwoSizes, top: Pose) -> tuple[float, Pose] | None:
    """Return a top near one that does not hold what it must, or does not fit, that does both."""
    trust = _FIRST_STEP * top.half_width
    for _ in range(_ROUNDS):
        moved, _ = _moved(family, top, trust)
        if moved is None:
            return None
        top = moved
        found = placed_like(family, top)
        if found is not None:
            return found
    return None


def placed_like(family: TwoSizes, top: Pose) -> tuple[float, Pose] | None:
    """Return the score and size of the best top of the place, turn and shape of one."""
    return family.placed(np.array([top.x, top.y]), top.turn, family.kind.shape_of(top))


class _Moved(NamedTuple):
    """A top after a step, None where there is none, and what no step gains more than, mm."""

    top: Pose | None
    promise: float


def _moved(family: TwoSizes, top: Pose, trust: float) -> _Moved:
    """Return the top after the best step of at most `trust`, mm."""
    near = 6 * trust + 1e-3 * top.half_width
    room = family.contacts(top, near)
    close = room.clear < near
    moves = moves_of(family, top)
    rows = [-room.slopes[close] @ moves]
    limits: list[Array] = [room.clear[close]]
    if len(family.wood.held):
        inside = _holding(family, top)
        rows.append(inside.slopes @ moves)
        limits.append(-inside.clear)
    planes = family.sizing.half_planes
    sizes = np.array([[0.0, 0.0, 0.0, a, b] for a, b, _ in planes])
    rows.append(sizes @ moves)
    limits.append(np.array([c - a * top.half_length - b * top.half_width for a, b, c in planes]))
    objective = np.array([0.0, 0.0, 0.0, *family.sizing.slopes(top.half_length, top.half_width)])
    objective = objective @ moves
    objective /= np.abs(objective).max() or 1.0
    low, high = reach_of(family, top, trust)
    best = maximised(objective, np.vstack(rows), np.concatenate(limits), low, high)
    moved = Pose(*(float(v) for v in np.array(top) + moves @ best.step))
    fits = min(moved.half_length, moved.half_width) > 0 and np.any(best.step)
    return _Moved(moved if fits else None, best.value)


def moves_of(family: TwoSizes, top: Pose) -> Array:
    """Return how the five numbers change with each unknown of the program, as columns.

    A turn is counted at the end of the top; where the shape is given, both sizes are one unknown.
    """
    moves = np.diag([1.0, 1.0, 1 / top.half_length, 1.0, 1.0])
    if not family.sizing.is_one_shape:
        return moves
    axes = family.kind.axes(family.kind.shape_of(top))
    moves[4, 3] = axes.widens / axes.lengthens
    return moves[:, :4]


def _holding(family: TwoSizes, top: Pose) -> Contacts:
    """Return how far outside each point that must be held lies: negative where it is held."""
    away = np.hypot(*(family.wood.firmly - np.array([top.x, top.y])).T)
    # a point in the very middle is held, and lies in no direction
    points = np.repeat(family.wood.firmly[away > _MIDDLE * top.half_width, None], 2, axis=1)
    room = family.kind.contacts(top, points)
    order = np.lexsort((room.clear, room.edges))
    first = np.unique(room.edges[order], return_index=True)[1]
    rows = order[first]
    return Contacts(room.clear[rows], room.slopes[rows], room.places[rows], room.edges[rows])


def reach_of(family: TwoSizes, top: Pose, trust: float) -> tuple[Array, Array]:
    """Return the least and greatest steps; a turn is counted at the end of the top."""
    high = np.full(4 if family.sizing.is_one_shape else 5, trust)
    low = -high
    limits = family.sizing.wish.limits
    period = family.kind.period(family.sizing.shapes[1])
    if period == 0:
        low[2] = high[2] = 0.0
    elif limits.most_turn < min(math.pi, period) / 2:
        away = limits.off_grain(top.turn)
        high[2] = min(trust, max(0.0, (limits.most_turn - away) * top.half_length))
        low[2] = max(-trust, min(0.0, (-limits.most_turn - away) * top.half_length))
    return low, high
