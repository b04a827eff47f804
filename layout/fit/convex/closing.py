"""Closing in: from a polished top to the local best itself, whose sizes stand to 0.001 mm.

Where five contacts hold a top, a polish by linear programs ends in it. Where fewer do, as those of
an oval in a triangle, the score is flat about its best: a polish that only asks whether a score
grows stops where rounding hides the growth, some hundredths of a mm away. So the last steps are
those of Newton's method on the conditions of the optimum (Byrd, Gould, Nocedal and Waltz, "An
algorithm for nonlinear optimization using linear programming and equality constrained subproblems",
2004): a linear program tells which contacts press and how hard, and how these bend where their
pulls and the slope of the score balance. A step is taken as long as the score does not fall. It
ends when the steps do; where they do not come to rest, linear programs go on alone.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ..linear_program import maximised
from ..quadratic_program import balanced
from ..wood.edges import Array
from .pose import Pose

if TYPE_CHECKING:
    from .family import TwoSizes

_DONE = 1e-5
"""mm: a step shorter than this ends it; a hundredth of what sizes are told to."""

_IDLE = 1e-11
"""mm of size: a step that promises no more is one between tops that are equally good."""

_FIRST_TRUST = 0.01
"""Of the half width."""

_LAST_TRUST = 1e-7
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


def closed_in(family: TwoSizes, top: Pose) -> Pose:
    """Return the local best beside a polished top, or the top where there is no closer one."""
    score = family.sizing.score(top.half_length, top.half_width)
    trust = _FIRST_TRUST * top.half_width
    for _ in range(_MOST_STEPS):
        if trust < _LAST_TRUST * top.half_width:
            break
        step, promise = _Near(family, top, trust).step()
        length = float(np.abs(step * [1.0, 1.0, top.half_length, 1.0, 1.0]).max())
        if length < _DONE or abs(promise) < _IDLE:
            return top
        there = Pose(*(float(v) for v in np.array(top) + step))
        found = family.fitted(there)
        if found is None or found[0] < score * (1 - _NOTHING):
            trust = min(trust, length) / 4
            continue
        trust *= 2.0 if length > _FULL * trust else 1.0
        score, top = found
    # not at rest: both ends of a flat side on one edge make a kink; programs see two contacts
    return family.polished(score, top)[1]


class _Near:
    """What a top may do within `trust`, mm, of where it is, as functions of steps of its numbers.

    Its numbers are those of the pose; where the ratio is given, both sizes are one.
    """

    def __init__(self, family: TwoSizes, top: Pose, trust: float) -> None:
        self.family, self.top, self.trust = family, top, trust
        self.apart = _APART * top.half_width
        self.moves = family.moves(top)
        near = 4 * trust + self.apart
        edges = family.near(top, near)
        self.edges = edges[self._room(np.array(top), edges) < near]
        firm = family.wood.firmly
        self.firm = firm[self._held(np.array(top), firm) < near]

    def step(self) -> tuple[Array, float]:
        """Return the step of the pose to where score and contacts balance, and its gain, mm."""
        size = self.moves.shape[1]
        at = np.zeros(size)
        low, high = self.family.reach(self.top, self.trust)
        rows, space = _slopes(self._space, at, self.apart), self._space(at)
        rows = np.vstack([rows, -np.eye(size), np.eye(size)])
        space = np.concatenate([space, high, -low])
        gain = _slopes(lambda x: np.array([self._score(x)]), at, self.apart)[0]
        steep = float(np.abs(gain).max()) or 1.0
        gain /= steep
        far = np.full(size, 2 * self.trust)
        pull = maximised(gain, -rows, space, -far, far).weights
        pull = np.where(pull > _PULLS * pull.max(), pull, 0.0)[: -2 * size]

        def balance(x: Array) -> float:
            return self._score(x) / steep + float(pull @ self._space(x))

        # a bend across what presses changes no step along it, and steadies the rest
        held = rows[: len(pull)][pull > 0]
        bend = held.T @ held / self.top.half_width - _bends(balance, at, self.apart)
        bend = _positive_part(bend)
        steady = _STEADY * max(float(np.abs(bend).max()), 1 / self.top.half_width)
        bend += steady * np.eye(size)
        move = balanced(gain, bend, rows, space)
        # contacts bend away from their slopes: what that takes of the room is asked of the step
        space[: -2 * size] = self._space(move) - rows[: -2 * size] @ move
        move = balanced(gain, bend, rows, space)
        return self.moves @ move, float(gain @ move - move @ bend @ move / 2)

    def _score(self, x: Array) -> float:
        _, _, _, half_length, half_width = np.array(self.top) + self.moves @ x
        return self.family.sizing.score(half_length, half_width)

    def _space(self, x: Array) -> Array:
        """Return how much room is left to each edge, to what must be held, and to the limits."""
        pose = np.array(self.top) + self.moves @ x
        planes = np.array(self.family.sizing.half_planes)
        limits = planes[:, 2] - planes[:, :2] @ pose[3:]
        held = self._held(pose, self.firm)
        return np.concatenate([self._room(pose, self.edges), held, limits])

    def _room(self, pose: Array, edges: Array) -> Array:
        """Return by how much a radius may grow until the top touches each edge, mm."""
        kind, top = self.family.kind, Pose(*pose)
        p = kind.shape_of(top)
        radius = kind.radius_of_width(p, top.half_width)
        room: Array = kind.distances(top.turn, p, edges, pose[None, :2])[0] - radius
        return room

    def _held(self, pose: Array, points: Array) -> Array:
        """Return by how much a radius may shrink until the top lets go of each point, mm."""
        kind, top = self.family.kind, Pose(*pose)
        p = kind.shape_of(top)
        radius = kind.radius_of_width(p, top.half_width)
        # one point held from many centres asks as much as many points held from one
        needed = kind.holding(top.turn, p, np.zeros((1, 2)), pose[None, :2] - points)
        room: Array = radius - needed
        return room


def _slopes(function: Callable[[Array], Array], at: Array, apart: float) -> Array:
    """Return how each value of a function changes with each number, (m, n)."""
    ways = apart * np.eye(len(at))
    slopes = [(function(at + way) - function(at - way)) / (2 * apart) for way in ways]
    return np.stack(slopes, axis=1)


def _bends(function: Callable[[Array], float], at: Array, apart: float) -> Array:
    """Return the second slopes of a function, (n, n)."""
    size, here = len(at), function(at)
    ways = apart * np.eye(size)
    alone = [(function(at + way), function(at - way)) for way in ways]
    bends = np.zeros((size, size))
    for i in range(size):
        bends[i, i] = sum(alone[i]) - 2 * here
        for j in range(i):
            both = function(at + ways[i] + ways[j]) + function(at - ways[i] - ways[j])
            bends[i, j] = bends[j, i] = (both + 2 * here - sum(alone[i]) - sum(alone[j])) / 2
    return bends / apart**2


def _positive_part(matrix: Array) -> Array:
    """Return the symmetric matrix without its negative eigenvalues."""
    values, vectors = np.linalg.eigh(matrix)
    positive: Array = (vectors * np.maximum(values, 0.0)) @ vectors.T
    return positive
