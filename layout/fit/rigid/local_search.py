"""From a pose to the clearest near it: what the outline touches, and how that changes.

The clearance of a pose is the least that any of many points has to the nearest edge: corners of the
outline and places within it in the wood, corners of the wood beside the outline. A step raises the
least of them; a pose that does not fit yet is worked out of what it crosses in the same manner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..goal import Ends
from ..local_search import Steps, best_step, climbed
from ..wood.edges import Array, turned, ways_in
from .ground import Ground
from .outline import Shape

_FIRST_STEP = 0.1
"""Of the outline's reach."""

_LAST_STEP = 1e-3
"""mm: steps below this change the clearance by less than a tenth of what is promised."""

_MOST_ROWS = 90
"""Ways looked at in one step; the shortest."""


@dataclass(frozen=True, slots=True)
class Climber:
    """Raises the clearance of one outline on one piece of wood."""

    shape: Shape
    ground: Ground
    """Of the inner polygon."""
    held: Array
    """(h, 2) array: points of the panel that must lie within the outline, by `ROUNDING` at least:
    those on its very edge would be held or not by the last bit of a sum."""
    spans: tuple[Ends, ...] = ()
    """From where to where it may be turned, radians; none where any turn will do."""

    def clearance(self, pose: Array) -> float:
        """Return the clearance of a pose, mm; negative where something is crossed.

        Then it is the least, over the points looked at, of the point's depth in the wood less its
        depth in the outline. It is −∞ where a point that must be held is not.
        """
        if len(self.held) and self._inside(self.held, pose).min() < ROUNDING:
            return -math.inf
        points, less = self._telling(pose, 0.0)
        depth = self.ground.depth(turned(points, -float(pose[2])) + pose[:2])
        out = -self._inside(self._near(pose), pose)
        return min(float((depth - less).min()), float(out.min(initial=math.inf)))

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
        out, held = self._ways(self.held, pose)
        table = np.vstack(
            [
                np.column_stack([-slopes[near], np.ones(len(near))]),
                np.column_stack([held, np.zeros(len(held))]),
            ]
        )
        limits = np.concatenate([clear[near] - start, -out - 2 * ROUNDING])
        low, high = np.array([[-trust, -trust, -trust, 0.0], [trust, trust, trust, 3 * trust]])
        if self.spans:
            turn = float(pose[2])
            span = min(self.spans, key=lambda span: max(span[0] - turn, turn - span[1]))
            ends = (np.array(span) - turn) * self.shape.reach
            low[2], high[2] = max(-trust, min(ends[0], 0.0)), min(trust, max(ends[1], 0.0))
        return Steps(np.array([0.0, 0.0, 0.0, 1.0]), table, limits, low, high)

    def _rows(self, pose: Array, reach: float) -> tuple[Array, Array]:
        """Return how clear points are, (m,), and how that changes with each unknown, (m, 3)."""
        points, less = self._telling(pose, reach)
        arms = turned(points, -float(pose[2]))
        there, ground = arms + pose[:2], self.ground
        depth, ways = ways_in(ground.edges, there, ground.region.holds_points(there))
        out, slopes = self._ways(self._near(pose), pose)
        moved = np.column_stack([ways, self._swing(arms, ways)])
        return np.concatenate([depth - less, out]), np.vstack([moved, slopes])

    def _ways(self, points: Array, pose: Array) -> tuple[Array, Array]:
        """Return how far points of the panel lie outside, and how that changes, as `_rows` does."""
        away, turn, shape = points - pose[:2], float(pose[2]), self.shape
        own = turned(away, turn)
        depth, deeper = ways_in(shape.edges, own, shape.region.holds_points(own))
        ways = turned(deeper, -turn)
        return -depth, np.column_stack([ways, self._swing(away, ways)])

    def _swing(self, arms: Array, ways: Array) -> Array:
        """Return how far a turn, counted at the farthest point, moves places along ways, (m,)."""
        swing: Array = ways[:, 1] * arms[:, 0] - ways[:, 0] * arms[:, 1]
        return swing / self.shape.reach

    def _telling(self, pose: Array, reach: float) -> tuple[Array, Array]:
        """Return the points that may be within `reach` of the least clearance, and their depths."""
        shape, ground = self.shape, self.ground
        points = np.concatenate([shape.corners, shape.probes])
        less = np.concatenate([np.zeros(len(shape.corners)), shape.depths])
        there = turned(points, -float(pose[2])) + pose[:2]
        most = ground.depths.about(there[:, 0], there[:, 1]) - less
        near = most <= most.min() + reach + 2 * ground.depths.step
        near |= ground.depths.beyond(there)
        return points[near], less[near]

    def _near(self, pose: Array) -> Array:
        """Return the corners of the wood that a circle round the outline, half as large, holds."""
        corners = self.ground.corners
        near: Array = corners[np.hypot(*(corners - pose[:2]).T) <= 1.5 * self.shape.reach]
        return near

    def _inside(self, points: Array, pose: Array) -> Array:
        return self.shape.inside(turned(points - pose[:2], float(pose[2])))
