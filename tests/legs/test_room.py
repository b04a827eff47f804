"""Standing room and arrangement: by exact cases and by symmetry."""

from __future__ import annotations

import math

import pytest
import strategies
from hypothesis import assume, given
from hypothesis import strategies as st
from tops import feet_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.intersect import way_out
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.point import ORIGIN, Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.legs.arrangement import corner_of_largest
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.room import Insets, insets_for, reach, room_for
from panelwright.layout.legs.tipping import Stability
from panelwright.layout.legs.wish import LegsWish
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
)

SOLID = (FootShape.ROUND, FootShape.SQUARE, FootShape.HEXAGONAL, FootShape.SLAB)
COUNTS = (3, 4, 5, 6, 7, 8, 11, 12)


def _spots(middles: tuple[Point, ...]) -> set[tuple[float, float]]:
    return {(round(p.x, 4) + 0.0, round(p.y, 4) + 0.0) for p in middles}


def test_usual_insets_of_a_long_top_leave_room_for_knees() -> None:
    """Feet stand a sixth of the width in, and 300 to 350 from the ends of a long top (practice)."""
    insets = insets_for(LegsWish(foot=Foot.square(60)), Capsule(1800, 720))
    assert insets == Insets(side=90, end=300, round_about=60)
    assert insets_for(LegsWish(), Capsule(2400, 900)).end == 350
    assert insets_for(LegsWish(seated=False), Capsule(1800, 720)).end == pytest.approx(270)


def test_wished_insets_are_kept() -> None:
    """A wished inset is kept at its sides or ends, and round about it is the least wished."""
    wish = LegsWish(inset_side=100, inset_end=220)
    assert insets_for(wish, Rectangle(1400, 700)) == Insets(100, 220, 100)


@given(st.floats(300, 3000), st.floats(10, 100), st.floats(0, 0.2))
def test_a_round_foot_under_a_round_top_reaches_the_parallel_circle(
    diameter: float, foot: float, share: float
) -> None:
    """Its middle stands a foot's radius and the inset inside the edge, everywhere."""
    inset = share * diameter
    wish = LegsWish(foot=Foot.round(foot), inset_side=inset, inset_end=inset)
    room = room_for(wish, Circle(diameter), in_rows=False)
    expected = diameter / 2 - inset - foot / 2
    for direction in (0.0, 0.3, 1.0, 2.0, 4.0):
        assert reach(room, direction).norm == pytest.approx(expected, abs=0.002)


def test_a_square_foot_under_an_oval_touches_the_true_parallel() -> None:
    """The outer corner of a foot stands on the line parallel to the oval, to 0.02 mm."""
    oval, inset = Oval(1270, 762), 60.0
    room = room_for(LegsWish(foot=Foot.square(60)), oval, in_rows=False)
    edge = Region.from_rings(oval.inner(0.001))
    for direction in (0.2, 0.6, 1.0, 1.4):
        corner = reach(room, direction) + Point(30, 30)
        assert edge.edge_distance(corner) == pytest.approx(inset, abs=0.02)


@given(strategies.every_outline, st.sampled_from(COUNTS), st.sampled_from(SOLID))
def test_every_foot_stands_wholly_under_the_top(
    outline: Outline, count: int, shape: FootShape
) -> None:
    """Feet placed by inset lie inside the top and keep the inset to its edge.

    Under an outline of the maker's own with too little room for so many they are refused.
    """
    size = outline.width / 12
    foot = Foot(shape, size, size)
    wish = LegsWish(count=count, foot=foot, inset_side=size / 2, inset_end=size)
    edge = Region.from_rings(outline.inner())
    try:
        middles = feet_of(wish, outline)
    except LegsError:
        assert isinstance(outline, Freeform)
        return
    for middle in middles:
        print_ = Region.from_rings(foot.outside(middle).points(0.01, "outside"))
        assert edge.holds(print_)
        near = min(edge.edge_distance(Point(*p)) for p in print_.exterior)
        assert near >= size / 2 - 0.05


