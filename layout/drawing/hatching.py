"""Real hatch lines, cut to an area: they look the same in every viewer and on every printer."""

from __future__ import annotations

import math

import numpy as np

from ..geometry import Point, Points
from ..geometry.tolerance import SAME_PLACE
from .scene import SPACING, Area, Hatching

_CHORD = 0.02
"""Hatch lines may end this far from a curved edge, mm: less than any line is wide."""

_SLOPES: dict[Hatching, tuple[float, ...]] = {
    "none": (),
    "solid": (),
    "diagonal": (math.pi / 4,),
    "cross": (math.pi / 4, -math.pi / 4),
}


def hatch_lines(
    area: Area, hatching: Hatching, spacing: float = SPACING
) -> tuple[tuple[Point, Point], ...]:
    """Return the hatch lines of an area, each by its ends, paper mm.

    The lines lie at whole multiples of `spacing` from the scene's origin, so that two areas side
    by side carry on each other's hatching.
    """
    rings = [path.points(_CHORD) for path in (area.boundary, *area.holes)]
    return tuple(line for slope in _SLOPES[hatching] for line in _scanned(rings, slope, spacing))


def _scanned(rings: list[Points], slope: float, spacing: float) -> list[tuple[Point, Point]]:
    """Turn the rings until the hatching is level, and pair the crossings of each level line."""
    cos, sin = math.cos(slope), math.sin(slope)
    levelling = np.array([[cos, -sin], [sin, cos]])
    level = [ring @ levelling for ring in rings]
    starts = np.concatenate(level)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in level])
    low, high = starts[:, 1].min(), starts[:, 1].max()
    lines: list[tuple[Point, Point]] = []
    for step in range(math.ceil(low / spacing), math.floor(high / spacing) + 1):
        y = step * spacing
        crossed = (starts[:, 1] <= y) != (ends[:, 1] <= y)
        one, other = starts[crossed], ends[crossed]
        share = (y - one[:, 1]) / (other[:, 1] - one[:, 1])
        xs = np.sort(one[:, 0] + share * (other[:, 0] - one[:, 0]))
        lines += [
            (Point(float(a), y).turned(slope), Point(float(b), y).turned(slope))
            for a, b in zip(xs[::2], xs[1::2], strict=True)
            if b - a > SAME_PLACE  # a corner that a line only touches is none
        ]
    return lines
