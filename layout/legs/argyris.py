"""Argyris' triangle, reckoned about its own middle: a small one far out is as exact as any.

The library reckons its shape functions in powers of the plate's own coordinates. Of a small
triangle far from the origin these powers are all but alike, and what its equations lose by that
grows with the fifth power of distance over size: at the corners of a top with small radii bending
was wrong in its third figure, by another amount on each processor.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray
from skfem.element import DiscreteField, ElementTriArgyris  # type: ignore[import-untyped]

Array = NDArray[np.float64]


class CentredArgyris(ElementTriArgyris):  # type: ignore[misc]
    """The element with powers of the way from the middle of a triangle, over its size."""

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
        """Return shape function `i` at points of the triangles `tind`.

        The library works out the powers anew for each of 21 functions; here all come at once.
        """
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
