"""Half-planes for the convex tops of one form in a box.

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

from .aims import Figure, Figures
from .boxes import Box
from .form import Form
from .gauge import nearest_places
from .polygon_body import PolygonBody
from .pose import Array, turned
from .relaxed import Edges, HalfPlanes, Patch, nearest_all_round, wandering
from .sight import angle_of, directions, facing, near_angle, outward, stays_between

_BESIDE = (-1, 0, 1)
"""Corners that are kept within a line, about the one that reaches farthest to it."""

_MOST_SIDES = 24
"""Sides that a point is held within: those of a curve are hundreds, and neighbours say the same."""

_SAME_WAY = 1e-9
"""Radians by which spans of directions are widened, so that rounding cannot leave a corner out."""


def convex_half_planes(form: Form, box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
    """Return half-planes that all tops of a box obey whose centres lie in a patch.

    Parameters
    ----------
    edges : Edges
        Any of the wood's; the more, the sharper.
    cap : float
        No top of the box has a greater radius, mm.
    """
    local = turned(edges.ends - patch.middle, box.turn)
    places = nearest_places(form.body, local)
    chosen = nearest_all_round(places, form.body.gauge(places))
    local, places, outermost = local[chosen], places[chosen], edges.outermost[chosen]
    lines = outermost | _lies_along(form.body, box, patch, local)
    normal = np.where(outermost[:, None], outward(local), facing(local))
    parts = [_line_rows(form, normal[lines], local[lines], step) for step in _BESIDE]
    parts.append(_point_rows(form, box, patch, places[~lines], cap))
    lean = math.tan(box.half_turn)
    swing = cap * math.sin(box.half_turn)
    rows = [part[0] for part in parts]
    limits = [part[1] for part in parts]
    rows.append(np.array([[0.0, 0.0, -lean, 1.0], [0.0, 0.0, -lean, -1.0]]))
    limits.append(np.zeros(2))
    return HalfPlanes(
        np.vstack(rows),
        np.concatenate(limits),
        np.array([-patch.along, -patch.across, 0.0, -swing]),
        np.array([patch.along, patch.across, cap, swing]),
    )


def _line_rows(form: Form, normal: Array, local: Array, step: int) -> tuple[Array, Array]:
    """Return rows that keep one corner of the form within each line."""
    corner = (form.body.corner_towards(normal) + step) % len(form.body.corners)
    place = form.held * form.body.corners[corner]
    ahead = np.einsum("ij,ij->i", normal, place)
    swung = normal[:, 1] * place[:, 0] - normal[:, 0] * place[:, 1]
    limits: Array = np.einsum("ij,ij->i", normal, local[:, 0])
    return np.column_stack([normal, ahead, swung]), limits


def _point_rows(
    form: Form, box: Box, patch: Patch, points: Array, cap: float
) -> tuple[Array, Array]:
    """Return rows that keep points beyond the sides that they are seen through."""
    points = points[points.any(axis=1)]
    y = form.body.normals(points)
    first, last, known = directions(patch, points)
    kappa = np.minimum(
        _share(form.body, y, first - box.half_turn), _share(form.body, y, last + box.half_turn)
    )
    use = known & (kappa > 0) & (last - first + 2 * box.half_turn < math.pi / 2)
    points, y, kappa = points[use], y[use], kappa[use]
    lean = math.tan(box.half_turn)
    cross, off, loose = _turning(y, points, patch, lean)
    rows = np.column_stack([y, kappa * form.held + off / cap, -cross / cap])
    limits: Array = np.einsum("ij,ij->i", y, points) + loose
    steep = np.hypot(y[:, 0], y[:, 1])
    return rows / steep[:, None], limits / steep


def convex_held_rows(form: Form, box: Box, patch: Patch, points: Array) -> tuple[Array, Array]:
    """Return rows that keep points, seen from the middle of the patch, within the sides.

    Within all of them, or of very many those all round and the one that each is seen through.
    """
    count = len(form.body.sides)
    few = min(count, _MOST_SIDES)
    about = np.arange(few) * (count // few)
    side = (form.body.side_towards(points)[:, None] + about).ravel() % count
    y = (form.body.sides / form.body.heights[:, None])[side]
    points = np.repeat(points, few, axis=0)
    lean, cap = math.tan(box.half_turn), max(box.most, 1e-9)
    cross, off, loose = _turning(y, points, patch, lean)
    grown = 1 / math.cos(box.half_turn) ** 2
    rows = np.column_stack([-y, off / cap - grown, cross / cap])
    limits: Array = loose - np.einsum("ij,ij->i", y, points)
    steep = np.hypot(y[:, 0], y[:, 1])
    return rows / steep[:, None], limits / steep


def _turning(y: Array, points: Array, patch: Patch, lean: float) -> tuple[Array, Array, Array]:
    """Return y⊥·D, that at the greatest turn, and with it what the place adds to it there."""
    cross = y[:, 0] * points[:, 1] - y[:, 1] * points[:, 0]
    off = np.abs(cross) * lean
    aside = wandering(np.stack([-y[:, 1], y[:, 0]], axis=1), patch.along, patch.across)
    return cross, off, off + aside * lean


def _share(body: PolygonBody, y: Array, angle: Array) -> Array:
    """Return how much of the gauge towards each direction a normal of reach 1 tells."""
    z = np.stack([np.cos(angle), np.sin(angle)], axis=1)
    share: Array = (y * z).sum(axis=1) / body.gauge(z)
    return share


def _lies_along(body: PolygonBody, box: Box, patch: Patch, local: Array) -> NDArray[np.bool_]:
    """Return which edges a top of the box can only touch between their ends."""
    normal = facing(local)
    lean, delta = angle_of(normal), box.half_turn
    slides = []
    for side in (-1.0, 1.0):
        seen = lean + side * (delta + _SAME_WAY)
        corner = body.corners[body.corner_towards(np.stack([np.cos(seen), np.sin(seen)], axis=1))]
        slides.append(near_angle(angle_of(corner), lean) - lean + side * delta)
    return stays_between(local, normal, (slides[0], slides[1]), patch)


def convex_figures(form: Form, box: Box, lipping: float) -> Figures:
    """Return figures for the half sizes and the area of the tops of a box: s cos δ <= u <= s."""
    over, under = np.array([1 / math.cos(box.half_turn), 0.0]), np.array([1.0, 0.0])
    return Figures(
        long_over=Figure(form.half_length * over, 0.0),
        long_under=Figure(form.half_length * under, 0.0),
        wide_over=Figure(form.half_width * over, 0.0),
        wide_under=Figure(form.half_width * under, 0.0),
        root_area=Figure(over, lipping),
        unit_area=form.area,
    )


def convex_at(box: Box, step: Array) -> tuple[float, float]:
    """Return the turn and the shape number of a solution of the half-planes."""
    ahead, aside = float(step[2]), float(step[3])
    lean = math.atan2(aside, ahead) if ahead > 0 else 0.0
    return box.turn + min(max(lean, -box.half_turn), box.half_turn), 0.0
