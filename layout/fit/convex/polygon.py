"""Convex outlines of one form: the turn outside, place and size inside.

A regular polygon or an outline of the maker's own comes in one form; only its size, its turn and
its place are sought. For a given turn the largest about a centre is told by the gauge of the
outline: how much it may grow before it meets the nearest edge. The shape number is always 0.
"""

from __future__ import annotations

import math
from functools import partial

import numpy as np

from ..goal import Figure
from ..wood.edges import Array
from .form import Form
from .gauge import nearest_places
from .kind import Axes, Growth, Kind
from .marks import Part, contacts_of, local_of, marks_before
from .polygon_lift import BESIDE, ConvexLift
from .pose import Contacts, Pose
from .sight import facing

_ALONG = (-0.6, -0.3, 0.0, 0.3, 0.6)
"""Where along its length a top is held against the depths of the wood."""


class ConvexKind(Kind):
    """Tops of one form; the radius is the distance from their middle to their nearest side."""

    name = "convex form"
    takes_disks = False
    pace = 1.5

    def __init__(self, form: Form) -> None:
        self.form, self.body, self.held = form, form.body, form.held
        self.lift = partial(ConvexLift, form)
        self._sizes, self.periods = (form.half_length, form.half_width), (form.period, form.period)
        places = np.array([(x * form.half_length, 0.0) for x in _ALONG])
        depths = (form.body.heights - places @ form.body.sides.T).min(axis=1)
        self._disks = places[depths > 0, 0], depths[depths > 0] * form.held

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return what a lipping, mitred at the corners, adds to half the length and width, mm."""
        return self.form.rim(lipping)

    def origin(self, pose: Pose) -> tuple[float, float]:
        """Return where the origin of the outline's own frame lies, in the frame of the search."""
        radius = pose.half_length / self._sizes[0]
        cos, sin = math.cos(pose.turn), math.sin(pose.turn)
        x, y = (radius * coordinate for coordinate in self.form.origin)
        return pose.x + x * cos - y * sin, pose.y + x * sin + y * cos

    def drawn_in(self, pose: Pose, by: float) -> tuple[float, float]:
        """Return half sizes of a top drawn in about its middle: its sides move by `by` or more."""
        return self.sizes(0.0, pose.half_length / self._sizes[0] - by)

    def axes(self, p: float) -> Axes:
        """Return how the half sizes grow: as those of the form."""
        return Axes(0.0, self._sizes[0], 0.0, self._sizes[1])

    def box(self, p: float, radius: float) -> tuple[float, float]:
        """Return half the sizes of a box about its middle that a top does not leave, mm."""
        far = self.form.body.far * radius
        return far, far

    def shape_of(self, pose: Pose) -> float:
        """Return the only shape number there is."""
        return 0.0

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return self.form.area * half_length * half_width / (self._sizes[0] * self._sizes[1])

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        return self._disks[0] * radius, self._disks[1] * radius

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all so far turned."""
        return Growth(0.0, self.form.body.swelling(half_turn) / self.held, 0.0)

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely corners stand to edges, and sides to corners."""
        radius, body = pose.half_length / self.form.half_length, self.form.body
        local = local_of(pose, edges)
        way = local[:, 1] - local[:, 0]
        long = np.flatnonzero(way.any(axis=1))
        corner = np.zeros(len(local), dtype=np.intp)
        corner[long] = body.corner_towards(facing(local[long]))
        left = radius * (body.gauge(nearest_places(body, local / radius)) - 1)
        parts = [
            marks_before(
                local, radius * body.corners[(corner + step) % len(body.corners)], pose, left
            )
            for step in BESIDE
        ]
        return contacts_of([*parts, self._sides(radius, local)], pose)

    def _sides(self, radius: float, local: Array) -> Part:
        """Return how the start of each edge stands to the side that faces it."""
        point = local[:, 0]
        side = self.form.body.side_towards(point)
        normal, height = self.form.body.sides[side], self.form.body.heights[side]
        return Part(
            np.einsum("ij,ij->i", normal, point) - radius * height,
            normal,
            height / self.form.half_length,
            np.zeros(len(point)),
            point,
            np.arange(len(point), dtype=np.intp),
        )
