"""On convex panels the best top of a kind is a convex program: two solvers must agree with us.

The largest ellipse in half-planes n·x ≤ b is the image of the unit disk under x → B x + d with the
largest determinant for which |B n| + n·d ≤ b (Boyd and Vandenberghe, *Convex Optimization* 8.4.2).
For a given turn the largest rectangle, rounded rectangle and capsule are programs of the same kind,
since the root of each area is concave in the half sizes. The solver's dual value is a proof of its
own that nothing is larger.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import clarabel
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy import sparse
from scipy.optimize import linprog
from strategies import star_rings

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.polygon import Region, convex_hull
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
RADIUS = 35.0
DIRECTED = ("capsule", "rectangle", "rounded rectangle")


@st.composite
def convex_panels(draw: st.DrawFn) -> Array:
    """Draw the corners, (n, 2) mm, of convex panels, up to four times as long as wide."""
    corners = np.array([(p.x, p.y) for p in draw(star_rings())])
    lean, squeeze = draw(st.floats(0, 3)), draw(st.floats(0.25, 1.0))
    cos, sin = math.cos(lean), math.sin(lean)
    ring = convex_hull(corners * [1.0, squeeze] @ np.array([[cos, sin], [-sin, cos]]))
    assume(Region.from_rings(ring).area > 40_000)
    return ring


def half_planes(ring: Array) -> tuple[Array, Array]:
    """Return outer unit normals, (n, 2), and offsets of the sides of an anticlockwise ring."""
    way = np.roll(ring, -1, axis=0) - ring
    normals = np.stack([way[:, 1], -way[:, 0]], axis=1) / np.hypot(*way.T)[:, None]
    return normals, (normals * ring).sum(axis=1)


@dataclass(frozen=True)
class Proved:
    """The value of a program, and what its dual proves that none exceeds."""

    value: float
    most: float


def greatest_last(at_most: tuple[Array, Array], cones: list[tuple[Array, Array]]) -> Proved:
    """Return the greatest last unknown x with ``rows x <= limits`` and ``c − G x`` in each cone.

    A cone holds the vectors whose first number is at least the length of the rest.
    """
    rows, limits = at_most
    matrix = sparse.csc_matrix(np.vstack([rows, *(g for g, _ in cones)]))
    right = np.concatenate([limits, *(c for _, c in cones)])
    kinds = [clarabel.NonnegativeConeT(len(limits))]
    kinds += [clarabel.SecondOrderConeT(len(c)) for _, c in cones]
    aim = np.zeros(matrix.shape[1])
    aim[-1] = -1.0
    quiet = clarabel.DefaultSettings()
    quiet.verbose = False
    nothing = sparse.csc_matrix((len(aim), len(aim)))
    solved = clarabel.DefaultSolver(nothing, aim, matrix, right, kinds, quiet).solve()
    assert str(solved.status) == "Solved"
    return Proved(-solved.obj_val, -solved.obj_val_dual)


def largest_ellipse(ring: Array) -> Proved:
    """Return the area of the largest ellipse, mm²; unknowns B₁₁, B₁₂, B₂₂, d₁, d₂, √det B.

    det B = B₁₁B₂₂ − B₁₂² ≥ t² where |(2t, 2B₁₂, B₁₁ − B₂₂)| ≤ B₁₁ + B₂₂.
    """
    normals, offsets = half_planes(ring)
    cones = []
    for (x, y), b in zip(normals, offsets, strict=True):
        reach = -np.array([[0, 0, 0, -x, -y, 0], [x, y, 0, 0, 0, 0], [0, x, y, 0, 0, 0]])
        cones.append((reach, np.array([b, 0.0, 0.0])))
    det = -np.array(
        [[1, 0, 1, 0, 0, 0], [0, 0, 0, 0, 0, 2], [0, 2, 0, 0, 0, 0], [1, 0, -1, 0, 0, 0]]
    )
    cones.append((det.astype(float), np.zeros(4)))
    root = greatest_last((np.array([[-1.0, 0, 0, 0, 0, 0]]), np.zeros(1)), cones)
    return Proved(math.pi * root.value**2, math.pi * root.most**2)


def largest_directed(ring: Array, shape: str, turn: float) -> Proved:
    """Return the area of the largest top whose length lies along a turn, mm².

    Unknowns: the centre, half the length and half the width of the inner line, t. A rectangle has
    a·c ≥ t² where |(2t, a − c)| ≤ a + c. A capsule of half straight a and radius r has
    πr² + 4ar = π(r + 2a/π)² − 4a²/π ≥ t² where |(t, 2a/√π)| ≤ √π (r + 2a/π).
    """
    normals, offsets = half_planes(ring)
    along = np.abs(normals @ [math.cos(turn), math.sin(turn)])
    across = np.abs(normals @ [-math.sin(turn), math.cos(turn)])
    corner = RADIUS if shape == "rounded rectangle" else 0.0
    wide = np.ones(len(ring)) if shape == "capsule" else across
    rows = np.column_stack([normals, along, wide, np.zeros(len(ring))])
    flat = np.array([[0, 0, -1, 0, 0], [0, 0, 0, -1, 0], [0, 0, -1, 1, 0]], dtype=float)
    flat = flat[:2] if shape == "capsule" else flat
    limits = np.concatenate([offsets - corner, np.zeros(len(flat))])
    if shape == "capsule":
        root = math.sqrt(math.pi)
        cone = -np.array([[0, 0, 2 / root, root, 0], [0, 0, 0, 0, 1], [0, 0, 2 / root, 0, 0]])
        found = greatest_last((np.vstack([rows, flat]), limits), [(cone, np.zeros(3))])
        return Proved(found.value**2, found.most**2)
    cone = -np.array([[0, 0, 1, 1, 0], [0, 0, 0, 0, 2], [0, 0, 1, -1, 0]], dtype=float)
    right = np.array([2 * corner, 0.0, 0.0])
    found = greatest_last((np.vstack([rows, flat]), limits), [(cone, right)])
    lost = (4 - math.pi) * corner**2
    return Proved(4 * found.value**2 - lost, 4 * found.most**2 - lost)


def best(ring: Array, shape: str, limits: Limits | None = None) -> Fit:
    """Return the best top of a shape."""
    limits = limits or Limits(corner_radius=Span(RADIUS, RADIUS))
    return best_fits(SoundWood.exact(Region.from_rings(ring)), Wish((shape,), limits=limits))[0]


def held_against(fit: Fit, proved: Proved) -> None:
    """Assert that a fit is as good as the solver's, its bound no lower, and neither above both."""
    assert fit.bound is not None
    assert fit.bound.value >= proved.value * (1 - 1e-7)
    assert fit.score <= proved.most * (1 + 1e-7)
    assert fit.score >= 0.9998 * proved.value
    assert fit.gap is not None and fit.gap <= 0.001


