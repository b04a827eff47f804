"""What no pose of a box of poses beats: many small boxes at once, then every contact of one.

The quick bound: a point of the top lies as deep in the wood as a table says, less its depth in the
top, and more by no more than the box lets it move. A few dozen points rule out most poses.

The sharp one: each way from a corner to an edge changes in proportion to the move and to the sine
of the turn, but for what shrinks with the square of the box: that is added. So a linear program of
place, turn and clearance bounds every pose: what one contact gives another takes. A way past its
edge counts as negative only where the whole piece lies to the left of the edge; otherwise the
corner might stand in wood beyond a slit.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import PROOF_ALLOWANCE, ROUNDING
from ..linear_program import maximised
from ..wood.edges import Array, Segments, blocks, turned
from .laid import Laid, Play

_AT_ONCE = 200_000
"""Places looked up together: what a processor keeps close at hand."""
_FIRST = 12
"""Cells along the longer side of the wood at first."""


@dataclass(slots=True)
class Cells:
    """Boxes of poses on one piece of wood, all of one size."""

    laid: Laid
    middles: Array
    """(m, 3) array: x, y, mm, and turn, radians."""
    half: Array
    """(3,) array: half their sides."""
    most: Array
    """(m,) array: a clearance, mm, that no pose of each beats."""
    sharp: bool = False
    """Whether it is a single one, to be bounded by a linear program."""
    hint: Array | None = None
    """(3,) array or None: a pose that may be good."""

    @classmethod
    def covering(cls, laid: Laid, turns: tuple[float, float], pad: float) -> Cells:
        """Return cells that hold all poses with the middle in the box round the wood.

        That is widened by `pad`, mm; the turns go from one to the other, radians.
        """
        box, reach = laid.ground.region.bounds.grown(pad), laid.shape.reach
        sides = np.array([box.width, box.height, turns[1] - turns[0]])
        step = min(max(box.width, box.height) / _FIRST, reach / 3)
        counts = np.ceil(sides / [step, step, step * math.sqrt(2) / reach])
        half = sides / np.maximum(counts, 1.0) / 2
        low = np.array([box.left, box.bottom, turns[0]])
        axes = (low[k] + half[k] * (2 * np.arange(max(counts[k], 1)) + 1) for k in range(3))
        middles = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
        return cls(laid, middles, half * (1 + 1e-9), np.full(len(middles), math.inf))

    def __len__(self) -> int:
        return len(self.most)

    @property
    def play(self) -> Play:
        """How far a cell lets points of the top move."""
        return Play.of(self.half)

    def singles(self) -> Iterator[Cells]:
        """Yield each of them by itself."""
        for i in range(len(self)):
            one = self.middles[i : i + 1], self.half, self.most[i : i + 1]
            yield Cells(self.laid, *one, sharp=True)

    def eighths(self, at_once: int) -> Iterator[Cells]:
        """Yield the eighths of so many of them together."""
        turns = (-0.5, 0.5) if self.half[2] > 0 else (0.0,)
        signs = np.array(list(product((-0.5, 0.5), (-0.5, 0.5), turns)))
        for start in range(0, len(self), at_once):
            some = slice(start, start + at_once)
            middles = (self.middles[some, None] + signs * self.half).reshape(-1, 3)
            most = np.repeat(self.most[some], len(signs))
            yield Cells(self.laid, middles, self.half / 2, most)

    def halves(self) -> Iterator[Cells]:
        """Yield a single one cut in two across the side that moves the outline most."""
        axis = int((self.half * [1.0, 1.0, self.laid.shape.reach]).argmax())
        way = np.where(np.arange(3) == axis, self.half / 2, 0.0)
        for sign in (-1.0, 1.0):
            yield replace(self, middles=self.middles + sign * way, half=self.half - way, hint=None)

    def bound(self, enough: float) -> None:
        """Bound the cells, keep those that may be above `enough`, the best first."""
        shape, depths = self.laid.shape, self.laid.ground.depths
        probes = shape.points[len(shape.corners) :]
        gain = self.play.far(probes) - shape.depths[len(shape.corners) :]
        arms = probes[:, 0] + 1j * probes[:, 1]
        for some in blocks(len(self), len(probes), _AT_ONCE):
            x, y, turn = self.middles[some].T
            there = (x + 1j * y)[:, None] + np.exp(1j * turn)[:, None] * arms
            there = there.view(np.float64).reshape(len(x), -1, 2)
            most = (depths.most(there) + gain).min(axis=1)
            self.most[some] = np.minimum(self.most[some], most)
        self._keep(self.most > enough)
        self._keep(np.argsort(-self.most, kind="stable"))

    def drop_not_holding(self, held: Array) -> None:
        """Drop the cells in which no pose holds points of the panel, (h, 2) mm."""
        if not len(held):
            return
        away = held[None] - self.middles[:, None, :2]
        own = away.view(np.complex128)[..., 0] * np.exp(-1j * self.middles[:, 2:])
        inside = self.laid.shape.region.depths(own.view(np.float64).reshape(-1, 2))
        most = inside.reshape(own.shape) + self.play.far(away)
        self._keep(most.min(axis=1) >= -PROOF_ALLOWANCE)

    def _keep(self, chosen: np.ndarray) -> None:
        self.middles, self.most = self.middles[chosen], self.most[chosen]


HalfPlanes = tuple[Array, Array]
"""Slopes, (k, 3), and limits, (k,)."""

NO_HELD: HalfPlanes = np.zeros((0, 3)), np.zeros(0)
"""Where nothing must be held."""


class _Ways(NamedTuple):
    """Ways from corners to edges that bound the clearance, all (k,) mm but the slopes."""

    slopes: Array
    """(k, 3) array: how each changes when the outline moves along x, along y, and turns."""
    most: Array
    """How long each is in the middle of the box, and what the slopes leave out."""
    shift: Array
    """How much the box lets it change."""


def bounded(
    laid: Laid, pose: Array, half: Array, most: float, held: HalfPlanes = NO_HELD
) -> tuple[float, Array]:
    """Return a clearance that no pose of a box beats, mm, and a move that may come near it.

    The box is about a pose, (3,), with half its sides, (3,): mm, mm, radians; `most` is a bound
    that is known already, mm. Only poses that keep to the half-planes of `held_in` count.
    """
    play, reach = Play.of(half), laid.shape.reach
    ways = _ways(laid, pose, play)
    if not len(ways.most):
        return most, np.zeros(3)
    start = float(ways.most.min())
    top = min(most, float((ways.most + ways.shift).min())) - start
    if top <= 0:
        return most, np.zeros(3)
    scale = np.array([1.0, 1.0, 1 / reach])
    side = np.array([half[0], half[1], math.sin(min(half[2], math.pi / 2))]) / scale
    slopes, limits = held
    # a step that holds more may clear less than none
    low = -float(ways.shift.max()) if len(limits) else 0.0
    rows = np.vstack([-ways.slopes, slopes]) * scale
    gains = np.repeat([1.0, 0.0], [len(ways.most), len(limits)])
    end = maximised(
        np.array([0.0, 0.0, 0.0, 1.0]),
        np.column_stack([rows, gains]),
        np.concatenate([ways.most - start, limits]),
        np.append(-side, low),
        np.append(side, top),
    )
    return min(most, start + end.value + ROUNDING), end.step[:3] * scale


def _ways(laid: Laid, pose: Array, play: Play) -> _Ways:
    """Return the ways that can bound the clearance in a box about a pose."""
    shape, ground = laid.shape, laid.ground
    own, others = turned(shape.corners, -float(pose[2])), ground.corners - pose[:2]
    farthest = play.middle + shape.reach * play.swing

    def nearest(arms: Array, depths: Array) -> Array:
        far = np.abs(depths)
        near: Array = arms[far <= far.min(initial=math.inf) + 2 * farthest]
        return near

    own = nearest(own, ground.region.depths(own + pose[:2]))
    others = nearest(others, laid.inside(ground.corners, pose))
    both = (
        _close(own, pose, play, ground.edges, farthest, ground.outermost),
        _close(others, pose, play, shape.edges, farthest),
    )
    return _Ways(*map(np.concatenate, zip(*both, strict=True)))


def _close(
    arms: Array,
    pose: Array,
    play: Play,
    edges: Array,
    farthest: float,
    endless: NDArray[np.bool_] | None = None,
) -> _Ways:
    """Return the ways between corners and edges that can be the shortest in the box.

    Arms lead from the outline's middle to the corners, (m, 2) mm on the panel. Of edges of the wood
    `endless`, (n,) of bool, says which have all of it to their left: the way to their line counts
    wherever the foot lies. Without it edges are those of the outline.
    """
    of_wood, turn = endless is not None, float(pose[2])
    side, frame = (1.0, 0.0) if of_wood else (-1.0, turn)
    at, points = Segments.of(edges), arms + pose[:2] if of_wood else turned(arms, turn)
    distances = at.distances(points)
    point, edge = np.nonzero(distances <= distances.min(initial=math.inf) + 2 * farthest)
    left, along, to_end, distance = at.ways(points[point], edge)
    open_ended = np.zeros(len(edge), dtype=np.bool_) if endless is None else endless[edge]
    square = (np.abs(along) <= at.half[edge]) | open_ended
    across, arm = at.across[edge], arms[point]
    to_end /= np.where(distance > 0, distance, 1.0)[:, None]
    normal = turned(np.where(square[:, None], across * side, to_end), -frame)
    swing = normal[:, 1] * arm[:, 0] - normal[:, 0] * arm[:, 1]
    slopes = side * np.column_stack([normal, swing])
    way, shift = np.where(square, left * side, distance), play.far(arm)
    # the foot may wander off the edge, and so the way grow
    room = np.where(square, at.half[edge] - np.abs(along), 0.0)
    over = np.where(open_ended, 0.0, np.maximum(shift - room, 0.0))
    ahead = np.maximum(way - shift, 0.0)
    most = way + np.hypot(ahead, over) - ahead
    most += np.maximum(-(normal * arm).sum(axis=1), 0.0) * play.bend
    most += 0.0 if of_wood else play.middle * play.swing
    valid = (way >= shift) | open_ended
    return _Ways(slopes[valid], most[valid], shift[valid])


def held_in(laid: Laid, held: Array, pose: Array, half: Array) -> HalfPlanes:
    """Return half-planes of moves in a box of poses: outside them some point is not held.

    What an outline holds, (h, 2) mm on the panel, lies on the inner side of each side of its hull.
    They are ``slopes @ (x, y, sin turn) <= limits``; only those that can be crossed in the box.
    """
    if not len(held):
        return NO_HELD
    play, turn, arms = Play.of(half), float(pose[2]), held - pose[:2]
    sides = Segments.of(laid.shape.hull)
    left, _ = sides.seen(turned(arms, turn))
    farthest = left.argmin(axis=0)
    inside, arm, normal = left.min(axis=0), arms[farthest], turned(sides.across, -turn)
    slopes = np.column_stack([normal, normal[:, 1] * arm[:, 0] - normal[:, 0] * arm[:, 1]])
    ahead = np.maximum(-(normal * arm).sum(axis=1), 0.0)
    limits = ahead * play.bend + play.middle * play.swing + PROOF_ALLOWANCE + inside
    tight = inside < play.far(arm)
    return slopes[tight], limits[tight]
