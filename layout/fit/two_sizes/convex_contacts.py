"""Where a convex polygon stands to edges: corners to their lines, its sides to their corners."""

from __future__ import annotations

import numpy as np

from .form import Form
from .gauge import nearest_places
from .marks import Part, contacts_of, marks_before
from .pose import Array, Contacts, Pose, turned
from .sight import facing

_BESIDE = (-1, 0, 1)
"""Corners looked at about the one that reaches farthest to an edge."""


def convex_contacts(form: Form, pose: Pose, edges: Array) -> Contacts:
    """Return where and how closely a top of a form stands to each edge."""
    radius = pose.half_length / form.half_length
    local = turned(edges - np.array([pose.x, pose.y]), pose.turn)
    way = local[:, 1] - local[:, 0]
    long = np.flatnonzero(way.any(axis=1))
    corner = np.zeros(len(local), dtype=np.intp)
    corner[long] = form.body.corner_towards(facing(local[long]))
    count = len(form.body.corners)
    left = radius * (form.body.gauge(nearest_places(form.body, local / radius)) - 1)
    parts = [
        marks_before(local, radius * form.body.corners[(corner + step) % count], pose, left)
        for step in _BESIDE
    ]
    parts.append(_sides(form, radius, local))
    return contacts_of(parts, pose)


def _sides(form: Form, radius: float, local: Array) -> Part:
    """Return how the start of each edge stands to the side that faces it."""
    point = local[:, 0]
    side = form.body.side_towards(point)
    normal, height = form.body.sides[side], form.body.heights[side]
    return Part(
        np.einsum("ij,ij->i", normal, point) - radius * height,
        normal,
        normal[:, 1] * point[:, 0] - normal[:, 0] * point[:, 1],
        height / form.half_length,
        np.zeros(len(point)),
        point,
        np.arange(len(point), dtype=np.intp),
    )
