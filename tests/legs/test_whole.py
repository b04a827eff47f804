"""The table as a whole: fixings, sag, seasons and people in one, and what it warns of."""

from __future__ import annotations

import math
from dataclasses import replace
from enum import Enum

import pytest

from panelwright.layout.concern import Concern
from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.fixings import Glue, Screw, holes_of, usual_screw
from panelwright.layout.legs.foot import LEG_MATERIALS, MASONRY, Foot, FootShape, is_wooden
from panelwright.layout.legs.plan import LegMatter
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.stance import Sought
from panelwright.layout.legs.table_wish import TableWish
from panelwright.layout.legs.whole import TablePlan, plan_table
from panelwright.layout.legs.wish import Fixing, FixingPlate, LegsWish
from panelwright.layout.outlines import Capsule, Outline, Rectangle
from panelwright.layout.panel import Build, Kind, Panel, rectangular_outline
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.leg_concerns import leg_words

OAK = Panel(rectangular_outline(2400, 1000), 30, material="oak")
CHIPBOARD = Panel(rectangular_outline(2400, 1000), 38, build=Build(Kind.PARTICLEBOARD))
TOP = Rectangle(1600, 700)


def _planned(
    wish: LegsWish,
    asked: TableWish | None = None,
    panel: Panel = OAK,
    outline: Outline = TOP,
) -> TablePlan:
    table = TableTop(Top(panel, outline, Placement(Point(1200, 500))))
    return plan_table(asked or TableWish(), Sought(wish, table).as_wished(), table)


def _matters(plan: TablePlan) -> set[Enum]:
    return {note.matter for note in plan.notes}


def test_a_plate_takes_four_screws_near_its_corners() -> None:
    """A plate 90 × 60 has its holes 12 mm inside its edges, or as far apart as is measured."""
    wish = LegsWish(plate=FixingPlate(90, 60, 4))
    placed = Top(OAK, TOP, Placement())
    holes = holes_of(wish, [Point(0, 0)], placed)
    assert {tuple(hole.place) for hole in holes} == {
        (x, y) for x in (-33.0, 33.0) for y in (-18.0, 18.0)
    }
    apart = holes_of(wish, [Point(100, 0)], placed, (70.0, 40.0))
    assert sorted(hole.place.x for hole in apart) == [65, 65, 135, 135]
    assert min(hole.from_edge for hole in apart) == pytest.approx(350 - 20)


def test_other_legs_are_held_in_their_middle_and_slabs_along_their_length() -> None:
    """A square leg takes one screw, a slab three, a glued or loose one none."""
    placed = Top(OAK, TOP, Placement())
    one = holes_of(LegsWish(), [Point(5, 0)], placed)
    assert [hole.place for hole in one] == [Point(5, 0)]
    slab = LegsWish(count=2, foot=Foot(FootShape.SLAB, 40, 500))
    assert [h.place.y for h in holes_of(slab, [Point(0, 0)], placed)] == [230, 0, -230]
    for fixing in (Fixing.GLUED, Fixing.LOOSE):
        assert holes_of(LegsWish(fixing=fixing), [Point(0, 0)], placed) == ()


def test_the_longest_screw_sold_that_leaves_enough_is_proposed() -> None:
    """A top 30 thick under a plate of 4 takes 5 × 25: 21 bite, 9 are left."""
    plan = _planned(LegsWish(plate=FixingPlate(90, 90, 4)))
    assert plan.screw is not None
    assert plan.screw.screw == Screw(5.0, 25.0)
    assert (plan.screw.bite, plan.screw.left, plan.screw.faults) == (21, 9, ())
    assert len(plan.holes) == len(plan.movement.slots) == 16
    assert usual_screw(4, 14) is None


def test_a_wished_screw_is_checked_where_it_sits() -> None:
    """A screw nearer to the edge of board than 40 mm is told (practice), a deep one too."""
    wish = LegsWish(plate=FixingPlate(90, 90, 3), inset_side=10, inset_end=10)
    plan = _planned(wish, TableWish(screw=Screw(5, 38)), CHIPBOARD)
    assert plan.screw is not None
    assert plan.screw.faults == (LegMatter.SCREW_TOO_DEEP, LegMatter.SCREW_NEAR_EDGE)


def test_a_top_too_thin_for_any_screw_is_told() -> None:
    """A board of 12 mm holds no screw that bites three diameters and leaves 6 mm."""
    plan = _planned(LegsWish(), panel=replace(OAK, thickness=12.0))
    assert plan.screw is None
    assert LegMatter.NO_SCREW in _matters(plan)


