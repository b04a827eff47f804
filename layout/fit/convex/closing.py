"""Closing in: from a polished top to the local best itself, whose sizes stand to 0.001 mm.

Where fewer contacts hold a top than it has unknowns the score is flat about its best, and linear
programs stop some hundredths of a mm away. So the last steps are those of Newton's method on the
conditions of the optimum (Byrd, Gould, Nocedal and Waltz, "An algorithm for nonlinear optimization
using linear programming and equality constrained subproblems", 2004): a linear program tells which
contacts press and how hard. Where they do not come to rest, linear programs go on alone.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..linear_program import maximised
from ..local_search import best_step
from ..quadratic_program import balanced
from ..wood.edges import Array
from .boxes import Pose

if TYPE_CHECKING:
    from .tops import Tops

_DONE = 1e-5
"""mm: a step shorter than this ends it; a hundredth of what sizes are told to."""
_IDLE = 1e-11
"""mm of size: a step that promises no more is one between tops that are equally good."""
_FIRST_TRUST, _LAST_TRUST = 0.01, 1e-7
"""Of the half width."""
_FULL = 0.9
"""Share of the trust from which a step that does well earns more of it."""
_MOST_STEPS = 30

_NOTHING = 1e-10
"""Share of a score that rounding may take."""
_APART = 1e-4
"""Of the half width: how far apart the tops are from which slopes and bends are worked out."""
_PULLS = 1e-6
"""Share of the hardest pull below which a contact is not pressed."""
_STEADY = 1e-6
"""Bend added every way, as a share of the greatest, of a circle's as wide at least, so
that idle unknowns stay where they are."""


def closed_in(tops: Tops, top: Pose) -> Pose:
    """Return the local best beside a polished top, or the top where there is no closer one."""
    score = tops.sizing.score(top.half_length, top.half_width)
    trust = _FIRST_TRUST * top.half_width
    if best_step(tops, top, trust)[1] < _DONE:  # as many contacts as unknowns, most often
        return top
    for _ in range(_MOST_STEPS):
        if trust < _LAST_TRUST * top.half_width:
            break
        step, promise = _Near(tops, top, trust).step()
        length = float(np.abs(step).max())
        if length < _DONE or abs(promise) < _IDLE:
            return top
        found = tops.fitted(tops.moved(top, step))
        if found is None or found[0] < score * (1 - _NOTHING):
            trust = min(trust, length) / 4
            continue
        trust *= 2.0 if length > _FULL * trust else 1.0
        score, top = found
    # not at rest: both ends of a flat side on one edge make a kink; programs see two contacts
    return tops.polished(score, top)[1]


class _Near:
    """What a top may do within `trust`, mm, of where it is; steps are as `Tops.moves` counts."""

    def __init__(self, tops: Tops, top: Pose, trust: float) -> None:
        self.tops, self.top, self.trust = tops, top, trust
        near = 4 * trust + _APART * top.half_width
        self.edges, self.points = tops.near(top, near), tops.wood.firmly
        room = self._room(top)
        self.edges = self.edges[room[: len(self.edges)] < near]
        self.points = self.points[room[len(room) - len(self.points) :] < near]

    def step(self) -> tuple[Array, float]:
        """Return the step to where score and contacts balance, and its gain, mm."""
        size, trust, wide = self.tops.moves(self.top).shape[1], self.trust, self.top.half_width
        here, slopes, bends = self._changes(_APART * wide * np.eye(size))
        steep = float(np.abs(slopes[0]).max()) or 1.0
        gain = slopes[0] / steep
        low, high = self.tops.reach(self.top, trust)
        rows = np.vstack([slopes[1:], -np.eye(size), np.eye(size)])
        space = np.concatenate([here[1:], high, -low])
        far = np.full(size, 2 * trust)
        pull = maximised(gain, -rows, space, -far, far).weights
        pull = np.where(pull > _PULLS * pull.max(), pull, 0.0)[: -2 * size]
        # a bend across what presses changes no step along it, and steadies the rest
        held = rows[: len(pull)][pull > 0]
        bend = held.T @ held / wide - np.tensordot(np.append(1 / steep, pull), bends, 1)
        values, ways = np.linalg.eigh(bend)
        bend = (ways * np.maximum(values, 0.0)) @ ways.T
        bend += _STEADY * max(float(np.abs(bend).max()), 1 / wide) * np.eye(size)
        move = balanced(gain, bend, rows, space)
        # contacts bend away from their slopes: what that takes of the room is asked of the step
        space[: -2 * size] = self._figures(move)[1:] - slopes[1:] @ move
        move = balanced(gain, bend, rows, space)
        return move, float(gain @ move - move @ bend @ move / 2)

    def _changes(self, ways: Array) -> tuple[Array, Array, Array]:
        """Return the figures of the top, (m,), their slopes, (m, n), and bends, (m, n, n)."""
        here = self._figures(np.zeros(len(ways)))
        ahead, back = (np.array([self._figures(way) for way in side]) for side in (ways, -ways))
        bends = np.zeros((len(here), len(ways), len(ways)))
        for i, way in enumerate(ways):
            bends[:, i, i] = ahead[i] + back[i] - 2 * here
            for j in range(i):
                both = self._figures(way + ways[j]) + self._figures(-way - ways[j])
                alone = ahead[i] + back[i] + ahead[j] + back[j]
                bends[:, i, j] = bends[:, j, i] = (both + 2 * here - alone) / 2
        apart = ways[0, 0]
        return here, ((ahead - back) / (2 * apart)).T, bends / apart**2

    def _figures(self, step: Array) -> Array:
        """Return the score after a step, and what room is left: to contacts, and to the limits."""
        top, sizing = self.tops.moved(self.top, step), self.tops.sizing
        limits = sizing.half_planes[:, 2] - sizing.half_planes[:, :2] @ top[3:]
        return np.concatenate([[sizing.score(*top[3:])], self._room(top), limits])

    def _room(self, top: Pose) -> Array:
        """Return by how much a radius may grow until a top touches each edge, mm.

        And may shrink until it lets go of each point.
        """
        kind, centre, p = self.tops.kind, np.array([top[:2]]), self.tops.kind.shape_of(top)
        clear = kind.distances(top.turn, p, self.edges, centre)[0] - kind.radius_of(top)
        # one point held from many centres asks as much as many points held from one
        needed = kind.holding(top.turn, p, np.zeros((1, 2)), centre - self.points)
        return np.append(clear, kind.radius_of(top) - needed)
