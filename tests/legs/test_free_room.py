"""Feet under an outline of any form stand inside it, apart, and as firmly as its corners allow."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tops import feet_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.room import room_of
from panelwright.layout.legs.tipping import HeldDown, Stability, tipping_of
from panelwright.layout.legs.wish import FixingPlate, LegsWish
from panelwright.layout.outlines import Freeform

CORNER = Freeform.through(
    [Point(0, 0), Point(1200, 0), Point(1200, 380), Point(520, 380), Point(520, 700), Point(0, 700)]
)
WEIGHT = Point(
    (1200 * 380 * 600 + 520 * 320 * 260) / (1200 * 380 + 520 * 320) - 600,
    (1200 * 380 * 190 + 520 * 320 * 540) / (1200 * 380 + 520 * 320) - 350,
)
"""Its centroid, from that of its two rectangles."""
FEET = st.sampled_from([Foot.round(40), Foot.square(40), Foot(FootShape.RECTANGULAR, 60.0, 30.0)])


@settings(max_examples=40, deadline=None)
@given(strategies.freeforms(), FEET, st.integers(3, 6))
def test_feet_stand_inside_and_apart(outline: Freeform, foot: Foot, count: int) -> None:
    """Every foot keeps 60 mm inside the edge, or all of them are refused with a reason."""
    assume(outline.width > 400)
    try:
        middles = feet_of(LegsWish(count=count, foot=foot), outline)
    except LegsError as error:
        assert "room" in str(error)
        return
    assert len(set(middles)) == count
    face = Region.from_rings(outline.inner(0.05)).shrunk(59.5)
    prints = [Region.from_rings(foot.outside(m).points(CHORD)) for m in middles]
    assert all(face.holds(print_) for print_ in prints)
    for i, print_ in enumerate(prints):
        assert not any(print_.touches_or_crosses(other) for other in prints[:i])


def test_four_feet_stand_in_the_corners_of_a_corner_desk() -> None:
    """They are numbered anticlockwise from the lower left, and the first stands there."""
    wish = LegsWish(count=4, foot=Foot.round(50))
    middles = feet_of(wish, CORNER)
    assert (middles[0].x, middles[0].y) == pytest.approx((-600 + 85, -350 + 85), abs=0.2)
    turns = [(m - WEIGHT).angle for m in middles]
    steps = [(b - a) % math.tau for a, b in zip(turns, [*turns[1:], turns[0]], strict=True)]
    assert sum(steps) == pytest.approx(math.tau)
    assert Stability.under(wish, CORNER, 30.0, 25.0).force(middles) > 0


def test_the_weight_of_a_hollow_top_lies_at_its_own_middle() -> None:
    """The centroid of an L is that of its two rectangles."""
    stability = Stability.under(LegsWish(), CORNER, 30.0, 25.0)
    assert stability.top[1].distance_to(WEIGHT) < 1e-6


@settings(max_examples=40, deadline=None)
@given(strategies.freeforms(), FEET, st.floats(0, 1), st.floats(0, 1))
def test_a_middle_is_in_the_room_just_where_its_foot_is_on_the_wood(
    outline: Freeform, foot: Foot, across: float, up: float
) -> None:
    """Hollow corners and holes count too: the room and the print of the foot agree."""
    wood = Region.from_rings(outline.inner(0.05))
    hole = Region.disk(Point(outline.length / 5, 0), 12.0, around=True)
    wood = wood.minus(hole)
    middle = Point((across - 0.5) * outline.length, (up - 0.5) * outline.width)
    print_ = Region.from_rings(foot.outside(middle).points(CHORD))
    assume(wood.edge_distance(print_) > 0.02 or wood.meet(print_).area < print_.area - 1)
    assert room_of(wood, foot).holds_point(middle) == wood.holds(print_)


def test_two_slabs_stand_on_either_side_of_a_waist() -> None:
    """Under a piece with a waist that no foot fits into both slabs do not share one half."""
    half = [(-800, -300), (-100, -300), (0, -60), (100, -300), (800, -300)]
    ring = [Point(*p) for p in half] + [Point(-x, -y) for x, y in half]
    wish = LegsWish(count=2, foot=Foot(FootShape.SLAB, 40.0, 200.0))
    left, right = feet_of(wish, Freeform.through(ring))
    assert left.x < -600 and right.x > 600


def test_a_plate_keeps_its_own_distance() -> None:
    """A plate larger than the leg moves the leg in, until it keeps 25 mm."""
    wish = LegsWish(count=4, foot=Foot.square(40), plate=FixingPlate(300, 300, 5))
    middles = feet_of(wish, CORNER)
    assert (middles[0].x, middles[0].y) == pytest.approx((-600 + 175, -350 + 175), abs=0.2)


def test_feet_too_large_are_refused() -> None:
    """A foot wider than the top names the top and what to do."""
    with pytest.raises(LegsError, match=r"own outline .*: make the insets or the foot smaller"):
        feet_of(LegsWish(count=3, foot=Foot.square(600)), CORNER)


def test_a_top_too_narrow_to_press_inside_is_pressed_on_its_hull() -> None:
    """A dumbbell whose neck is 60 mm wide has no line 50 mm inside it, and still tips somewhere."""
    neck = [(-600, -300), (-300, -300), (-300, -30), (300, -30), (300, -300), (600, -300)]
    ring = [Point(x, y) for x, y in neck] + [Point(-x, -y) for x, y in neck]
    dumbbell = Freeform.through(ring)
    wish = LegsWish(count=4, foot=Foot.round(40))
    middles = feet_of(wish, dumbbell)
    assert len(middles) == 4

    feet = np.array([tuple(m) for m in middles])
    assert tipping_of(dumbbell, HeldDown(feet, 20.0), 700.0).least.force > 0