@given(strategies.symmetrical_outlines, st.sampled_from(COUNTS))
def test_feet_are_symmetrical_about_a_centreline(outline: Outline, count: int) -> None:
    """Mirrored about one centreline the feet are the same; an even number about both.

    Feet under an outline of the maker's own follow its edge, which has no centreline to mirror.
    """
    middles = feet_of(LegsWish(count=count, foot=Foot.round(outline.width / 20)), outline)
    assert len(middles) == count
    scale = 1000 / outline.length
    here = _spots(tuple(p * scale for p in middles))
    across = _spots(tuple(Point(p.x, -p.y) * scale for p in middles))
    along = _spots(tuple(Point(-p.x, p.y) * scale for p in middles))
    same = [all(any(math.dist(p, q) < 1e-3 for q in here) for p in m) for m in (across, along)]
    assert all(same) if count % 2 == 0 else any(same)


@given(strategies.every_outline, st.sampled_from(COUNTS))
def test_feet_run_anticlockwise_round_a_middle_under_which_they_stand(
    outline: Outline, count: int
) -> None:
    """The centre lies within the feet, so every arrangement stands by itself.

    Many feet may find no room under an own outline, and are then refused.
    """
    try:
        middles = feet_of(LegsWish(count=count, foot=Foot.round(outline.width / 20)), outline)
    except LegsError:
        assume(not isinstance(outline, Freeform))
        raise
    assert Stability.under(LegsWish(mass=0.0), outline, 30.0, 25.0).force(middles) > 0


@pytest.mark.parametrize("count", [3, 5, 6, 7])
def test_feet_under_a_round_top_are_a_regular_polygon(count: int) -> None:
    """Round feet under a round top stand evenly on the circle parallel to its edge."""
    middles = feet_of(LegsWish(count=count, foot=Foot.round(50)), Circle(1200))
    assert [p.norm for p in middles] == pytest.approx([600 - 60 - 25] * count, abs=0.002)
    steps = [
        (b.angle - a.angle) % math.tau
        for a, b in zip(middles, (*middles[1:], middles[0]), strict=True)
    ]
    assert steps == pytest.approx([math.tau / count] * count)


def test_four_feet_of_a_capsule_stand_on_whole_figures() -> None:
    """A capsule 1800 × 720 has its feet a sixth of its width in: 120 from the sides (worked)."""
    middles = feet_of(LegsWish(foot=Foot.square(60)), Capsule(1800, 720))
    assert _spots(middles) == {(x, y) for x in (-570.0, 570.0) for y in (-240.0, 240.0)}
    assert middles[0] == Point(-middles[2].x, -middles[2].y)


def test_six_feet_of_a_long_top_stand_in_two_rows() -> None:
    """A slab made into 1700 × 700 has three feet on each side, 100 from it (worked)."""
    wish = LegsWish(count=6, foot=Foot.square(60), inset_side=70, inset_end=170)
    middles = feet_of(wish, RoundedRectangle.with_radius(1700, 700, 80))
    assert _spots(middles) == {(x, y) for x in (-650.0, 0.0, 650.0) for y in (-250.0, 250.0)}


def test_five_feet_of_a_long_top_have_one_in_the_middle() -> None:
    """An odd foot of a long top stands under its centre."""
    assert feet_of(LegsWish(count=5), Rectangle(1600, 700))[-1] == ORIGIN


@given(st.floats(0.2, 1.0))
def test_the_largest_rectangle_of_an_ellipse_is_on_its_equal_conjugate_diameters(k: float) -> None:
    """The largest rectangle in an ellipse a × b has its corner at (a, b)/√2 (classical)."""
    room = Region.of(Oval(2000, 2000 * k).path())
    corner = corner_of_largest(room)
    assert corner.x == pytest.approx(1000 / math.sqrt(2), rel=3e-3)
    assert corner.y == pytest.approx(1000 * k / math.sqrt(2), rel=3e-3)


@given(strategies.points, strategies.angles)
def test_the_way_out_of_a_circle_ends_on_it(start: Point, direction: float) -> None:
    """From a point inside, the way out along any direction ends on the circle."""
    assume(start.norm < 2900)
    way = Point.polar(1.0, direction)
    end = start + way * way_out(circle(ORIGIN, 3000.0), start, way)
    assert end.norm == pytest.approx(3000.0, abs=1e-6)


def test_a_foot_that_finds_no_room_is_refused() -> None:
    """Insets that leave nothing are refused with the figures and what to do."""
    with pytest.raises(LegsError, match="make the insets or the foot smaller"):
        feet_of(LegsWish(inset_side=400), Rectangle(1400, 700))
    with pytest.raises(LegsError, match="finds no room"):
        feet_of(LegsWish(foot=Foot.square(300)), Circle(400))
