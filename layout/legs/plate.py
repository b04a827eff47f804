"""A top as a thin plate on points: how far it bends, by splines on a grid of cells.

The Kirchhoff plate of any stiffness along and across its grain. How far it bends is a sum of cubic
splines on even cells that are laid over the top; each cell counts as far as the top covers it, so
that no mesh has to follow its edge (Höllig, *Finite Element Methods with B-Splines*, SIAM 2003).
Slopes are continuous, and the answer converges from below.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Path, Point, Region, array_of
from ..geometry.intersect import crossings
from ..geometry.simplify import fewer
from ..geometry.tolerance import CHORD
from ..panel.materials import Stiffness
from .room import nearest_on

Array = NDArray[np.float64]

CELLS = 400
"""About so many give the sag of a top on legs to 0.3 % (measured; the tests hold it)."""

_FINE, _MANY = 1 / 400, 1000
"""Share of a cell by which the edge may be moved; what has so many points then has fewer."""

_WHOLE = 0.999
"""A plate that fills less of its hull has dents."""

_SLIT = 1e-6
"""Share of its hull that the plate may lack and be in one part everywhere."""

_SLIVER = 1e-15
"""Share of the stiffest spline's energy: one with less lives in what rounding left of a cell."""

_SPLINES = np.array([[1, 4, 1, 0], [-3, 0, 3, 0], [3, -6, 3, 0], [-1, 3, -3, 1]]) / 6
"""The four cubic splines that live in a cell, by the powers of the way through it."""


def rigidity(stiffness: Stiffness, thickness: float, grain: float = 0.0) -> Array:
    """Return the bending stiffness of a plate, (3, 3) N·mm, between curvatures and moments.

    In the order x, y, twist (2 w_xy); for a plate alike both ways its first entry is
    E t³/(12 (1 − ν²)). Thickness in mm, the grain from x in radians.
    """
    e, ratio = stiffness, stiffness.across / stiffness.along
    whole = 1 - e.poisson**2 * ratio
    own = np.array(
        [
            [e.along / whole, e.poisson * e.across / whole, 0.0],
            [e.poisson * e.across / whole, e.across / whole, 0.0],
            [0.0, 0.0, e.shear],
        ]
    )
    c, s = math.cos(grain), math.sin(grain)
    turn = np.array(
        [[c * c, s * s, c * s], [s * s, c * c, -c * s], [-2 * c * s, 2 * c * s, c * c - s * s]]
    )
    turned: Array = turn.T @ own @ turn * thickness**3 / 12
    return turned


