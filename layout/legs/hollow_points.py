"""Where a plate of any form is cut in triangles: none leaves it, and none is a sliver.

A lattice is laid inside, and everything is joined as Delaunay does. A side that sees a point within
its own circle is halved, so that every side of the plate is a side of triangles; the middle of the
circle through a flat triangle becomes a point, unless a side would see it: then that side is
halved (Ruppert, "A Delaunay refinement algorithm", *J. Algorithms* 18 (1995) 548–585). So the
triangles are small where the plate is narrow, and large where it is wide.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..geometry import Bounds, Path, Point, Region, first_of_best
from ..geometry.polygon import joined_up
from ..geometry.simplify import fewer
from ..geometry.tolerance import SAME_PLACE

Array = NDArray[np.float64]
Corners = NDArray[np.intp]

_FINE = 1 / 80
"""Share of a step that the edge of a plate may be moved by, so that it has fewer points."""

_FLAT = 1.37
"""A triangle is flat from this radius of its circle over its shortest side on: an angle of 21°.
Halving ends for any above the root of two, and in practice a little below it."""

_SHORT = 1 / 30
"""Share of a step below which nothing is halved: the tip of a sharp corner."""

_SHARP = math.radians(75)
"""Sides that meet at less are halved at lengths that are alike on both, or they would take turns
for ever."""

_SEES = 1.004
"""By how much the circle of a side is widened: all are joined a little sheared."""

_MOST = 500
"""Rounds after which a plate is left as it is: none that anybody makes comes near."""

_SLANT = 1e-3
"""How far the points are sheared when they are joined: four of them on one circle, as on every
small rectangle, are then always joined by the same diagonal."""

_ALIKE = 1e-6


def cut_hollow(
    outline: Path, step: float, axes: tuple[int, ...], flattest: float
) -> tuple[Array, Corners]:
    """Return points, (n, 2) mm, and triangles, (m, 3), of any plate, about `step` wide.

    Only of the part whose x (0) or y (1), as `axes` say, is not below 0. Triangles whose doubled
    area is less than `flattest`, mm², are none.
    """
    part = _part(outline, step, axes)
    points, sides = _sides_of(part, step, axes)
    inner = lattice(part.shrunk(0.53 * step), part.bounds, step, axes)  # that no side sees
    cut = _Cut(part, step, flattest, [*points, *map(Point.of, inner)], sides)
    return cut.refined()


def _part(outline: Path, step: float, axes: tuple[int, ...]) -> Region:
    """Return the half or the quarter of a plate, its edge on a mirror exactly there."""
    face = Region.from_rings(fewer(outline.points(_FINE * step), _FINE * step))
    if not axes:
        return face
    far = max(face.bounds.width, face.bounds.height)
    left, bottom = (0.0 if k in axes else -far for k in (0, 1))
    return face.meet(Region.of(Path.round_box(Bounds(left, bottom, far, far))))


def _sides_of(
    part: Region, step: float, axes: tuple[int, ...]
) -> tuple[list[Point], list[tuple[int, int]]]:
    """Return points along the edge at most a step apart, and which of them are neighbours.

    What lies on a mirror but for rounding lies there, and is one point: its twin is itself.
    """
    points: list[Point] = []
    sides: list[tuple[int, int]] = []
    for piece in part.pieces:
        for ring in (piece.exterior, *piece.holes):
            first, own = len(points), ring.copy()
            for k in axes:
                own[np.abs(own[:, k]) < SAME_PLACE, k] = 0.0
            apart = np.hypot(*(own - np.roll(own, 1, axis=0)).T) > SAME_PLACE
            corners = [Point.of(row) for row in own[apart]]
            for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
                count = max(1, math.ceil(a.distance_to(b) / step - _ALIKE))
                points += [a + (b - a) * (k / count) for k in range(count)]
            last = len(points) - 1
            sides += [(k, k + 1 if k < last else first) for k in range(first, last + 1)]
    return points, sides


def lattice(inside: Region, bounds: Bounds, step: float, axes: tuple[int, ...]) -> Array:
    """Return the points of a lattice of even triangles that lie in a region, (n, 2) mm.

    It lies about the middle of a box, but on the mirrors, and fills it: the part whose x (0) or y
    (1), as `axes` say, is not below 0.
    """
    rise = step * math.sqrt(3) / 2
    x, y = (0.0 if k in axes else tuple(bounds.middle)[k] for k in (0, 1))
    columns, rows = math.ceil(bounds.width / step) + 1, math.ceil(bounds.height / rise) + 1
    held = np.array(
        [
            (x + (i + (j % 2) / 2) * step, y + j * rise)
            for j in range(0 if 1 in axes else -rows, rows + 1)
            for i in range(0 if 0 in axes else -columns, columns + 1)
        ]
    )
    return held[inside.holds_points(held)]


def joined(points: Array, flattest: float) -> Corners:
    """Return Delaunay's triangles of points; of a convex plate they fill it exactly."""
    corners = joined_up(points @ np.array([[1.0, _SLANT], [0.0, 1.0]]))
    a, b, c = (points[corners[:, k]] for k in range(3))
    doubled = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    return corners[np.abs(doubled) > flattest]


