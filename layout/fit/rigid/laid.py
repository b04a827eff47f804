"""An outline laid on a piece of wood: how clear it is in a pose, or in all poses of a box.

Two shapes that do not cross are nearest at a corner of one of them, and a point that lies deep in
the outline must lie as deep in the wood. So the clearance is the least, over points of the outline,
of their depth in the wood less that in the outline, and over corners of the wood of their distance
from the outline. A box lets each of them gain no more than it lets that point move.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...geometry.polygon import Region, convex_hull
from ..wood.depth import Depths
from ..wood.edges import Array, depths_in, outermost, turned, turned_in
from ..wood.round_holes import Disks
from .outline import Shape

_NODES = 256
"""Of the table of depths, along the longer side of the wood."""
_AROUND = 1.5
"""Of the outline's reach: farther off no corner of the wood is looked at."""


@dataclass(frozen=True, slots=True)
class Ground:
    """A piece of wood, or all of it."""

    region: Region
    edges: Array
    """(n, 2, 2) array: mm, the wood to their left."""
    outermost: NDArray[np.bool_]
    """(n,) array of bool: which edges have all of it to their left."""
    corners: Array
    """(m, 2) array: corners where the wood turns inwards: none but these can come nearest to an
    edge of a top."""
    depths: Depths

    @classmethod
    def of(cls, region: Region) -> Ground:
        """Return the ground of a region."""
        edges = region.edges
        corners = edges[turned_in(edges)[:, 0], 0]
        own = outermost(edges, convex_hull(region.corners))
        return cls(region, edges, own, corners, Depths(region, edges, Disks.none(), _NODES))


@dataclass(frozen=True, slots=True)
class Play:
    """How far a box of poses lets points of the outline move."""

    middle: float = 0.0
    """With its middle, mm."""
    swing: float = 0.0
    """With the turn, for each mm from the middle."""
    bend: float = 0.0
    """1 less the cosine of the turn."""

    @classmethod
    def of(cls, half: Array) -> Play:
        """Return what a box leaves, of half its sides, (3,): mm, mm, radians."""
        x, y, turn = (float(side) for side in half)
        swing = 2 * math.sin(min(turn, math.pi) / 2)
        return cls(math.hypot(x, y), swing, 1 - math.cos(turn))

    def far(self, arms: Array) -> Array:
        """Return how far points move, (…), at the ends of arms from the middle, (…, 2) mm."""
        moved: Array = self.middle + self.swing * np.hypot(arms[..., 0], arms[..., 1])
        return moved


STILL = Play()


@dataclass(frozen=True, slots=True)
class Laid:
    """An outline on a piece of wood."""

    shape: Shape
    ground: Ground

    def clear(self, pose: Array, play: Play = STILL) -> float:
        """Return a clearance, mm, that no pose of a box beats; of a single pose its very own.

        Negative where something is crossed. The box is about the pose, (3,): mm, mm, radians.
        """
        points, gain = self.telling(pose, play)
        there = turned(points, -float(pose[2])) + pose[:2]
        corners = self.corners_near(pose)
        out = play.far(corners - pose[:2]) - self.inside(corners, pose)
        depth = depths_in(self.ground.region, self.ground.edges, there)
        return min(float((depth + gain).min()), float(out.min(initial=math.inf)))

    def telling(self, pose: Array, play: Play = STILL, reach: float = 0.0) -> tuple[Array, Array]:
        """Return points of the outline that may be least clear, or by `reach`, mm, less so.

        And what is added to their depths in the wood.
        """
        shape, depths = self.shape, self.ground.depths
        points = np.concatenate([shape.corners, shape.probes])
        gain = play.far(points)
        gain[len(shape.corners) :] -= shape.depths
        there = turned(points, -float(pose[2])) + pose[:2]
        most = depths.about(there[:, 0], there[:, 1]) + gain
        near = (most <= most.min() + reach + 2 * depths.step) | depths.beyond(there)
        return points[near], gain[near]

    def corners_near(self, pose: Array) -> Array:
        """Return the corners of the wood that a circle round the outline, half as large, holds."""
        corners = self.ground.corners
        near: Array = corners[np.hypot(*(corners - pose[:2]).T) <= _AROUND * self.shape.reach]
        return near

    def inside(self, points: Array, pose: Array) -> Array:
        """Return how deep points of the panel lie in the outline in a pose; negative outside."""
        return self.shape.inside(turned(points - pose[:2], float(pose[2])))
