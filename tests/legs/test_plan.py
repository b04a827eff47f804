"""The legs of a whole table: worked panels, overhangs, weights and checks."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import Enum

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.foot import Foot, FootShape
from panelwright.layout.legs.plan import LegMatter, LegsPlan
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.search import best_stances
from panelwright.layout.legs.stance import Sought
from panelwright.layout.legs.wish import Fixing, FixingPlate, Lean, LegsWish
from panelwright.layout.outlines import Capsule, Circle, Outline, Rectangle, RoundedRectangle
from panelwright.layout.panel import (
    Defect,
    Mend,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.leg_concerns import leg_words

METRIC = Tape()
DOOR = Panel(rectangular_outline(1981, 838), 44)


def _legs_of(
    wish: LegsWish,
    outline: Outline,
    placement: Placement,
    panel: Panel = DOOR,
    top_mass: float = 30.0,
) -> LegsPlan:
    heavy = replace(panel, thickness=top_mass / panel.substance.mass(outline.area, 1.0))
    top = Top(heavy, outline, placement)
    return Sought(wish, TableTop(top)).as_wished().legs


def _concerns(plan: LegsPlan) -> set[Enum]:
    return {problem.matter for problem in plan.problems}


def test_the_door_stands_on_the_worked_legs() -> None:
    """Legs at (430, 130) … stand 120 from the sides and 340 from the ends (worked)."""
    at = tuple(Point(x, y) for x, y in ((-560, -240), (560, -240), (560, 240), (-560, 240)))
    wish = LegsWish(foot=Foot.round(1.0), at=at, mass=3.0)
    plan = _legs_of(wish, Capsule(1800, 720), Placement(Point(990, 370)), top_mass=31.0)
    places = {(round(leg.on_panel.x), round(leg.on_panel.y)) for leg in plan.legs}
    assert places == {(430, 130), (1550, 130), (1550, 610), (430, 610)}
    assert plan.overhang.side == pytest.approx(120 - 0.5)
    assert plan.overhang.end == pytest.approx(340 - 0.5)
    assert plan.mass == pytest.approx(43.0)
    assert plan.tipping.least.force == pytest.approx(820, rel=0.01)


def test_a_foot_as_wide_as_a_block_stands_firmer_than_its_middle() -> None:
    """The tipping line runs along the outside of the feet, so wide feet need a larger force."""
    top, place = Capsule(1800, 720), Placement(Point(990, 370))
    narrow = _legs_of(LegsWish(foot=Foot.square(40), inset_end=310, mass=3.0), top, place)
    wide = _legs_of(LegsWish(foot=Foot.square(90), inset_end=285, mass=3.0), top, place)
    assert wide.legs[0].middle.x == pytest.approx(narrow.legs[0].middle.x)
    assert wide.tipping.end > narrow.tipping.end


def test_a_round_top_on_a_square_of_legs_overhangs_unevenly() -> None:
    """48 in across on legs 27.5 in square outside: 10.25 in at the sides, 4.55 at the corners."""
    inch, half = 25.4, (27.5 - 2) / 2 * 25.4
    at = tuple(Point(x * half, y * half) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
    wish = LegsWish(foot=Foot.square(2 * inch), at=at)
    panel = Panel(rectangular_outline(1400, 1400), 30)
    plan = _legs_of(wish, Circle(48 * inch), Placement(Point(700, 700)), panel)
    assert plan.overhang.side / inch == pytest.approx(10.25)
    assert plan.overhang.end / inch == pytest.approx(10.25)
    assert plan.overhang.corner / inch == pytest.approx(4.555, abs=0.001)
    assert plan.overhang.least / inch == pytest.approx(4.555, abs=0.001)


@pytest.mark.parametrize(
    ("foot", "section"),
    [
        (Foot.round(60), math.pi * 900),
        (Foot.square(60), 3600),
        (Foot(FootShape.RECTANGULAR, 90, 40), 3600),
        (Foot(FootShape.HEXAGONAL, 60, 60), 6 * 30**2 * math.tan(math.pi / 6)),
        (Foot.ring(110, 5), math.pi * (55**2 - 50**2)),
        (Foot(FootShape.TUBE, 50, 50, 3), 50**2 - 44**2),
        (Foot(FootShape.TUBE, 80, 40, 4), 80 * 40 - 72 * 32),
    ],
)
def test_a_leg_weighs_its_section_by_its_length(foot: Foot, section: float) -> None:
    """A leg's mass is section × length × density, a ring's section only its wall."""
    wish = LegsWish(foot=foot, height=700, density=650)
    plan = _legs_of(wish, Capsule(1600, 700), Placement(Point(990, 419)))
    assert plan.leg_mass == pytest.approx(section * 700 * 650e-9)
    assert plan.mass == pytest.approx(30 + 4 * plan.leg_mass)


def test_loose_legs_hold_nothing_down() -> None:
    """On loose trestles only the top's own weight counts, and the maker is told."""
    top, place = Rectangle(1600, 700), Placement(Point(990, 419))
    fixed = _legs_of(LegsWish(mass=5.0), top, place)
    loose = _legs_of(LegsWish(mass=5.0, fixing=Fixing.LOOSE), top, place)
    share = loose.tipping.least.force / fixed.tipping.least.force
    assert share == pytest.approx(30 / 50)
    assert LegMatter.LOOSE in _concerns(loose)
    assert LegMatter.LOOSE not in _concerns(fixed)


