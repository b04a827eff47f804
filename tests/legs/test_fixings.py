"""Screws and glue: by worked fixings and by limits."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tops import top_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs import FixingPlate, Foot, LegsWish
from panelwright.layout.legs.concern import LegMatter
from panelwright.layout.legs.fixings import holes_of
from panelwright.layout.legs.glue import glue_joint
from panelwright.layout.legs.screws import (
    LEFT_UNDER_TIP,
    Screw,
    screw_in,
)
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel import Kind


def test_the_flange_of_the_door_is_screwed_as_worked() -> None:
    """Plate 4, screw 5 × 30, top 44: bite 26, left 18 (worked)."""
    plan = screw_in(Screw(5, 30), 4, 44, Kind.VENEERED)
    assert (plan.bite, plan.left, plan.faults) == (26, 18, ())


def test_the_plate_of_the_worktop_is_screwed_as_worked() -> None:
    """Plate 3, screw 5 × 35, top 38: bite 32, left 6; pilot 3.5; not nearer than 40 (worked)."""
    plan = screw_in(Screw(5, 35), 3, 38, Kind.PARTICLEBOARD, from_edge=40)
    assert (plan.bite, plan.left, plan.pilot, plan.from_edge) == (32, 6, 3.5, 40)
    assert plan.faults == ()


def test_a_screw_that_comes_through_is_refused() -> None:
    """A tip at or past the show face is refused, and the longest that holds is named."""
    plan = screw_in(Screw(5, 45), 4, 40, Kind.SOLID)
    assert plan.is_refused
    assert plan.left == -1
    assert plan.longest == 38
    assert screw_in(Screw(5, 44), 4, 40, Kind.SOLID).is_refused


@given(st.floats(0, 10), st.floats(15, 60), st.floats(2, 8))
def test_the_longest_screw_leaves_just_enough(plate: float, top: float, diameter: float) -> None:
    """A screw of the longest length leaves what must be left, and one a little longer less."""
    longest = screw_in(Screw(diameter, diameter + 1), plate, top, Kind.SOLID).longest
    if longest > diameter:
        held = screw_in(Screw(diameter, longest), plate, top, Kind.SOLID)
        assert held.left == pytest.approx(LEFT_UNDER_TIP)
        over = screw_in(Screw(diameter, longest + 0.1), plate, top, Kind.SOLID)
        assert LegMatter.SCREW_TOO_DEEP in over.faults


@given(st.floats(5, 80), st.floats(0, 20), st.floats(5, 60))
def test_the_pilot_never_comes_through(length: float, plate: float, top: float) -> None:
    """A pilot hole ends inside the wood, whatever the screw."""
    plan = screw_in(Screw(4, length), plate, top, Kind.SOLID)
    assert 0 <= plan.pilot_depth < top


def test_a_screw_that_hardly_bites_or_sits_at_the_edge_is_told() -> None:
    """Three diameters at least, and 25 from the edge of solid wood (practice)."""
    plan = screw_in(Screw(5, 16), 4, 40, Kind.SOLID, from_edge=20)
    assert plan.faults == (LegMatter.SCREW_HARDLY_BITES, LegMatter.SCREW_NEAR_EDGE)
    deep = screw_in(Screw(5, 36), 0, 40, Kind.SOLID)
    assert deep.faults == (LegMatter.SCREW_TOO_DEEP,)
    assert deep.left == 4


def test_a_screw_as_thick_as_long_is_no_screw() -> None:
    """The length of a screw is more than its diameter."""
    with pytest.raises(LegsError, match="longer than thick"):
        Screw(5, 5)


def test_a_ring_has_little_to_glue_and_a_block_fills_it() -> None:
    """A pipe 110 × 5 offers only its wall; a turned block of 100 adds the rest."""
    joint = glue_joint(Foot.ring(110, 5))
    assert joint.area == pytest.approx(math.pi * (55**2 - 50**2))
    assert joint.block == (100, 100)
    assert joint.area + joint.block_area == pytest.approx(Foot.round(110).section)


def test_flexible_adhesive_under_a_wide_leg_waits() -> None:
    """It cures 2 to 3 mm a day from its edge: a block 90 wide takes 15 to 22.5 days (practice)."""
    joint = glue_joint(Foot.square(90))
    assert (joint.least_days, joint.most_days) == (15, 22.5)
    assert joint.block is None and joint.block_area == 0


@pytest.mark.parametrize(("length", "depth"), [(30, 30), (38, 38), (40, 40), (43, 41), (46, 41)])
def test_a_pilot_hole_ends_at_the_tip_or_short_of_the_face(length: float, depth: float) -> None:
    """In a top 44 thick it runs to the tip, and never nearer to the face than 3 (half of 6)."""
    assert screw_in(Screw(5, length), 0, 44, Kind.SOLID).pilot_depth == pytest.approx(depth)


@pytest.mark.parametrize(("plate", "inside"), [(100.0, 12.0), (48.0, 12.0), (20.0, 5.0)])
def test_a_small_plate_still_has_four_holes(plate: float, inside: float) -> None:
    """Holes lie 12 mm inside a plate's edges, at most a quarter of its width (common practice)."""
    wish = LegsWish(foot=Foot.round(15), plate=FixingPlate(plate, plate, 3))
    holes = holes_of(wish, [Point(50, -20)], top_of(Rectangle(1200, 700)))
    off = plate / 2 - inside
    found = {(round(hole.place.x - 50, 9), round(hole.place.y + 20, 9)) for hole in holes}
    assert found == {(x, y) for x in (-off, off) for y in (-off, off)}
