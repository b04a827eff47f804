"""Many small boxes of poses at once: the first, quick bound.

A point of the top that lies `k` deep in it must lie `k` deep in the wood, and the clearance deeper.
So the clearance is at most the point's depth in the wood, read from a table, less `k`, and more by
no more than the box lets the point move. A few dozen points, on the edge and within, rule out all
but a small part of the poses.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import product

import numpy as np

from ..wood.edges import Array, blocks
from .ground import Ground
from .outline import Shape
from .relaxation import swing

_AT_ONCE = 200_000
"""Places looked up together: what a processor keeps close at hand."""


@dataclass(slots=True)
class Cells:
    """Boxes of poses, all of one size."""

    middles: Array
    """(m, 3) array: x, y, mm, and turn, radians."""
    half: Array
    """(3,) array: half their sides."""
    most: Array
    """(m,) array: a clearance, mm, that no pose of each beats."""

    @classmethod
    def covering(
        cls, ground: Ground, turns: tuple[float, float], reach: float, pad: float
    ) -> Cells:
        """Return cells that hold all poses with the middle in the box round the wood.

        Parameters
        ----------
        turns : tuple of two floats
            From and to, radians.
        reach : float
            Of the outline, mm: how far a radian moves its farthest point.
        pad : float
            By which the box is widened, mm.
        """
        box = ground.region.bounds.grown(pad)
        step = min(max(box.width, box.height) / 12, reach / 3)
        counts = [max(1, math.ceil(extent / step)) for extent in (box.width, box.height)]
        counts.append(max(1, math.ceil((turns[1] - turns[0]) * reach / (step * math.sqrt(2)))))
        low = np.array([box.left, box.bottom, turns[0]])
        half = np.array([box.width, box.height, turns[1] - turns[0]]) / counts / 2
        axes = (low[k] + half[k] * (2 * np.arange(counts[k]) + 1) for k in range(3))
        middles = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)
        half[:2] *= 1 + 1e-9
        half[2] *= 1 + 1e-9
        return cls(middles, half, np.full(len(middles), math.inf))

    def __len__(self) -> int:
        return len(self.most)

    def slack(self, reach: float) -> float:
        """Return how far a cell lets a point of the top move, mm."""
        return math.hypot(self.half[0], self.half[1]) + reach * swing(self.half[2])

    def parts(self, start: int, end: int) -> Cells:
        """Return the eighths of some of the cells."""
        turn = self.half[2] > 0
        signs = np.array(list(product((-0.5, 0.5), (-0.5, 0.5), (-0.5, 0.5) if turn else (0.0,))))
        middles = (self.middles[start:end, None] + signs * self.half).reshape(-1, 3)
        most = np.repeat(self.most[start:end], len(signs))
        return Cells(middles, self.half / 2, most)

    def bound(self, shape: Shape, ground: Ground, enough: float) -> None:
        """Bound the cells, keep those that may be above `enough`, the best first."""
        move = math.hypot(self.half[0], self.half[1])
        gain = move - shape.depths + np.hypot(*shape.probes.T) * swing(self.half[2])
        for some in blocks(len(self), len(shape.probes), _AT_ONCE):
            x, y, turn = self.middles[some].T
            cos, sin = np.cos(turn)[:, None], np.sin(turn)[:, None]
            own_x = x[:, None] + cos * shape.probes[:, 0] - sin * shape.probes[:, 1]
            own_y = y[:, None] + sin * shape.probes[:, 0] + cos * shape.probes[:, 1]
            most = (ground.depths.about(own_x, own_y) + gain).min(axis=1)
            part = self.most[some]
            np.minimum(part, most, out=part)
        self._kept(self.most > enough)
        self._kept(np.argsort(-self.most, kind="stable"))

    def _kept(self, chosen: np.ndarray) -> None:
        self.middles, self.most = self.middles[chosen], self.most[chosen]