def test_uneven_legs_move_the_weight() -> None:
    """Legs bunched to one end carry the whole weight towards it."""
    at = (Point(-500, -200), Point(500, 0), Point(-500, 200))
    plan = _legs_of(LegsWish(at=at, mass=10.0), Rectangle(1600, 700), Placement(Point(990, 419)))
    left = [s.force for s in plan.tipping.around if s.place.x < -740]
    right = [s.force for s in plan.tipping.around if s.place.x > 740]
    assert min(right) < min(left)


def test_prints_follow_the_top_on_the_panel() -> None:
    """A turned top carries the prints of its feet along, and a ring's hollow with them."""
    placement = Placement(Point(990, 419), 0.2)
    plan = _legs_of(LegsWish(foot=Foot.ring(100, 8)), Capsule(1200, 500), placement)
    for leg in plan.legs:
        assert leg.on_panel.distance_to(placement(leg.middle)) < 1e-12
        assert leg.print.bounds.middle.distance_to(leg.on_panel) < 1e-9
        assert leg.print.area == pytest.approx(math.pi * 50**2)
        assert leg.hollow is not None
        assert leg.hollow.area == pytest.approx(math.pi * 42**2)


def test_splayed_feet_land_farther_out_and_stand_firmer() -> None:
    """A leg 700 high splayed by 12° along the top lands 700·tan 12° nearer to the end."""
    top, place, splay = Rectangle(1600, 700), Placement(Point(990, 419)), math.radians(12)
    upright = _legs_of(LegsWish(mass=5.0), top, place)
    wish = LegsWish(mass=5.0, splay_deg=math.degrees(splay), lean=Lean.ENDS)
    leaning = _legs_of(wish, top, place)
    for leg in leaning.legs:
        assert abs(leg.floor.x) - abs(leg.middle.x) == pytest.approx(700 * math.tan(splay))
        assert leg.floor.y == leg.middle.y
    assert leaning.tipping.end > upright.tipping.end
    assert leaning.overhang == upright.overhang
    assert leaning.leg_length == pytest.approx(700 / math.cos(splay))


def test_splay_outwards_moves_feet_along_the_ray_from_the_middle() -> None:
    """Splayed outwards a foot lands on the ray through its head; a middle leg stays upright."""
    wish = LegsWish(count=5, splay_deg=math.degrees(0.15))
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    for leg in plan.legs:
        assert leg.middle.cross(leg.floor) == pytest.approx(0, abs=1e-6)
    assert plan.legs[-1].floor == plan.legs[-1].middle == Point(0, 0)


