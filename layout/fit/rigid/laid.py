"""The maker's own outline laid on a piece of wood: how clear it is in a pose, or in all of a box.

Two shapes that do not cross are nearest at a corner of one of them, and a point that lies deep in
the outline must lie as deep in the wood. So the clearance is the least, over points of the outline,
of their depth in the wood less that in the outline, and over corners of the wood of their distance
from the outline. A box lets each of them gain no more than it lets that point move.

The outline is a polygon within the true one: where it has no place, that has none either.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ...geometry import Placement, Point, Region
from ...geometry.polygon import convex_hull
from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ..goal import Ends
from ..local_search import Steps, climbed
from ..wood.depth import Depths
from ..wood.edges import Array, outermost, repeats, turned, turned_in, ways_in

_ON_EDGE = 30
"""Probes at even steps of the edge, and at corners, at most."""
_ACROSS = 7
"""Rows of probes within, across the narrower side of the box round it."""
_FIRST_STEP, _LAST_STEP = 0.1, 1e-3
"""Of the outline's reach, and mm: steps below this change the clearance by less than a tenth of
what is promised."""


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline about a middle of its own."""

    middle: Point
    """That middle, in the frame of the outline."""
    reach: float
    """How far its farthest point lies from there, mm."""
    region: Region
    edges: Array
    """(n, 2, 2) array: of the polygon, mm; the top lies to their left."""
    hull: Array
    """(h, 2, 2) array: of its convex hull."""
    corners: Array
    """(m, 2) array: those of its corners that stand out: no other can come nearest to an edge of
    the wood."""
    points: Array
    """(k, 2) array: these corners, and then probes, on its edge and within."""
    depths: Array
    """(k,) array: how deep in the top each of the points lies, mm; 0 on its edge."""
    period: float
    """The turn after which it looks the same, radians."""

    @classmethod
    def of(cls, outline: Outline) -> Shape:
        """Return the shape of an outline."""
        ring = outline.inner(PROOF_ALLOWANCE)
        middle = Region.from_rings(ring).round_middle
        region = Region.from_rings(ring - [*middle])
        edges = region.edges
        ring = edges[:, 0]
        corners, rim, grid = edges[~turned_in(edges)[:, 0], 0], _rim(edges), _grid(region)
        return cls(
            middle,
            float(np.hypot(*ring.T).max()) + ROUNDING,
            region,
            edges,
            Region.hull(ring).edges,
            corners,
            np.concatenate([corners, rim, grid]),
            np.concatenate([np.zeros(len(corners) + len(rim)), region.depths(grid)]),
            math.tau / repeats(ring - [*region.centroid], ROUNDING),
        )

    def placement(self, pose: Array) -> Placement:
        """Return where the outline lies in a pose, (3,): x and y of its middle, mm, and turn."""
        turn = math.remainder(float(pose[2]), math.tau) + 0.0
        return Placement(Point.of(pose[:2]) - self.middle.turned(turn), turn)


