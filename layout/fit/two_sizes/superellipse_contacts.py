"""Where a superellipse stands to edges: in the point each meets first, and in marks beside it."""

from __future__ import annotations

import numpy as np

from .gauge import PowerBody, nearest_places
from .marks import Part, contacts_of, marks_before
from .pose import Array, Contacts, Pose, turned
from .sight import angle_of

_SHARES = np.array([1e-6, 1e-4, 0.003, 0.03, 0.15, 0.5, 0.85, 0.97, 0.997, 1 - 1e-4, 1 - 1e-6])
"""Where the marks lie on a quarter of the unit ball: shares of |y|ⁿ in |x|ⁿ + |y|ⁿ, dense towards
its axes, where for a high exponent the edge is all but straight."""


def superellipse_contacts(body: PowerBody, pose: Pose, edges: Array) -> Contacts:
    """Return where and how closely a superellipse stands to each edge."""
    axes = np.array([pose.half_length, pose.half_width])
    local = turned(edges - np.array([pose.x, pose.y]), pose.turn)
    foot = nearest_places(body, local / axes)
    marks = marks_of(body)
    after = np.searchsorted(angle_of(marks), angle_of(foot)) % len(marks)
    first = _nearest(body, pose, foot)
    beside = [marks_before(local, marks[after - i] * axes, pose, first.clear) for i in (0, 1)]
    return contacts_of([first, *beside], pose)


def marks_of(body: PowerBody) -> Array:
    """Return places on the unit ball by rising direction, (n, 2)."""
    quarter = np.stack([1 - _SHARES, _SHARES], axis=1) ** (1 / body.exponent)
    signs = np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]])
    marks: Array = (quarter[None] * signs[:, None]).reshape(-1, 2)
    return marks[np.argsort(angle_of(marks))]


def _nearest(body: PowerBody, pose: Pose, foot: Array) -> Part:
    """Return how the top stands to the point of each edge that it meets first, seen as a ball.

    It lies at ρ there; the way left to it is close to (ρ − 1) over the slope of ρ.
    """
    axes = np.array([pose.half_length, pose.half_width])
    foot = np.where(np.abs(foot).max(axis=1, keepdims=True) > 0, foot, 1e-9)
    rho = body.gauge(foot)
    slope = body.normals(foot)
    reach = slope / axes
    steep = np.hypot(reach[:, 0], reach[:, 1])
    place = foot * axes
    normal = reach / steep[:, None]
    return Part(
        (rho - 1) / steep,
        normal,
        normal[:, 1] * place[:, 0] - normal[:, 0] * place[:, 1],
        normal[:, 0] * foot[:, 0],
        normal[:, 1] * foot[:, 1],
        place,
        np.arange(len(foot), dtype=np.intp),
    )
