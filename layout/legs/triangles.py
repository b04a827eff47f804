"""Where a plate of any form is cut in triangles: none leaves it, and none is a sliver.

A lattice is laid inside, and everything is joined as Delaunay does. A side that sees a point within
its own circle is halved, so that every side of the plate is a side of triangles; the middle of the
circle through a flat triangle becomes a point, unless a side would see it: then that side is
halved (Ruppert, "A Delaunay refinement algorithm", *J. Algorithms* 18 (1995) 548–585). So the
triangles are small where the plate is narrow, and large where it is wide.

Of a plate that is its own mirror image only a half or a quarter is cut, and the rest is mirrored,
point by point: what bends alike then does so to the last digits.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Bounds, Path, Point, Region, array_of, first_of_best
from ..geometry.intersect import crossings
from ..geometry.polygon import joined_up
from ..geometry.simplify import fewer
from ..geometry.symmetry import is_symmetric
from ..geometry.tolerance import SAME_PLACE

Array = NDArray[np.float64]
Corners = NDArray[np.intp]
Sides = list[tuple[int, int]]
"""Which points are neighbours along the edge."""

_FINE, _CLEAR, _SHORT = 1 / 80, 0.53, 1 / 30
"""Shares of a step: by how much the edge of a plate may be moved, so that it has fewer points; how
far the lattice keeps from it, so that no side sees it; below what nothing is halved, in the tip of
a sharp corner."""

_FLAT = 1.37
"""A triangle is flat from this radius of its circle over its shortest side on: an angle of 21°.
Halving ends for any above the root of two, and in practice a little below it."""

_SHARP = math.radians(75)
"""Sides that meet at less are halved at lengths alike on both, or they take turns for ever."""

_SLANT, _SEES = np.array([[1.0, 1e-3], [0.0, 1.0]]), 1.004
"""How the points are sheared when they are joined, so that four of them on one circle, as on every
small rectangle, are always joined by the same diagonal; the circle of a side is so much wider."""

_MOST = 500
"""Rounds after which a plate is left as it is: none that anybody makes comes near."""

_ALIKE = 1e-6


def cut_up(outline: Path, step: float, flattest: float) -> tuple[Array, Array, Corners]:
    """Return the triangles of a closed path about the origin, about `step` wide.

    Its points, (n, 2) mm; the same for the mesh, all moved out a little so that the triangles have
    the area of the plate; and which points each joins, (m, 3). One whose doubled area is less than
    the share `flattest` of the plate's is none.
    """
    axes = mirror_axes(outline)
    part = Region.from_rings(fewer(outline.points(_FINE * step), _FINE * step))
    bounds = part.bounds
    if axes:
        far = max(bounds.width, bounds.height)
        left, bottom = (0.0 if k in axes else -far for k in (0, 1))
        part = part.meet(Region.of(Path.round_box(Bounds(left, bottom, far, far))))
    ways = (Point(0.0, 1.0), Point(1.0, 0.0))
    met = {k: array_of(c.point for c in crossings(outline, ORIGIN, ways[k])) for k in axes}
    on_edge, sides = _sides_of(part, step, met)
    middle = Point(*(0.0 if k in axes else tuple(bounds.middle)[k] for k in (0, 1)))
    inner = _lattice(part.shrunk(_CLEAR * step), bounds, middle, step)
    cut = _Cut(part, step, flattest * outline.area, [*on_edge, *inner], sides)
    points, corners = cut.refined()
    for axis in axes:
        flip = np.array([-1.0, 1.0] if axis == 0 else [1.0, -1.0])
        twins = np.flatnonzero(points[:, axis] > 0)
        other = np.arange(len(points))
        other[twins] = len(points) + np.arange(len(twins))
        corners = np.vstack([corners, other[corners]])
        points = np.vstack([points, points[twins] * flip])
    held = float(np.abs(_doubled(points, corners)).sum()) / 2
    return points, points * math.sqrt(outline.area / held), corners


def mirror_axes(outline: Path) -> tuple[int, ...]:
    """Return which of x (0) and y (1) may change sign: the mirrors of a closed path."""
    return tuple(k for k, name in enumerate("xy") if is_symmetric(outline, name))


def _sides_of(part: Region, step: float, mirrors: dict[int, Array]) -> tuple[list[Point], Sides]:
    """Return points along the edge at most a step apart, and which of them are neighbours.

    `mirrors` are where the edge crosses each, (n, 2) mm. What lies on a mirror but for rounding
    lies there, and is one point: its twin is itself. Where the edge crosses a mirror that point is
    on the true edge: there a top often bends most.
    """
    points: list[Point] = []
    sides: Sides = []
    for ring in (ring for piece in part.pieces for ring in (piece.exterior, *piece.holes)):
        first, own = len(points), ring.copy()
        for k, ends in mirrors.items():
            on = np.abs(own[:, k]) < SAME_PLACE
            for end in ends:
                own[on & (np.hypot(*(own - end).T) < 2 * _FINE * step)] = end
            own[on, k] = 0.0
        apart = np.hypot(*(own - np.roll(own, 1, axis=0)).T) > SAME_PLACE
        corners = [Point.of(row) for row in own[apart]]
        for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
            count = max(1, math.ceil(a.distance_to(b) / step - _ALIKE))
            points += [a + (b - a) * (k / count) for k in range(count)]
        last = len(points) - 1
        sides += [(k, k + 1 if k < last else first) for k in range(first, last + 1)]
    return points, sides


def _lattice(inside: Region, bounds: Bounds, middle: Point, step: float) -> list[Point]:
    """Return the points of a lattice of even triangles about `middle` that lie in a region."""
    rise = step * math.sqrt(3) / 2
    columns, rows = math.ceil(bounds.width / step) + 1, math.ceil(bounds.height / rise) + 1
    held = [
        middle + Point((i + (j % 2) / 2) * step, j * rise)
        for j in range(-rows, rows + 1)
        for i in range(-columns, columns + 1)
    ]
    return [held[k] for k in np.flatnonzero(inside.holds_points(array_of(held)))]


def _doubled(points: Array, corners: Corners) -> Array:
    """Return the doubled areas of triangles, (m,) mm², below 0 where they run clockwise."""
    a, b, c = (points[corners[:, k]] for k in range(3))
    doubled: Array = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    return doubled


class _Cut:
    """A plate on its way to good triangles."""

    def __init__(
        self, part: Region, step: float, flattest: float, points: list[Point], sides: Sides
    ) -> None:
        self.part, self.step, self.flattest = part, step, flattest
        self.points, self.sides = points, sides
        after, before = dict(sides), {j: i for i, j in sides}
        ways = {k: (points[before[k]] - points[k], points[after[k]] - points[k]) for k in after}
        turns = {k: abs(math.atan2(a.cross(b), a.dot(b))) for k, (a, b) in ways.items()}
        self.sharp = {k for k, turn in turns.items() if turn < _SHARP}
        """Where two sides meet at a sharp angle."""

    def refined(self) -> tuple[Array, Corners]:
        """Return points and triangles, once no side sees a point and no triangle is flat."""
        for _ in range(_MOST):
            points = array_of(self.points)
            if self._halve(self._seeing(points)):
                continue
            corners = joined_up(points @ _SLANT)
            corners = corners[np.abs(_doubled(points, corners)) > self.flattest]
            corners = corners[self.part.holds_points(points[corners].mean(axis=1))]
            if self._halve(self._missing(corners)):
                continue
            centre = self._worst(points, corners)
            if centre is None:
                break
            if not self._halve(self._seeing(array_of([centre]))):
                self.points.append(centre)
        return points, corners

    def _seeing(self, points: Array) -> list[int]:
        """Return the sides within whose circle a point lies that is none of their ends."""
        held, ends = array_of(self.points), np.array(self.sides)
        a, b = held[ends[:, 0]], held[ends[:, 1]]
        off = np.hypot(*(points - ((a + b) / 2)[:, None]).transpose(2, 0, 1))
        if len(points) == len(held):
            np.put_along_axis(off, ends, np.inf, axis=1)
        near = off < _SEES / 2 * np.hypot(*(b - a).T)[:, None]
        return [int(k) for k in np.flatnonzero(near.any(axis=1))]

    def _missing(self, corners: Corners) -> list[int]:
        """Return the sides that are no side of a triangle: at times one is left out at the rim."""
        pairs = np.sort(corners[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
        known = set(map(tuple, pairs.tolist()))
        return [k for k, (i, j) in enumerate(self.sides) if (min(i, j), max(i, j)) not in known]

    def _halve(self, sides: list[int]) -> bool:
        """Halve the sides that are long enough; return whether any was."""
        count = len(self.points)
        for k in sides:
            i, j = self.sides[k]
            a, b = self.points[i], self.points[j]
            length = a.distance_to(b)
            if length < 2 * _SHORT * self.step:
                continue
            share = 0.5
            if (i in self.sharp) != (j in self.sharp):
                level = round(math.log2(length / 2 / self.step) + _ALIKE)
                share = 2.0**level * self.step / length
                share = share if i in self.sharp else 1 - share
            self.points.append(a + (b - a) * share)
            self.sides[k] = (i, len(self.points) - 1)
            self.sides.append((len(self.points) - 1, j))
        return len(self.points) > count

    def _worst(self, points: Array, corners: Corners) -> Point | None:
        """Return the middle of the circle through the flattest triangle, if one is flat."""
        a, b, c = (points[corners[:, k]] for k in range(3))
        sides = np.stack([np.hypot(*(p - q).T) for p, q in ((b, c), (c, a), (a, b))])
        least, doubled = sides.min(axis=0), 2 * _doubled(points, corners)
        (bx, by), (cx, cy) = (b - a).T, (c - a).T
        across = cy * sides[2] ** 2 - by * sides[1] ** 2, bx * sides[1] ** 2 - cx * sides[2] ** 2
        centre = a + (np.stack(across) / doubled).T
        flat = sides.prod(axis=0) / np.abs(doubled) / least
        # no cutting makes a sharp corner blunter
        spared = np.isin(corners, list(self.sharp)).any(axis=1)
        flat[spared | (least < 2 * _SHORT * self.step)] = 0.0
        poor = np.flatnonzero((flat > _FLAT) & self.part.holds_points(centre))
        if not len(poor):
            return None
        k = first_of_best(
            map(int, poor), lambda k: float(flat[k]), lambda k: tuple(centre[k]), tolerance=_ALIKE
        )
        return Point.of(centre[k])
