"""A top in a search, and where marks on its edge stand to the lines of edges.

A side that lies along an edge, or a nearly straight part of a curve, touches it at more than one
place. A polish must know of several, or it tips the top over the one it knows.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array
from .gauge import PowerBody, nearest_places
from .sight import facing


class Pose(NamedTuple):
    """A core within a search; mm and radians, in the frame of the search."""

    x: float
    y: float
    turn: float
    half_length: float
    half_width: float


class Part(NamedTuple):
    """Some contacts, seen in the frame of the top."""

    clear: Array
    """(m,) array: distances left, mm; negative where it crosses."""
    normal: Array
    """(m, 2) array: ways in which the top comes nearer fastest."""
    longer: Array
    wider: Array
    """(m,) arrays: how much nearer it comes with half of each size."""
    places: Array
    """(m, 2) array."""

    @classmethod
    def drawn_out(cls, pose: Pose, clear: Array, normal: Array, places: Array) -> Part:
        """Return those at places that move in proportion with each size."""
        longer, wider = (normal * places / pose[3:]).T
        return cls(clear, normal, longer, wider, places)


def first_met(body: PowerBody, pose: Pose, local: Array) -> Part:
    """Return how a top, a ball when squeezed, stands to the point of each edge that it meets first.

    It lies at ρ there; the way left to it is close to (ρ − 1) over the slope of ρ.
    """
    axes = np.array(pose[3:])
    foot = nearest_places(body, local / axes)
    foot = np.where(np.abs(foot).max(axis=1, keepdims=True) > 0, foot, 1e-9)
    reach = body.normals(foot) / axes
    steep = np.hypot(reach[:, 0], reach[:, 1])
    clear = (body.gauge(foot) - 1) / steep
    return Part.drawn_out(pose, clear, reach / steep[:, None], foot * axes)


def marks_before(local: Array, marks: Array, pose: Pose, left: Array) -> Part:
    """Return how one mark for each edge stands to its line, where it is before the edge itself.

    A mark beyond the line of an edge that the top does not cross is beside that edge: where the
    wood has a tongue, its tip looks from there as if it were in the way.
    All is seen in the frame of the top; `left`, (n,), is how far it is from the edges, mm, negative
    where it crosses them.
    """
    way = local[:, 1] - local[:, 0]
    square, along = (way * way).sum(axis=1), ((marks - local[:, 0]) * way).sum(axis=1)
    which = np.flatnonzero((square > 0) & (along >= 0) & (along <= square))
    normal = facing(local[which])
    clear = np.einsum("ij,ij->i", normal, local[which, 0] - marks[which])
    before = (clear > -ROUNDING) | (left[which] < -ROUNDING)
    return Part.drawn_out(pose, clear[before], normal[before], marks[which[before]])
