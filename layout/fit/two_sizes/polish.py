"""Polish: from a good top to the local best, pressed against its true contacts.

Near a top, the room to each edge changes almost in proportion to its five numbers (place, turn and
two half sizes), and so does its worth. The best small step is a linear program; steps are taken as
long as the top that then really fits is better, and tried smaller where it is not.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from ..program import maximised
from .pose import Array, Contacts, Pose

if TYPE_CHECKING:
    from .family import TwoSizes

_FIRST_STEP = 0.1
"""Of the half width."""

_LAST_STEP = 1e-7
"""Of the half width; steps smaller than this change no printed figure."""

_MOST_STEPS = 80


def polished(family: TwoSizes, score: float, top: Pose) -> tuple[float, Pose]:
    """Return a local best reached from a top, never a worse one."""
    trust = _FIRST_STEP * top.half_width
    for _ in range(_MOST_STEPS):
        if trust < _LAST_STEP * top.half_width:
            break
        found = _stepped(family, top, trust)
        if found is not None and found[0] > score:
            trust *= 2.0 if found[0] > score * (1 + 1e-9) else 0.5
            score, top = found
        else:
            trust /= 4
    return score, top


def _stepped(family: TwoSizes, top: Pose, trust: float) -> tuple[float, Pose] | None:
    """Return the top after the best step of at most `trust`, mm, made to fit again."""
    room = family.kind.contacts(top, family.wood.inner_edges)
    close = room.clear < 6 * trust + 1e-3 * top.half_width
    scale = np.array([1.0, 1.0, 1 / top.half_length, 1.0, 1.0])
    rows = [-room.slopes[close] * scale]
    limits: list[Array] = [room.clear[close]]
    if len(family.wood.held):
        inside = _holding(family, top)
        rows.append(inside.slopes * scale)
        limits.append(-inside.clear)
    planes = family.sizing.half_planes()
    sizes = np.array([[0.0, 0.0, 0.0, a, b] for a, b, _ in planes])
    rows.append(sizes)
    limits.append(np.array([c - a * top.half_length - b * top.half_width for a, b, c in planes]))
    objective = np.array([0.0, 0.0, 0.0, *family.sizing.slopes(top.half_length, top.half_width)])
    objective /= np.abs(objective).max() or 1.0
    low, high = _turn_room(family, top, trust)
    step = maximised(objective, np.vstack(rows), np.concatenate(limits), low, high).step * scale
    if not np.any(step):
        return None
    moved = Pose(*(float(v) for v in np.array(top) + step))
    return family.placed(np.array([moved.x, moved.y]), moved.turn, family.kind.shape_of(moved))


def _holding(family: TwoSizes, top: Pose) -> Contacts:
    """Return how far outside each point that must be held lies: negative where it is held."""
    points = np.repeat(family.wood.held[:, None], 2, axis=1)
    room = family.kind.contacts(top, points)
    order = np.lexsort((room.clear, room.edges))
    first = np.unique(room.edges[order], return_index=True)[1]
    rows = order[first]
    return Contacts(room.clear[rows], room.slopes[rows], room.places[rows], room.edges[rows])


def _turn_room(family: TwoSizes, top: Pose, trust: float) -> tuple[Array, Array]:
    """Return the least and greatest steps; a turn is counted at the end of the top."""
    high = np.full(5, trust)
    low = -high
    limits = family.sizing.wish.limits
    if family.sizing.shapes[1] == 0:
        low[2] = high[2] = 0.0
    elif limits.most_turn < math.pi / 2:
        away = math.remainder(top.turn - limits.grain, math.pi)
        high[2] = min(trust, max(0.0, (limits.most_turn - away) * top.half_length))
        low[2] = max(-trust, min(0.0, (-limits.most_turn - away) * top.half_length))
    return low, high
