"""Hexagon and octagon are regular, and their figures are those of the handbooks."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from strategies import regular_polygons

from panelwright.layout.geometry.segments import Arc, Line
from panelwright.layout.outlines import RegularPolygon


@given(regular_polygons)
def test_all_sides_corners_and_flats_are_alike(top: RegularPolygon) -> None:
    """Sides are equal; every corner lies on the circumcircle, every flat half across from O."""
    corners = top.corners
    assert len(corners) == top.sides
    for one, other in pairwise((*corners, corners[0])):
        assert one.distance_to(other) == pytest.approx(top.side)
        assert one.norm == pytest.approx(top.circumradius)
        assert one.midpoint(other).norm == pytest.approx(top.across_flats / 2)
    half = top.sides // 2
    for one, opposite in zip(corners[:half], corners[half:], strict=True):
        assert one.distance_to(opposite) == pytest.approx(top.across_corners)


@pytest.mark.parametrize("across", [1.0, 600.0, 1250.0])
def test_areas_of_the_handbooks(across: float) -> None:
    """Hexagon (√3/2)·AF², octagon 2(√2 − 1)·AF² (Machinery's Handbook, from memory)."""
    hexagon, octagon = RegularPolygon(6, across), RegularPolygon(8, across)
    assert hexagon.area == pytest.approx(math.sqrt(3) / 2 * across**2)
    assert octagon.area == pytest.approx(2 * (math.sqrt(2) - 1) * across**2)
    assert hexagon.across_corners == pytest.approx(1.154701 * across, rel=1e-6)
    assert octagon.across_corners == pytest.approx(1.082392 * across, rel=1e-6)
    assert hexagon.side == pytest.approx(hexagon.circumradius)
    assert octagon.side == pytest.approx(0.414214 * across, rel=1e-5)


def test_how_they_lie() -> None:
    """A hexagon has corners at the ends of its length, an octagon flats on all four sides."""
    hexagon, octagon = RegularPolygon(6, 900), RegularPolygon(8, 900)
    assert (hexagon.name, hexagon.length, hexagon.width) == (
        "hexagon",
        pytest.approx(1039.230485),
        900,
    )
    assert (octagon.name, octagon.length, octagon.width) == ("octagon", 900, 900)
    assert max(corner.y for corner in octagon.corners) == 450
    assert max(corner.x for corner in hexagon.corners) == hexagon.length / 2


@given(regular_polygons)
def test_its_parallels_are_rounded_outside_and_mitred_inside(top: RegularPolygon) -> None:
    """Outside, edges keep their length and corners are arcs of the distance; inside, it shrinks."""
    line = top.parallel(12.0)
    edges = [s for s in line.segments if isinstance(s, Line)]
    arcs = [s for s in line.segments if isinstance(s, Arc)]
    assert len(edges) == len(arcs) == top.sides
    assert all(edge.length == pytest.approx(top.side) for edge in edges)
    assert all(arc.radius == pytest.approx(12.0) for arc in arcs)
    inside = top.parallel(-top.across_flats / 4)
    assert inside.area == pytest.approx(top.area / 4)
    assert len(inside.segments) == top.sides


@given(regular_polygons)
def test_it_is_resized_only_as_a_regular_top(top: RegularPolygon) -> None:
    """Twice its own sizes are twice the top."""
    twice = top.resized(2 * top.length, 2 * top.width)
    assert twice.sides == top.sides
    assert twice.across_flats == pytest.approx(2 * top.across_flats)
