"""Where a plate is cut in triangles: points along its rim, and a lattice inside."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..geometry.path import Path
from ..geometry.placement import array_of
from ..geometry.point import Point
from ..geometry.segments import Line

Array = NDArray[np.float64]

_MANY = 160
"""Points of a rim beyond which a plate would be cut finer at its rim than anywhere else."""

_TURN = math.pi / 8
"""Most that the rim turns from one point to the next, radians."""


def rim_of(outline: Path, step: float) -> tuple[Array, Array]:
    """Return points along the outline at most `step` apart, and the same moved out for the mesh.

    Between the points of an arc the mesh has straight edges. They cut off a share 1 − sin h / h of
    what the arc sweeps, h the angle between two points; moved out by √(h / sin h) they sweep as
    much as it, and the plate keeps its area. The middle of every edge is a point.
    """
    true, moved = [], []
    for segment in outline.segments:
        count = max(1, math.ceil(segment.length / step - 1e-9))
        out = 1.0
        if not isinstance(segment, Line):
            count = max(count, math.ceil(abs(segment.sweep) / _TURN))
        count += count % 2
        if not isinstance(segment, Line):
            turn = abs(segment.sweep) / count
            out = math.sqrt(turn / math.sin(turn))
        for k in range(count):
            point = segment.at(k / count)
            true.append(point)
            if k and not isinstance(segment, Line):
                point = segment.centre + (point - segment.centre) * out
            moved.append(point)
    rim, out_rim = array_of(true), array_of(moved)
    return _thinned(rim, outline.area, step) if len(rim) > _MANY else (rim, out_rim)


def _thinned(rim: Array, area: float, step: float) -> tuple[Array, Array]:
    """Return fewer points of a smooth rim of many short arcs, and the same with its area kept.

    A point stays where it is far enough from the one before, or where the rim has turned since.
    """
    kept = [0]
    ways = np.roll(rim, -1, axis=0) - rim
    heading = np.unwrap(np.arctan2(ways[:, 1], ways[:, 0]))
    for i in range(1, len(rim)):
        far = math.dist(rim[i], rim[kept[-1]]) >= step / 2
        if far or heading[i] - heading[kept[-1]] >= _TURN:
            kept.append(i)
    few = rim[kept]
    x, y = few.T
    held = float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2
    middle = few.mean(axis=0)
    return few, middle + (few - middle) * math.sqrt(area / held)


def lattice(width: float, height: float, step: float) -> list[Point]:
    """Return a lattice of even triangles about the origin, symmetrical both ways."""
    rows = math.ceil(height / 2 / (step * math.sqrt(3) / 2))
    columns = math.ceil(width / 2 / step) + 1
    return [
        Point((i + (j % 2) / 2) * step, j * step * math.sqrt(3) / 2)
        for j in range(-rows, rows + 1)
        for i in range(-columns, columns + 1)
    ]
