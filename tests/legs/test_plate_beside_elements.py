"""Plates on feet beside a general library of finite elements.

scikit-fem's rectangles of Bogner, Fox and Schmit (1965) have continuous slopes too, but nothing
else in common with splines on cells: own unknowns at every corner, a mesh that follows the edge.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import skfem  # type: ignore[import-untyped]
from skfem.helpers import dd  # type: ignore[import-untyped]

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.legs.plate import Plate, rigidity
from panelwright.layout.panel.materials import MATERIALS

pytestmark = pytest.mark.heavy

SIDE = 50
"""Of an element, mm: corners of tops and feet lie on a grid of that."""


@skfem.BilinearForm
def bending(u: Any, v: Any, form: Any) -> Any:  # noqa: ANN401 - skfem's own
    """Return the energy between two deflections, at each point."""
    one, other = (np.array([dd(w)[0, 0], dd(w)[1, 1], 2 * dd(w)[0, 1]]) for w in (u, v))
    return np.einsum("i...,ij...,j...->...", one, form["rigid"], other)


@skfem.LinearForm
def evenly(v: Any, _: Any) -> Any:  # noqa: ANN401 - skfem's own
    """Return what an even load of 1 N/mm² does to a deflection, at each point."""
    return v


def sag_by_elements(ring: np.ndarray, feet: np.ndarray, rigid: np.ndarray) -> float:
    """Return how far the plate in a ring, held at feet, sags under 1 N/mm²."""
    ticks = (np.arange(ring[:, k].min(), ring[:, k].max() + 1, SIDE) for k in (0, 1))
    mesh = skfem.MeshQuad.init_tensor(*ticks)
    middles = mesh.p[:, mesh.t].mean(axis=1).T
    mesh = mesh.restrict(np.flatnonzero(Region.from_rings(ring).holds_points(middles)))
    basis = skfem.Basis(mesh, skfem.ElementQuadBFS(), intorder=6)
    energy = bending.assemble(basis, rigid=rigid[:, :, None, None])
    away = np.hypot(*(mesh.p[:, :, None] - feet.T[:, None]))
    assert away.min(axis=0).max() == 0
    held = basis.nodal_dofs[0, away.argmin(axis=0)]
    down = skfem.solve(*skfem.condense(energy, evenly.assemble(basis), D=held))
    return float(down[basis.nodal_dofs[0]].max())


RECTANGLE = [(-800, -400), (800, -400), (800, 400), (-800, 400)]
L_SHAPE = [(-750, -550), (750, -550), (750, -150), (-350, -150), (-350, 550), (-750, 550)]
FOUR = [(-600, -300), (600, -300), (600, 300), (-600, 300)]
UNDER_L = [(-700, -500), (700, -500), (700, -200), (-700, 500)]


@pytest.mark.parametrize(
    ("corners", "feet", "material", "grain"),
    [
        pytest.param(RECTANGLE, FOUR, "oak", 0.0, id="rectangle"),
        pytest.param(RECTANGLE, FOUR, "oak", 0.6, id="grain across corners"),
        pytest.param(RECTANGLE, FOUR[:3], "beech", 0.3, id="three feet"),
        pytest.param(L_SHAPE, UNDER_L, "MDF", 0.0, id="L"),
    ],
)
def test_a_top_on_feet_sags_as_elements_say(
    corners: list[tuple[float, float]],
    feet: list[tuple[float, float]],
    material: str,
    grain: float,
) -> None:
    """To a fifth of a percent, for wood and board, along the grain and off it, hollow or not."""
    stiffness, ring = MATERIALS[material].stiffness, np.array(corners, dtype=float)
    assert stiffness is not None
    rigid = rigidity(stiffness, 25.0, grain)
    rested = Plate.cut(Path.through_ring(ring), rigid).on([Point(*foot) for foot in feet])
    known = sag_by_elements(ring, np.array(feet, dtype=float), rigid)
    assert float(rested.under_load(1.0).max()) == pytest.approx(known, rel=0.002)
