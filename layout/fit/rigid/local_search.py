"""From a pose to the clearest near it: what the outline touches, and how that changes.

A step raises the least clearance of many points; a pose that does not fit yet is worked out of what
it crosses in the same manner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..goal import Ends
from ..local_search import Steps, best_step, climbed
from ..wood.edges import Array, turned, ways_in
from .laid import Laid

_FIRST_STEP = 0.1
"""Of the outline's reach."""
_LAST_STEP = 1e-3
"""mm: steps below this change the clearance by less than a tenth of what is promised."""
_MOST_ROWS = 90
"""Ways looked at in one step; the shortest."""


@dataclass(frozen=True, slots=True)
class Climber(Laid):
    """Raises the clearance of one outline on one piece of wood, its inner polygon."""

    held: Array = field(default_factory=lambda: np.zeros((0, 2)))
    """(h, 2) array: points of the panel that must lie within the outline, by `ROUNDING` at least:
    those on its very edge would be held or not by the last bit of a sum."""
    spans: tuple[Ends, ...] = ()
    """From where to where it may be turned, radians; none where any turn will do."""

    def clearance(self, pose: Array) -> float:
        """Return the clearance of a pose, mm; −∞ where a point that must be held is not."""
        if len(self.held) and self.inside(self.held, pose).min() < ROUNDING:
            return -math.inf
        return self.clear(pose)

    def fitted(self, pose: Array) -> tuple[float, Array] | None:
        """Return the clearance of a pose that holds what it must, mm, and the pose."""
        clearance = self.clearance(pose)
        return None if clearance == -math.inf else (clearance, pose)

    def climbed(self, value: float, pose: Array, plenty: float = math.inf) -> tuple[float, Array]:
        """Return a local best reached from a pose, never a worse one, or one with `plenty`, mm."""
        steps = _FIRST_STEP * self.shape.reach, _LAST_STEP
        return climbed(self, (value, pose), steps, enough=plenty)

    def holding(self, pose: Array, trust: float) -> Array:
        """Return a pose near one, at most `trust` mm away, that holds more of what must be held."""
        return self.moved(pose, best_step(self, pose, trust)[0])

    def moved(self, pose: Array, step: Array) -> Array:
        """Return the pose after a step."""
        there: Array = pose + step[:3] / [1.0, 1.0, self.shape.reach]
        return there

    def steps(self, pose: Array, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm.

        The unknowns are the place, the turn, counted at the farthest point, and the clearance.
        """
        clear, slopes = self._rows(pose, 3 * trust)
        start = float(clear.min())
        near = np.argsort(clear, kind="stable")[:_MOST_ROWS]
        near = near[clear[near] <= start + 3 * trust]
        out, held = self._out(self.held, pose)
        gains = np.repeat([1.0, 0.0], [len(near), len(held)])
        rows = np.column_stack([np.vstack([-slopes[near], held]), gains])
        limits = np.concatenate([clear[near] - start, -out - 2 * ROUNDING])
        low, high = trust * np.array([[-1.0, -1.0, -1.0, 0.0], [1.0, 1.0, 1.0, 3.0]])
        if self.spans:
            turn = float(pose[2])
            span = min(self.spans, key=lambda span: max(span[0] - turn, turn - span[1]))
            ends = (np.array(span) - turn) * self.shape.reach
            low[2], high[2] = max(-trust, min(ends[0], 0.0)), min(trust, max(ends[1], 0.0))
        return Steps(np.array([0.0, 0.0, 0.0, 1.0]), rows, limits, low, high)

    def _rows(self, pose: Array, reach: float) -> tuple[Array, Array]:
        """Return how clear points are, (m,), and how that changes with each unknown, (m, 3)."""
        points, gain = self.telling(pose, reach=reach)
        arms = turned(points, -float(pose[2]))
        there, ground = arms + pose[:2], self.ground
        depth, ways = ways_in(ground.edges, there, ground.region.holds_points(there))
        out, slopes = self._out(self.corners_near(pose), pose)
        rows = np.vstack([self._slopes(arms, ways), slopes])
        return np.concatenate([depth + gain, out]), rows

    def _out(self, points: Array, pose: Array) -> tuple[Array, Array]:
        """Return how far points of the panel lie outside, and how that changes, as `_rows` does."""
        away, turn, shape = points - pose[:2], float(pose[2]), self.shape
        own = turned(away, turn)
        depth, deeper = ways_in(shape.edges, own, shape.region.holds_points(own))
        return -depth, self._slopes(away, turned(deeper, -turn))

    def _slopes(self, arms: Array, ways: Array) -> Array:
        """Return how far along ways a mm of each unknown moves the ends of arms, (m, 3)."""
        swing = ways[:, 1] * arms[:, 0] - ways[:, 0] * arms[:, 1]
        return np.column_stack([ways, swing / self.shape.reach])