@dataclass(frozen=True)
class Grid:
    """Even cells over a plate, and the splines that live in them."""

    face: Region
    low: Array
    cell: Array
    """(2,) arrays: the lower left corner, and the sizes of a cell, mm."""
    counts: NDArray[np.intp]
    """(2,) array: how many cells there are along and up; so many splines and three more."""

    @classmethod
    def over(cls, outline: Path, wide: float, high: float) -> Grid:
        """Return cells about so wide and high, mm; their corners meet in the middle of the box."""
        box, fine = outline.bounds, _FINE * min(wide, high)
        sides = np.array([box.width, box.height])
        counts = 2 * np.ceil(sides / (2 * wide, 2 * high) - 1e-6).astype(np.intp)
        ring = outline.points(fine)
        face = Region.from_rings(ring if len(ring) < _MANY else fewer(ring, 10 * fine))
        return cls(face, np.array([box.left, box.bottom]), sides / counts, counts)

    @cached_property
    def apart(self) -> dict[int, list[tuple[int, Region]]]:
        """The splines below which the plate is in parts, with a number and the part for each.

        What lies across a slit does not bend with it.
        """
        own, count = self.counts + 3, int(np.prod(self.counts + 3))
        found: dict[int, list[tuple[int, Region]]] = {}
        if self.face.area > (1 - _SLIT) * Region.hull(self.face.exterior).area:
            return found
        for number, (i, j) in enumerate(np.ndindex(*own)):
            parts = self.part((i - 3, j - 3), 4).pieces
            if len(parts) > 1:
                found[number] = [(number, parts[0]), *enumerate(parts[1:], count)]
                count += len(parts) - 1
        return found

    def part(self, cell: Sequence[int], cells: int = 1) -> Region:
        """Return what a plate covers of a cell, or of so many along and up from it."""
        (left, bottom), (right, top) = (self.low + self.cell * np.add(cell, n) for n in (0, cells))
        box = np.array([(left, bottom), (right, bottom), (right, top), (left, top)])
        return self.face.meet(Region.from_rings(box))

    def splines(self, cell: Sequence[int], at: Region) -> list[int]:
        """Return the numbers of the 16 splines that live in a cell, as they are at a part of it."""
        first = [(cell[0] + i) * (self.counts[1] + 3) + cell[1] for i in range(4)]
        return [
            min(self.apart[number], key=lambda part: part[1].distance_to(at))[0]
            if number in self.apart
            else number
            for row in first
            for number in range(row, row + 4)
        ]

    def values(self, points: Array, cells: NDArray[np.intp], along: int = 0, up: int = 0) -> Array:
        """Return the 16 splines of its cell at each point, (n, 16), derived so often each way."""
        way = (points - self.low) / self.cell - cells
        x, y = (
            np.stack([math.perm(k, n) * way[:, axis] ** max(k - n, 0) for k in range(4)], axis=1)
            @ _SPLINES
            / self.cell[axis] ** n
            for axis, n in enumerate((along, up))
        )
        values: Array = x[:, :, None] * y[:, None]
        return values.reshape(len(points), 16)

    def reading(self, points: Array) -> Array:
        """Return the rows that read points of the plate, (n, splines)."""
        cells = np.clip(((points - self.low) / self.cell).astype(np.intp), 0, self.counts - 1)
        rows = np.zeros((len(points), len(self.rigid)))
        places = (Region.at(Point.of(point)) for point in points)
        here = np.array([self.splines(*pair) for pair in zip(cells.tolist(), places, strict=True)])
        np.put_along_axis(rows, here, self.values(points, cells), axis=1)
        return rows

    @cached_property
    def rigid(self) -> Array:
        """What of each spline lifts and tilts the plate and does not bend it, (splines, 3)."""
        x, y = (self.low[k] + self.cell[k] * (np.arange(self.counts[k] + 3) - 1) for k in (0, 1))
        at = np.stack(np.meshgrid(x, y, indexing="ij"), axis=-1).reshape(-1, 2)
        more = [number for number, parts in self.apart.items() for _ in parts[1:]]
        return np.pad(np.vstack([at, at[more]]), ((0, 0), (1, 0)), constant_values=1.0)


@dataclass(frozen=True)
class Plate:
    """A plate in cells, free everywhere until it is rested on something."""

    grid: Grid
    places: Array
    """(p, 2) array: where its bending is read, mm: along the edge, and corners of cells."""
    used: NDArray[np.intp]
    """(n,) array: the splines that live in it."""
    load: Array
    """(n,) array: what a load of 1 N/mm² does to each of them."""
    gives: Array
    """(n, n) array: how each answers to a load on another, lift and tilt held."""

    @classmethod
    def cut(cls, outline: Path, rigid: Array, cells: int = CELLS) -> Plate:
        """Return the plate inside a closed path about the origin, in about so many cells.

        They are longer the way that it is stiffer, and twice as many where it has dents.
        """
        hull = Region.hull(outline.points(CHORD)).area
        count = cells if outline.area > _WHOLE * hull else 2 * cells
        step, longer = math.sqrt(outline.area / count), (rigid[0, 0] / rigid[1, 1]) ** 0.125
        grid = Grid.over(outline, step * longer, step / longer)
        energy, load = _of_cells(grid, rigid)
        own = energy.diagonal()
        used = np.flatnonzero(own > _SLIVER * own.max())
        energy, tilts = energy[np.ix_(used, used)], grid.rigid[used]
        even = 1 / np.sqrt(energy.diagonal())  # so each spline's own stiffness is 1
        held, _ = np.linalg.qr(tilts / even[:, None])
        gives = np.linalg.inv(energy * np.outer(even, even) + held @ held.T)
        places = _places(outline, grid)
        return cls(grid, places, used, load[used], gives * np.outer(even, even))

    def on(self, supports: Sequence[Point]) -> RestedPlate:
        """Return the plate held down at three points or more that are not on one line.

        One outside holds it at the nearest place of its edge.
        """
        points, face = array_of(supports), self.grid.face
        outside = ~face.holds_points(points)
        if outside.any():
            points[outside] = nearest_on(face.edges, points[outside])
        return RestedPlate(self, self.grid.reading(points)[:, self.used])

    @cached_property
    def reading(self) -> Array:
        """From the splines to the deflections at `places`, (p, n)."""
        return self.grid.reading(self.places)[:, self.used]


