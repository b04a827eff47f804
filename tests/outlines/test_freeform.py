"""An outline of any form keeps its path, and its parallel is what lies at the distance."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from strategies import freeforms, placements, regular_polygons, star_rings

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc, EllipticArc, Line
from panelwright.layout.outlines import PIECE_AS_FOUND, Freeform, Oval, RegularPolygon

NOTCH = 100.0


def notched(radius: float = NOTCH) -> Freeform:
    """Return a rectangle 1200 × 600 with a half-round notch in the middle of its upper edge."""
    right, left = Point(radius, 300), Point(-radius, 300)
    return Freeform.of(
        Path(
            (
                Line(Point(-600, -300), Point(600, -300)),
                Line(Point(600, -300), Point(600, 300)),
                Line(Point(600, 300), right),
                Arc(Point(0, 300), radius, 0.0, -math.pi),
                Line(left, Point(-600, 300)),
                Line(Point(-600, 300), Point(-600, -300)),
            )
        )
    )


@given(star_rings(), placements, st.booleans())
def test_it_lies_in_its_frame_and_goes_back_where_it_was(
    ring: tuple[Point, ...], where: Placement, backwards: bool
) -> None:
    """Moved, turned or run backwards, points give an outline that its frame lays onto them."""
    points = [where(p) for p in ring]
    top = Freeform.through(reversed(points) if backwards else points)
    path = Path.through(points, closed=True)
    assert top.length >= top.width - 1e-6
    assert top.area == pytest.approx(path.area)
    back = top.path().placed(Freeform.frame_of(path))
    ends = [segment.start for segment in back.segments]
    assert all(min(p.distance_to(q) for q in ends) < 1e-6 for p in points)


@given(freeforms(), st.floats(-60.0, 60.0))
def test_every_point_of_its_parallel_is_at_the_distance(top: Freeform, distance: float) -> None:
    """Where one line runs at the distance, no point of it is nearer to the edge or farther off."""
    assume(abs(distance) > 0.5)
    try:
        line = top.parallel(distance)
    except OutlineError:
        assume(False)
    edge = Region.from_rings(top.inner(0.001))
    for segment in line.segments:
        for part in (0.0, 0.37):
            place = segment.at(part)
            assert edge.edge_distance(place) == pytest.approx(abs(distance), abs=0.0025)
            assert edge.holds_point(place) == (distance < 0)


@given(freeforms(), st.floats(-150.0, 60.0))
def test_it_has_a_parallel_just_where_the_offset_is_in_one_piece(
    top: Freeform, distance: float
) -> None:
    """A coarse offset of its polygon has the same area, or is in pieces, holed or empty."""
    assume(abs(distance) > 0.5)
    face = Region.from_rings(top.inner(0.02))
    coarse = face.grown(distance) if distance > 0 else face.shrunk(-distance, around=True)
    parts = [part for part in coarse.pieces if part.area > 5.0]
    try:
        line = top.parallel(distance)
    except OutlineError:
        assert len(parts) != 1 or parts[0].holes or parts[0].area < 50.0
    else:
        assert line.area == pytest.approx(coarse.area, abs=0.15 * line.length)


@given(freeforms(), st.floats(0.5, 60.0))
def test_outside_a_convex_outline_its_parallel_obeys_steiner(
    top: Freeform, distance: float
) -> None:
    """A + P·d + π·d² where it turns to the left only (Steiner); no more anywhere."""
    expected = top.area + top.perimeter * distance + math.pi * distance**2
    try:
        line = top.parallel(distance)
    except OutlineError:
        assert not top.is_convex
        return
    # a hollow arc that stays one keeps the law too, for it turns to the right by what it turns back
    if top.is_convex:
        assert line.area == pytest.approx(expected, rel=1e-9)
    else:
        assert line.area <= expected * (1 + 1e-9)


def test_a_notch_narrows_outside_and_widens_inside() -> None:
    """The arc of a notch is an arc of 100 ∓ d about the same centre; used up, it is gone."""
    top = notched()
    for distance in (-40.0, 40.0):
        arcs = [s for s in top.parallel(distance).segments if isinstance(s, Arc)]
        hollow = [a for a in arcs if a.sweep < 0]
        assert [a.radius for a in hollow] == [pytest.approx(NOTCH - distance)]
    filled = top.parallel(120.0)
    assert all(s.sweep > 0 for s in filled.segments if isinstance(s, Arc))
    # the two rims' arcs of 120 meet over the notch at √(120² − 100²) above the edge
    dip = min(p.y for p in (s.start for s in filled.segments) if abs(p.x) < 50 and p.y > 0)
    assert dip == pytest.approx(300 + math.sqrt(120**2 - 100**2), abs=2e-3)


def test_two_lobes_fall_apart_and_a_slot_closes() -> None:
    """A neck of 40 has no line 25 inside; a slot 30 wide that a line 20 outside closes has none."""
    neck = Freeform.through(
        Point(*p)
        for p in (
            *[(-500, -200), (-50, -200), (-50, -20), (50, -20), (50, -200), (500, -200)],
            *[(500, 200), (50, 200), (50, 20), (-50, 20), (-50, 200), (-500, 200)],
        )
    )
    assert neck.parallel(-15).is_closed
    with pytest.raises(OutlineError, match="25 mm inside the own outline, 1000 by 400 mm"):
        neck.parallel(-25)
    ring = Freeform.through(
        Point(*p)
        for p in (
            *[(-500, -300), (500, -300), (500, 300), (15, 300), (15, 200), (200, 200)],
            *[(200, -100), (-200, -100), (-200, 200), (-15, 200), (-15, 300), (-500, 300)],
        )
    )
    assert ring.parallel(10).is_closed
    with pytest.raises(OutlineError, match="falls into several"):
        ring.parallel(20)


@given(regular_polygons, st.floats(-0.4, 0.4))
def test_a_regular_top_as_its_path_is_the_same_top(top: RegularPolygon, share: float) -> None:
    """Area, reach and parallels of a hexagon do not hang on how it is described."""
    same = Freeform.of(top.path())
    distance = share * top.width
    assume(abs(distance) > 0.1)
    assert same.is_convex
    assert len(same.corners) == top.sides
    assert same.support(0.7) == pytest.approx(top.support(0.7))
    one, other = same.parallel(distance), top.parallel(distance)
    assert one.area == pytest.approx(other.area)
    assert len(one.segments) == len(other.segments)


def test_elliptic_arcs_serve_too() -> None:
    """An oval as its path has the oval's area, way round, reach and parallels."""
    oval = Oval(1200, 700)
    same = Freeform.of(oval.path())
    assert same.is_convex
    assert same.corners == ()
    assert any(isinstance(s, EllipticArc) for s in same.path().segments)
    assert same.perimeter == pytest.approx(oval.perimeter)
    assert same.support(1.0) == pytest.approx(oval.support(1.0))
    for distance in (-60.0, 25.0):
        assert same.parallel(distance).area == pytest.approx(
            oval.parallel(distance).area, abs=0.001 * oval.perimeter
        )


