"""Argyris' triangle, reckoned about its own middle: a small one far out is as exact as any.

The library reckons its shape functions in powers of the plate's own coordinates. Of a small
triangle far from the origin these powers are all but alike, and what its equations lose by that
grows with the fifth power of distance over size: at the corners of a top with small radii bending
was wrong in its third figure, by another amount on each processor.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skfem import ElementTriArgyris  # type: ignore[import-untyped]

Array = NDArray[np.float64]


class CentredArgyris(ElementTriArgyris):  # type: ignore[misc]
    """The element with powers of the way from the middle of a triangle, over its size."""

    V: Array | None
    _middle: Array
    _size: Array

    def gbasis(
        self,
        mapping: Any,  # noqa: ANN401 - skfem's own
        X: Array,  # noqa: N803 - the library's name for it
        i: int,
        tind: NDArray[np.intp] | None = None,
    ) -> Any:  # noqa: ANN401 - a field of skfem
        """Return shape function `i` at points of the triangles `tind`."""
        mesh = mapping.mesh
        if self.V is None:
            self._look_at(mesh, slice(None))
            self._pbasis_init(self.maxdeg, self.dim, self.derivatives, self.tensorial_basis)
            self.V = np.linalg.inv(self._eval_dofs(mesh))
        self._look_at(mesh, slice(None) if tind is None else tind)
        return super().gbasis(mapping, X, i, tind)

    def _look_at(self, mesh: Any, which: Any) -> None:  # noqa: ANN401
        """Take the middle and the size of some triangles as those of what is asked next."""
        corners = mesh.p[:, mesh.t[:, which]]
        self._middle = corners.mean(axis=1)
        self._size = np.abs(corners - self._middle[:, None]).max(axis=(0, 1))

    def _pbasis_create(
        self,
        i: int,
        j: int | None = None,
        k: int | None = None,
        dx: int = 0,
        dy: int = 0,
        dz: int = 0,
    ) -> Callable[[Array, Array], Array]:
        power = super()._pbasis_create(i, j, k, dx, dy, dz)

        def own(x: Array, y: Array) -> Array:
            rows = (-1, *[1] * (x.ndim - 1))
            (a, b), size = self._middle, self._size.reshape(rows)
            found: Array = power((x - a.reshape(rows)) / size, (y - b.reshape(rows)) / size)
            return found / size ** (dx + dy)

        return own