def test_feet_that_land_past_the_edge_are_told() -> None:
    """A foot on the floor outside the top is something to trip over, and no more than that."""
    wish = LegsWish(splay_deg=20, lean=Lean.SIDES)
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    sticking = [p for p in plan.problems if p.matter is LegMatter.STICKS_OUT]
    assert [p.who for p in sticking] == [("1", "2", "3", "4")]
    past = 700 * math.tan(math.radians(20)) - (350 / 3)
    assert sticking[0].found == pytest.approx(past + 30, abs=0.01)
    assert "On the floor legs 1, 2, 3 and 4 stand up to" in leg_words(sticking[0], METRIC)
    assert plan.stands


def test_a_loose_top_tips_over_the_line_on_which_it_lies() -> None:
    """Its own weight alone holds it, on a lever to its contact line: P = W·d/e."""
    place = Placement(Point(990, 419))
    at = tuple(Point(x, y) for x, y in ((-500, -250), (500, -250), (500, 250), (-500, 250)))
    loose = LegsWish(foot=Foot.square(80), at=at, mass=20.0, fixing=Fixing.LOOSE)
    plan = _legs_of(loose, Rectangle(1600, 700), place, top_mass=30.0)
    weight, inside = 30.0 * 9.80665, 500 + 40
    assert plan.tipping.end == pytest.approx(weight * inside / (800 - 50 - inside))
    assert plan.mass == pytest.approx(30.0 + 80.0)
    splayed = _legs_of(replace(loose, splay_deg=15), Rectangle(1600, 700), place, top_mass=30.0)
    assert splayed.tipping.end == pytest.approx(plan.tipping.end)
    assert splayed.tipping.push >= plan.tipping.push
    fixed = _legs_of(replace(loose, fixing=Fixing.SCREWED), Rectangle(1600, 700), place)
    assert fixed.tipping.end > 3 * plan.tipping.end


def test_two_trestles_carry_a_top_as_wide_as_they_are() -> None:
    """A pair of slabs stands on the long centreline, and nothing tips the top over their ends."""
    wish = LegsWish(count=2, foot=Foot(FootShape.SLAB, 50, 700), fixing=Fixing.LOOSE)
    plan = _legs_of(wish, Rectangle(1980, 760), Placement(Point(990, 419)))
    assert [leg.middle.y for leg in plan.legs] == [0, 0]
    assert plan.overhang.side == pytest.approx(30)
    assert math.isinf(plan.tipping.side)
    assert math.isfinite(plan.tipping.end)


def test_legs_keep_inside_an_under_bevel() -> None:
    """Where a bevel runs 70 in, nothing is fixed within 80, plates included."""
    place, top = Placement(Point(990, 419)), Rectangle(1600, 700)
    wish = LegsWish(foot=Foot.round(40), plate=FixingPlate(120, 120, 4), keep_in=80.0)
    assert _legs_of(wish, top, place).overhang.least >= 80 - 1e-6
    near = _legs_of(
        replace(wish, at=(Point(-500, -250), Point(500, -250), Point(0, 270))), top, place
    )
    told = [p for p in near.problems if p.matter is LegMatter.NEAR_EDGE]
    assert [p.who for p in told] == [("1",), ("2",), ("3",)]
    assert told[0].limit == 80


def test_a_plate_wider_than_its_leg_keeps_off_the_edge() -> None:
    """Feet asked for at the edge are held back where their plates would come too near to it."""
    plate = FixingPlate(120, 120, 4)
    wish = LegsWish(foot=Foot.round(40), plate=plate, inset_side=10, inset_end=10)
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    assert plan.overhang.least == pytest.approx(25)
    assert plan.overhang.side == pytest.approx(25 + 60 - 20)
    assert all(
        leg.plate is not None and leg.plate.area == pytest.approx(120**2) for leg in plan.legs
    )
    assert plan.leg_length == 696
    assert plan.leg_mass == pytest.approx(wish.foot.mass(696, 650) + 120 * 120 * 4 * 7850e-9)