def test_the_solver_knows_steiners_ellipse() -> None:
    """In a triangle its largest ellipse has π/(3√3) of the area: the program is set up right."""
    ring = np.array([[0.0, 0.0], [900.0, 0.0], [200.0, 500.0]])
    share = largest_ellipse(ring).value / Region.from_rings(ring).area
    assert share == pytest.approx(math.pi / (3 * math.sqrt(3)), rel=1e-6)


@settings(max_examples=12)
@given(convex_panels())
def test_the_largest_oval_is_that_of_the_determinant_program(ring: Array) -> None:
    """Any turn, any ratio: our oval has the area of the largest ellipse of the polygon."""
    held_against(best(ring, "oval"), largest_ellipse(ring))


@settings(max_examples=20)
@given(convex_panels())
def test_the_largest_circle_is_that_of_the_linear_program(ring: Array) -> None:
    """The centre deepest inside all sides is a linear program, and its depth the radius."""
    normals, offsets = half_planes(ring)
    rows = np.column_stack([normals, np.ones(len(ring))])
    free = [(None, None), (None, None), (0, None)]
    deepest = linprog([0.0, 0.0, -1.0], A_ub=rows, b_ub=offsets, bounds=free)
    fit = best(ring, "circle")
    assert fit.outline.length == pytest.approx(-2 * deepest.fun, abs=0.02)
    assert fit.bound is not None
    assert fit.bound.value >= math.pi * deepest.fun**2 * (1 - 1e-9)
    assert fit.score <= math.pi * deepest.fun**2 * (1 + 1e-9)


@settings(max_examples=10)
@given(convex_panels(), st.floats(-1.5, 1.5), st.sampled_from(DIRECTED))
def test_at_a_given_turn_the_best_top_is_that_of_the_cone_program(
    ring: Array, turn: float, shape: str
) -> None:
    """With its length along the grain the best top has the area that the solver proves."""
    limits = Limits(
        corner_radius=Span(RADIUS, RADIUS), grain_deg=math.degrees(turn), most_turn_deg=0.0
    )
    held_against(best(ring, shape, limits), largest_directed(ring, shape, turn))


@settings(max_examples=8)
@given(convex_panels(), st.sampled_from(DIRECTED))
def test_the_best_of_a_fan_of_turns_never_beats_the_bound(ring: Array, shape: str) -> None:
    """The best of sixty turns, each solved exactly, is no better than found, and near to it."""
    fan = [largest_directed(ring, shape, i * math.pi / 60).value for i in range(60)]
    fit = best(ring, shape)
    own = largest_directed(ring, shape, fit.placement.turn)
    assert fit.bound is not None
    assert max(fan) <= fit.bound.value * (1 + 1e-7)
    assert fit.score >= 0.999 * max(fan)
    assert fit.score <= own.most * (1 + 1e-7)
