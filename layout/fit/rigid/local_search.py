"""From a pose to the best near it: small steps, each a linear program on what the outline touches.

The clearance of a pose is the least of many ways (see `contacts`). Near a pose each changes almost
in proportion to the move, so the step that raises the least of them most is a linear program; it is
taken where the clearance really is better there, and tried smaller where it is not. A pose that
does not fit yet is worked out of what it crosses in the same manner.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ..goal import Ends
from ..linear_program import maximised
from ..wood.edges import Array, turned
from .contacts import Rows, to_outline, to_wood
from .ground import Ground
from .limits import within
from .outline import Shape, thinned

_FIRST_STEP = 0.1
"""Of the outline's reach."""

_LAST_STEP = 1e-3
"""mm: steps below this change the clearance by less than a tenth of what is promised."""

_MOST_STEPS = 60

_MOST_ROWS = 90
"""Ways looked at in one step; the shortest."""


@dataclass(frozen=True, slots=True)
class Climber:
    """Raises the clearance of one outline on one piece of wood."""

    shape: Shape
    ground: Ground
    """Of the inner polygon."""
    held: Array
    """(h, 2) array: points of the panel that must lie within the outline."""
    stays: Callable[[Array], bool] = lambda _: True
    """Whether a pose is one that it may take."""

    def clearance(self, pose: Array) -> float:
        """Return the clearance of a pose, mm; negative where something is crossed.

        Then it is the least, over the points looked at, of the point's depth in the wood less its
        depth in the outline. It is −∞ where a point that must be held is not, or it strays.
        """
        if not self.stays(pose):
            return -math.inf
        if len(self.held) and self._inside(self.held, pose).min() < 0:
            return -math.inf
        points, less = self._telling(pose, 0.0)
        depth = self.ground.depth(turned(points, -float(pose[2])) + pose[:2])
        out = -self._inside(self._near(pose), pose)
        return min(float((depth - less).min()), float(out.min(initial=math.inf)))

    def climbed(
        self, pose: Array, value: float, *, turns: bool = True, plenty: float = math.inf
    ) -> tuple[float, Array]:
        """Return a local best reached from a pose, never a worse one, turned only if `turns`.

        Or the first pose on the way with `plenty` of clearance, mm.
        """
        trust = _FIRST_STEP * self.shape.reach
        for _ in range(_MOST_STEPS):
            if trust < _LAST_STEP or value >= plenty:
                break
            moved = pose + self._step(pose, trust, turns)
            better = self.clearance(moved)
            if better > value:
                trust *= 2.0 if better > value + 0.3 * trust else 0.7
                pose, value = moved, better
            else:
                trust /= 4
        return value, pose

    def holding(self, pose: Array, trust: float) -> Array:
        """Return a pose near one, at most `trust` mm away, that holds more of what must be held."""
        return pose + self._step(pose, trust, turns=True)

    def _step(self, pose: Array, trust: float, turns: bool) -> Array:
        rows = self._rows(pose, 3 * trust)
        rows = rows[rows.way <= rows.way.min() + 3 * trust]
        rows = rows[np.argsort(rows.way, kind="stable")[:_MOST_ROWS]]
        scale = np.array([1.0, 1.0, 1 / self.shape.reach if turns else 0.0])
        start = float(rows.way.min())
        table = np.column_stack([-rows.slopes * scale, np.ones(len(rows.way))])
        limits = rows.way - start
        if len(self.held):
            inside = self._held_rows(pose)
            table = np.vstack([table, np.column_stack([inside.slopes * scale, inside.way * 0.0])])
            limits = np.concatenate([limits, -inside.way])
        box = np.array([trust, trust, trust, 3 * trust])
        low = np.array([-trust, -trust, -trust, 0.0])
        end = maximised(np.array([0.0, 0.0, 0.0, 1.0]), table, limits, low, box)
        step: Array = end.step[:3] * scale
        return step

    def _rows(self, pose: Array, reach: float) -> Rows:
        shape, ground = self.shape, self.ground
        points, less = self._telling(pose, reach)
        depth = ground.depth(turned(points, -float(pose[2])) + pose[:2])
        least = float((depth - less).min())
        near = np.nonzero(depth - less <= least + reach)[0]
        near = near[thinned((depth - less)[near], ground.edges)]
        points, less, depth = points[near], less[near], depth[near]
        far = float(np.abs(depth).max()) + reach
        rows = _signed(to_wood(points, pose, ground, far), depth, reach)
        rows = replace(rows, way=rows.way - less[rows.point])
        near_corners = self._near(pose)
        if len(near_corners):
            out = -self._inside(near_corners, pose)
            close = np.nonzero(out <= max(least, 0.0) + reach)[0]
            close = close[thinned(out[close], shape.edges)]
            if len(close):
                ways = to_outline(near_corners[close], pose, shape, math.inf)
                rows = rows.joined(_signed(ways, out[close], reach))
        return rows

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

    def _held_rows(self, pose: Array) -> Rows:
        ways = to_outline(self.held, pose, self.shape, math.inf)
        return _signed(ways, -self._inside(self.held, pose), 0.0)

    def _near(self, pose: Array) -> Array:
        """Return the corners of the wood that a circle round the outline, half as large, holds."""
        corners = self.ground.corners
        near: Array = corners[np.hypot(*(corners - pose[:2]).T) <= 1.5 * self.shape.reach]
        return near

    def _inside(self, points: Array, pose: Array) -> Array:
        if len(points) == 0:
            return np.zeros(0)
        return self.shape.inside(turned(points - pose[:2], float(pose[2])))


def climbed(
    climber: Climber, value: float, pose: Array, spans: list[Ends], plenty: float = math.inf
) -> tuple[float, Array]:
    """Return the clearance and pose of a local best near a pose, within the spans of turns.

    Or of the first place on the way with `plenty` of clearance, mm.
    """
    value, pose = climber.climbed(pose, value, plenty=plenty)
    kept = within(float(pose[2]), spans)
    if kept != pose[2]:
        pose = np.array([pose[0], pose[1], kept])
        value, pose = climber.climbed(pose, climber.clearance(pose), turns=False)
    return value, pose


def _signed(rows: Rows, depth: Array, reach: float) -> Rows:
    """Return the ways that count: of points on the good side all, of others the nearest one.

    Parameters
    ----------
    depth : (m,) array
        Of each point on its good side, mm; negative past it.
    """
    off = np.abs(depth)[rows.point]
    size = np.abs(rows.way)
    good = depth[rows.point] >= 0
    use = np.where(good, (rows.way >= 0) & (size <= off + reach), size <= off + 1e-9)
    rows, good = rows[use], good[use]
    flip = np.where(good | (rows.way < 0), 1.0, -1.0)
    return replace(rows, way=rows.way * flip, slopes=rows.slopes * flip[:, None])