def test_a_plate_shorter_than_its_slab_is_no_longer_for_it() -> None:
    """A plate on a slab is drawn as long as it is; the nearer of both to the edge is told."""
    slab, plate = Foot(FootShape.SLAB, 40, 560), FixingPlate(90, 90, 4)
    wish = LegsWish(count=2, foot=slab, plate=plate)
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    assert [leg.plate is not None and leg.plate.area for leg in plan.legs] == [90**2] * 2
    end = 800 - abs(plan.legs[0].middle.x) - 90 / 2
    assert plan.overhang.least == pytest.approx(min((700 - 560) / 2, end))


def test_a_push_counts_from_the_upper_face() -> None:
    """A thicker top is pushed from higher up, so that less tips it."""
    top, place = Rectangle(1600, 700), Placement(Point(990, 419))
    thin, thick = (
        _legs_of(LegsWish(), top, place, replace(DOOR, material=material))
        for material in ("oak", "pine")
    )
    heights = [700 + 30 / (1.6 * 0.7 * density) for density in (0.7616, 0.448)]
    assert thin.tipping.push * heights[0] == pytest.approx(thick.tipping.push * heights[1])


def test_two_slabs_stand() -> None:
    """Two legs as wide as the top stand on the long centreline and hold it up."""
    wish = LegsWish(count=2, foot=Foot(FootShape.SLAB, 40, 560))
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    assert [leg.middle.y for leg in plan.legs] == [0, 0]
    assert plan.legs[0].middle.x == pytest.approx(-plan.legs[1].middle.x)
    assert plan.tipping.least.force > 0
    assert plan.stands


def test_a_foot_on_a_spoilt_place_is_named() -> None:
    """A foot within a defect's clearance is named together with the defect."""
    split = Defect(
        "split", rectangular_place(Point(430, 130), 80, 10), frozenset({Spoils.BEARING}), 6.0
    )
    panel = DOOR.with_defect(split)
    top, place = Capsule(1800, 720), Placement(Point(990, 370))
    at = tuple(leg.middle for leg in _legs_of(LegsWish(), top, place).legs)
    plan = _legs_of(LegsWish(at=at), top, place, panel)
    (bad,) = [p for p in plan.problems if p.matter is LegMatter.POOR_BEARING]
    assert bad.who == ("1", "split")
    assert "Leg 1 would bear on split" in leg_words(bad, METRIC)
    assert not plan.stands


def test_a_foot_on_a_spoilt_place_is_moved_by_the_least_that_frees_it() -> None:
    """Laid out by its inset it moves 20 mm to clear a split, no farther, and that is told."""
    top, place = Capsule(1800, 720), Placement(Point(990, 370))
    before = _legs_of(LegsWish(), top, place).legs[0]
    edge = before.print.bounds.right - 20
    split = Defect(
        "split", rectangular_place(Point(edge + 100, 130), 200, 400), frozenset({Spoils.BEARING})
    )
    plan = _legs_of(LegsWish(), top, place, DOOR.with_defect(split))
    (told,) = [p for p in plan.problems if p.matter is LegMatter.MOVED]
    assert told.who == ("1",)
    assert told.found == plan.legs[0].moved == pytest.approx(20, abs=0.2)
    assert "Leg 1 stands up to 20 mm off the usual place" in leg_words(told, METRIC)
    assert plan.legs[0].print.bounds.right < edge
    assert plan.legs[0].overhang >= 60 - 0.1
    assert [leg.moved for leg in plan.legs[1:]] == [0, 0, 0]
    assert plan.stands


def test_a_mended_place_bears() -> None:
    """Where a rotten place is patched or a hole plugged a leg may stand on it, not on filler."""
    for mend in Mend:
        rot = Defect(
            "rot", round_place(Point(430, 130), 90), frozenset({Spoils.BEARING}), mend=mend
        )
        plan = _legs_of(
            LegsWish(), Capsule(1800, 720), Placement(Point(990, 370)), DOOR.with_defect(rot)
        )
        moved = {LegMatter.POOR_BEARING, LegMatter.MOVED} & _concerns(plan)
        assert bool(moved) is (mend in {Mend.FILLER, Mend.RESIN})


