"""Paths and boxes: what is asked of them in one way everywhere."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import points, star_rings

from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import array_of
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region

reaches = st.floats(min_value=0.5, max_value=900.0)
boxes = st.builds(Bounds.about, points, reaches, reaches)


@given(star_rings())
def test_a_ring_of_points_comes_back_from_its_path(corners: tuple[Point, ...]) -> None:
    """Points as an array, as a path and as an array again are the same points."""
    ring = array_of(corners)
    assert np.array_equal(Path.through_ring(ring).points(1.0), ring)
    assert tuple(map(Point.of, ring)) == corners
    assert array_of(()).shape == (0, 2)


@given(boxes, points)
def test_a_box_is_its_path_and_its_corners(box: Bounds, by: Point) -> None:
    """The path runs anticlockwise round the box, and a box moved has its path moved."""
    path = Path.round_box(box)
    assert path.area == pytest.approx(box.width * box.height)
    assert path.bounds == box
    assert Path.round_box(box.moved(by)).bounds.middle.distance_to(box.middle + by) < 1e-6
    assert all(box.holds(corner) for corner in box.corners)
    assert not any(box.holds(corner, by=0.01) for corner in box.corners)
    assert box.grown(0.01).holds_box(box)
    assert not box.holds_box(box.grown(0.01))


@given(boxes, boxes)
def test_boxes_share_what_their_regions_share(one: Bounds, other: Bounds) -> None:
    """Width times height of what both hold is the area in common; one below 0 tells a gap."""
    first, second = Region.of(Path.round_box(one)), Region.of(Path.round_box(other))
    wide, high = one.shared(other)
    assert max(wide, 0.0) * max(high, 0.0) == pytest.approx(first.meet(second).area, abs=1e-6)
    assert (min(wide, high) >= 0) == first.touches_or_crosses(second)
    assert one.shared(other) == other.shared(one)
