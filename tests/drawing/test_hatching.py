"""Hatching is real lines, cut to its area."""

from __future__ import annotations

import numpy as np
import pytest
import strategies
from hypothesis import given, settings

from panelwright.layout.drawing.curves import hatch_lines
from panelwright.layout.drawing.scene import SPACING, Area
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Outline, Rectangle


@given(strategies.every_outline, strategies.placements)
@settings(max_examples=30)
def test_lines_stay_in_their_area(outline: Outline, placement: Placement) -> None:
    """Every hatch line lies in the area, slopes at 45°, and its length adds up to area/spacing."""
    path = outline.path().placed(placement)
    lines = hatch_lines(Area(path), "diagonal")
    wood = Region.from_rings(path.points(0.02)).grown(0.02)
    assert all(wood.holds_point(a.midpoint(b)) for a, b in lines)
    assert all(abs((b - a).x - (b - a).y) < 1e-6 for a, b in lines)
    total = sum(a.distance_to(b) for a, b in lines)
    box = path.bounds
    assert total == pytest.approx(path.area / SPACING, abs=2 * (box.width + box.height))


def test_holes_are_left_out() -> None:
    """No hatch line passes through a hole."""
    area = Area(circle(Point(0, 0), 50), (circle(Point(10, 0), 20),))
    middles = np.array([tuple(a.midpoint(b)) for a, b in hatch_lines(area, "cross")])
    assert np.hypot(middles[:, 0] - 10, middles[:, 1]).min() > 19.9


def test_neighbours_carry_on() -> None:
    """Two areas side by side have hatch lines on the same diagonals."""
    left = Rectangle(60, 40).path()
    right = left.placed(Placement(Point(60, 0)))
    offsets = [
        {round((a.y - a.x) / np.sqrt(2) / SPACING, 6) for a, _ in hatch_lines(Area(p), "diagonal")}
        for p in (left, right)
    ]
    assert all(value == round(value) for found in offsets for value in found)
    assert offsets[0] & offsets[1]


def test_only_hatched_layers_have_lines() -> None:
    """An area of a plain or solid layer has no hatch lines; a crossed one has twice as many."""
    area = Area(circle(Point(0, 0), 50))
    assert hatch_lines(area, "none") == hatch_lines(area, "solid") == ()
    assert len(hatch_lines(area, "cross")) == 2 * len(hatch_lines(area, "diagonal"))