def test_legs_at_one_place_or_in_a_row_are_refused() -> None:
    """Two legs at one place, or three in a row, are told by their numbers and with a remedy."""
    top, place = Rectangle(1600, 700), Placement(Point(990, 419))
    twice = (Point(-500, -200), Point(500, -200), Point(0, 200), Point(0, 200))
    with pytest.raises(LegsError, match="legs 3 and 4 stand at one place: move them apart"):
        _legs_of(LegsWish(at=twice), top, place)
    row = (Point(-500, -200), Point(0, 0), Point(500, 200))
    with pytest.raises(LegsError, match="3 legs in a row do not stand: move one"):
        _legs_of(LegsWish(at=row), top, place)


@pytest.mark.parametrize("count", [3, 8])
def test_insets_that_leave_feet_a_row_are_refused(count: int) -> None:
    """Under a top 160 wide feet of 60 kept 50 in stand on one line: no plan is made of that."""
    narrow = LegsWish(count=count, inset_side=50, inset_end=50)
    with pytest.raises(LegsError, match="in a row"):
        _legs_of(narrow, Rectangle(1000, 160), Placement(Point(990, 419)))
    with pytest.raises(LegsError):
        best_stances(narrow, TableTop(Top(DOOR, Rectangle(1000, 160), Placement(Point(990, 419)))))


def test_loose_legs_lie_down_as_a_parallelogram() -> None:
    """Clay legs 100 thick and 700 high under 22.4 kg of oak give way at (W + w/2)·b/h = 60 N."""
    clay = LegsWish(foot=Foot.round(100), density=1900.0, fixing=Fixing.LOOSE)
    oak = Panel(rectangular_outline(1400, 700), 30, material="oak")
    top = Top(oak, Rectangle(1400, 700), Placement(Point(700, 350)))
    loose, fixed = (
        Sought(replace(clay, fixing=f), TableTop(top)).as_wished().legs
        for f in (Fixing.LOOSE, Fixing.GLUED)
    )
    legs = 4 * math.pi / 4 * 0.1**2 * 0.7 * 1900
    expected = (top.mass + legs / 2) * 9.80665 * 100 / 700
    assert loose.tipping.push == pytest.approx(expected)
    assert loose.tipping.push == pytest.approx(60.7, abs=0.1)
    assert loose.tipping.rocks and not fixed.tipping.rocks
    assert fixed.tipping.push > 3 * loose.tipping.push
    assert LegMatter.ROCKS_AS_BLOCKS in _concerns(loose)


def test_the_load_is_held_against_the_very_edge_where_somebody_may_sit() -> None:
    """A dining table is held at its edge, a bar table 50 mm inside it; both figures are told."""
    top, place = Rectangle(1600, 700), Placement(Point(990, 419))
    low, high = (_legs_of(LegsWish(height=h, mass=5.0), top, place) for h in (700.0, 1050.0))
    for plan in (low, high):
        weight = plan.mass * 9.80665
        inside = 350 - plan.overhang.side
        assert plan.tipping.at_edge.force < plan.tipping.least.force
        assert min(
            plan.tipping.at_edge.force,
            weight * inside / plan.overhang.side,
        ) == pytest.approx(plan.tipping.at_edge.force)
    assert (low.weakest, low.at_edge) == (low.tipping.at_edge, True)
    assert (high.weakest, high.at_edge) == (high.tipping.least, False)


def test_a_defect_that_spoils_only_showing_may_bear() -> None:
    """A stain under a foot is no concern of the legs."""
    stain = Defect("stain", round_place(Point(430, 130), 100), frozenset({Spoils.SHOWING}))
    panel = DOOR.with_defect(stain)
    plan = _legs_of(LegsWish(), Capsule(1800, 720), Placement(Point(990, 370)), panel)
    assert LegMatter.POOR_BEARING not in _concerns(plan)


