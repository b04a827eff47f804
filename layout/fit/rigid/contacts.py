"""How corners stand to edges, at one pose of the outline: the ways between them, as rows.

Two shapes that do not cross are nearest at a corner of one of them. So the clearance is the least
of the ways from the outline's corners to the wood's edges and from the wood's corners to the
outline's edges; and each of these changes with the pose in a way that a row of numbers tells.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array, turned
from .ground import Ground
from .outline import Shape


class Pairs(NamedTuple):
    """Points and edges seen from each other, (m, n)."""

    along: Array
    """Where on the edge the foot of the point lies, from its start, mm."""
    left: Array
    """How far to the left of the edge's line the point lies, mm."""
    beyond: Array
    """How far the foot lies beyond the end of the edge, mm."""
    distance: Array
    """From point to edge, mm."""
    lengths: Array
    """(n,) array: of the edges."""
    units: Array
    """(n, 2) array: along the edges."""

    @classmethod
    def of(cls, points: Array, edges: Array) -> Pairs:
        """Return how each of the points, (m, 2), stands to each of the edges, (n, 2, 2)."""
        way = edges[:, 1] - edges[:, 0]
        lengths = np.hypot(way[:, 0], way[:, 1])
        units = way / lengths[:, None]
        x = points[:, :1] - edges[:, 0, 0]
        y = points[:, 1:] - edges[:, 0, 1]
        along = x * units[:, 0] + y * units[:, 1]
        left = y * units[:, 0] - x * units[:, 1]
        beyond = np.maximum(np.maximum(-along, along - lengths), 0.0)
        return cls(along, left, beyond, np.hypot(left, beyond), lengths, units)


@dataclass(frozen=True, slots=True)
class Rows:
    """Ways from points to edges; all (k,) but the slopes."""

    way: Array
    """How far the point lies from the edge on its good side, mm; negative past it."""
    slopes: Array
    """(k, 3) array: how the way changes when the outline moves along x, along y, and turns."""
    sink: Array
    """What the way gains, mm, by ``1 − cos`` of a turn, where that is a gain."""
    arm: Array
    """How far the point lies from the outline's middle, mm: a turn moves it so much."""
    room: Array
    """How far the foot may wander before it leaves the edge, mm; 0 for a way to an edge's end."""
    of_wood: NDArray[np.bool_]
    """of bool: whether the edge is one of the wood, not one of the outline."""
    point: NDArray[np.intp]
    """Of int."""

    def __getitem__(self, chosen: NDArray[np.bool_] | NDArray[np.intp]) -> Rows:
        return Rows(*(getattr(self, name)[chosen] for name in self.__slots__))

    def joined(self, other: Rows) -> Rows:
        """Return the rows of both."""
        both = ((getattr(self, name), getattr(other, name)) for name in self.__slots__)
        return Rows(*(np.concatenate(pair) for pair in both))


def to_wood(points: Array, pose: Array, ground: Ground, reach: float) -> Rows:
    """Return the ways, up to `reach` mm longer than the least, from points of the outline.

    Parameters
    ----------
    points : (m, 2) array
        About the outline's middle.
    """
    own = turned(points, -float(pose[2]))
    return _close(Pairs.of(own + pose[:2], ground.edges), own, 1.0, reach, 0.0, ground.outermost)


def to_outline(points: Array, pose: Array, shape: Shape, reach: float) -> Rows:
    """Return the ways, up to `reach` mm longer than the least, from points of the wood.

    Parameters
    ----------
    points : (m, 2) array
        On the panel.
    """
    away, turn = points - pose[:2], float(pose[2])
    endless = np.zeros(len(shape.edges), dtype=np.bool_)
    return _close(Pairs.of(turned(away, turn), shape.edges), away, -1.0, reach, turn, endless)


def past_hull(points: Array, pose: Array, shape: Shape) -> Rows:
    """Return of each side of the outline's hull how far the point lies that is farthest past it.

    Parameters
    ----------
    points : (m, 2) array
        Of the panel, at least one, mm.
    """
    away, turn = points - pose[:2], float(pose[2])
    sides = np.arange(len(shape.hull))
    pairs = Pairs.of(turned(away, turn), shape.hull)
    farthest = pairs.left.argmin(axis=0)
    rows = _close(pairs, away, -1.0, math.inf, turn, np.ones(len(sides), dtype=np.bool_))
    return rows[farthest * len(sides) + sides]  # all pairs are close: point by point, side by side


def _close(
    pairs: Pairs, arms: Array, side: float, reach: float, turn: float, endless: NDArray[np.bool_]
) -> Rows:
    """Return the ways of the close pairs.

    Parameters
    ----------
    arms : (m, 2) array
        From the outline's middle to the points, on the panel, mm.
    side : float
        1 where the good side of an edge is its left, as of the wood's; −1 where it is its right.
    turn : float
        Of the frame that the edges are seen in, radians.
    endless : (n,) array of bool
        Which edges have all the wood to their left: the way to their line counts wherever the foot
        lies.
    """
    least = float(pairs.distance.min(initial=math.inf))
    point, edge = np.nonzero(pairs.distance <= least + reach)
    along, left = pairs.along[point, edge], pairs.left[point, edge]
    beyond, distance = pairs.beyond[point, edge], pairs.distance[point, edge]
    unit, length = pairs.units[edge], pairs.lengths[edge]
    across = np.column_stack([-unit[:, 1], unit[:, 0]])
    square = (beyond == 0) | endless[edge]
    past = np.where(along < 0, -beyond, beyond)
    safe = np.where(distance > 0, distance, 1.0)
    to_end = (across * left[:, None] + unit * past[:, None]) / safe[:, None]
    normal = turned(np.where(square[:, None], across * side, to_end), -turn)
    room = np.where(square, np.minimum(along, length - along), 0.0)
    room[endless[edge]] = math.inf
    arm, swing = arms[point], arms[point][:, ::-1] * [-1.0, 1.0]
    slopes = side * np.column_stack([normal, (normal * swing).sum(axis=1)])
    sink = np.maximum(-(normal * arm).sum(axis=1), 0.0)
    way, far = np.where(square, left * side, distance), np.hypot(*arm.T)
    of_wood = np.full(len(point), side > 0)
    return Rows(way, slopes, sink, far, np.maximum(room, 0.0), of_wood, point)
