"""The sound wood as a search sees it: arrays of edges about a middle near the origin."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region, convex_hull
from ..panel.sound import SoundWood
from .pose import Array

_CELLS_ALONG = 16
"""Cells along the longer side of the wood at first."""


class Wood:
    """Edges of the inner and the outer polygon of a sound wood, moved so that its middle is 0, 0.

    Attributes
    ----------
    held : (h, 2) array
        Points that the core must hold: the corners of what it must go round.
    """

    def __init__(self, sound: SoundWood, held: Sequence[Region] = ()) -> None:
        middle = sound.outer.bounds.middle
        self.middle = Point(middle.x, middle.y)
        back = Placement(-self.middle)
        self.inner = sound.inner.placed(back)
        self.outer = self.inner if sound.inner is sound.outer else sound.outer.placed(back)
        self.inner_edges = self.inner.edges
        self.outer_edges = self.inner_edges if self.inner is self.outer else self.outer.edges
        corners = [convex_hull(part.placed(back).edges[:, 0]) for part in held]
        self.held = np.concatenate(corners) if corners else np.zeros((0, 2))
        self.diameter = _diameter(self.outer_edges[:, 0])

    def cells(self) -> tuple[Array, float]:
        """Return middles of squares that cover the outer polygon, and half their side."""
        box = self.outer.bounds
        half = max(box.width, box.height) / 2 / _CELLS_ALONG
        across = max(1, int(np.ceil(box.width / (2 * half) - 1e-9)))
        up = max(1, int(np.ceil(box.height / (2 * half) - 1e-9)))
        half *= 1 + 1e-9
        x = (2 * np.arange(across) + 1 - across) * half + box.middle.x
        y = (2 * np.arange(up) + 1 - up) * half + box.middle.y
        return np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2), half

    def holds_points(self, points: Array, *, inner: bool = False) -> NDArray[np.bool_]:
        """Return for each point whether it lies in the outer (or the inner) polygon."""
        return (self.inner if inner else self.outer).holds_points(points)


def _diameter(points: Array) -> float:
    """Return the greatest distance between two of the points, mm."""
    hull = convex_hull(points)
    away = hull[:, None] - hull
    return float(np.sqrt((away**2).sum(axis=2).max()))
