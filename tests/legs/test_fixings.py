"""Screws and glue: by worked fixings and by limits."""

from __future__ import annotations

import math
from functools import cache

import pytest
from bench_page import steps_of, words_in
from hypothesis import given
from hypothesis import strategies as st
from tops import top_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.legs.fixings import (
    LEFT_UNDER_TIP,
    Glue,
    Screw,
    glue_joint,
    holes_of,
    screw_in,
)
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.placing import CLIMBER
from panelwright.layout.legs.plan import LegMatter
from panelwright.layout.legs.wish import FixingPlate, LegsWish
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel import Kind
from panelwright.layout.panel.frame import frame_of
from panelwright.layout.plan.plan import make_plan


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


def test_so_much_adhesive_is_bought_as_lies_in_the_joints() -> None:
    """Four clay feet of 100 in a bed of 2 mm take 63 ml, a fifth more is squeezed out: 75 ml."""
    joint = glue_joint(Foot.round(100), 4, Glue.FLEXIBLE)
    assert joint.volume == pytest.approx(math.pi / 4 * 100**2 * 2 * 4 * 1.2 / 1000)
    assert joint.cartridges == 1
    assert glue_joint(Foot.square(225), 4, Glue.FLEXIBLE).cartridges == 2
    wood = glue_joint(Foot.square(60), 4, Glue.RIGID)
    assert (wood.cartridges, wood.most_days) == (0, 1)
    assert wood.volume < joint.volume / 5


def test_a_filled_pipe_waits_for_its_block_and_not_for_its_wall() -> None:
    """The thickest part that must cure is the block: a pipe of 76 waits like a solid leg of 76."""
    pipe, solid = glue_joint(Foot.ring(76, 6)), glue_joint(Foot.round(76))
    assert pipe.most_days == solid.most_days == 19
    tube = glue_joint(Foot(FootShape.TUBE, 80, 40, 4))
    assert tube.block == (72, 32)
    assert tube.area + tube.block_area == pytest.approx(80 * 40)


GROUND = (
    '[panel]\noutline = { length = 1600, width = 800 }\nthickness = 40\nmaterial = "oak"\n'
    '[top]\nshape = "rectangle"\n[legs]\ncount = 4\n'
)


@cache
def _told(text: str) -> dict[str, str]:
    plan = make_plan(read_job(text))
    return {title: words_in(step.told) for title, step in steps_of(plan).items()}


def test_what_passes_and_what_bites_is_told_of_every_screw() -> None:
    """Through a plate, a slab's batten or an apron's ledger first, then in the top; battens too."""
    plate = _told(GROUND + "plate = 90\n")
    passes = "4 screws 5 mm × 35 mm in each leg: 4 mm of each passes through the plate, 31 mm bite"
    assert passes in plate["Screw the legs on"]
    batten = "Screws 5 mm × 50 mm: 20 mm pass through the batten, 30 mm bite in the top and 10 mm"
    assert batten in plate["Keep it flat"]
    two = GROUND.replace("count = 4", "count = 2")
    slab = _told(two + 'foot = "slab"\nsize = [40, 600]\n')
    assert (
        "20 mm of each passes through a batten that is fixed along the slab's head"
        in (slab["Screw the legs on"])
    )
    apron = _told(GROUND + "apron = true\n")
    assert "20 mm of each passes through a ledger inside the apron" in apron["Screw the legs on"]


@pytest.mark.parametrize(("build", "least"), [("MDF", 40.0), ("solid", 25.0)])
def test_plates_lie_far_enough_in_for_their_own_screws(build: str, least: float) -> None:
    """Wide plates on thin legs put no screw nearer to the edge than board or wood bears."""
    ground = GROUND.replace('material = "oak"', f'build = "{build}"')
    table = make_plan(
        read_job(ground + 'foot = "round"\nsize = 12\nplate = 160\ninset = 30\n')
    ).table
    assert table is not None and table.screw is not None
    assert min(hole.from_edge for hole in table.holes) >= least - 0.01
    assert not table.screw.faults


def test_a_single_bolt_in_a_tall_leg_is_cautioned_against() -> None:
    """It racks; a plate, an apron or a short leg does not."""
    words = "on a single bolt works loose"
    assert words in _told(GROUND)["Screw the legs on"]
    for held in ("plate = 90\n", "apron = true\n", "height = 250\n"):
        assert words not in _told(GROUND + held)["Screw the legs on"]


