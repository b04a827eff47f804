"""A kind of top, and what follows from how its half sizes grow with its radius.

For one shape number p both half sizes are linear in the radius r; at one radius the length does not
fall with p, the width does not rise, and the area of the finished top does not fall. Every bound on
sizes, area and ratio over a span of shapes follows from that. Squeezed by what p says, the tops of
most kinds are one body that grows: its gauge tells what they touch and hold.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from typing import NamedTuple

import numpy as np

from ..goal import Figure
from ..wood.edges import Array, turned
from .boxes import Box, Patch, Pose
from .gauge import Body, Met, gauge_met
from .lift import Lift
from .sight import angle_of, facing, near_angle

_ALONG = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
"""Where along its axis a top is held against the depths of the wood: its middle tells little of a
thin one."""
_RESIZED = 1e-6
"""Of the half width: by so much tops are resized to see how their contacts change."""


class Axes(NamedTuple):
    """Half length and half width of one shape: each where the radius is 0, mm, and its growth."""

    length: float
    lengthens: float
    width: float
    widens: float


class Growth(NamedTuple):
    """How a radius for a whole box follows from that of one shape at its middle turn."""

    anchor: float
    """That shape."""
    factor: float
    addend: float
    """mm."""
    drift: float = 0.0
    """What a radius can change beyond that within the box, mm."""


class Kind(ABC):
    """What the search must know of one kind of outline.

    A kind has one number p for its shape besides its turn; for given turn, p and centre the largest
    one that fits is given by one more number, its radius. What is not said otherwise holds for tops
    whose length and width are both free, about their middle.
    """

    name: str
    body: Body
    """What the tops are, squeezed, for a radius of 1; or holds them, or their ends."""
    held = 1.0
    """What share of the body they hold."""
    lifted: type[Lift]
    periods = (0.0, math.pi)
    """The least turns that bring shape 0, and any other, onto itself; 0 where any turn does."""
    takes_disks = True
    """Whether round holes may stand for disks: beside corners they would be met too late."""
    pace = 1.0
    """How long it takes to look at an edge, against what is usual: as measured."""
    leans: tuple[float, ...] = (0.0, 0.1, -0.1)
    """Radians off the normal of an edge: places that touch lines so turned are held against it. A
    side that lies along an edge touches it at both ends; a step that knows but one tips over it."""

    @abstractmethod
    def axes(self, p: float) -> Axes:
        """Return how the half sizes of shape p grow with its radius."""

    @abstractmethod
    def shape_of(self, pose: Pose) -> float:
        """Return the shape number."""

    @abstractmethod
    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area of a finished top, mm²."""

    @abstractmethod
    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes and so far turned."""

    def lift(self, box: Box, patch: Patch) -> Lift:
        """Return the tops of a box whose centres lie in a patch, in unknowns that rows are of."""
        return self.lifted(self, box, patch)

    def period(self, p: float) -> float:
        """Return the least turn that brings shape p onto itself; 0 where any turn does."""
        return self.periods[0 if p == 0 else 1]

    def contacts(self, pose: Pose, edges: Array, held: Array) -> tuple[Array, Array]:
        """Return how far a top stands from lines of edges and from their starts, (m,) mm.

        And how far beyond points to hold, (h, 2); and how all that changes with each of its five
        numbers, (m, 5). Marks that touch parallel lines are held against a line, where it is the
        edge itself that they meet.
        """
        middle, times = np.array(pose[:2]), (len(self.leans), 1)
        local = turned(edges - middle, pose.turn)
        starts, normal, way = local[:, 0], facing(local), local[:, 1] - local[:, 0]
        leaning = np.concatenate([turned(normal, lean) for lean in self.leans])
        before, normal, way = (np.tile(rows, times) for rows in (starts, normal, way))
        points = np.vstack([starts, turned(held - middle, pose.turn)])
        side = np.repeat([self.held, -1.0], [len(starts), len(held)])
        steep = side[:, None] * self.slopes(self.shape_of(pose), points)
        far = np.hypot(steep[:, 0], steep[:, 1])
        far[far == 0] = 1.0

        def marks(top: Pose) -> Array:
            return self.touch(self.shape_of(top), self.radius_of(top), normal, leaning)

        def room(top: Pose) -> Array:
            radii = side * self.needed(self.shape_of(top), points)
            left = (normal * (before - marks(top))).sum(axis=1)
            return np.append(left, (radii - np.sign(side) * self.radius_of(top)) / far)

        clear, places, by = room(pose), marks(pose), _RESIZED * pose.half_width
        longer = (room(pose._replace(half_length=pose.half_length + by)) - clear) / by
        wider = (clear - room(pose._replace(half_width=pose.half_width - by))) / by
        height, reach = ((normal * ends).sum(axis=1) for ends in (before, places))
        met = places * (height / np.maximum(np.maximum(reach, height), 1e-9))[:, None]
        along, square = (((met - before) * way).sum(axis=1), (way * way).sum(axis=1))
        counts = np.full(len(clear), True)
        counts[: len(way)] = (square > 0) & (along >= 0) & (along <= square)
        normal, places = np.vstack([normal, steep / far[:, None]]), np.vstack([places, points])
        swing = normal[:, 1] * places[:, 0] - normal[:, 0] * places[:, 1]
        slopes = np.column_stack([-turned(normal, -pose.turn), -swing, longer, wider])
        return clear[counts], slopes[counts]

    def touch(self, p: float, radius: float, normals: Array, leaning: Array) -> Array:
        """Return where tops reach farthest along leaning normals, (n, 2) in their frame, mm.

        Of what is there in two places, along unit `normals` themselves.
        """
        squeeze = self.squeeze(p)
        return radius * self.body.touch(leaning / squeeze).places / squeeze

    def squeeze(self, p: float) -> Array:
        """Return by what the plane, along the turn and across, makes tops of shape p the body."""
        return np.ones(2)

    def met(self, turn: float, p: float, edges: Array) -> Met:
        """Return what tells at what radii tops of one turn and shape meet edges."""
        onto = turned(np.eye(2), turn) * self.squeeze(p)
        met = gauge_met(self.body, edges @ onto)
        return lambda centres: met(centres @ onto)

    def distances(self, turn: float, p: float, edges: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres touch the edges, (m, n)."""
        return self.met(turn, p, edges)(centres)

    def holding(self, turn: float, p: float, points: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres hold all the points, (m,)."""
        away = turned(points, turn)[None] - turned(centres, turn)[:, None]
        radii: Array = self.needed(p, away).max(axis=1)
        return radii

    def needed(self, p: float, ways: Array) -> Array:
        """Return the radii at which tops reach the ends of ways, (…, 2), in their frame."""
        return self.body.gauge(ways * self.squeeze(p)) / self.held

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        seen = ways * self.squeeze(p)
        return np.maximum(self.body.gauge(seen), self.body.gauge(-seen))

    def disk_radii(self, p: float, x: Array, y: Array, radii: Array) -> Array:
        """Return the radii at which tops touch disks, (m, k), as a `Met` does, or a hair more.

        These lie x along the turn and y across it from the centres, (m, k) mm.
        """
        squeeze = self.squeeze(p)
        far = np.hypot(x * squeeze[0], y * squeeze[1])
        least: Array = np.maximum(far - radii * squeeze.max(), 0.0) / self.body.far
        which, disk = np.nonzero(least <= far.min(axis=1)[:, None])
        ways, radius = np.stack([x[which, disk], y[which, disk]], axis=1), radii[disk]
        clear = np.hypot(ways[:, 0], ways[:, 1]) > radius
        points = self.first_points(p, ways[clear], radius[clear])
        found = np.zeros(len(disk))
        found[clear] = self.needed(p, points)
        least[which, disk] = found
        return least

    def first_points(self, p: float, ways: Array, radii: Array, *, secants: int = 0) -> Array:
        """Return the points of disks at the ends of ways, (k, 2), that tops meet first, nearly.

        There the normals of both are one. From the normal at a disk's middle, and that at the point
        it leads to, secants lead on; whichever point they end in, tops meet the disk no later.
        """
        lean = angle_of(self.slopes(p, ways))
        step, before = np.zeros_like(lean), np.zeros_like(lean)
        for _ in range(secants):
            ahead = self.slopes(p, _on_disks(ways, radii, lean))
            off = near_angle(angle_of(ahead), lean) - lean
            falls = np.where(before == off, np.inf, before - off)
            step = (
                np.clip(step * off / falls, -np.abs(off), np.abs(off)) if before.any() else off / 2
            )
            lean, before = lean + step, off
        return _on_disks(ways, radii, lean)

    def slopes(self, p: float, ways: Array) -> Array:
        """Return how the radii at which tops reach the ends of ways grow with these, (k, 2)."""
        squeeze = self.squeeze(p)
        return self.body.normals(ways * squeeze) * squeeze / self.held

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping adds to half the length and half the width, mm."""
        return lipping, lipping

    def origin(self, pose: Pose) -> tuple[float, float]:
        """Return where the outline's own origin lies, in the frame of the search."""
        return pose.x, pose.y

    def drawn_in(self, pose: Pose, by: float) -> tuple[float, float]:
        """Return half sizes of a top whose sides are drawn in by `by`, mm, or more."""
        half_width = pose.half_width - by
        return max(pose.half_length - by, half_width), half_width

    def held_radii(self, box: Box, points: Array, reach: float) -> Array:
        """Return, for each cell, a radius that a top of the box needs to hold the points, mm.

        `reach` is how far the middle of a cell can lie from its corners, as radii are measured.
        """
        anchor, factor, addend, drift = self.growth(box.low, box.high, box.half_turn)
        needed = self.holding(box.turn, anchor, points, box.centres)
        return (needed - reach) / factor - addend - drift

    def sizes(self, p: float, radius: Figure) -> tuple[Figure, Figure]:
        """Return half the length and half the width, mm."""
        length, lengthens, width, widens = self.axes(p)
        return length + lengthens * radius, width + widens * radius

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm.

        It holds an oval swept along its spine.
        """
        length, lengthens, _, widens = self.axes(p)
        spread = 1 - (widens / lengthens) ** 2
        wide = widens * radius * np.sqrt(1 - _ALONG * _ALONG * spread)
        return _ALONG * (length + lengthens * radius * spread), wide

    def box(self, p: float, radius: float) -> tuple[float, float]:
        """Return half the sizes of a box about its middle that a top does not leave, mm."""
        return self.sizes(p, radius)

    def radius_of(self, pose: Pose) -> float:
        """Return the radius of a top."""
        _, _, width, widens = self.axes(self.shape_of(pose))
        return (pose.half_width - width) / widens


def _on_disks(places: Array, radii: Array, lean: Array) -> Array:
    """Return the points of disks where their normals point back along a direction, (k, 2)."""
    points: Array = places - radii[:, None] * np.stack([np.cos(lean), np.sin(lean)], axis=1)
    return points
