"""A rectangle in hand and what it touches: how far off each edge is, and how that changes.

The rectangle is the inner one: the line on which the centres of the round corners lie, so all must
stay a clearance away from it, the corner radius of the core. Three things can touch: a corner of
the wood that points inwards, against a side or against a round corner; and a corner of the
rectangle against an edge of the wood. (Two corners against one edge are a side along it.)

All is seen from the rectangle's middle, x along its width. What parts it from a thing does so along
a way, at a place of its own: as that moves, or the thing as it is seen, so the room changes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry import Placement, Point
from ...outlines import Outline, Rectangle, RoundedRectangle
from ..wood.edges import Array, turned, turned_in

_CUT = 1e-6
"""mm: a corner farther behind an edge than this does not face it, for nothing is cut."""
_SIDES = np.array([[1.0, 0.0], [-1.0, 0.0], [0.0, 1.0], [0.0, -1.0]])
_CORNERS = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


@dataclass(frozen=True, slots=True)
class Inner:
    """The inner rectangle of a top: the line of its corner centres, length along y."""

    turn: float
    """Direction of x, radians; the long axis is a quarter turn on."""
    centre: Array
    """(2,) array: mm."""
    half: Array
    """(2,) array: half its width and half its length, along x and y, mm."""
    radius: float
    """Corner radius of the finished top, mm."""

    @classmethod
    def between(cls, turn: float, pivot: Array, sides: Array, radius: float) -> Inner:
        """Return the one between its sides, (2, 2): x and y, low and high, seen from a pivot."""
        centre = pivot + turned(sides.mean(axis=1), -turn)
        return cls(turn, centre, (sides[:, 1] - sides[:, 0]) / 2, radius)

    @property
    def placement(self) -> Placement:
        """Where the top lies."""
        return Placement(Point.of(self.centre), self.turn + math.pi / 2)

    def upright(self) -> Inner:
        """Return it with its length along y."""
        if self.half[0] <= self.half[1]:
            return self
        return replace(self, turn=self.turn + math.pi / 2, half=self.half[::-1])


def outline(length: float, width: float, radius: float) -> Outline:
    """Return a rectangle of those sizes and corners, mm; square ones where they are sharp."""
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))


@dataclass(frozen=True, slots=True)
class WoodEdges:
    """The edges of a region, its ground to their left, and which of their ends point inwards."""

    edges: Array
    """(e, 2, 2) array: edge, start or end, x or y; mm."""
    reflex: NDArray[np.bool_]
    """(e, 2) array of bool: whether the wood takes more than half a turn at start and end."""
    held: Array
    """(m, 2) array: points in it that the core must hold."""

    @classmethod
    def of(cls, edges: Array, held: Array | None = None) -> WoodEdges:
        """Return the edges, (e, 2, 2), given ring by ring, with points that must be held."""
        return cls(edges, turned_in(edges), np.zeros((0, 2)) if held is None else held)

    def seen(self, top: Inner) -> WoodEdges:
        """Return the edges as they lie to a rectangle."""
        edges, held = (turned(p - top.centre, top.turn) for p in (self.edges, self.held))
        return WoodEdges(edges, self.reflex, held)

    def near(self, half: Array, reach: float) -> WoodEdges:
        """Return the edges that come within `reach` of the upright rectangle about 0, 0."""
        low, high = self.edges.min(axis=1), self.edges.max(axis=1)
        keep = np.all((low < half + reach) & (high > -half - reach), axis=1)
        return WoodEdges(self.edges[keep], self.reflex[keep], self.held)


def shortfall(seen: WoodEdges, half: Array, clearance: float) -> float:
    """Return by how much the sides must move in so that every edge is at least `clearance` away.

    Moving all sides in by s moves the rectangle at least s away from everything outside it. Each
    edge is judged along the way that parts them best: across a side, across the edge, or from the
    rectangle to an end of the edge (the separating axis theorem).
    """
    edges = seen.near(half, clearance).edges
    along = edges[:, 1] - edges[:, 0]
    across = np.stack([-along[:, 1], along[:, 0]], axis=1)[:, None]
    sides = np.broadcast_to(_SIDES, (len(edges), 4, 2))
    ways = np.concatenate([sides, across, -across, _beyond(edges, half)], axis=1)
    long = np.hypot(ways[..., 0], ways[..., 1])
    apart = (ways @ edges.transpose(0, 2, 1)).min(axis=2) - np.abs(ways) @ half
    room = np.where(long > 0, apart / np.where(long > 0, long, 1.0), -np.inf).max(axis=1)
    return max(0.0, clearance - float(room.min(initial=np.inf)))


class Room(NamedTuple):
    """How much room every contact leaves."""

    value: Array
    """(m,) array: mm; negative where something is cut."""
    slope: Array
    """(m, 5) array: by the middle's x and y, φ, half width and half length."""


