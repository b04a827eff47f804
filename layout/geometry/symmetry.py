"""Whether a path is its own mirror image, or that of another one."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from .path import Path
from .placement import Points
from .point import Point
from .segments import Arc, Line, Segment

_ALIKE = 0.01
"""How far, mm, two halves may differ and still count as alike: below what a pencil can show."""


def is_symmetric(path: Path, axis: str) -> bool:
    """Return whether a closed path is its own mirror image at x = 0 (`axis` "x") or y = 0 ("y").

    >>> from .path import circle
    >>> is_symmetric(circle(Point(0, 5), 10), "x"), is_symmetric(circle(Point(0, 5), 10), "y")
    (True, False)
    """
    return images(path, path, (-1.0, 1.0) if axis == "x" else (1.0, -1.0))


def images(path: Path, other: Path, flip: tuple[float, float]) -> bool:
    """Return whether a path lies on another one once its x and y are multiplied by `flip`."""
    one, two = path.bounds.middle, other.bounds.middle
    if Point(one.x * flip[0], one.y * flip[1]).distance_to(two) > _ALIKE:
        return False
    shares = [k / _PROBES for k in range(_PROBES + 1)]
    points = np.array([tuple(s.at(share)) for s in path.segments for share in shares]) * flip
    met = np.zeros(len(points), dtype=bool)
    for segment in other.segments:
        box = segment.bounds.grown(_ALIKE)
        low, high = (box.left, box.bottom), (box.right, box.top)
        near = np.flatnonzero(((points >= low) & (points <= high)).all(axis=1) & ~met)
        met[near] = _off(points[near], segment) <= _ALIKE
    return bool(met.all())


_PROBES = 8
"""Points tried on each segment: a line or an arc that fits another one at nine is the same."""


def _off(points: Points, segment: Segment) -> NDArray[np.float64]:
    """Return how far points lie from a segment; from an elliptic arc to first order."""
    ends = np.array([tuple(segment.start), tuple(segment.end)])
    to_ends: NDArray[np.float64] = np.min([np.hypot(*(points - end).T) for end in ends], axis=0)
    if isinstance(segment, Line):
        way = ends[1] - ends[0]
        share = ((points - ends[0]) @ way) / (way @ way)
        across = np.abs((points - ends[0]) @ np.array([-way[1], way[0]])) / np.hypot(*way)
        return np.where((share >= 0) & (share <= 1), across, to_ends)
    if isinstance(segment, Arc):
        half, turn = (segment.radius, segment.radius), 0.0
    else:
        half, turn = (segment.half_length, segment.half_width), segment.turn
    if max(half) <= _ALIKE:  # as good as a point
        return to_ends
    cos, sin = math.cos(turn), math.sin(turn)
    own = (points - np.array(tuple(segment.centre))) @ np.array([[cos, -sin], [sin, cos]])
    unit = own / half
    reach = np.hypot(*unit.T)
    slope = np.hypot(*(unit / half).T) / np.maximum(reach, 1e-12)
    angle = (np.arctan2(unit[:, 1], unit[:, 0]) - segment.from_angle) * np.sign(segment.sweep)
    within = angle % math.tau <= abs(segment.sweep)
    return np.where(within, np.abs(reach - 1) / np.maximum(slope, 1e-12), to_ends)
