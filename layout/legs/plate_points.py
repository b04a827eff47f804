"""Where a plate is cut in triangles: points along its rim, and a lattice inside.

A convex plate is cut here, any other in `hollow_points`.

A plate that is its own mirror image is cut into triangles that are: only a half or a quarter of it
is cut, and the rest is its mirror image, point by point. What bends alike then does so to the last
digits, and no triangle decides which of two mirrored places is the worse.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Line, Path, Point, Region
from ..geometry.intersect import crossings
from ..geometry.polygon import convex_hull
from ..geometry.symmetry import is_symmetric
from ..geometry.tolerance import SAME_PLACE
from .hollow_points import cut_hollow, joined, lattice

Array = NDArray[np.float64]
Corners = NDArray[np.intp]

_MANY = 160
"""Points of a rim beyond which a plate would be cut finer at its rim than anywhere else."""

_TURN = math.pi / 8
"""Most that the rim turns from one point to the next, radians."""

_ROUNDING = 1e-9
"""What a count of steps may be above a whole number by rounding."""

_CLEAR = 0.48
"""Share of a step that the lattice keeps from the rim. Half a step would be met exactly by tops of
round sizes, and rounding would then say which points are in."""


def cut_up(outline: Path, step: float, flattest: float) -> tuple[Array, Array, Corners]:
    """Return the triangles of a closed path about the origin, about `step` wide.

    Its points, (n, 2) mm; the same for the mesh, those along arcs of a convex plate moved out so
    that the triangles have its area, to some thousandths: ends of arcs stay; and which points each
    triangle joins, (m, 3). One whose doubled area is less than the share `flattest` of the plate's
    is none.
    """
    axes = mirror_axes(outline)
    if is_hollow(outline):
        points, corners = cut_hollow(outline, step, axes, flattest * outline.area)
        mesh = points
    else:
        rim, moved = rim_of(outline, step, axes)
        within = Region.from_rings(outline.points(step / 100)).shrunk(_CLEAR * step)
        inner = lattice(within, outline.bounds, step, axes)
        points, mesh = np.vstack([rim, inner]), np.vstack([moved, inner])
        corners = joined(mesh, flattest * outline.area)
    for axis in axes:
        flip = np.array([-1.0, 1.0] if axis == 0 else [1.0, -1.0])
        twins = np.flatnonzero(points[:, axis] > 0)
        other = np.arange(len(points))
        other[twins] = len(points) + np.arange(len(twins))
        corners = np.vstack([corners, other[corners]])
        points = np.vstack([points, points[twins] * flip])
        mesh = np.vstack([mesh, mesh[twins] * flip])
    return points, mesh, corners


def mirror_axes(outline: Path) -> tuple[int, ...]:
    """Return which of x (0) and y (1) may change sign: the mirrors of a closed path."""
    return tuple(k for k, name in enumerate("xy") if is_symmetric(outline, name))


def is_hollow(outline: Path) -> bool:
    """Return whether a closed path is not convex."""
    ring = outline.points(SAME_PLACE)
    hollow = Region.from_rings(convex_hull(ring)).area - Region.from_rings(ring).area
    return hollow > SAME_PLACE * outline.length


def rim_of(outline: Path, step: float, axes: tuple[int, ...] = ()) -> tuple[Array, Array]:
    """Return points along the outline at most `step` apart, and the same moved out for the mesh.

    Between the points of an arc the mesh has straight edges. They cut off a share 1 − sin h / h of
    what the arc sweeps, h the angle between two points; moved out by √(h / sin h) they sweep as
    much as it, and the plate all but keeps its area. The middle of every edge is a point. With
    `axes` only points whose x (0) or y (1) is not below 0, anticlockwise; where the outline crosses
    the other axis is a point.
    """
    true, moved = [], []
    for segment in outline.segments:
        count = max(1, math.ceil(segment.length / step - _ROUNDING))
        out = 1.0
        if not isinstance(segment, Line):
            count = max(count, math.ceil(abs(segment.sweep) / _TURN - _ROUNDING))
        count += count % 2
        if not isinstance(segment, Line):
            turn = abs(segment.sweep) / count
            out = math.sqrt(turn / math.sin(turn))
        for k in range(count):
            point = segment.at(k / count)
            true.append(tuple(point))
            if k and not isinstance(segment, Line):
                point = segment.centre + (point - segment.centre) * out
            moved.append(tuple(point))
    many = len(true) > _MANY
    rim, out_rim = np.array(true), np.array(moved)
    if axes:
        rim, out_rim = _part(outline, rim, out_rim, axes)
    return _thinned(rim, outline.area, step, axes) if many else (rim, out_rim)


def _part(outline: Path, rim: Array, moved: Array, axes: tuple[int, ...]) -> tuple[Array, Array]:
    """Return the points of a half or a quarter; those on a mirror lie on it exactly."""
    for axis in axes:
        way = Point(0.0, 1.0) if axis == 0 else Point(1.0, 0.0)
        ends = np.array([tuple(c.point) for c in crossings(outline, ORIGIN, way)])
        far = [end for end in ends if np.hypot(*(rim - end).T).min() > SAME_PLACE]
        ends = np.array(far).reshape(-1, 2)
        rim, moved = np.vstack([rim, ends]), np.vstack([moved, ends])
    for axis in axes:
        kept = rim[:, axis] > -SAME_PLACE
        rim, moved = rim[kept], moved[kept]
        on = rim[:, axis] < SAME_PLACE
        rim[on, axis] = moved[on, axis] = 0.0
    order = np.argsort(np.arctan2(rim[:, 1], rim[:, 0]))
    return rim[order], moved[order]


def _thinned(rim: Array, area: float, step: float, axes: tuple[int, ...]) -> tuple[Array, Array]:
    """Return fewer points of a smooth rim of many short arcs, and the same with its area kept.

    A point stays where it is far enough from the one before, or where the rim has turned since.
    """
    kept, last = [0], len(rim) - 1
    ways = np.roll(rim, -1, axis=0) - rim
    heading = np.unwrap(np.arctan2(ways[:, 1], ways[:, 0]))
    for i in range(1, last if axes else last + 1):
        far = math.dist(rim[i], rim[kept[-1]]) >= step / 2 - _ROUNDING
        if far or heading[i] - heading[kept[-1]] >= _TURN - _ROUNDING:
            kept.append(i)
    if axes:  # both ends lie on a mirror
        near = len(kept) > 1 and math.dist(rim[last], rim[kept[-1]]) < step / 4
        kept[-1 if near else len(kept) :] = [last]
    few = rim[kept]
    x, y = few.T
    swept = x * np.roll(y, -1) - y * np.roll(x, -1)
    held = float(swept[:-1].sum() if axes else swept.sum()) / 2 * 2 ** len(axes)
    return few, few * math.sqrt(area / held)