def room(seen: WoodEdges, half: Array, clearance: float, reach: float) -> Room:
    """Return the room towards all that comes within `reach` more than the clearance.

    A corner faces an edge as long as it lies beside it. An edge counts as going on beyond an end
    that does not point inwards, where the wood ends anyhow.
    """
    near = seen.near(half, clearance + reach)
    way = near.edges[:, 1] - near.edges[:, 0]
    long = np.hypot(way[:, 0], way[:, 1])
    unit = way / long[:, None]
    out = np.stack([unit[:, 1], -unit[:, 0]], axis=1)
    corners = _CORNERS * half
    offset = corners[None, :, :] - near.edges[:, :1, :]
    along = np.einsum("ecx,ex->ec", offset, unit)
    left = -np.einsum("ecx,ex->ec", offset, out) - clearance
    faces = (left < reach) & (left > -_CUT)
    faces &= along >= np.where(near.reflex[:, 0], 0.0, -reach)[:, None]
    faces &= along <= np.where(near.reflex[:, 1], long, long + reach)[:, None]
    edge, corner = np.nonzero(faces)
    points = near.edges[near.reflex[:, 0], 0]
    beyond = _beyond(points, half)
    off = np.all(beyond != 0, axis=1) & (clearance > 0)
    flat = np.eye(2)[np.argmax(np.abs(points) - half, axis=1)] * np.copysign(1.0, points)
    ways = np.where(off[:, None], beyond, flat)
    ways /= np.hypot(ways[:, 0], ways[:, 1])[:, None]
    value = np.einsum("px,px->p", ways, points) - np.abs(ways) @ half - clearance
    close = value < reach
    return Room(
        np.concatenate([left[edge, corner], value[close]]),
        np.concatenate([_slopes(out[edge], corners[corner]), _slopes(ways[close], points[close])]),
    )


def hold(points: Array, half: Array, clearance: float) -> Room:
    """Return how firmly points, (m, 2) mm from the rectangle's middle, are held.

    Off the four sides, and off a corner that they lie beyond.
    """
    beyond = _beyond(points, half)
    off = np.all(beyond != 0, axis=1)
    round_it = beyond[off] / np.hypot(*beyond[off].T)[:, None]
    ways = np.concatenate([np.repeat(_SIDES, len(points), axis=0), round_it])
    places = np.concatenate([np.tile(points, (4, 1)), points[off]])
    apart = np.einsum("px,px->p", ways, places) - np.abs(ways) @ half
    return Room(clearance - apart, -_slopes(ways, places))


def missed(points: Array, half: Array, clearance: float) -> float:
    """Return by how much a rectangle misses the worst of the points, seen from its middle, mm."""
    return max(0.0, float(np.hypot(*_beyond(points, half).T).max(initial=0.0)) - clearance)


def _beyond(points: Array, half: Array) -> Array:
    """Return the way from the nearest place of the rectangle to each point, (…, 2) mm."""
    return points - np.clip(points, -half, half)


def _slopes(ways: Array, places: Array) -> Array:
    """Return how the room that is left at places along unit ways changes, (m, 5)."""
    turning = ways[:, 0] * places[:, 1] - ways[:, 1] * places[:, 0]
    return np.column_stack([-ways, turning, -np.abs(ways)])
