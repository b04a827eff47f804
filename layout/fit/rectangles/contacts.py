"""What a rectangle touches: how far off each edge is, and how that changes as it moves.

The rectangle is the inner one: the line on which the centres of the round corners lie, so all must
stay a clearance away from it, the corner radius of the core. Three things can touch: a corner of
the wood that points inwards, against a side or against a round corner; and a corner of the
rectangle against an edge of the wood. (Two corners against one edge are a side along it.)

Its numbers are z = (φ, l, r, a, b): turned by φ from here about its pivot, its sides in its own
frame. For each contact the room g(z) ≥ 0 is known with its slope and its curve, so a step to the
best nearby place can be taken at once.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from .gaps import Array

_STRAIGHT = 1e-12
_CUT = 1e-6
"""mm: a corner farther behind an edge than this does not face it, for nothing is cut."""


@dataclass(frozen=True, slots=True)
class WoodEdges:
    """The edges of a region, its ground to their left, and which of their ends point inwards."""

    start: Array
    end: Array
    """(e, 2) array: mm."""
    start_reflex: NDArray[np.bool_]
    end_reflex: NDArray[np.bool_]
    """(e,) array of bool: whether the wood takes more than half a turn there."""
    held: Array = field(default_factory=lambda: np.zeros((0, 2)))
    """(m, 2) array: points in it that the core must hold."""

    @classmethod
    def of(cls, edges: Array, held: Array | None = None) -> WoodEdges:
        """Return the edges, (e, 2, 2), given ring by ring, with points that must be held."""
        start, end = edges[:, 0], edges[:, 1]
        count = len(edges)
        following = np.arange(1, count + 1)
        first = 0
        for i in range(count):
            if i + 1 == count or np.any(start[i + 1] != end[i]):
                following[i] = first
                first = i + 1
        way = end - start
        way = way / np.hypot(way[:, 0], way[:, 1])[:, None]
        ahead = way[following]
        cross = way[:, 0] * ahead[:, 1] - way[:, 1] * ahead[:, 0]
        end_reflex = cross < _STRAIGHT
        start_reflex = np.empty_like(end_reflex)
        start_reflex[following] = end_reflex
        return cls(start, end, start_reflex, end_reflex, np.zeros((0, 2)) if held is None else held)

    def seen(self, turn: float, pivot: Array) -> WoodEdges:
        """Return the edges in the frame turned by `turn` about `pivot`."""
        cos, sin = np.cos(turn), np.sin(turn)
        back = np.array([[cos, -sin], [sin, cos]])
        return WoodEdges(
            (self.start - pivot) @ back,
            (self.end - pivot) @ back,
            self.start_reflex,
            self.end_reflex,
            (self.held - pivot) @ back,
        )

    def near(self, sides: Array, reach: float) -> WoodEdges:
        """Return the edges that come within `reach` of the upright rectangle l, r, a, b."""
        low, high = np.minimum(self.start, self.end), np.maximum(self.start, self.end)
        left, right, bottom, top = sides
        keep = (low[:, 0] < right + reach) & (high[:, 0] > left - reach)
        keep &= (low[:, 1] < top + reach) & (high[:, 1] > bottom - reach)
        return WoodEdges(
            self.start[keep], self.end[keep], self.start_reflex[keep], self.end_reflex[keep]
        )


def shortfall(edges: WoodEdges, sides: Array, clearance: float) -> float:
    """Return by how much the sides must move in so that every edge is at least `clearance` away.

    Moving all sides in by s moves the rectangle at least s away from everything outside it. An
    edge that cuts in is judged by the line, along the sides or the edge, that parts them best.

    Parameters
    ----------
    edges : WoodEdges
        Seen from the rectangle's frame.
    sides : (4,) array
        Left, right, bottom and top, mm.
    """
    left, right, bottom, top = sides
    near = edges.near(sides, clearance)
    if len(near.start) == 0:
        return 0.0
    low, high = np.minimum(near.start, near.end), np.maximum(near.start, near.end)
    apart = np.maximum.reduce(
        [low[:, 0] - right, left - high[:, 0], low[:, 1] - top, bottom - high[:, 1]]
    )
    way = near.end - near.start
    long = np.hypot(way[:, 0], way[:, 1])
    corners = _corners(sides)
    offset = corners[None, :, :] - near.start[:, None, :]
    over = (way[:, None, 0] * offset[:, :, 1] - way[:, None, 1] * offset[:, :, 0]) / long[:, None]
    parted = np.maximum(apart, np.maximum(over.min(axis=1), -over.max(axis=1)))
    share = np.clip((offset * way[:, None, :]).sum(axis=2) / (long**2)[:, None], 0.0, 1.0)
    off = offset - share[:, :, None] * way[:, None, :]
    distance = np.hypot(off[:, :, 0], off[:, :, 1]).min(axis=1)
    for point in (near.start, near.end):
        dx = np.maximum(np.maximum(left - point[:, 0], point[:, 0] - right), 0.0)
        dy = np.maximum(np.maximum(bottom - point[:, 1], point[:, 1] - top), 0.0)
        distance = np.minimum(distance, np.hypot(dx, dy))
    room = np.where(parted > 0, distance, parted)
    return max(0.0, clearance - float(room.min()))


@dataclass(frozen=True, slots=True)
class Room:
    """How much room every contact leaves."""

    value: Array
    """(m,) array: mm; negative where something is cut."""
    slope: Array
    """(m, 5) array: by φ, l, r, a, b."""
    curve: Array
    """(m, 5, 5) array: second derivatives."""

    @classmethod
    def joined(cls, *parts: Room) -> Room:
        """Return all of them as one."""
        every = zip(*((part.value, part.slope, part.curve) for part in parts), strict=True)
        return cls(*(np.concatenate(column) for column in every))


def room(edges: WoodEdges, sides: Array, clearance: float, reach: float) -> Room:
    """Return the room towards all that comes within `reach` more than the clearance."""
    near = edges.near(sides, clearance + reach)
    return Room.joined(
        _edges_off_corners(near, sides, clearance, reach),
        _points_off_sides(near, sides, clearance, reach),
    )


def hold(points: Array, sides: Array, clearance: float) -> Room:
    """Return how firmly each point is held: off the four sides, and off a corner it lies beyond.

    Parameters
    ----------
    points : (m, 2) array
        In the rectangle's frame, mm.
    """
    beyond = _beyond(points, sides)
    flat = [_beside(points, beyond, clearance, np.full(len(points), k)) for k in range(4)]
    off = _off_corner(beyond)
    out = Room.joined(*flat, _round_corner(points[off], beyond[off], sides, clearance))
    return Room(-out.value, -out.slope, -out.curve)


def missed(points: Array, sides: Array, clearance: float) -> float:
    """Return by how much a rectangle misses the worst of the points, seen in its frame, mm."""
    beyond = np.maximum(_beyond(points, sides), 0.0)
    off = np.hypot(beyond[:, :2].max(axis=1), beyond[:, 2:].max(axis=1))
    return max(0.0, float(off.max(initial=0.0)) - clearance)


def _beyond(points: Array, sides: Array) -> Array:
    """Return how far points lie beyond the left, right, bottom and top side, (m, 4) mm."""
    (left, right, bottom, top), (x, y) = sides, points.T
    return np.stack([left - x, x - right, bottom - y, y - top], axis=1)


def _off_corner(beyond: Array) -> NDArray[np.bool_]:
    """Return which points lie beyond two sides."""
    off: NDArray[np.bool_] = (beyond[:, :2].max(axis=1) > 0) & (beyond[:, 2:].max(axis=1) > 0)
    return off


def _corners(sides: Array) -> Array:
    left, right, bottom, top = sides
    return np.array([[left, bottom], [right, bottom], [right, top], [left, top]])


_CORNER_X = np.array([1, 2, 2, 1])
_CORNER_Y = np.array([3, 3, 4, 4])


def _edges_off_corners(edges: WoodEdges, sides: Array, clearance: float, reach: float) -> Room:
    """Return the room between corners and the edges that they face.

    With n the inner normal, g = n·(corner turned by φ) − n·start − clearance. An edge counts as
    going on beyond an end that does not point inwards, where the wood ends anyhow.
    """
    way = edges.end - edges.start
    long = np.hypot(way[:, 0], way[:, 1])
    unit = way / long[:, None]
    normal = np.stack([-unit[:, 1], unit[:, 0]], axis=1)
    corners = _corners(sides)
    offset = corners[None, :, :] - edges.start[:, None, :]
    along = (offset * unit[:, None, :]).sum(axis=2)
    over = (offset * normal[:, None, :]).sum(axis=2) - clearance
    faces = (over < reach) & (over > -_CUT)
    faces &= along >= np.where(edges.start_reflex, 0.0, -reach)[:, None]
    faces &= along <= np.where(edges.end_reflex, long, long + reach)[:, None]
    edge, corner = np.nonzero(faces)
    nx, ny = normal[edge].T
    x, y = corners[corner].T
    count = np.arange(len(edge))
    slope, curve = np.zeros((len(edge), 5)), np.zeros((len(edge), 5, 5))
    slope[:, 0] = ny * x - nx * y
    slope[count, _CORNER_X[corner]] = nx
    slope[count, _CORNER_Y[corner]] = ny
    curve[:, 0, 0] = -(nx * x + ny * y)
    for number, part in ((_CORNER_X[corner], ny), (_CORNER_Y[corner], -nx)):
        curve[count, 0, number] = curve[count, number, 0] = part
    return Room(over[edge, corner], slope, curve)


def _points_off_sides(edges: WoodEdges, sides: Array, clearance: float, reach: float) -> Room:
    """Return the room between the inward corners of the wood and the sides or round corners."""
    points = edges.start[edges.start_reflex]
    beyond = _beyond(points, sides)
    off = _off_corner(beyond) & (clearance > 0)
    flat, parting = beyond[~off], np.argmax(beyond[~off], axis=1)
    found = Room.joined(
        _beside(points[~off], flat, clearance, parting),
        _round_corner(points[off], beyond[off], sides, clearance),
    )
    close = found.value < reach
    return Room(found.value[close], found.slope[close], found.curve[close])


def _beside(points: Array, beyond: Array, clearance: float, side: NDArray[np.intp]) -> Room:
    """Return the room of each point off one side, where u = x cos φ + y sin φ."""
    count = np.arange(len(points))
    x, y = points.T
    sign = np.where(side % 2 == 0, 1.0, -1.0)
    upright = side < 2
    slope, curve = np.zeros((len(points), 5)), np.zeros((len(points), 5, 5))
    slope[count, side + 1] = sign
    slope[:, 0] = -sign * np.where(upright, y, -x)
    curve[:, 0, 0] = sign * np.where(upright, x, y)
    return Room(beyond[count, side] - clearance, slope, curve)


def _round_corner(points: Array, beyond: Array, sides: Array, clearance: float) -> Room:
    """Return the room of points off the nearest corner: their distance less the clearance."""
    right = (beyond[:, 1] > beyond[:, 0]).astype(int)
    top = (beyond[:, 3] > beyond[:, 2]).astype(int)
    count = np.arange(len(points))
    u, v = points.T
    dx, dy = sides[right] - u, sides[2 + top] - v
    away = np.hypot(dx, dy)
    nx, ny = dx / np.maximum(away, 1e-9), dy / np.maximum(away, 1e-9)
    moves = np.zeros((len(points), 2, 5))
    moves[:, 0, 0], moves[:, 1, 0] = -v, u
    moves[count, 0, 1 + right] = 1.0
    moves[count, 1, 3 + top] = 1.0
    slope = nx[:, None] * moves[:, 0] + ny[:, None] * moves[:, 1]
    side = -ny[:, None] * moves[:, 0] + nx[:, None] * moves[:, 1]
    curve = side[:, :, None] * side[:, None, :] / np.maximum(away, 1e-9)[:, None, None]
    curve[:, 0, 0] += nx * u + ny * v
    return Room(away - clearance, slope, curve)