def test_an_apron_slots_all_rows_but_one() -> None:
    """Joined legs slot for the width between them, single ones for their own plates."""
    wish = LegsWish(plate=FixingPlate(90, 90, 4))
    alone, joined = (_planned(wish, TableWish(framed=framed)) for framed in (False, True))
    longest = [max(slot.length for slot in plan.movement.slots) for plan in (alone, joined)]
    assert longest[1] > 2 * longest[0]
    assert sum(slot.fixed for slot in alone.movement.slots) == 8
    assert sum(slot.fixed for slot in joined.movement.slots) == 4


def test_a_slot_that_leaves_too_little_of_its_plate_is_told() -> None:
    """Holes 12 inside a plate take no slot 25 long: 5.5 more must lie there, or be without."""
    plate, grain = FixingPlate(80, 80, 4), replace(OAK, grain_deg=0.0)
    wish, wide = LegsWish(plate=plate, inset_side=50), Rectangle(1600, 760)
    plan = _planned(wish, TableWish(framed=True), panel=grain, outline=wide)
    longest = max(plan.movement.slots, key=lambda slot: slot.length)
    assert longest.left == pytest.approx(12 - longest.length / 2)
    assert longest.left < 0
    note = next(n for n in plan.notes if n.matter is LegMatter.SLOT_RUNS_OUT)
    assert note.found == longest.length / 2
    assert note.limit == pytest.approx(5 - longest.left)
    told = leg_words(note, Tape())
    assert f"{math.ceil(note.limit)} mm farther in" in told
    for mended in (
        TableWish(framed=True, holes=(56, 56 - 2 * note.limit)),
        TableWish(framed=False),
        TableWish(framed=True, swing=1.0),
    ):
        again = _planned(wish, mended, panel=grain, outline=wide)
        assert LegMatter.SLOT_RUNS_OUT not in _matters(again)
    wider = FixingPlate(80 + 2 * note.limit, 80 + 2 * note.limit, 4)
    again = _planned(
        replace(wish, plate=wider),
        TableWish(framed=True, holes=(56, 56)),
        panel=grain,
        outline=wide,
    )
    assert LegMatter.SLOT_RUNS_OUT not in _matters(again)


def test_a_wider_swing_moves_more_and_quartered_wood_less() -> None:
    """Movement goes with the moisture range of the job and with how the wood is sawn."""
    usual, damp, quartered = (
        _planned(LegsWish(), asked).movement.change
        for asked in (TableWish(), TableWish(swing=8.0), TableWish(quartered=True))
    )
    assert damp == pytest.approx(2 * usual)
    assert quartered / usual == pytest.approx(0.00180 / 0.00365)


def test_rigid_glue_across_solid_wood_is_warned_of_and_a_flexible_one_is_not() -> None:
    """A wide foot in rigid glue fights the wood; metal and masonry want another glue at all."""
    wide = LegsWish(foot=Foot.square(150), fixing=Fixing.GLUED)
    rigid, flexible = (_planned(wide, TableWish(glue=glue)) for glue in Glue)
    assert LegMatter.GLUE_FIGHTS in _matters(rigid)
    assert LegMatter.GLUE_FIGHTS not in _matters(flexible)
    assert flexible.glue is not None and flexible.glue.most_days > 30
    assert rigid.glue is not None and rigid.glue.most_days == 1
    steel = replace(wide, material="steel", foot=Foot.ring(60, 3))
    assert LegMatter.METAL_GLUED in _matters(_planned(steel))
    assert LegMatter.METAL_GLUED not in _matters(_planned(steel, TableWish(glue=Glue.FLEXIBLE)))


def test_masonry_asks_for_pads_and_weighs_what_it_weighs() -> None:
    """A brick pier 225 square and 700 high weighs about 67 kg, and its top lies on pads."""
    brick = LEG_MATERIALS["brick"]
    wish = LegsWish(
        foot=Foot.square(225), material="brick", density=brick.density, fixing=Fixing.LOOSE
    )
    plan = _planned(wish)
    assert wish.leg_mass == pytest.approx(0.225**2 * 0.7 * 1900)
    assert LegMatter.HARD_SEAT in _matters(plan)
    assert plan.leg_lifters == 3
    assert all(not is_wooden(name) for name in (*MASONRY, "steel"))
    assert is_wooden("beech") and is_wooden("")