def _of_cells(grid: Grid, rigid: Array) -> tuple[Array, Array]:
    """Return the energy between all splines and what an even load does to each."""
    every = ((cell, piece) for cell in np.ndindex(*grid.counts) for piece in grid.part(cell).pieces)
    parts = [(cell, piece, *_fan(piece.exterior)) for cell, piece in every]
    points = np.vstack([own for *_, own, _ in parts])
    cells = np.vstack([np.tile(cell, (len(own), 1)) for cell, _, own, _ in parts])
    orders = ((2, 0, 1), (0, 2, 1), (1, 1, 2))
    bends = np.stack([by * grid.values(points, cells, *order) for *order, by in orders], axis=1)
    downs = grid.values(points, cells)
    splines = len(grid.rigid)
    energy, load, start = np.zeros((splines, splines)), np.zeros(splines), 0
    for cell, piece, own, area in parts:
        here, part = grid.splines(cell, piece), slice(start, start + len(own))
        turned = (rigid @ bends[part] * area[:, None, None]).reshape(-1, 16)
        energy[np.ix_(here, here)] += turned.T @ bends[part].reshape(-1, 16)
        load[here] += area @ downs[part]
        start += len(own)
    return energy, load


def _fan(ring: Array) -> tuple[Array, Array]:
    """Return points, (n, 2), within a ring and how much of its area each stands for.

    They lie in a fan of triangles from its first corner, of which those that run backwards count
    off: of any polynomial of these splines' energy the sum is exact.
    """
    to, on = ring - ring[0], np.roll(ring, -1, axis=0) - ring
    doubled = to[:, 0] * on[:, 1] - to[:, 1] * on[:, 0]
    fans = to[:, None] + _ACROSS[:, None] * on[:, None]
    return (ring[0] + _OUT[:, None] * fans).reshape(-1, 2), np.outer(doubled, _SHARES).ravel()


_GAUSS, _WEIGHTS = (
    (held + shift) / 2
    for held, shift in zip(np.polynomial.legendre.leggauss(5), (1, 0), strict=True)
)
_OUT, _ACROSS = (held.ravel() for held in np.meshgrid(_GAUSS, _GAUSS, indexing="ij"))
_SHARES = _OUT * np.outer(_WEIGHTS, _WEIGHTS).ravel()
"""Where a triangle is read, out from its corner and across, and shares of its doubled area."""


def _places(outline: Path, grid: Grid) -> Array:
    """Return where a plate's bending is read: close along its edge, on its axes, inside."""
    ring = grid.face.exterior
    ways = np.roll(ring, -1, axis=0) - ring
    parts = np.ceil(np.hypot(*ways.T) / grid.cell.min() - 1e-6).astype(int)
    edge = [
        a + way * (k / n) for a, way, n in zip(ring, ways, parts, strict=True) for k in range(n)
    ]
    axes = (Point(1.0, 0.0), Point(0.0, 1.0))
    on_axes = array_of(met.point for way in axes for met in crossings(outline, ORIGIN, way))
    x, y = (grid.low[k] + grid.cell[k] * np.arange(grid.counts[k] + 1) for k in (0, 1))
    inner = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    return np.vstack([edge, on_axes, inner[grid.face.holds_points(inner)]])


@dataclass(frozen=True)
class RestedPlate:
    """A plate on its legs."""

    plate: Plate
    held: Array
    """(s, n) array: the rows that read it where it is held down."""

    def under_load(self, pressure: float) -> Array:
        """Return how far it goes down at its places, (p,) mm, under an even load, N/mm²."""
        down: Array = self.plate.reading @ self._answers(self.plate.load[:, None])[:, 0]
        return down * pressure

    @cached_property
    def give(self) -> Array:
        """How far each place gives way under 1 N there, (p,) mm.

        No place gives more under a force elsewhere than the softest gives under its own: the
        answer of one place to a force at another is at most the mean of their own answers.
        """
        reading = self.plate.reading
        own: Array = np.einsum("pn,np->p", reading, self._answers(reading.T))
        return own

    def _answers(self, loads: Array) -> Array:
        """Return the splines under loads, (n, m) each: what legs push back is in balance."""
        plate, held, tilts = self.plate, self.held, self.plate.grid.rigid[self.plate.used]
        free, back = plate.gives @ loads, plate.gives @ held.T
        gives = held @ back
        tilts = tilts * (gives.max() / np.abs(held @ tilts).max(axis=0))  # all figures alike
        lift = held @ tilts
        equations = np.block([[gives, -lift], [-lift.T, np.zeros((3, 3))]])
        loads = np.vstack([held @ free, -tilts.T @ loads])
        found = np.linalg.lstsq(equations, loads, rcond=None)[0]
        answers: Array = free - back @ found[:-3] + tilts @ found[-3:]
        return answers
