"""The convex tops of one form in a box.

The top is {c + s R(φ) x : x in the form}; u = s cos φ and v = s sin φ are the unknowns, in the
frame of the box. A line on whose inner side the top lies is kept by every corner w of the form:

    ν·c + u (ν·w) + v (ν·w⊥) <= ν·point,    w⊥ = (−w₂, w₁),

which is no approximation at all. A point P outside, which lies beyond the side with normal y (of
reach 1) in the whole box, keeps y·R(−φ)(P − c) >= s; where it may also lie beyond a neighbour, the
left side is still at least κ s, κ being the least of y·z over the gauge of z, for all z towards
which P may be seen. It is least where z is at an end of its span. Divided by cos φ, and with D the
way to P from the middle of the patch,

    y·(D − c) + y⊥·D tan φ + |y⊥·c| tan δ >= κ u,        y⊥ here (−y₂, y₁) with y⊥·D = y₁D₂ − y₂D₁.

A point P to be held keeps y·R(−φ)(P − c) <= s for the normals y of all sides, and s / cos φ is at
most u / cos² δ; the rest is the same.

The tangent is v / u, and with u₀ the most that u can be it is off v / u₀ by no more than
tan δ (u₀ − u) / u₀: a small share of a small angle.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array
from .aims import Figures
from .boxes import Box
from .form import Form
from .gauge import nearest_places
from .lift import Lift
from .relaxation import Edges, Patch, Rows, nearest_all_round, wandering
from .sight import angle_of, directions, facing, near_angle, outward, stays_between

BESIDE = (-1, 0, 1)
"""Corners that are looked at, about the one that reaches farthest to a line."""

_MOST_SIDES = 24
"""Sides that a point is held within: those of a curve are hundreds, and neighbours say the same."""

_SAME_WAY = 1e-9
"""Radians by which spans of directions are widened, so that rounding cannot leave a corner out."""


class ConvexLift(Lift):
    """Tops of one form by u and v."""

    def __init__(self, form: Form, box: Box, patch: Patch) -> None:
        super().__init__(box, patch)
        self.form, self.body = form, form.body
        self.lean = math.tan(box.half_turn)

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return what keeps tops within the turns, and the bounds of u and v."""
        rows = np.array([[0.0, 0.0, -self.lean, 1.0], [0.0, 0.0, -self.lean, -1.0]])
        swing = cap * math.sin(self.box.half_turn)
        return Rows(rows, np.zeros(2)), np.array([0.0, -swing]), np.array([cap, swing])

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows for lines and points among the nearest edges all round."""
        places = nearest_places(self.body, local.ends)
        chosen = nearest_all_round(places, self.body.gauge(places))
        ends, places, outermost = local.ends[chosen], places[chosen], local.outermost[chosen]
        lines = outermost | self._lies_along(ends)
        normal = np.where(outermost[:, None], outward(ends), facing(ends))
        parts = [self._line_rows(normal[lines], ends[lines], step) for step in BESIDE]
        return Rows.joined(*parts, self._point_rows(places[~lines], cap))

    def _line_rows(self, normal: Array, ends: Array, step: int) -> Rows:
        """Return rows that keep one corner of the form within each line."""
        corner = (self.body.corner_towards(normal) + step) % len(self.body.corners)
        place = self.form.held * self.body.corners[corner]
        ahead = np.einsum("ij,ij->i", normal, place)
        swung = normal[:, 1] * place[:, 0] - normal[:, 0] * place[:, 1]
        rows = np.column_stack([normal, ahead, swung])
        return Rows(rows, np.einsum("ij,ij->i", normal, ends[:, 0]))

    def _point_rows(self, points: Array, cap: float) -> Rows:
        """Return rows that keep points beyond the sides that they are seen through."""
        points, half_turn = points[points.any(axis=1)], self.box.half_turn
        y = self.body.normals(points)
        first, last, known = directions(self.patch, points)
        kappa = np.minimum(self._share(y, first - half_turn), self._share(y, last + half_turn))
        use = known & (kappa > 0) & (last - first + 2 * half_turn < math.pi / 2)
        points, y, kappa = points[use], y[use], kappa[use]
        cross, off, loose = self._turning(y, points)
        rows = np.column_stack([y, kappa * self.form.held + off / cap, -cross / cap])
        return _scaled(rows, np.einsum("ij,ij->i", y, points) + loose)

    def held(self, seen: Array) -> Rows:
        """Return rows that keep points within the sides.

        Within all of them, or of very many those all round and the one that each is seen through.
        """
        body, points = self.body, seen
        count = len(body.sides)
        few = min(count, _MOST_SIDES)
        about = np.arange(few) * (count // few)
        side = (body.side_towards(points)[:, None] + about).ravel() % count
        y = (body.sides / body.heights[:, None])[side]
        points = np.repeat(points, few, axis=0)
        cap = max(self.box.most, 1e-9)
        cross, off, loose = self._turning(y, points)
        grown = 1 / math.cos(self.box.half_turn) ** 2
        rows = np.column_stack([-y, off / cap - grown, cross / cap])
        return _scaled(rows, loose - np.einsum("ij,ij->i", y, points))

    def _turning(self, y: Array, points: Array) -> tuple[Array, Array, Array]:
        """Return y⊥·D, that at the greatest turn, and with it what the place adds to it there."""
        cross = y[:, 0] * points[:, 1] - y[:, 1] * points[:, 0]
        off = np.abs(cross) * self.lean
        aside = np.stack([-y[:, 1], y[:, 0]], axis=1)
        return cross, off, off + wandering(aside, self.patch.along, self.patch.across) * self.lean

    def _share(self, y: Array, angle: Array) -> Array:
        """Return how much of the gauge towards each direction a normal of reach 1 tells."""
        z = np.stack([np.cos(angle), np.sin(angle)], axis=1)
        share: Array = (y * z).sum(axis=1) / self.body.gauge(z)
        return share

    def _lies_along(self, local: Array) -> NDArray[np.bool_]:
        """Return which edges a top of the box can only touch between their ends."""
        body, normal = self.body, facing(local)
        lean, delta = angle_of(normal), self.box.half_turn
        slides = []
        for side in (-1.0, 1.0):
            seen = lean + side * (delta + _SAME_WAY)
            way = np.stack([np.cos(seen), np.sin(seen)], axis=1)
            corner = body.corners[body.corner_towards(way)]
            slides.append(near_angle(angle_of(corner), lean) - lean + side * delta)
        return stays_between(local, normal, (slides[0], slides[1]), self.patch)

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area: s cos δ <= u <= s."""
        under, _, one = np.eye(3)
        over, form = under / math.cos(self.box.half_turn), self.form
        return Figures(
            long_over=form.half_length * over,
            long_under=form.half_length * under,
            wide_over=form.half_width * over,
            wide_under=form.half_width * under,
            root_area=over + lipping * one,
            unit_area=form.area,
        )

    def pose(self, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        ahead, aside = float(step[2]), float(step[3])
        lean = math.atan2(aside, ahead) if ahead > 0 else 0.0
        return self.turned(lean), 0.0


def _scaled(rows: Array, limits: Array) -> Rows:
    """Return rows whose normals of place have length 1."""
    steep = np.hypot(rows[:, 0], rows[:, 1])
    return Rows(rows / steep[:, None], limits / steep)