def test_feet_past_the_edge_and_in_one_another_are_grave() -> None:
    """Feet given one by one may be wrong; each fault is found with its figure."""
    at = (Point(-700, 0), Point(790, 0), Point(100, 200), Point(130, 200))
    wish = LegsWish(at=at, foot=Foot.square(60))
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    beyond = [p for p in plan.problems if p.matter is LegMatter.BEYOND_EDGE]
    assert [(p.who, round(p.found or 0.0, 6)) for p in beyond] == [(("2",), 20.0)]
    assert [p.who for p in plan.problems if p.matter is LegMatter.OVERLAP] == [("3", "4")]
    assert "past the edge of the top by 20 mm" in leg_words(beyond[0], METRIC)
    assert not plan.stands


def test_a_weight_beyond_the_feet_is_grave() -> None:
    """Three legs on one half of the top leave it to tip by itself."""
    at = (Point(-700, -200), Point(-300, 0), Point(-700, 200))
    plan = _legs_of(LegsWish(at=at), Rectangle(1600, 700), Placement(Point(990, 419)))
    assert plan.tipping.least.force == 0.0
    assert LegMatter.TIPS_BY_ITSELF in _concerns(plan)


def test_a_load_above_the_estimate_is_told_as_an_estimate() -> None:
    """The load asked for is held against the least force, in words that promise nothing."""
    top, place = Rectangle(1600, 700), Placement(Point(990, 419))
    held = _legs_of(LegsWish(load=100), top, place)
    tipped = _legs_of(LegsWish(load=5000), top, place)
    assert LegMatter.TIPS_UNDER_LOAD not in _concerns(held)
    (problem,) = [p for p in tipped.problems if p.matter is LegMatter.TIPS_UNDER_LOAD]
    assert leg_words(problem, METRIC).startswith("By estimate")
    assert tipped.stands


@given(st.sampled_from([3, 4, 5, 6, 8]), st.floats(-math.pi, math.pi))
def test_turning_the_top_changes_no_force(count: int, turn: float) -> None:
    """Where the top lies on the panel has nothing to do with how it stands."""
    panel = Panel(rectangular_outline(3000, 3000), 30)
    top = RoundedRectangle.with_radius(1400, 700, 60)
    straight = _legs_of(LegsWish(count=count), top, Placement(Point(1500, 1500)), panel)
    turned = _legs_of(LegsWish(count=count), top, Placement(Point(1400, 1600), turn), panel)
    assert turned.tipping == straight.tipping
    assert turned.overhang == straight.overhang


def test_every_concern_has_its_words_in_inches_too() -> None:
    """Each problem reads as a sentence in the units of the job."""
    at = (Point(-700, -310), Point(790, 0), Point(100, 200), Point(130, 200))
    wish = LegsWish(at=at, load=9000, fixing=Fixing.LOOSE)
    plan = _legs_of(wish, Rectangle(1600, 700), Placement(Point(990, 419)))
    for problem in plan.problems:
        words = leg_words(problem, Tape(imperial=True))
        assert words.endswith(".")
        assert " mm" not in words


@pytest.mark.parametrize(
    "build",
    [
        lambda: LegsWish(count=2),
        lambda: LegsWish(at=(Point(0, 0), Point(1, 1))),
        lambda: LegsWish(inset_side=-1),
        lambda: LegsWish(height=0),
        lambda: LegsWish(splay_deg=math.degrees(-0.1)),
        lambda: LegsWish(splay_deg=math.degrees(1.0)),
        lambda: LegsWish(height=4, plate=FixingPlate(90, 90, 4)),
        lambda: FixingPlate(90, 0, 4),
        lambda: Foot.round(0),
        lambda: Foot(FootShape.SQUARE, 60, 50),
        lambda: Foot.ring(60, 30),
        lambda: Foot(FootShape.TUBE, 80, 40, 20),
    ],
)
def test_legs_that_cannot_be_are_refused(build: object) -> None:
    """Fewer than three legs, sizes at or below 0 and walls thicker than a ring are refused."""
    with pytest.raises(LegsError):
        build()  # type: ignore[operator]
