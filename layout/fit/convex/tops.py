"""Real tops in the inner polygon, each the largest of its place, turn and shape, and their steps.

Of thousands of edges only those are looked at that can come into the way.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..local_search import Steps, climbed
from ..wood.edges import Array
from .boxes import Pose
from .sizing import Sizing
from .wood import Wood

_LOOKS_A_PLACE, _LOOKS_A_CONTACT = 4, 20
"""Looks at an edge (`Family.looks`) that a top that is placed and its contacts take of each edge
beside it: as measured."""
FIRST_STEP, _LAST_STEP = 0.1, 1e-7
"""Of the half width; steps smaller than the last change no printed figure."""
CLOSE = 1e-5
"""The last one where closing in finds what is left."""
_NOTHING = 1e-10
"""Of the half width: where no step promises to gain more, mm, the top is at its contacts."""
_APART = 1e-6
"""Of the half width: how far a top is moved to see how firmly it holds points."""


class Tops:
    """Tops of one kind on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        self.wood, self.kind = wood, sizing.kind
        self.sizing = replace(sizing, longest=wood.diameter / 2)
        self.shapes = low, high = self.sizing.shapes
        self.is_one_shape = low == high
        self.looks = 0.0

    def placed(self, centre: Array, turn: float, p: float) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of a place, turn and shape, if any fits."""
        if not self.wood.inner.holds_points(centre[None])[0]:
            return None
        radius = self._radius(centre, turn, p)
        sizes = self.sizing.best(p, radius)
        if sizes is None:
            return None
        if len(self.wood.held):
            needed = self.kind.holding(turn, p, self.wood.firmly, centre[None])[0] - ROUNDING
            if self.kind.sizes(p, needed)[1] > sizes[1]:
                return None
        pose = Pose(float(centre[0]), float(centre[1]), turn, *sizes)
        return self.sizing.score(*sizes), pose

    def fitted(self, top: Pose) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of the place, turn and shape of one."""
        if min(top[3:]) <= 0:
            return None
        return self.placed(np.array(top[:2]), top.turn, self.kind.shape_of(top))

    def _radius(self, centre: Array, turn: float, p: float) -> float:
        """Return that of the largest top of a place, turn and shape in the inner polygon."""
        near = self.wood.around.nearest(centre)
        radius = float(self.kind.distances(turn, p, near, centre[None]).min())
        if len(near) < len(self.wood.inner_edges):
            near = self.wood.around.within(centre, turn, self.kind.box(p, radius + ROUNDING))
            radius = float(self.kind.distances(turn, p, near, centre[None]).min(initial=radius))
        self.looks += self.kind.pace * _LOOKS_A_PLACE * len(near) + len(self.wood.inner_edges) / 4
        return radius

    def near(self, top: Pose, larger: float, by: float = 0.0) -> Array:
        """Return the edges within `by`, mm, of a top whose radius is so much larger, mm."""
        radius = self.kind.radius_of(top) + larger
        along, across = self.kind.box(self.kind.shape_of(top), radius)
        return self.wood.around.within(np.array(top[:2]), top.turn, (along + by, across + by))

    def polished(self, score: float, top: Pose, *, last: float = _LAST_STEP) -> tuple[float, Pose]:
        """Return a local best reached from a top, never a worse one, by steps down to `last`."""
        first, last = FIRST_STEP * top.half_width, last * top.half_width
        least = max(_NOTHING * top.half_width, last / 100)
        return climbed(self, (score, top), (first, last), nothing=least)

    def moved(self, top: Pose, step: Array) -> Pose:
        """Return the top after a step."""
        return Pose(*(float(v) for v in np.array(top) + self.moves(top) @ step))

    def steps(self, top: Pose, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm."""
        edges = self.near(top, 0.0, reach := 6 * trust + 1e-3 * top.half_width)
        self.looks += self.kind.pace * _LOOKS_A_CONTACT * len(edges)
        (clear, slopes), moves = self.kind.contacts(top, edges), self.moves(top)
        close = clear < reach
        rows, limits = [-slopes[close] @ moves], [clear[close]]
        if len(firm := self.wood.firmly):
            held, apart = self.holds(top, firm), _APART * top.half_width
            changes = [
                self.holds(self.moved(top, way), firm) - held
                for way in apart * np.eye(len(moves.T))
            ]
            rows.append(-np.transpose(changes) / apart)
            limits.append(held)
        planes = np.array(self.sizing.half_planes)
        rows.append(planes[:, :2] @ moves[3:])
        limits.append(planes[:, 2] - planes[:, :2] @ top[3:])
        gain = self.sizing.slopes(*top[3:]) @ moves[3:]
        gain /= np.abs(gain).max() or 1.0
        return Steps(gain, np.vstack(rows), np.concatenate(limits), *self.reach(top, trust))

    def moves(self, top: Pose) -> Array:
        """Return how the five numbers of a top change with each unknown of a step, as columns.

        A turn is counted at the end of the top; where the shape is given, both sizes are one
        unknown.
        """
        moves = np.diag([1.0, 1.0, 1 / top.half_length, 1.0, 1.0])
        if not self.is_one_shape:
            return moves
        axes = self.kind.axes(self.kind.shape_of(top))
        moves[4, 3] = axes.widens / axes.lengthens
        return moves[:, :4]

    def reach(self, top: Pose, trust: float) -> tuple[Array, Array]:
        """Return the least and greatest steps; a turn is counted at the end of the top."""
        high = np.full(4 if self.is_one_shape else 5, trust)
        low = -high
        limits = self.sizing.wish.limits
        period = self.kind.period(self.shapes[1])
        if period == 0:
            low[2] = high[2] = 0.0
        elif limits.most_turn < min(math.pi, period) / 2:
            away = limits.off_grain(top.turn)
            high[2] = min(trust, max(0.0, (limits.most_turn - away) * top.half_length))
            low[2] = max(-trust, min(0.0, (-limits.most_turn - away) * top.half_length))
        return low, high

    def holds(self, top: Pose, points: Array) -> Array:
        """Return by how much a radius may shrink until a top lets go of each point, (m,) mm."""
        # one point held from many centres asks as much as many points held from one
        centres = np.array(top[:2]) - points
        needed = self.kind.holding(top.turn, self.kind.shape_of(top), np.zeros((1, 2)), centres)
        held: Array = self.kind.radius_of(top) - needed
        return held
