"""A top as a thin plate on points: how far it bends, by finite elements.

The Kirchhoff plate of any stiffness along and across its grain, on Argyris triangles: quintic, with
continuous slopes, so that the answer converges from below. The points that carry it need not be
corners of triangles: each is one equation that holds the plate down there. All work is done on a
plate of unit area and unit stiffness, so that the laws of scale hold exactly.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import bmat, csc_matrix, csr_matrix
from scipy.sparse.linalg import splu
from skfem import Basis, MeshTri  # type: ignore[import-untyped]
from skfem.element import DiscreteField, ElementTriArgyris  # type: ignore[import-untyped]

from ..geometry import Path, Point, array_of
from ..panel.materials import Stiffness
from .room import nearest_on
from .triangles import cut_up

Array = NDArray[np.float64]

TRIANGLES = 110
"""About so many give the sag of a top on legs to 0.3 % (measured; the tests hold it)."""


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
class Plate:
    """A plate cut in triangles, free everywhere until it is rested on something."""

    size: float
    """The square root of its area, mm."""
    stiff: float
    """The unit of its stiffness, N·mm."""
    places: Array
    """(p, 2) array: where its bending is read, mm: points of the mesh, then middles of edges."""
    points: int
    """How many of them are points of the mesh."""
    matrix: Any
    load: Array
    """(n,) array: what a load of one a unit area does to the unit plate."""
    reading: Any
    """From the unknowns to the deflections at `places`."""
    basis: Any
    """For reading anywhere else: where it is held down."""

    @classmethod
    def cut(cls, outline: Path, rigid: Array, triangles: int = TRIANGLES) -> Plate:
        """Return the plate inside a closed path about the origin, in about so many triangles."""
        size, stiff, bounds = math.sqrt(outline.area), float(rigid[0, 0]), outline.bounds
        even = size * math.sqrt(4 / (math.sqrt(3) * triangles))
        step = min(even, min(bounds.width, bounds.height) / 3)
        points, moved, corners = cut_up(outline, step, 1e-6 / triangles)
        mesh = MeshTri((moved / size).T.copy(), corners.T.copy())
        basis = Basis(mesh, CentredArgyris(), intorder=6)
        fields, dofs, area = [held[0] for held in basis.basis], basis.element_dofs, basis.dx
        bends = np.stack([(f.hess[0, 0], f.hess[1, 1], 2 * f.hess[0, 1]) for f in fields])
        turned = np.einsum("ij,ajcq,cq->aicq", rigid / stiff, bends, area)
        energy = np.einsum("aicq,bicq->abc", turned, bends, optimize=True)
        downs = np.einsum("acq,cq->ac", np.stack(fields), area)
        rows, columns = np.broadcast_arrays(dofs[:, None], dofs[None])
        read = np.vstack([points / size, mesh.p[:, mesh.facets].mean(axis=1).T])
        return cls(
            size,
            stiff,
            read * size,
            len(points),
            csc_matrix((energy.ravel(), (rows.ravel(), columns.ravel())), (basis.N, basis.N)),
            np.bincount(dofs.ravel(), downs.ravel()).astype(float),
            _reading(basis, read),
            basis,
        )

    def on(self, supports: Sequence[Point]) -> RestedPlate:
        """Return the plate held down at three points or more that are not on one line."""
        return next(self.on_each([supports]))

    def on_each(self, arrangements: Sequence[Sequence[Point]]) -> Iterator[RestedPlate]:
        """Yield the plate on each of several arrangements of supports, read in one go."""
        points = [point for supports in arrangements for point in supports]
        rows = _reading(self.basis, array_of(points) / self.size)
        start = 0
        for supports in arrangements:
            held = rows[start : start + len(supports)]
            start += len(supports)
            whole = bmat([[self.matrix, held.T], [held, None]], format="csc")
            yield RestedPlate(self, splu(whole))


@dataclass(frozen=True)
class RestedPlate:
    """A plate on its legs."""

    plate: Plate
    factors: Any
    """Of its equations, with one row for each support."""

    def under_load(self, pressure: float) -> Array:
        """Return how far it goes down at its places, (p,) mm, under an even load, N/mm²."""
        down: Array = self.plate.reading @ self._solve(self.plate.load)
        return down * pressure * self.plate.size**4 / self.plate.stiff

    @cached_property
    def give(self) -> Array:
        """How far each point of the mesh gives way under 1 N at that point, (points,) mm.

        No place gives more under a force elsewhere than the softest gives under its own: the
        answer of one place to a force at another is at most the mean of their own answers.
        """
        at_points = self.plate.reading[: self.plate.points].toarray()
        answers = self._solve(at_points.T)
        own: Array = np.einsum("ij,ji->i", at_points, answers)
        return own * (self.plate.size**2 / self.plate.stiff)

    def _solve(self, load: Array) -> Array:
        count = len(load)
        rows = self.factors.shape[0] - count
        full = np.concatenate([load, np.zeros((rows, *load.shape[1:]))])
        found: Array = self.factors.solve(full)[:count]
        return found


def _reading(basis: Any, points: Array) -> Any:  # noqa: ANN401 - skfem's own, a sparse matrix
    """Return the rows that read points, (n, 2), of the unit plate, each in the triangle it lies in.

    The library's own search loses points on the edge of a plate to rounding; one outside is read
    at the nearest place of the edge.
    """
    mesh = basis.mesh
    corners = mesh.p.T[mesh.t.T]
    origin, sides = corners[:, 0], (corners[:, 1:] - corners[:, :1]).transpose(0, 2, 1)

    def within(places: Array) -> tuple[Array, Array]:
        off = (places[None] - origin[:, None])[..., None]
        shares = np.linalg.solve(sides[:, None], off)[..., 0]
        return shares, np.minimum(shares.min(axis=2), 1 - shares.sum(axis=2))

    shares, least = within(points)
    outside = least.max(axis=0) < -_OUTSIDE
    if outside.any():
        edges = mesh.p.T[mesh.facets[:, mesh.boundary_facets()].T]
        shares, least = within(np.where(outside[:, None], nearest_on(edges, points), points))
    cells = least.argmax(axis=0)
    own = shares[cells, np.arange(len(points))].T[:, :, None]
    values = [
        basis.elem.gbasis(basis.mapping, own, k, tind=cells)[0].ravel() for k in range(basis.Nbfun)
    ]
    rows = np.tile(np.arange(len(points)), basis.Nbfun)
    columns = basis.element_dofs[:, cells].ravel()
    return csr_matrix((np.concatenate(values), (rows, columns)), shape=(len(points), basis.N))


_OUTSIDE = 1e-9
"""Share of a triangle by which a place outside it is inside for rounding."""


class CentredArgyris(ElementTriArgyris):  # type: ignore[misc]
    """Argyris' triangle, with powers of the way from the middle of each, over its size.

    The library reckons its shape functions in powers of the plate's own coordinates. Of a small
    triangle far from the origin these are all but alike, and what its equations lose by that grows
    with the fifth power of distance over size: at the corners of a top with small radii bending was
    wrong in its third figure, by another amount on each processor.
    """

    V: Array | None
    _middle: Array
    _size: Array
    _asked: tuple[Any, Any] = (None, None)
    _fields: list[Array]
    """Value, slopes and bends of all shape functions where they were asked for last."""

    def gbasis(
        self,
        mapping: Any,  # noqa: ANN401 - skfem's own
        X: Array,  # noqa: N803 - the library's name for it
        i: int,
        tind: NDArray[np.intp] | None = None,
    ) -> Any:  # noqa: ANN401 - a field of skfem
        """Return shape function `i` at points of triangles; all are worked out at once."""
        if self.V is None:
            self._look_at(mapping.mesh, slice(None))
            self._pbasis_init(self.maxdeg, self.dim, self.derivatives, self.tensorial_basis)
            self.V = np.linalg.inv(self._eval_dofs(mapping.mesh))
        if self._asked[0] is not X or self._asked[1] is not tind:
            which = slice(None) if tind is None else tind
            self._look_at(mapping.mesh, which)
            x = mapping.F(X, tind=tind)
            weights = self.V[which].transpose(0, 2, 1)
            at = {
                way: weights @ np.stack([power(*x) for power in each], axis=1)
                for way, each in self._pbasis.items()
            }
            self._fields = [
                at[()],
                np.stack([at[k,] for k in range(2)]),
                np.stack([np.stack([at[k, m] for m in range(2)]) for k in range(2)]),
            ]
            self._asked = X, tind
        value, slopes, bends = (field[..., i, :] for field in self._fields)
        return (DiscreteField(value=value, grad=slopes, hess=bends),)

    def _look_at(self, mesh: Any, which: Any) -> None:  # noqa: ANN401
        """Take the middle and the size of some triangles as those of what is asked next."""
        corners = mesh.p[:, mesh.t[:, which]]
        self._middle = corners.mean(axis=1)
        self._size = np.abs(corners - self._middle[:, None]).max(axis=(0, 1))

    def _pbasis_create(
        self, i: int, j: int = 0, k: None = None, dx: int = 0, dy: int = 0, dz: None = None
    ) -> Callable[[Array, Array], Array]:
        """Return xⁱyʲ, differentiated `dx` and `dy` times."""
        factor, powers = math.perm(i, dx) * math.perm(j, dy), (max(i - dx, 0), max(j - dy, 0))

        def own(x: Array, y: Array) -> Array:
            rows = (-1, *[1] * (x.ndim - 1))
            (a, b), size = self._middle, self._size.reshape(rows)
            one, other = (x - a.reshape(rows)) / size, (y - b.reshape(rows)) / size
            found: Array = factor * one ** powers[0] * other ** powers[1] / size ** (dx + dy)
            return found

        return own
