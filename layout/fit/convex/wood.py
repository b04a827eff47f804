"""The sound wood as a search sees it: arrays of edges about a middle near the origin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ...geometry import Placement, Region
from ...geometry.polygon import convex_hull
from ...panel.sound import SoundWood
from ..points import firm_corners, held_corners
from ..wood.depth import Depths
from ..wood.edges import Array, EdgesAround, diameter, drawn_out, outermost, turned
from ..wood.round_holes import Disks

_CELLS_ALONG = 12
"""Cells along the longer side of a piece of wood at first."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A connected piece of the outer polygon."""

    edges: NDArray[np.intp]
    """(n,) array of int: its edges among those of the wood."""
    corners: Array
    """(m, 2) array: of its hull, mm."""
    disks: Disks
    """In its round holes, by edges of the wood."""

    def cells(self, frame: float, along: int = _CELLS_ALONG) -> tuple[Array, tuple[float, float]]:
        """Return middles of squares, turned by `frame`, that cover it, and half their sides, mm.

        So many of them stand along its longer side.
        """
        seen = turned(self.corners, frame)
        low, high = seen.min(axis=0), seen.max(axis=0)
        half = float((high - low).max()) / 2 / along
        counts = [max(1, int(np.ceil(side / (2 * half) - 1e-9))) for side in high - low]
        half *= 1 + 1e-9
        x, y = (
            (2 * np.arange(count) + 1 - count) * half + middle
            for count, middle in zip(counts, (low + high) / 2, strict=True)
        )
        grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
        return turned(grid, -frame), (half, half)


class Wood:
    """Edges of both polygons of a sound wood, moved so that its middle is 0, 0."""

    def __init__(self, sound: SoundWood, held: Sequence[Region] = ()) -> None:
        self.middle = sound.outer.bounds.middle
        back = Placement(-self.middle)
        self.inner = sound.inner.placed(back)
        self.outer = self.inner if sound.inner is sound.outer else sound.outer.placed(back)
        self.inner_edges = self.inner.edges
        self.around = EdgesAround(self.inner_edges)
        pieces = self.outer.pieces
        rings = [part.edges for part in pieces]
        hulls = [convex_hull(edges[:, 0]) for edges in rings]
        self.outer_edges = np.concatenate(rings)
        self.diameter = max(map(diameter, hulls))
        """The greatest distance within a piece of it, mm."""
        free = list(map(outermost, rings, hulls))
        self.outermost = np.concatenate(free)
        """(n,) array of bool: which edges of the outer polygon lie on the hull of their piece."""
        drawn = [drawn_out(*own, self.diameter) for own in zip(rings, free, strict=True)]
        self.outer_lines = np.concatenate(drawn)
        """(n, 2, 2) array: those edges as far as their lines go on outside the wood, mm."""
        starts = np.cumsum([0, *map(len, rings)]).tolist()
        self.pieces = tuple(
            Piece(np.arange(start, end, dtype=np.intp), hull, Disks.of(piece, start))
            for (start, end), piece, hull in zip(pairwise(starts), pieces, hulls, strict=True)
        )
        self.depths = Depths(self.outer)
        """Of the outer polygon."""
        parts = [part.placed(back) for part in held]
        self.held = held_corners(parts)
        """(h, 2) array: points that the core must hold: the corners of what it must go round."""
        self.firmly = firm_corners(parts)
        """(f, 2) array: what a top found must hold, so that it holds those still once it is drawn
        in for its proof."""
