"""A region that is grown or shrunk keeps its promise: within the true one, or round it."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import freeforms

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.offset import band
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.outlines import Freeform

ROUNDING = 1e-3
"""What rounding may leave of an overlap, mm²."""

BOARD = [Point(-900, -600), Point(900, -600), Point(900, 600), Point(-900, 600)]


def notched(radius: float) -> Freeform:
    """Return a board 1200 × 600 with a half-round notch in an edge."""
    right, left = Point(radius, 300), Point(-radius, 300)
    corners = [left, Point(-600, 300), Point(-600, -300), Point(600, -300), Point(600, 300), right]
    sides = Path.through(corners).segments
    return Freeform.of(Path((*sides, Arc(Point(0, 300), radius, 0.0, -math.pi))))


def holds_true(top: Freeform, distance: float) -> None:
    """Assert that both offsets lie on their side of the exact parallel inside."""
    exact = top.parallel(-distance)
    less, more = (Region.from_rings(exact.points(0.001, side)) for side in ("inside", "outside"))
    within = Region.from_rings(top.inner()).shrunk(distance)
    round_it = Region.from_rings(top.outer()).shrunk(distance, around=True)
    assert within.minus(more).area <= ROUNDING
    assert less.minus(round_it).area <= ROUNDING
    # and no more is lost than chords and round corners cost
    assert less.area - within.area <= 0.02 * exact.length


@pytest.mark.parametrize("radius", [2.0, 5.0, 20.0, 80.0])
@pytest.mark.parametrize("distance", [6.0, 20.0, 60.0, 100.0])
def test_a_notch_is_not_taken_for_noise(radius: float, distance: float) -> None:
    """An arc of many short edges beside a square corner is kept clear of, however small it is."""
    holds_true(notched(radius), distance)


@pytest.mark.parametrize("radius", [2.0, 5.0, 20.0, 80.0])
@pytest.mark.parametrize("distance", [6.0, 20.0, 60.0, 100.0])
def test_a_hole_is_grown_into_past_a_notch_of_its_edge(radius: float, distance: float) -> None:
    """Wood round a hole grows to the hole's true parallel, for a bound past it, else up to it."""
    hole = notched(radius)
    exact = hole.parallel(-distance)
    less, more = (Region.from_rings(exact.points(0.001, side)) for side in ("inside", "outside"))
    board = Region.from_rings(np.array([tuple(corner) for corner in BOARD]))
    wide, narrow = (board.minus(Region.from_rings(ring)) for ring in (hole.inner(), hole.outer()))
    clear = board.minus(wide.grown(distance, around=True))
    at_most = board.minus(narrow.grown(distance, around=False))
    assert clear.minus(more).area <= ROUNDING
    assert less.minus(at_most).area <= ROUNDING
    assert at_most.area - clear.area <= 2 * 0.02 * exact.length


@settings(max_examples=40)
@given(freeforms(), st.floats(1.0, 60.0))
def test_shrunk_regions_lie_on_their_side_of_the_exact_parallel(
    top: Freeform, distance: float
) -> None:
    """For a proof the region lies within the true one, for a bound it holds it."""
    try:
        top.parallel(-distance)
    except OutlineError:
        assume(False)
    holds_true(top, distance)


@settings(max_examples=40)
@given(freeforms(), st.floats(1.0, 60.0), st.booleans())
def test_what_is_near_an_edge_is_the_band(top: Freeform, by: float, around: bool) -> None:
    """What is swept along each edge, taken away, leaves what lies far enough inside."""
    face = Region.from_rings(top.inner(0.05))
    left = face.minus(Region(band(face.shape, by, around=around, segments=16)))
    coarse = face.shrunk(by, around=True)
    assert left.area == pytest.approx(coarse.area, abs=0.1 * face.perimeter)


@pytest.mark.parametrize("by", [0.5, 6.0, 80.0])
def test_round_ends_and_corners_are_held_from_the_side_asked_for(by: float) -> None:
    """A strip round a line and a band round a square: the true areas lie between both answers."""
    line = np.array([[0.0, 0.0], [300.0, 0.0]])
    square = np.array([[0.0, 0.0], [90.0, 0.0], [90.0, 90.0], [0.0, 90.0]])
    for around in (True, False):
        strip = Region.along(line, by, around=around).area - (600 * by + math.pi * by**2)
        board = Region.from_rings(square)
        rim = Region(band(board.shape, by, around=around, segments=16))
        grown = board.joined(rim).area
        more = grown - (90**2 + 360 * by + math.pi * by**2)
        assert (strip > 0, more > 0) == (around, around)


@given(st.floats(0.1, 20.0), st.floats(1.0, 200.0))
def test_a_round_corner_of_any_turn_is_kept_clear(degrees: float, distance: float) -> None:
    """What is left keeps off a hollow corner; what is added holds the arc of a bulging one."""
    lean = math.tan(math.radians(degrees) / 2) * 500
    corner = np.array([0.0, 300.0])
    ring = np.array([[-500, -300], [500, -300], [500, 300 + lean], [0, 300], [-500, 300 + lean]])
    left = Region.from_rings(ring).shrunk(distance)
    assert left.edge_distance(Point(*corner)) >= distance - 1e-9
    above = np.array([[-500, 300 + lean], [0, 300], [500, 300 + lean], [500, 900], [-500, 900]])
    bulge = Region.from_rings(above).grown(distance)
    fan = math.radians(degrees) / 2
    for turn in np.linspace(-fan, fan, 9):
        tip = Point(*(corner - distance * np.array([math.sin(turn), math.cos(turn)])))
        assert bulge.holds_point(tip)


def test_of_rings_that_differ_by_rounding_nothing_is_taken_for_all() -> None:
    """A polygon less one that holds it but for a millionth leaves next to nothing (GEOS 3.14)."""
    corners = [
        Point(899.4896552477021, -1.1368683772161603e-13),
        Point(449.74482762385117, 778.9808918858166),
        Point(-376.3730876678482, 651.8973104422886),
        Point(-899.4896552477021, -3.531125005090568e-15),
        Point(-449.74482762385145, -778.9808918858166),
        Point(100.00000000000003, -173.20508075688784),
    ]
    middle = Point(-5042.479465423203, 25495.50492431512)
    arc = Arc(middle, 26178.765600707437, -1.3730734868494818, 0.031249364240404445)
    top = Freeform(Path((*Path.through(corners).segments, arc)), "own outline")
    far = 43.33759182253304
    less = Region.from_rings(top.parallel(-far).points(0.001, "inside"))
    more = Region.from_rings(top.outer()).shrunk(far, around=True)
    assert less.minus(more).area <= 1.0
    assert less.meet(more).area == pytest.approx(less.area, abs=1.0)


def test_a_line_has_no_inside() -> None:
    """What has no area is shrunk to nothing, however little it is shrunk by."""
    for points in ([(0, 0), (100, 40)], [(5, 5)]):
        line = Region.hull(np.array(points, dtype=float))
        assert line.shrunk(1e-6).is_empty
        assert line.shrunk(50.0, around=True).is_empty
