"""Where marks on the edge of a top stand to the lines of edges.

A side that lies along an edge, or a nearly straight part of a curve, touches it at more than one
place. A polish must know of several, or it tips the top over the one it knows.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array, turned
from .gauge import PowerBody, nearest_places
from .pose import Contacts, Pose
from .sight import facing


class Part(NamedTuple):
    """Some contacts, seen in the frame of the top."""

    clear: Array
    """(m,) array: distances left, mm."""
    normal: Array
    """(m, 2) array: ways in which the top comes nearer fastest."""
    longer: Array
    wider: Array
    """(m,) arrays: how much nearer it comes with half of each size."""
    places: Array
    """(m, 2) array."""
    edges: NDArray[np.intp]
    """(m,) array of int."""


def local_of(pose: Pose, edges: Array) -> Array:
    """Return edges in the frame of a top."""
    return turned(edges - np.array([pose.x, pose.y]), pose.turn)


def first_met(body: PowerBody, pose: Pose, local: Array) -> Part:
    """Return how a top, a ball when squeezed, stands to the point of each edge that it meets first.

    It lies at ρ there; the way left to it is close to (ρ − 1) over the slope of ρ.
    """
    axes = np.array([pose.half_length, pose.half_width])
    foot = nearest_places(body, local / axes)
    foot = np.where(np.abs(foot).max(axis=1, keepdims=True) > 0, foot, 1e-9)
    rho = body.gauge(foot)
    reach = body.normals(foot) / axes
    steep = np.hypot(reach[:, 0], reach[:, 1])
    place = foot * axes
    normal = reach / steep[:, None]
    return Part(
        (rho - 1) / steep,
        normal,
        normal[:, 0] * foot[:, 0],
        normal[:, 1] * foot[:, 1],
        place,
        np.arange(len(foot), dtype=np.intp),
    )


def marks_before(local: Array, marks: Array, pose: Pose, left: Array) -> Part:
    """Return how one mark for each edge stands to its line, where it is before the edge itself.

    A mark beyond the line of an edge that the top does not cross is beside that edge: where the
    wood has a tongue, its tip looks from there as if it were in the way.
    All is seen in the frame of the top; `left`, (n,), is how far it is from the edges, mm, negative
    where it crosses them.
    """
    way = local[:, 1] - local[:, 0]
    length = np.hypot(way[:, 0], way[:, 1])
    along = np.einsum("ij,ij->i", marks - local[:, 0], way)
    which = np.flatnonzero((length > 0) & (along >= 0) & (along <= length**2))
    normal = facing(local[which])
    clear = np.einsum("ij,ij->i", normal, local[which, 0] - marks[which])
    before = (clear > -ROUNDING) | (left[which] < -ROUNDING)
    which, clear, normal = which[before], clear[before], normal[before]
    marks = marks[which]
    return Part(
        clear,
        normal,
        normal[:, 0] * marks[:, 0] / pose.half_length,
        normal[:, 1] * marks[:, 1] / pose.half_width,
        marks,
        which.astype(np.intp),
    )


def contacts_of(parts: list[Part], pose: Pose) -> Contacts:
    """Return contacts in the frame of the search."""
    clear, normal, longer, wider, places, edges = (
        np.concatenate(column) for column in zip(*parts, strict=True)
    )
    swing = normal[:, 1] * places[:, 0] - normal[:, 0] * places[:, 1]
    cos, sin = math.cos(pose.turn), math.sin(pose.turn)
    back = np.array([[cos, sin], [-sin, cos]])
    slopes = np.column_stack([-normal @ back, -swing, -longer, -wider])
    return Contacts(clear, slopes, edges)
