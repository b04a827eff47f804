"""Rings with fewer points: near enough, few enough, and the same whatever the last digits say."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from strategies import every_outline, star_rings

from panelwright.layout.geometry.placement import array_of
from panelwright.layout.geometry.simplify import fewer
from panelwright.layout.geometry.tolerance import SAME_PLACE
from panelwright.layout.outlines import Circle, Outline

tolerances = st.floats(0.02, 2.0)


@given(every_outline, tolerances)
def test_no_point_strays_farther_than_it_may(outline: Outline, tolerance: float) -> None:
    """Every point of a ring lies within the tolerance of what is left, some of its own points."""
    ring = outline.inner(0.001)
    left = fewer(ring, tolerance)
    assert len(left) <= len(ring)
    line = shapely.LinearRing(left)
    assert shapely.distance(shapely.points(ring), line).max() <= tolerance + SAME_PLACE
    assert shapely.distance(shapely.points(left), shapely.LinearRing(ring)).max() <= 1e-6


@given(star_rings())
def test_straight_sides_keep_their_corners(corners: tuple) -> None:
    """A polygon with corners far apart and points between them is left with its corners."""
    ring = array_of(corners)
    dense = np.concatenate(
        [ring + (np.roll(ring, -1, axis=0) - ring) * share for share in (0.0, 0.25, 0.5)]
    ).reshape(3, -1, 2).swapaxes(0, 1).reshape(-1, 2)  # fmt: skip
    left = fewer(dense, 1e-3)
    assert {tuple(p) for p in left.round(6)} <= {tuple(p) for p in ring.round(6)}


@given(every_outline, tolerances, st.integers(0, 2**32 - 1))
def test_the_last_digits_choose_no_points(outline: Outline, tolerance: float, seed: int) -> None:
    """With every coordinate off by rounding, the same points are kept."""
    ring = outline.inner(0.01)
    noise = np.random.default_rng(seed).uniform(-1e-10, 1e-10, ring.shape)
    assert fewer(ring + noise, tolerance) == pytest.approx(fewer(ring, tolerance), abs=1e-9)


def test_a_circle_is_left_with_about_as_many_points_as_its_bend_asks_for() -> None:
    """Chords that stray by t are √(8rt) long; length times turn counts twice that, √(4rt)."""
    left = fewer(Circle(1000.0).inner(0.0001), 0.1)
    chord = np.sqrt(4 * 500.0 * 0.1)
    assert len(left) == pytest.approx(np.pi * 1000.0 / chord, rel=0.1)
