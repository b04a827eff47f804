"""The path of a rectangle whose corners are quarter circles, one radius each."""

from __future__ import annotations

import math

from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.point import ORIGIN
from ..geometry.segments import Arc, Line, Segment
from ..geometry.tolerance import SAME_POINT

Radii = tuple[float, float, float, float]
"""Corner radii, mm: lower left, lower right, upper right, upper left (anticlockwise)."""


def round_cornered(length: float, width: float, radii: Radii) -> Path:
    """Return the closed path, anticlockwise from the start of its lower edge.

    Radius 0 leaves a square corner; an edge that two radii use up is left out.
    """
    corners = Bounds.about(ORIGIN, length / 2, width / 2).corners
    segments: list[Segment] = []
    for i in range(4):
        start, end = corners[i], corners[(i + 1) % 4]
        along = (end - start).unit()
        edge = Line(start + along * radii[i], end + along * -radii[(i + 1) % 4])
        if edge.length > SAME_POINT:
            segments.append(edge)
        radius = radii[(i + 1) % 4]
        if radius > 0:
            centre = end + along * -radius + along.left * radius
            segments.append(Arc(centre, radius, (i - 1) * math.pi / 2, math.pi / 2))
    return Path(tuple(segments))
