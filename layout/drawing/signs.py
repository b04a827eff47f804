"""Marks as lines: what they are for can be told without a letter."""

from __future__ import annotations

import math

from ..geometry.path import Path, circle
from ..geometry.point import Point
from ..geometry.segments import Line
from .scene import Mark, Sign

_CORNERS: dict[Sign, tuple[float, ...]] = {
    "point": (),
    "nail": (),
    "middle": (45.0, 135.0, 225.0, 315.0),
    "centre": (90.0, 210.0, 330.0),
    "hole": (0.0, 90.0, 180.0, 270.0),
}
"""Directions, degrees, in which the corners of the figure round a mark lie: a square round the
middle, a triangle round the centre of an arc, a diamond round a hole; nothing round a point, and
round a nail only the ring of its own size."""


def mark_lines(mark: Mark) -> tuple[Path, ...]:
    """Return a mark as lines: its cross, the ring of its diameter, the figure of its sign.

    >>> [len(mark_lines(Mark(Point(0, 0), sign=sign))) for sign in ("point", "hole")]
    [2, 3]
    """
    along, up = Point(mark.arm, 0.0), Point(0.0, mark.arm)
    cross = tuple(Path((Line(mark.at - arm, mark.at + arm),)) for arm in (along, up))
    ring = (circle(mark.at, mark.diameter / 2),) if mark.diameter else ()
    corners = [mark.at + Point.polar(mark.arm, math.radians(d)) for d in _CORNERS[mark.sign]]
    figure = (Path.through(corners, closed=True),) if corners else ()
    return (*cross, *ring, *figure)
