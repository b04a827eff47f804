"""Proposals: each goal finds what it seeks, and the comparison tells what each choice means."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from tops import PLACE, ROOM, known_as, top_of

from panelwright.layout.errors import LegsError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.legs.arrangement import apart
from panelwright.layout.legs.foot import Foot
from panelwright.layout.legs.plan import LegMatter
from panelwright.layout.legs.room import TableTop
from panelwright.layout.legs.search import best_stance, best_stances
from panelwright.layout.legs.seating import PLACE as DINER
from panelwright.layout.legs.stance import EACH_LEG, Sought, Stance
from panelwright.layout.legs.wish import COUNTS, Fixing, Goal, LegsWish
from panelwright.layout.outlines import Capsule, Circle, Freeform, Outline, Oval, Rectangle
from panelwright.layout.panel import (
    Build,
    Defect,
    Kind,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
)
from panelwright.layout.panel.materials import Stiffness
from panelwright.layout.top import Top

STRIP = Stiffness(12_300.0, 12_300.0, 6_150.0, 0.0, "test")


NO_FIGURE = "framed door"
"""A material without a stiffness of its own: legs under it are found without a plate."""


def propose(wish: LegsWish, table: TableTop, goal: Goal = Goal.MOST_STABLE) -> Stance:
    """Return the best places for the wished number of legs."""
    return best_stance(Sought(wish, table, goal, DINER)).sagging(table)


def compare(
    wish: LegsWish, table: TableTop, counts: tuple[int, ...] = COUNTS
) -> tuple[Stance, ...]:
    """Return the best legs of each count, best count first."""
    return tuple(stance.sagging(table) for stance in best_stances(wish, table, counts=counts))


def _table(outline: Outline, material: str = "oak", panel: Panel = ROOM) -> TableTop:
    return TableTop(top_of(outline, material, panel=panel))


def test_the_firmest_stance_is_firmer_than_the_usual_one() -> None:
    """Looking for firmness never ends below what the usual insets give."""
    table = _table(Capsule(1800, 720), NO_FIGURE)
    usual = Sought(LegsWish(), table).as_wished().legs
    stable = propose(LegsWish(), table)
    assert stable.legs.tipping.least.force > usual.tipping.least.force
    assert stable.legs.overhang.least >= 60 - 0.05
    assert stable.sag is None


def test_the_least_sag_of_a_strip_is_the_classical_one(monkeypatch: pytest.MonkeyPatch) -> None:
    """On a long narrow top the feet go 0.223 of its length in (least greatest deflection)."""
    strip = Rectangle(2000, 250)
    wish = LegsWish(foot=Foot.round(10), inset_side=5, load=0.0)
    table = _table(strip, known_as(monkeypatch, "strip", 760.0, STRIP))
    found = propose(wish, table, Goal.LEAST_SAG)
    share = (1000 - max(m.x for m in found.wish.at)) / 2000
    assert share == pytest.approx(0.2231, abs=0.004)


def test_least_sag_sags_less_than_the_most_stable() -> None:
    """Each goal is the best at what it counts."""
    table = _table(Rectangle(1600, 700))
    wish = LegsWish(load=300.0)
    stiff, firm = (propose(wish, table, goal) for goal in (Goal.LEAST_SAG, Goal.MOST_STABLE))
    assert stiff.sag is not None
    assert firm.sag is not None
    assert stiff.sag.first_loaded.down < firm.sag.first_loaded.down
    assert stiff.legs.tipping.least.force <= firm.legs.tipping.least.force


def test_even_overhang_is_even_on_a_square_top() -> None:
    """On a square top sides and ends overhang alike."""
    even = propose(LegsWish(load=0.0), _table(Rectangle(900, 900), NO_FIGURE), Goal.EVEN_OVERHANG)
    assert even.legs.overhang.side == pytest.approx(even.legs.overhang.end, abs=1)


def test_knee_room_keeps_the_legs_out_of_the_way() -> None:
    """At least as many sit at the table laid out for knees as at the most stable."""
    table = _table(Rectangle(1800, 800), NO_FIGURE)
    knees, firm = (propose(LegsWish(), table, goal) for goal in (Goal.KNEE_ROOM, Goal.MOST_STABLE))
    assert len(knees.seating.seats) >= len(firm.seating.seats)
    assert knees.score >= 0.5


def test_a_goal_gives_way_to_the_load_asked_for() -> None:
    """Whatever the goal, a stance that holds the load goes before one that does not."""
    table = _table(Rectangle(1800, 800), NO_FIGURE)
    for goal in (Goal.KNEE_ROOM, Goal.EVEN_OVERHANG):
        held = propose(LegsWish(load=600.0), table, goal)
        assert held.legs.tipping.least.force > 600
        assert LegMatter.TIPS_UNDER_LOAD not in {p.matter for p in held.legs.problems}


def test_feet_dodge_what_spoils_bearing() -> None:
    """Where the most stable places lie on a split others are found beside it."""
    table = _table(Rectangle(1600, 700), NO_FIGURE)
    corner = propose(LegsWish(), table).wish.at[2]
    split = Defect(
        "split",
        rectangular_place(PLACE(corner), 120, 30),
        frozenset({Spoils.BEARING}),
        clear=20.0,
    )
    found = propose(LegsWish(), _table(Rectangle(1600, 700), NO_FIGURE, ROOM.with_defect(split)))
    assert found.legs.stands
    assert found.wish.at[2] != corner
    assert found.legs.tipping.least.force > 0


def test_a_split_under_every_place_is_told_rather_than_hidden() -> None:
    """Where no foot finds sound wood the best is proposed with its problem, and comes last."""
    rot = Defect(
        "rot", rectangular_place(Point(1500, 1500), 1700, 800), frozenset({Spoils.BEARING})
    )
    table = _table(Rectangle(1600, 700), NO_FIGURE, ROOM.with_defect(rot))
    found = propose(LegsWish(), table)
    assert not found.legs.stands
    assert {p.who[1:] for p in found.legs.problems if p.matter is LegMatter.POOR_BEARING} == {
        ("rot",)
    }


def test_the_comparison_tells_what_each_count_means() -> None:
    """3, 4, 5, 6 and 8 legs are set side by side; more legs spread no less and sag less."""
    found = {p.count: p for p in compare(LegsWish(), _table(Capsule(1800, 720)))}
    assert sorted(found) == [3, 4, 5, 6, 8]
    assert found[4].legs.tipping.least.force > 2 * found[3].legs.tipping.least.force
    sags = [found[n].sag for n in (4, 6)]
    assert sags[0] is not None
    assert sags[1] is not None
    assert sags[1].first_loaded.down < sags[0].first_loaded.down
    assert found[8].widest_gap < found[4].widest_gap
    assert found[4].spread <= found[8].spread * 1.05
    for proposal in found.values():
        assert 0 < proposal.spread < 1
        assert proposal.least_gap <= proposal.widest_gap
        assert proposal.wish.at == tuple(leg.middle for leg in proposal.legs.legs)


def test_more_legs_have_to_be_worth_it() -> None:
    """Of counts that hold the load the most stable leads, each leg more taking a twentieth off."""
    wish = LegsWish(load=100.0, seated=False)
    found = compare(wish, _table(Circle(1200), NO_FIGURE))
    worth = [p.score * (1 - EACH_LEG) ** p.count for p in found]
    assert worth == sorted(worth, reverse=True)
    by_count = {p.count: p.score for p in found}
    assert by_count[8] > by_count[6] > by_count[5] > by_count[4] > by_count[3]
    assert found[-1].count == 3


def test_legs_at_which_somebody_sits_go_first() -> None:
    """Where people sit, legs that leave no place for knees give way to legs that do."""
    table = _table(Circle(1200), NO_FIGURE)
    seated = compare(LegsWish(load=100.0), table)
    empty = [not p.seating.seats for p in seated]
    assert True in empty
    assert empty == sorted(empty)


def test_legs_as_wished_are_told_the_same_way() -> None:
    """What the maker placed stands where they placed it, with the figures of a proposal."""
    table = _table(Rectangle(1600, 700))
    own = Sought(LegsWish(count=6, inset_end=250.0), table).as_wished().sagging(table)
    assert own.count == 6
    assert own.legs.overhang.end == pytest.approx(250)
    assert own.held == min(own.legs.weakest.force, 600)
    again = Sought(own.wish, table).as_wished().sagging(table)
    assert again.legs == own.legs
    assert again.sag == own.sag
    best = propose(LegsWish(count=6), table)
    assert best.score >= own.score


def test_proposals_keep_inside_an_under_bevel() -> None:
    """However firm the edge would be, no foot goes where the bevel runs."""
    found = propose(LegsWish(keep_in=90.0), _table(Rectangle(1600, 700), NO_FIGURE))
    assert found.legs.overhang.least >= 90 - 1e-6


def test_wished_insets_stay_as_they_are() -> None:
    """What the maker fixed is not moved; only the rest is sought."""
    found = propose(LegsWish(inset_end=250.0), _table(Rectangle(1600, 700), NO_FIGURE))
    assert found.legs.overhang.end == pytest.approx(250)


def test_sag_cannot_count_where_stiffness_is_not_known() -> None:
    """A hollow door has no single stiffness: the goal is refused, the rest is not."""
    table = _table(Rectangle(1600, 700), NO_FIGURE)
    with pytest.raises(LegsError, match="stiffness of this top is not known"):
        propose(LegsWish(), table, Goal.LEAST_SAG)


def test_a_table_top_keeps_clear_of_what_no_foot_and_no_screw_may_meet() -> None:
    """Its bearing leaves out both, and more where a tape may be out; a nail is told by its name."""
    nail = Defect("nail", rectangular_place(Point(500, 400), 10, 10), frozenset({Spoils.CUTTING}))
    panel = Panel(rectangular_outline(2000, 900), 30, material="beech", defects=(nail,))
    top = Top(panel, Rectangle(1600, 700), Placement(Point(1000, 450), 0.1))
    table = TableTop(top, tape_error=2.0)
    assert not table.bearing.inner.holds_point(Point(506, 400))
    assert table.bearing.inner.holds_point(Point(520, 400))
    assert table.plate is not None
    hollow = replace(panel, build=Build(Kind.HOLLOW), material="")
    assert TableTop(replace(top, panel=hollow)).plate is None
    at = (top.placement.into(Point(500, 400)), Point(500, -50), Point(500, 50))
    wish = LegsWish(foot=Foot.square(60), at=at)
    assert {p.who[1:] for p in Sought(wish, table).as_wished().legs.problems if len(p.who) > 1} == {
        ("nail",)
    }


def test_legs_that_find_no_room_are_refused() -> None:
    """Feet too large for the top are refused for every count."""
    table = _table(Circle(300), NO_FIGURE)
    with pytest.raises(LegsError, match="finds no room"):
        compare(LegsWish(foot=Foot.square(250)), table)
    with pytest.raises(LegsError, match="no count"):
        compare(LegsWish(), table, counts=())


BONE = [(-800, -300), (-100, -300), (0, -60), (100, -300), (800, -300)]
FREE = [
    Freeform.through([Point(*p) for p in BONE] + [Point(-x, -y) for x, y in BONE]),
    Freeform.through(
        [Point(*p) for p in ((0, 0), (1600, 0), (1600, 500), (500, 500), (500, 1200), (0, 1200))]
    ),
]


@pytest.mark.parametrize("count", [4, 6])
@pytest.mark.parametrize("outline", [Capsule(1185, 585), Rectangle(1400, 700), *FREE])
def test_no_stance_tried_at_random_is_firmer_than_the_best(outline: Outline, count: int) -> None:
    """Neither one drawn anywhere in the room nor one near the best takes more at the edge."""
    table = _table(outline, NO_FIGURE)
    wish = LegsWish(count=count, foot=Foot.round(50), load=1e5)
    best = propose(wish, table).wish.at
    sought = Sought(wish, table)
    force, room = sought.stability.force, sought.room
    draw, box = np.random.default_rng(count), room.bounds
    for k in range(200):
        if k % 2:
            spread = float(draw.choice([1, 5, 30, 100]))
            feet = [Point(*(np.array(tuple(p)) + draw.normal(0, spread, 2))) for p in best]
        else:
            xs = draw.uniform(box.left, box.right, count)
            ys = draw.uniform(box.bottom, box.top, count)
            feet = [Point(float(x), float(y)) for x, y in zip(xs, ys, strict=True)]
        if all(room.holds_point(foot) for foot in feet) and apart(feet, wish.foot):
            assert force(feet) <= force(best) + 0.5


def test_the_best_of_a_count_is_never_worse_than_the_job_as_it_is() -> None:
    """Feet that the maker sets nearer to the edge than usual are the best of their number."""
    table = _table(Capsule(1185, 585), NO_FIGURE)
    for x, y in ((420, 160), (300, 260), (450, 200)):
        at = tuple(Point(*p) for p in ((-x, -y), (x, -y), (x, y), (-x, y)))
        own = Sought(LegsWish(at=at, foot=Foot.round(50)), table).as_wished()
        (best,) = best_stances(own.wish, table, counts=(4,))
        assert best.legs.weakest.force >= own.legs.weakest.force - 0.1
    past = tuple(Point(*p) for p in ((-450, -310), (450, -310), (450, 310), (-450, 310)))
    (best,) = best_stances(LegsWish(at=past, foot=Foot.round(50)), table, counts=(4,))
    assert best.legs.stands


def test_a_small_top_is_not_offered_eight_legs() -> None:
    """Under 560 × 430 eight legs stand in each other's way: they are left out unless asked for."""
    table = _table(Rectangle(560, 430), NO_FIGURE)
    wish = LegsWish(seated=False)
    assert 8 not in {p.count for p in compare(wish, table)}
    assert [p.count for p in compare(wish, table, counts=(8,))] == [8]
    assert 8 in {p.count for p in compare(wish, _table(Rectangle(1800, 800), NO_FIGURE))}


def test_the_force_that_is_compared_is_the_force_that_is_told() -> None:
    """Search and sheet reckon with the same feet, weights and edge, splayed or loose."""
    table = _table(Oval(1400, 700), NO_FIGURE)
    for wish in (
        LegsWish(foot=Foot.square(90), mass=6.0),
        LegsWish(foot=Foot.round(120), mass=9.0, splay_deg=12),
        LegsWish(foot=Foot.square(90), mass=6.0, fixing=Fixing.LOOSE),
        LegsWish(foot=Foot.square(90), height=1050.0),
    ):
        plan = Sought(wish, table).as_wished().legs
        middles = [leg.middle for leg in plan.legs]
        told_force = plan.weakest.force
        assert Sought(wish, table).stability.force(middles) == pytest.approx(told_force, rel=0.003)
