"""The sound wood as a search sees it: arrays of edges about a middle near the origin."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region, convex_hull
from ..geometry.tolerance import ROUNDING
from ..panel.sound import SoundWood
from .pose import Array

_CELLS_ALONG = 12
"""Cells along the longer side of a piece of wood at first."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A connected piece of the outer polygon.

    Attributes
    ----------
    edges : (n,) array of int
        Its edges among those of the wood.
    centres : (m, 2) array
        Middles of square cells that cover it, mm.
    half : float
        Half the side of a cell, mm.
    """

    edges: NDArray[np.intp]
    centres: Array
    half: float


class Wood:
    """Edges of the inner and the outer polygon of a sound wood, moved so that its middle is 0, 0.

    Attributes
    ----------
    outermost : (n,) array of bool
        Which edges of the outer polygon lie on the hull of their piece.
    held : (h, 2) array
        Points that the core must hold: the corners of what it must go round.
    diameter : float
        The greatest distance within it, mm.
    """

    def __init__(self, sound: SoundWood, held: Sequence[Region] = ()) -> None:
        middle = sound.outer.bounds.middle
        self.middle = Point(middle.x, middle.y)
        back = Placement(-self.middle)
        self.inner = sound.inner.placed(back)
        self.outer = self.inner if sound.inner is sound.outer else sound.outer.placed(back)
        self.inner_edges = self.inner.edges
        edges: list[Array] = []
        outermost: list[NDArray[np.bool_]] = []
        pieces: list[Piece] = []
        self.diameter, count = 0.0, 0
        for part in self.outer.pieces:
            edges.append(part.edges)
            hull = convex_hull(edges[-1][:, 0])
            outermost.append(_on_hull(edges[-1], hull))
            own = np.arange(count, count + len(edges[-1]), dtype=np.intp)
            pieces.append(Piece(own, *_cells(part)))
            self.diameter = max(self.diameter, _diameter(hull))
            count += len(own)
        self.outer_edges = np.concatenate(edges)
        self.outermost = np.concatenate(outermost)
        self.pieces = tuple(pieces)
        corners = [convex_hull(part.placed(back).edges[:, 0]) for part in held]
        self.held = np.concatenate(corners) if corners else np.zeros((0, 2))

    def holds_points(self, points: Array, *, inner: bool = False) -> NDArray[np.bool_]:
        """Return for each point whether it lies in the outer (or the inner) polygon."""
        return (self.inner if inner else self.outer).holds_points(points)


def _cells(part: Region) -> tuple[Array, float]:
    """Return middles of squares that cover a region, and half their side."""
    box = part.bounds
    half = max(box.width, box.height) / 2 / _CELLS_ALONG
    across = max(1, int(np.ceil(box.width / (2 * half) - 1e-9)))
    up = max(1, int(np.ceil(box.height / (2 * half) - 1e-9)))
    half *= 1 + 1e-9
    x = (2 * np.arange(across) + 1 - across) * half + box.middle.x
    y = (2 * np.arange(up) + 1 - up) * half + box.middle.y
    return np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2), half


def _on_hull(edges: Array, hull: Array) -> NDArray[np.bool_]:
    """Return which edges have the whole hull to their left, but for rounding."""
    way = edges[:, 1] - edges[:, 0]
    way /= np.hypot(way[:, 0], way[:, 1])[:, None]
    off = hull[None] - edges[:, :1]
    left = way[:, :1] * off[..., 1] - way[:, 1:] * off[..., 0]
    held: NDArray[np.bool_] = left.min(axis=1) >= -ROUNDING
    return held


def _diameter(hull: Array) -> float:
    """Return the greatest distance between two corners of a hull, mm."""
    away = hull[:, None] - hull
    return float(np.sqrt((away**2).sum(axis=2).max()))
