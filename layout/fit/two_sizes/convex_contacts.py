"""Where a convex polygon stands to edges: its corners to their lines, its sides to their corners.

Unlike a round top, a side that lies along an edge touches it at both its ends. A polish must know
of both, or it tips the top over the one it knows.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from .form import Form
from .pose import Array, Contacts, Pose, turned
from .sight import facing

_BESIDE = (-1, 0, 1)
"""Corners looked at about the one that reaches farthest to an edge."""

Part = tuple[Array, Array, Array, NDArray[np.intp]]
"""Distances left, normals away from the top with how it swings and grows there, places, edges."""


def convex_contacts(form: Form, pose: Pose, edges: Array) -> Contacts:
    """Return where and how closely a top of a form stands to each edge.

    Its size counts by half its length alone: half its width goes with it.
    """
    radius = pose.half_length / form.half_length
    local = turned(edges - np.array([pose.x, pose.y]), pose.turn)
    parts = [_corners(form, radius, local, step) for step in _BESIDE]
    parts.append(_sides(form, radius, local))
    clear = np.concatenate([part[0] for part in parts])
    normal, swing, growth = np.split(np.concatenate([part[1] for part in parts]), [2, 3], axis=1)
    cos, sin = math.cos(pose.turn), math.sin(pose.turn)
    back = np.array([[cos, sin], [-sin, cos]])
    slopes = np.column_stack(
        [-normal @ back, -swing, -growth / form.half_length, np.zeros(len(clear))]
    )
    places = np.concatenate([part[2] for part in parts]) @ back + np.array([pose.x, pose.y])
    return Contacts(clear, slopes, places, np.concatenate([part[3] for part in parts]))


def _corners(form: Form, radius: float, local: Array, step: int) -> Part:
    """Return how the corner that reaches farthest, or one beside it, stands to each edge."""
    way = local[:, 1] - local[:, 0]
    length = np.hypot(way[:, 0], way[:, 1])
    which = np.flatnonzero(length > 0)
    local, unit, length = (
        local[which],
        (way / np.maximum(length, 1e-300)[:, None])[which],
        length[which],
    )
    normal = facing(local)
    corner = (form.body.corner_towards(normal) + step) % len(form.body.corners)
    place = radius * form.body.corners[corner]
    off = local[:, 0] - place
    along = -np.einsum("ij,ij->i", off, unit)
    beside = (along >= 0) & (along <= length)
    which, normal, place, off = which[beside], normal[beside], place[beside], off[beside]
    clear = np.einsum("ij,ij->i", normal, off)
    swing = normal[:, 1] * place[:, 0] - normal[:, 0] * place[:, 1]
    growth = np.einsum("ij,ij->i", normal, place) / radius
    return clear, np.column_stack([normal, swing, growth]), place, which.astype(np.intp)


def _sides(form: Form, radius: float, local: Array) -> Part:
    """Return how the start of each edge stands to the side that faces it."""
    point = local[:, 0]
    side = form.body.side_towards(point)
    normal, height = form.body.sides[side], form.body.heights[side]
    clear = np.einsum("ij,ij->i", normal, point) - radius * height
    swing = normal[:, 1] * point[:, 0] - normal[:, 0] * point[:, 1]
    which = np.arange(len(local), dtype=np.intp)
    return clear, np.column_stack([normal, swing, height]), point, which