def test_glue_goes_by_what_is_glued_and_pads_are_for_loose_legs() -> None:
    """Wood glue on wood; construction adhesive, dust off and primed, on clay, and no pads."""
    wood = _told(GROUND + 'fixing = "glued"\nmaterial = "beech"\n')["Glue the legs on"]
    assert "Wood glue" in wood and "Construction adhesive" not in wood
    clay = GROUND + 'material = "fired clay"\nfoot = "round"\nsize = 100\n'
    told = _told(clay + 'fixing = "glued"\n')
    glued, dry = told["Glue the legs on"], told["Stand the legs on dry"]
    assert "None rocks, or it is planed, ground or bedded" in dry and "pencil" in dry
    for part in ("prime it", "2 mm thick", "upside down", "weight", "17 to 25 days"):
        assert part in glued, part
    assert "pads of cork" not in glued
    assert "pads of cork" in _told(clay + 'fixing = "loose"\n')["Lay the top on its legs"]
    tube = 'fixing = "glued"\nmaterial = "steel"\nfoot = "square tube"\nsize = 50\nwall = 3\n'
    assert "Roughen the metal" in _told(GROUND + tube)["Glue the legs on"]


def test_a_step_tells_of_the_glue_that_its_joints_take() -> None:
    """Four feet of 60 by 60 take 3 ml, a tenth of a fluid ounce: more is bought than is spread."""
    glued = GROUND + 'fixing = "glued"\nmaterial = "beech"\n'
    inches = glued.replace("= 1600", '= "1600 mm"').replace("= 800", '= "800 mm"')
    inches = 'units = "in"\n' + inches.replace("= 40", '= "40 mm"') + 'size = "60 mm"\n'
    assert "about 3 ml in all" in _told(glued)["Glue the legs on"]
    assert "about 0.1 fl oz in all" in _told(inches)["Glue the legs on"]


def test_a_child_who_climbs_on_a_light_table_is_cautioned_against_with_its_own_figure() -> None:
    """The figure is what tips it at its very edge; a heavy table on wide feet has none."""
    light = GROUND.replace('"oak"', '"pine"').replace("thickness = 40", "thickness = 18")
    plan = make_plan(read_job(light))
    assert plan.legs is not None
    kilograms = plan.legs.tipping.at_edge.force / 9.80665
    assert kilograms < CLIMBER / 9.80665
    assert (
        f"tips under about {kilograms:.0f} kg at its very edge: a child"
        in (_told(light)["Does it stand?"])
    )
    assert "a child" not in _told(GROUND + "inset = 20\n")["Does it stand?"]


def test_heavy_legs_are_cautioned_against() -> None:
    """A brick pier of 29 kg falls hard."""
    brick = 'material = "brick"\nfoot = "block"\nsize = [225, 225]\nheight = 300\n'
    assert "Each leg weighs about 29 kg" in _told(GROUND + brick)["Who sits, who lifts"]
    assert "Each leg weighs" not in _told(GROUND)["Who sits, who lifts"]


FRAMED = (
    "[panel]\noutline = { length = 1981, width = 838 }\nthickness = 40\n"
    'build = "framed"\nmaterial = "oak"\n'
)
STANDS = '[top]\nshape = "rectangle"\n[legs]\ncount = 6\nplate = 60\n'
RAILS = "stile = 110\nrail = 200\nbetween = [[900, 180]]\n"


def test_legs_and_screws_stand_on_the_frame_of_a_door() -> None:
    """All of six plates lie on stiles, rails and lock rail, and no sag is told of such a door."""
    plan = make_plan(read_job(FRAMED + RAILS + STANDS))
    assert plan.legs is not None and plan.table is not None
    frame = frame_of(plan.job.panel)
    assert frame is not None
    for leg in plan.legs.legs:
        assert leg.plate is not None
        assert frame.grown(1e-3).holds(Region.of(leg.plate))
    assert all(frame.holds_point(hole.on_panel) for hole in plan.table.holes)
    assert any(leg.moved for leg in plan.legs.legs)
    assert plan.table.sag is None
    assert not frame.holds_point(Point(500, 400)) and frame.holds_point(Point(900, 400))


def test_a_frame_that_is_not_known_is_asked_for() -> None:
    """Nothing goes into thin panels: without the widths of stiles and rails that is told."""
    told = _told(FRAMED + STANDS)["Screw the legs on"]
    assert "Nothing is fixed into the thin panels of a framed door" in told
    assert "thin panels" not in _told(FRAMED + RAILS + STANDS)["Screw the legs on"]


def test_a_low_table_seats_nobody_and_is_held_against_who_sits_down_on_it() -> None:
    """Below 480 mm no place is asked for, and 800 N is the load where the job names none."""
    low = read_job(GROUND + "height = 400\n").legs
    high = read_job(GROUND).legs
    asked = read_job(GROUND + "height = 400\nseated = true\nload = 650\n").legs
    assert low is not None and high is not None and asked is not None
    assert (low.seated, low.load) == (False, 800)
    assert (high.seated, high.load) == (True, 600)
    assert (asked.seated, asked.load) == (True, 650)
    assert "find a place" not in _told(GROUND + "height = 400\n")["Who sits, who lifts"]