def test_a_hollow_door_tells_what_it_cannot_do() -> None:
    """Nothing to bite on, and no single stiffness to tell a sag by."""
    hollow = Panel(rectangular_outline(2400, 1000), 35, build=Build(Kind.HOLLOW, stile=40, rail=60))
    plan = _planned(LegsWish(), panel=hollow)
    assert plan.sag is None
    assert {LegMatter.HOLLOW, LegMatter.SAG_UNKNOWN} <= _matters(plan)


def test_a_thin_long_board_shows_its_sag() -> None:
    """Chipboard of 16 mm on legs 1.8 m apart sags more than a 300th of the span; 38 mm does not."""
    long = Rectangle(2200, 600)
    wish = LegsWish(inset_end=60.0)
    thin = _planned(wish, panel=replace(CHIPBOARD, thickness=16.0), outline=long)
    assert LegMatter.SAGS in _matters(thin)
    assert thin.sag is not None and thin.sag.first_loaded.down > thin.sag.first_limit
    thick = _planned(LegsWish(), panel=CHIPBOARD, outline=Rectangle(1450, 560))
    assert LegMatter.SAGS not in _matters(thick)


def test_loads_and_creep_are_those_of_the_job() -> None:
    """Twice the spread load sags more, and creep makes of the first sag what it is said to."""
    light, heavy = (
        _planned(LegsWish(), TableWish(long_term=s, creep=1.8)).sag for s in (20.0, 40.0)
    )
    assert light is not None and heavy is not None
    assert heavy.first_loaded.down > light.first_loaded.down
    assert light.after_creep.down == pytest.approx(1.8 * light.first_loaded.down)
    assert TableWish().loads("MDF").creep == 3.25


def test_the_height_tells_the_use_and_what_is_free_for_knees() -> None:
    """700 of leg and 30 of oak dine at 730; a batten of 20 leaves 680 for knees."""
    plan = _planned(LegsWish())
    assert plan.height == 730
    assert plan.use is not None and plan.use.use == "dining"
    assert plan.battens and plan.knees == 680
    low = _planned(LegsWish(height=600.0), panel=replace(OAK, thickness=130.0))
    assert LegMatter.LOW in _matters(low)
    coffee = _planned(LegsWish(height=400.0))
    assert coffee.use is not None and coffee.use.use == "coffee"
    assert LegMatter.LOW not in _matters(coffee)


def test_people_lift_the_parts_that_there_are() -> None:
    """The old panel of 55 kg takes three, a top of 26 kg two, a wooden leg one."""
    plan = _planned(LegsWish())
    assert OAK.mass == pytest.approx(54.8, abs=0.1)
    assert (plan.panel_lifters, plan.top_lifters, plan.leg_lifters) == (3, 2, 1)
    assert plan.table_lifters == 2


def test_legs_in_every_place_leave_nobody_a_seat() -> None:
    """Eight legs under the edge of a short top take every place there is."""
    wish = LegsWish(count=8, foot=Foot.square(80), inset_side=20, inset_end=20)
    plan = _planned(wish, outline=Capsule(1100, 600))
    assert plan.seating is not None and plan.seating.without_legs > 0
    assert plan.seating.seats == ()
    assert LegMatter.NOBODY_SITS in _matters(plan)
    assert LegMatter.NOBODY_SITS not in _matters(_planned(replace(wish, seated=False)))


@pytest.mark.parametrize("matter", list(LegMatter))
@pytest.mark.parametrize("imperial", [False, True])
def test_no_concern_promises_more_than_an_estimate(matter: LegMatter, imperial: bool) -> None:
    """A concern says what to do, and never that something is safe, certified or guaranteed."""
    words = leg_words(Concern(matter, ("1", "split"), 12.3, 6.0), Tape(imperial))
    assert words.endswith(".") and "{" not in words
    assert not imperial or " mm" not in words
    assert not {"safe", "certified", "guarantee", "wheelchair"} & set(words.casefold().split())


@pytest.mark.parametrize(
    "asked",
    [
        {"counts": (1,)},
        {"place": 0.0},
        {"holes": (0.0, 50.0)},
        {"swing": 31.0},
        {"long_term": -1.0},
        {"creep": 0.5},
    ],
)
def test_what_cannot_be_asked_is_refused(asked: dict[str, object]) -> None:
    """Figures out of their limits are told, none is set right in silence."""
    with pytest.raises(LegsError):
        TableWish(**asked)  # type: ignore[arg-type]
