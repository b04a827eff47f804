"""Convex outlines of one form: the turn outside, place and size inside.

A regular polygon or an outline of the maker's own comes in one form; only its size, its turn and
its place are sought. For a given turn the largest about a centre is told by the gauge of the
outline: how much it may grow before it meets the nearest edge. The shape number is always 0.
"""

from __future__ import annotations

import math

import numpy as np

from ..wish import Wish
from .aims import Figures
from .boxes import Box
from .convex_bound import convex_at, convex_figures, convex_half_planes, convex_held_rows
from .convex_contacts import convex_contacts
from .form import Form
from .gauge import gauge_distances
from .kind import Axes, Figure, Kind
from .pose import Array, Contacts, Pose, turned
from .relaxed import Edges, HalfPlanes, Patch

_ALONG = (-0.6, -0.3, 0.0, 0.3, 0.6)
"""Where along its length a top is held against the depths of the wood."""

_SAME_RATIO = 1e-9


class ConvexKind(Kind):
    """Tops of one form; the radius is the distance from their middle to their nearest side."""

    name = "convex form"
    takes_disks = False
    pace = 1.5

    def __init__(self, form: Form) -> None:
        self.form = form
        self._sizes = form.half_length, form.half_width
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

    def shape_of(self, pose: Pose) -> float:
        """Return the only shape number there is."""
        return 0.0

    def period(self, p: float) -> float:
        """Return the least turn that brings the form onto itself."""
        return self.form.period

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return self.form.area * half_length * half_width / (self._sizes[0] * self._sizes[1])

    def distances(self, turn: float, p: float, edges: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres touch the edges, (m, n)."""
        return gauge_distances(self.form.body, turned(edges, turn), turned(centres, turn))

    def holding(self, turn: float, p: float, points: Array, centres: Array) -> Array:
        """Return the radii at which tops about the centres hold all the points, (m,)."""
        away = turned(points, turn)[None] - turned(centres, turn)[:, None]
        radii: Array = self.form.body.gauge(away).max(axis=1) / self.form.held
        return radii

    def held_rows(self, box: Box, patch: Patch, points: Array) -> tuple[Array, Array]:
        """Return rows by which all tops of a box hold points, seen from the patch."""
        return convex_held_rows(self.form, box, patch, points)

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        return self._disks[0] * radius, self._disks[1] * radius

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        body = self.form.body
        return np.maximum(body.gauge(ways), body.gauge(-ways))

    def anchor(self, low: float, high: float) -> float:
        """Return the only shape number there is."""
        return 0.0

    def growth(self, low: float, high: float, half_turn: float) -> tuple[float, float]:
        """Return factor and addend that make a radius for the whole box of that at the middle."""
        return self.form.body.swelling(half_turn) / self.form.held, 0.0

    def looseness(self, box: Box) -> tuple[float, float]:
        """Return how far, as angles, the spans of turns and of shapes let contacts wander."""
        return box.half_turn * self.form.body.far, 0.0

    def across(self, p: float, patch: Patch, radius: float) -> tuple[float, float]:
        """Return how far, as angles, the patch lets contacts wander, along and across."""
        return patch.along / radius, patch.across / radius

    def half_planes(self, box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
        """Return half-planes that all tops of a box obey whose centres lie in a patch."""
        return convex_half_planes(self.form, box, patch, edges, cap)

    def figures(self, box: Box, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops of a box."""
        return convex_figures(self.form, box, lipping)

    def at(self, box: Box, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        return convex_at(box, step)

    def shape_span(self, wish: Wish) -> tuple[float, float]:
        """Return the one shape number, or an empty span where the limits shut the ratio out."""
        ratio = self._sizes[0] / self._sizes[1]
        return (0.0, 0.0) if wish.limits.ratio.holds(ratio, _SAME_RATIO) else (1.0, 0.0)

    def first_shapes(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return the one span of shapes."""
        return [(low, high)]

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely corners stand to edges, and sides to corners."""
        return convex_contacts(self.form, pose, edges)
