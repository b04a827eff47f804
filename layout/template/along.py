"""Points along many segments at once: a parallel of an oval alone is hundreds of arcs."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..geometry import Arc, Line, Points, Segment
from ..geometry.window import most_length


def points_on(segments: Sequence[Segment], spacing: float) -> tuple[Points, NDArray[np.intp]]:
    """Return points along segments, none over `spacing` mm apart, and the number of each's segment.

    The ends of each segment are included, so that it is known by its own points alone.

    >>> from ..geometry.point import Point
    >>> points_on([Line(Point(0, 0), Point(3, 0))], 2.0)[0].tolist()
    [[0.0, 0.0], [1.5, 0.0], [3.0, 0.0]]
    """
    # equal steps of an ellipse's angle are not equal on the line: the longest counts
    steps = np.array([max(1, math.ceil(most_length(s) / spacing)) for s in segments])
    owner = np.repeat(np.arange(len(steps)), steps + 1)
    first = np.cumsum(steps + 1) - (steps + 1)
    share = (np.arange(len(owner)) - first[owner]) / steps[owner]
    figures = np.array([_figures(segment) for segment in segments])
    x, y, right, ahead, length, width, turn, start, sweep = figures[owner].T
    angle = start + sweep * share
    along, up = length * np.cos(angle), width * np.sin(angle)
    cos, sin = np.cos(turn), np.sin(turn)
    xs = x + share * right + along * cos - up * sin
    ys = y + share * ahead + along * sin + up * cos
    return np.column_stack([xs, ys]), owner


def _figures(segment: Segment) -> tuple[float, ...]:
    """Return start and way of a line; of an arc centre, half-axes, turn, start and sweep."""
    if isinstance(segment, Line):
        return (*segment.start, *(segment.end - segment.start), 0.0, 0.0, 0.0, 0.0, 0.0)
    if isinstance(segment, Arc):
        half: tuple[float, ...] = (segment.radius, segment.radius, 0.0)
    else:
        half = (segment.half_length, segment.half_width, segment.turn)
    return (*segment.centre, 0.0, 0.0, *half, segment.from_angle, segment.sweep)
