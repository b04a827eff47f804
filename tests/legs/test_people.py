"""Places at the table, lifting and heights: by published tables and by laws."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.seating import Edge, most_places, seating_at
from panelwright.layout.legs.whole import HEIGHTS, use_of
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
)
from panelwright.layout.panel.materials import lifters

INCH = 25.4
THIN = Foot.round(10)
MIDDLE = (Point(0, 0),)


@pytest.mark.parametrize(
    ("length", "seats"), [(54, 4), (60, 4), (79, 6), (84, 6), (104, 8), (109, 8)]
)
def test_a_rectangular_table_seats_as_the_handbook_says(length: float, seats: int) -> None:
    """54/79/104 in at least and 60/84/109 in at best seat 4/6/8 (*Time-Saver Standards*)."""
    top = Rectangle(length * INCH, 36 * INCH)
    assert len(seating_at(top, THIN, MIDDLE, place=25 * INCH).seats) == seats


@given(st.floats(1000, 2400))
@settings(max_examples=15)
def test_a_round_table_seats_its_rim(diameter: float) -> None:
    """Without legs in the way a round table seats as many as its rim holds places, or one fewer."""
    held = math.floor(math.pi * diameter / 600)
    assert held - 1 <= len(seating_at(Circle(diameter), THIN, MIDDLE).seats) <= held


def test_people_sit_at_the_round_ends_of_a_capsule() -> None:
    """A capsule 1800 × 720 has a place at each end."""
    seats = seating_at(Capsule(1800, 720), THIN, MIDDLE).seats
    assert len(seats) == math.floor(Capsule(1800, 720).perimeter / 600) == 7
    assert max(seat.place.x for seat in seats) > 700
    assert min(seat.place.x for seat in seats) < -700


def test_a_place_lies_in_the_middle_of_its_room() -> None:
    """Between two pairs of legs one sits on each side, opposite the other, at the middle."""
    legs = [Point(x, y) for x in (-480, 480) for y in (-211, 211)]
    found = seating_at(Capsule(1375, 600), Foot.round(60), legs)
    assert len(found.seats) == 2
    for seat in found.seats:
        assert abs(seat.place.x) < 25
        assert abs(seat.place.y) == pytest.approx(300)


@given(st.floats(1000, 2400), st.floats(0.4, 0.9))
@settings(max_examples=10)
def test_no_two_places_overlap(length: float, share: float) -> None:
    """However they are moved into the middle of their room, all stay beside each other."""
    top = Capsule(length, length * share)
    edge = Edge.walked(top.path(), 600.0)
    found = most_places(edge, edge.usable)
    assert all(edge.clear(*sorted(pair)) for pair in combinations(found, 2))


def test_opposite_places_meet_on_a_narrow_top_and_take_nothing_from_each_other() -> None:
    """On a top 500 wide, narrower than two plates are deep, people still sit across from others."""
    narrow = seating_at(Rectangle(1900, 500), THIN, ()).seats
    assert sorted(round(seat.place.y) for seat in narrow) == [-250] * 3 + [250] * 3


def test_legs_where_knees_go_take_places() -> None:
    """Six sit at 1800 × 800; legs at the edge in the middle of both sides leave five."""
    top, foot = Rectangle(1800, 800), Foot.square(60)
    clear = seating_at(top, foot, MIDDLE)
    in_the_way = seating_at(top, foot, [Point(0, 370), Point(0, -370)])
    assert len(clear.seats) == clear.without_legs == in_the_way.without_legs == 6
    assert len(in_the_way.seats) == 5


def test_diners_face_the_table() -> None:
    """Each diner looks from the edge into the top, square to a straight edge."""
    for seat in seating_at(Rectangle(1800, 800), THIN, MIDDLE).seats:
        ahead = seat.place + Point.polar(100, seat.towards)
        assert abs(ahead.x) <= 900
        assert abs(ahead.y) <= 400
        assert math.sin(2 * seat.towards) == pytest.approx(0, abs=1e-9)


def test_a_top_too_small_for_a_place_seats_nobody() -> None:
    """Round a top with less edge than a place nobody is counted."""
    assert seating_at(Circle(150), THIN, MIDDLE).seats == ()


def test_two_people_lift_from_25_kilograms() -> None:
    """One person lifts less than 25 kg; a door of 44 kg takes two (common practice)."""
    assert [lifters(m) for m in (5, 24.9, 25, 44, 50)] == [1, 1, 2, 2, 3]


def test_a_table_height_tells_its_use() -> None:
    """28 to 30 in is for dining (read), 40 cm for coffee, 90 cm for nothing usual."""
    assert [u.use for u in (use_of(735), use_of(400), use_of(1080)) if u] == [
        "dining",
        "coffee",
        "bar",
    ]
    assert use_of(900) is None
    assert all(usual.least < usual.most for usual in HEIGHTS)


@given(st.sampled_from([6, 8]), st.floats(700, 1600))
@settings(max_examples=10)
def test_nobody_sits_at_a_corner_of_a_regular_top(sides: int, across: float) -> None:
    """Every diner has 300 mm of one straight edge before them, and somebody finds a place."""
    top = RegularPolygon(sides, across)
    seats = seating_at(top, THIN, ()).seats
    if across >= 900:
        assert seats
    for seat in seats:
        assert min(seat.place.distance_to(corner) for corner in top.corners) >= 150


def test_people_sit_at_a_corner_desk() -> None:
    """Where an edge lies on the middle of its box a place is as deep as elsewhere."""
    ring = [(0, 0), (1600, 0), (1600, 400), (700, 400), (700, 800), (0, 800)]
    desk = Freeform.through(Point(x, y) for x, y in ring)
    assert len(seating_at(desk, THIN, ()).seats) >= 3


def test_a_place_that_ends_in_a_round_corner_faces_square_to_its_straight_edge() -> None:
    """Where 360 mm before the shoulders are straight, what is round beside them turns nobody."""
    top = RoundedRectangle.with_radius(1680, 880, 220)
    legs = [Point(x, y) for x in (-660, 660) for y in (-330, 330)]
    seats = seating_at(top, Foot.square(60), legs).seats
    reach = 1680 / 2 - 220 - 180
    beside = [seat for seat in seats if abs(seat.place.x) <= reach]
    assert any(abs(seat.place.x) > 1680 / 2 - 220 - 300 for seat in beside)
    for seat in beside:
        assert abs(math.sin(seat.towards)) == pytest.approx(1.0, abs=1e-9)
