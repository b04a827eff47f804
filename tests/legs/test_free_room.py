"""Feet under an outline of any form stand inside it, apart, and as firmly as its corners allow."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.point import ORIGIN, Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.legs.arrangement import firmness, middles_for
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.free_room import middle_of
from panelwright.layout.legs.tipping import tipping_of
from panelwright.layout.legs.wish import FixingPlate, LegsWish
from panelwright.layout.outlines import Freeform, RegularPolygon

CORNER = Freeform.through(
    [Point(0, 0), Point(1200, 0), Point(1200, 380), Point(520, 380), Point(520, 700), Point(0, 700)]
)
FEET = st.sampled_from([Foot.round(40), Foot.square(40), Foot(FootShape.RECTANGULAR, 60.0, 30.0)])


@settings(max_examples=40, deadline=None)
@given(strategies.freeforms(), FEET, st.integers(3, 6))
def test_feet_stand_inside_and_apart(outline: Freeform, foot: Foot, count: int) -> None:
    """Every foot keeps 60 mm inside the edge, or all of them are refused with a reason."""
    assume(outline.width > 400)
    try:
        middles = middles_for(LegsWish(count=count, foot=foot), outline)
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
    middles = middles_for(wish, CORNER)
    assert (middles[0].x, middles[0].y) == pytest.approx((-600 + 85, -350 + 85), abs=0.2)
    turns = [(m - middle_of(CORNER)).angle for m in middles]
    steps = [(b - a) % math.tau for a, b in zip(turns, [*turns[1:], turns[0]], strict=True)]
    assert sum(steps) == pytest.approx(math.tau)
    assert firmness(CORNER, middles) > 0


def test_the_weight_of_a_hollow_top_lies_at_its_own_middle() -> None:
    """The centroid of an L is that of its two rectangles."""
    one, other = 1200 * 380, 520 * 320
    middle = middle_of(CORNER)
    area = one + other
    assert middle.x == pytest.approx((one * 600 + other * 260) / area - 600)
    assert middle.y == pytest.approx((one * 190 + other * 540) / area - 350)
    assert middle_of(RegularPolygon(6, 600)) == ORIGIN


def test_a_plate_keeps_its_own_distance() -> None:
    """A plate larger than the leg moves the leg in, until it keeps 25 mm."""
    wish = LegsWish(count=4, foot=Foot.square(40), plate=FixingPlate(300, 300, 5))
    middles = middles_for(wish, CORNER)
    assert (middles[0].x, middles[0].y) == pytest.approx((-600 + 175, -350 + 175), abs=0.2)


def test_feet_too_large_are_refused() -> None:
    """A foot wider than the top names the top and what to do."""
    with pytest.raises(LegsError, match="own outline: make the insets or the foot smaller"):
        middles_for(LegsWish(count=3, foot=Foot.square(600)), CORNER)


def test_a_top_too_narrow_to_press_inside_is_pressed_on_its_hull() -> None:
    """A dumbbell whose neck is 60 mm wide has no line 50 mm inside it, and still tips somewhere."""
    neck = [(-600, -300), (-300, -300), (-300, -30), (300, -30), (300, -300), (600, -300)]
    ring = [Point(x, y) for x, y in neck] + [Point(-x, -y) for x, y in neck]
    dumbbell = Freeform.through(ring)
    wish = LegsWish(count=4, foot=Foot.round(40))
    middles = middles_for(wish, dumbbell)
    assert len(middles) == 4

    feet = np.array([tuple(m) for m in middles])
    assert tipping_of(dumbbell, feet, 20.0, 700.0).least.force > 0
