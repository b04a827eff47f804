"""Many small boxes of poses at once: the first, quick bound.

The clearance is at most the depth of a point of the top in the wood, read from a table, less that
in the top, and more by no more than the box lets the point move. A few dozen points, on the edge
and within, rule out all but a small part of the poses.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE
from ..wood.edges import Array, blocks
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
