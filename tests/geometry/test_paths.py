"""Paths and boxes: what is asked of them in one way everywhere."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from strategies import star_rings

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import array_of
from panelwright.layout.geometry.point import Point


@given(star_rings())
def test_a_ring_of_points_comes_back_from_its_path(corners: tuple[Point, ...]) -> None:
    """Points as an array, as a path and as an array again are the same points."""
    ring = array_of(corners)
    assert np.array_equal(Path.through_ring(ring).points(1.0), ring)
    assert tuple(map(Point.of, ring)) == corners
    assert array_of(()).shape == (0, 2)