class _Cut:
    """A plate on its way to good triangles."""

    def __init__(
        self,
        part: Region,
        step: float,
        flattest: float,
        points: list[Point],
        sides: list[tuple[int, int]],
    ) -> None:
        self.part, self.step, self.flattest = part, step, flattest
        self.points, self.sides = points, sides
        self.sharp = self._sharp_corners()

    def refined(self) -> tuple[Array, Corners]:
        """Return points and triangles, once no side sees a point and no triangle is flat."""
        for _ in range(_MOST):
            points = np.array([tuple(p) for p in self.points])
            if self._halve(self._seeing(points)):
                continue
            corners = self._joined(points)
            if self._halve(self._missing(corners)):
                continue
            centre = self._worst(points, corners)
            if centre is None:
                break
            if not self._halve(self._seeing(np.array([tuple(centre)]))):
                self.points.append(centre)
        return points, corners

    def _sharp_corners(self) -> set[int]:
        """Return where two sides meet at a sharp angle."""
        after = dict(self.sides)
        before = {j: i for i, j in self.sides}
        found = set()
        for k in after:
            here = self.points[k]
            a, b = self.points[before[k]] - here, self.points[after[k]] - here
            if abs(math.atan2(a.cross(b), a.dot(b))) < _SHARP:
                found.add(k)
        return found

    def _seeing(self, points: Array) -> list[int]:
        """Return the sides within whose circle a point lies that is none of their ends."""
        held = np.array([(*self.points[i], *self.points[j]) for i, j in self.sides])
        middle, half = (held[:, :2] + held[:, 2:]) / 2, np.hypot(*(held[:, 2:] - held[:, :2]).T) / 2
        off = np.hypot(*(points[None] - middle[:, None]).transpose(2, 0, 1))
        if len(points) > 1:
            ends = np.array(self.sides)
            off[np.arange(len(ends)), ends[:, 0]] = np.inf
            off[np.arange(len(ends)), ends[:, 1]] = np.inf
        return [int(k) for k in np.flatnonzero((off < _SEES * half[:, None]).any(axis=1))]

    def _missing(self, corners: Corners) -> list[int]:
        """Return the sides that are no side of a triangle: at times one is left out at the rim."""
        pairs = np.sort(corners[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
        known = set(map(tuple, pairs.tolist()))
        return [k for k, (i, j) in enumerate(self.sides) if (min(i, j), max(i, j)) not in known]

    def _halve(self, sides: list[int]) -> bool:
        """Halve the sides that are long enough; return whether any was."""
        halved = False
        for k in sides:
            i, j = self.sides[k]
            a, b = self.points[i], self.points[j]
            length = a.distance_to(b)
            if length < 2 * _SHORT * self.step:
                continue
            halved = True
            share = 0.5
            if (i in self.sharp) != (j in self.sharp):
                level = round(math.log2(length / 2 / self.step) + _ALIKE)
                share = 2.0**level * self.step / length
                share = share if i in self.sharp else 1 - share
            self.points.append(a + (b - a) * share)
            self.sides[k] = (i, len(self.points) - 1)
            self.sides.append((len(self.points) - 1, j))
        return halved

    def _joined(self, points: Array) -> Corners:
        """Return Delaunay's triangles that lie in the plate."""
        corners = joined(points, self.flattest)
        return corners[self.part.holds_points(points[corners].mean(axis=1))]

    def _worst(self, points: Array, corners: Corners) -> Point | None:
        """Return the middle of the circle through the flattest triangle; None where none is flat.

        Of triangles as flat the first by place: rounding chooses none.
        """
        a, b, c = (points[corners[:, k]] for k in range(3))
        sides = np.stack([np.hypot(*(p - q).T) for p, q in ((b, c), (c, a), (a, b))])
        (bx, by), (cx, cy) = (b - a).T, (c - a).T
        doubled = 2 * (bx * cy - by * cx)
        radius = sides.prod(axis=0) / np.abs(doubled)
        centre = a + np.stack(
            [
                (cy * sides[2] ** 2 - by * sides[1] ** 2) / doubled,
                (bx * sides[1] ** 2 - cx * sides[2] ** 2) / doubled,
            ],
            axis=1,
        )
        flat = radius / sides.min(axis=0)
        flat[sides.min(axis=0) < 2 * _SHORT * self.step] = 0.0
        # no cutting makes a sharp corner blunter
        flat[np.isin(corners, list(self.sharp)).any(axis=1)] = 0.0
        poor = np.flatnonzero((flat > _FLAT) & self.part.holds_points(centre))
        if not len(poor):
            return None
        k = first_of_best(
            map(int, poor), lambda k: float(flat[k]), lambda k: tuple(centre[k]), tolerance=_ALIKE
        )
        return Point.of(centre[k])