@given(freeforms(), st.floats(0.2, 3.0))
def test_scaled_it_keeps_its_form(top: Freeform, factor: float) -> None:
    """Both sizes grow alike; another ratio is refused, its own sizes give itself."""
    grown = top.scaled(factor)
    assert grown.length == pytest.approx(top.length * factor)
    assert grown.area == pytest.approx(top.area * factor**2)
    assert top.resized(top.length, top.width) == top
    with pytest.raises(OutlineError, match="keeps its form"):
        top.resized(top.length * 1.1, top.width)


@pytest.mark.parametrize(
    ("points", "message"),
    [
        ([(0, 0), (100, 0)], "at least 3 different points, not 2"),
        ([(0, 0), (100, 0), (100, 0), (0, 0)], "at least 3 different points, not 2"),
        ([(0, 0), (100, 0), (0, 50), (100, 50)], "may not cross or touch itself"),
        ([(0, 0), (100, 0), (50, 0)], "0"),
    ],
)
def test_points_that_bound_nothing_are_refused(
    points: list[tuple[float, float]], message: str
) -> None:
    """Too few points, points on one line and crossing edges each get their own message."""
    with pytest.raises(OutlineError, match=message):
        Freeform.through([Point(*p) for p in points], PIECE_AS_FOUND)


def test_a_path_out_of_its_frame_or_open_is_refused() -> None:
    """The plain constructor takes a path only as the outline's own frame has it."""
    path = RegularPolygon(8, 100).path()
    for wrong in (path.reversed(), path.placed(Placement(Point(10, 0)))):
        with pytest.raises(OutlineError, match="anticlockwise, with its middle at the origin"):
            Freeform(wrong, PIECE_AS_FOUND)
    with pytest.raises(OutlineError, match="needs to end where it starts, not 41"):
        Freeform(Path(path.segments[:-1]), PIECE_AS_FOUND)