def _rim(edges: Array) -> Array:
    """Return corners and even steps of the edges, so many of either at most."""
    lengths = np.hypot(*(edges[:, 1] - edges[:, 0]).T)
    spacing = float(lengths.sum()) / _ON_EDGE
    rim = [edges[:: -(-len(edges) // _ON_EDGE), 0]]
    for (start, end), length in zip(edges, lengths, strict=True):
        parts = math.floor(length / spacing)
        rim.append(start + np.arange(1, parts + 1)[:, None] / (parts + 1) * (end - start))
    return np.concatenate(rim)


def _grid(region: Region) -> Array:
    """Return a grid of points within a region."""
    box = region.bounds
    step = min(box.width, box.height) / _ACROSS
    x = np.arange(box.left + step / 2, box.right, step)
    y = np.arange(box.bottom + step / 2, box.top, step)
    grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    return grid[region.holds_points(grid)]


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
        return cls(region, edges, own, corners, Depths(region))


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
    """An outline on a piece of wood, and its clearance there, which a local search raises."""

    shape: Shape
    ground: Ground
    held: Array = field(default_factory=lambda: np.zeros((0, 2)))
    """(h, 2) array: points of the panel that must lie within the outline, by `ROUNDING` at least:
    those on its very edge would be held or not by the last bit of a sum."""
    spans: tuple[Ends, ...] = ()
    """From where to where it may be turned, radians; none where any turn will do."""

    def clear(self, pose: Array, play: Play = STILL) -> float:
        """Return a clearance, mm, that no pose of a box beats; of a single pose its very own.

        Negative where something is crossed. The box is about the pose, (3,): mm, mm, radians.
        """
        shape, corners = self.shape, self.ground.corners
        there = turned(shape.points, -float(pose[2])) + pose[:2]
        depth = self.ground.region.depths(there) + play.far(shape.points) - shape.depths
        out = play.far(corners - pose[:2]) - self.inside(corners, pose)
        return min(float(depth.min()), float(out.min(initial=math.inf)))

    def inside(self, points: Array, pose: Array) -> Array:
        """Return how deep points of the panel lie in the outline in a pose; negative outside."""
        return self.shape.region.depths(turned(points - pose[:2], float(pose[2])))

    def clearance(self, pose: Array) -> float:
        """Return the clearance of a pose, mm; −∞ where a point that must be held is not."""
        holds = self.inside(self.held, pose).min(initial=math.inf) >= ROUNDING
        return self.clear(pose) if holds else -math.inf

    def fitted(self, pose: Array) -> tuple[float, Array] | None:
        """Return the clearance of a pose that holds what it must, mm, and the pose."""
        clearance = self.clearance(pose)
        return None if clearance == -math.inf else (clearance, pose)

    def climbed(self, pose: Array, plenty: float = math.inf) -> tuple[float, Array]:
        """Return a local best reached from a pose, never a worse one, or one with `plenty`, mm."""
        steps = _FIRST_STEP * self.shape.reach, _LAST_STEP
        return climbed(self, (self.clearance(pose), pose), steps, enough=plenty)

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
        out, held = self._out(self.held, pose)
        gains = np.repeat([1.0, 0.0], [len(clear), len(held)])
        rows = np.column_stack([np.vstack([-slopes, held]), gains])
        limits = np.concatenate([clear - start, -out - 2 * ROUNDING])
        # a step that holds more may clear less than none
        least = -3.0 if len(held) else 0.0
        low, high = trust * np.array([[-1.0, -1.0, -1.0, least], [1.0, 1.0, 1.0, 3.0]])
        if self.spans:
            turn = float(pose[2])
            span = min(self.spans, key=lambda span: max(span[0] - turn, turn - span[1]))
            ends = (np.array(span) - turn) * self.shape.reach
            low[2], high[2] = max(-trust, min(ends[0], 0.0)), min(trust, max(ends[1], 0.0))
        return Steps(np.array([0.0, 0.0, 0.0, 1.0]), rows, limits, low, high)

    def _rows(self, pose: Array, reach: float) -> tuple[Array, Array]:
        """Return how clear points are, (m,), and how that changes with each unknown, (m, 3).

        Of points of the outline only those that are by `reach`, mm, clearer than the least clear.
        """
        shape, ground = self.shape, self.ground
        arms = turned(shape.points, -float(pose[2]))
        depth = ground.region.depths(arms + pose[:2]) - shape.depths
        near = depth <= depth.min() + reach
        there = (arms + pose[:2])[near]
        _, ways = ways_in(ground.edges, there, ground.region.holds_points(there))
        corners = ground.corners
        out, slopes = self._out(corners[-self.inside(corners, pose) <= depth.min() + reach], pose)
        rows = np.vstack([self._slopes(arms[near], ways), slopes])
        return np.concatenate([depth[near], out]), rows

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
