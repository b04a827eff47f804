"""Lines meet where both run, and a straight line leaves a path where it crosses it."""

import math

import numpy as np
import pytest
import strategies
from hypothesis import assume, given
from hypothesis import strategies as st

from panelwright.layout.geometry.distance import nearest
from panelwright.layout.geometry.intersect import crossings, meeting_of_lines, meetings, way_out
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.geometry.tolerance import CHORD


@given(strategies.points, strategies.angles, strategies.points, strategies.angles)
def test_two_lines_meet_on_both(one: Point, turn: float, other: Point, slant: float) -> None:
    """The place lies on either line; parallel lines have none."""
    way, beyond = Point.polar(1.0, turn), Point.polar(1.0, slant)
    assume(abs(way.cross(beyond)) > 1e-3)
    met = meeting_of_lines(one, way, other, beyond)
    assert met is not None
    assert way.cross(met - one) == pytest.approx(0.0, abs=1e-6)
    assert beyond.cross(met - other) == pytest.approx(0.0, abs=1e-6)
    assert meeting_of_lines(one, way, other, way) is None


@given(strategies.symmetrical_outlines, strategies.placements, st.floats(0, math.tau))
def test_the_way_out_ends_at_the_edge(
    outline: strategies.Outline, placement: Placement, turn: float
) -> None:
    """From the middle of a convex top the way out ends on its edge, and none is farther."""
    path, way = outline.path().placed(placement), Point.polar(1.0, turn)
    reach = way_out(path, placement.centre, way)
    edge = Region.from_rings(path.points(CHORD))
    assert edge.edge_distance(placement.centre + way * reach) < 2 * CHORD
    beyond = placement.centre + way * (reach + 1.0)
    assert not edge.holds_point(beyond)
    assert way_out(path, placement.centre + way * (reach + 1e4), way) == math.inf
    assert len(crossings(path, placement.centre, way)) == 2


@given(strategies.points, strategies.points, strategies.points)
def test_the_nearest_place_of_a_line_is_square_across_or_an_end(
    start: Point, end: Point, place: Point
) -> None:
    """From a point the way to its nearest place on a line stands square on it, or meets its end."""
    assume(start.distance_to(end) > 1.0)
    line = Region.line(np.array([tuple(start), tuple(end)]))
    foot, own = nearest(line, Region.at(place))
    assert own == place
    assert foot.distance_to(place) == pytest.approx(line.distance_to(Region.at(place)))
    square = abs((end - start).unit().dot(place - foot)) < 1e-6
    assert square or min(foot.distance_to(start), foot.distance_to(end)) < 1e-9


@given(st.floats(5.0, 900.0), st.floats(5.0, 900.0), strategies.angles, st.booleans())
def test_circles_that_touch_meet_where_they_touch(
    one: float, other: float, turn: float, inside: bool
) -> None:
    """From outside or from within, whatever rounding says of their distance."""
    assume(abs(one - other) > 1.0)
    apart = abs(one - other) if inside else one + other
    way = Point.polar(1.0, turn)
    first = Arc(Point(0.0, 0.0), one, 0.0, math.tau)
    second = Arc(way * apart, other, 0.0, math.tau)
    outwards = 1.0 if one > other or not inside else -1.0
    touch = way * (one * outwards)
    met = meetings(first, second)
    assert met
    assert all(place.distance_to(touch) < 0.05 for place in met)


def test_of_places_as_near_the_first_is_named() -> None:
    """Along two sides that touch or lie side by side, wherever the rings begin."""
    ring = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 500.0), (0.0, 500.0)]
    for gap in (0.0, 1e-7, 3.0):
        line = Region.line(np.array([(100.0, 500.0 + gap), (900.0, 500.0 + gap)]))
        found = {
            nearest(Region.line(np.array([*ring[k:], *ring[: k + 1]])), line)[0] for k in range(4)
        }
        assert all(place.distance_to(Point(100.0, 500.0)) < 1e-6 for place in found)
