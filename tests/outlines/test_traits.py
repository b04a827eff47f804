"""What an outline tells of itself is so of its path."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from strategies import every_outline

from panelwright.layout.geometry.intersect import turn_at
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.outlines import Circle, Outline, Oval


@given(every_outline)
def test_a_compass_swings_the_arcs_of_the_path(outline: Outline) -> None:
    """Radii and centres are those of its arcs, where it tells any."""
    arcs = [s for s in outline.path().segments if isinstance(s, Arc)]
    told = {(radius, tuple(at)) for radius, centres in outline.swung for at in centres}
    for radius, at in told:
        assert any(
            arc.radius == pytest.approx(radius) and arc.centre.distance_to(Point.of(at)) < 1e-6
            for arc in arcs
        )


@given(every_outline)
def test_tangent_points_and_points_on_diagonals_lie_on_its_line(outline: Outline) -> None:
    """Whatever is marked on the line is on it."""
    edge = Region.line(outline.outer(0.001))
    for point in (*outline.tangents(), *outline.on_diagonals):
        assert edge.distance_to(Region.at(point)) < 0.01


@given(every_outline)
def test_corners_are_where_the_path_turns(outline: Outline) -> None:
    """A corner that is told is a sharp joint, and there is no other."""
    if outline.free_sizes == 2 and not outline.corners:
        return
    segments = outline.path().segments
    joints = [(s.start, abs(turn_at(segments[i - 1], s))) for i, s in enumerate(segments)]
    sharp = [at for at, turn in joints if turn > 1e-6]
    assert len(sharp) == len(outline.corners)
    for corner in outline.corners:
        assert min(corner.distance_to(at) for at in sharp) < 1e-6


@given(every_outline)
def test_the_ways_to_the_foci_are_as_long_as_the_oval(outline: Outline) -> None:
    """Apollonius, Conics III.52."""
    if outline.foci:
        one, other = outline.foci
        side = Point(0.0, outline.width / 2)
        assert side.distance_to(one) + side.distance_to(other) == pytest.approx(outline.length)


def test_the_least_radius_of_a_line_inside() -> None:
    """It shrinks by what the line lies inside, and nothing bends by less than nothing."""
    assert Circle(900.0).tightest(6.0) == 444.0
    oval = Oval(1000.0, 600.0)
    assert oval.tightest() == pytest.approx(600**2 / 2000) and oval.tightest(500.0) == 0.0
    assert math.isclose(oval.foci[1].x, 400.0)
