"""Why a top is not larger: contacts, limits met, and what a defect costs, against known answers."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.coarse import coarser
from panelwright.layout.fit.families import answered
from panelwright.layout.fit.found import Fit
from panelwright.layout.fit.points import Ground
from panelwright.layout.fit.why.contacts import Side, Touched, contacts_of, limits_met
from panelwright.layout.fit.why.costs import Cost, Lies, costs_of
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.panel import (
    Defect,
    Mend,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.named_edges import named_edges
from panelwright.layout.words.why import cost_lines

SHOWING = frozenset({Spoils.SHOWING})
CUTTING = frozenset({Spoils.CUTTING})


def ground(panel: Panel, margin: float = 0.0) -> Ground:
    """Return where tops may lie on a panel."""
    wood = panel.sound_for(Spoils.SHOWING, margin=margin)
    return Ground(wood, tuple(defect.reach() for defect in panel.islands))


def best(panel: Panel, wish: Wish, margin: float = 0.0) -> Fit:
    """Return the best top."""
    held = ground(panel, margin)
    return best_fits(held.wood, wish, islands=held.islands)[0]


def sides(panel: Panel) -> tuple[Side, ...]:
    """Return the edges of a panel by name."""
    return tuple(Side(edge.name, edge.path) for edge in named_edges(panel))


def costs(panel: Panel, wish: Wish, margin: float = 0.0) -> tuple[Cost, ...]:
    """Return what the defects cost the best top."""
    fit = best(panel, wish, margin)
    touched = [contact.name for contact in contacts_of(fit, panel, margin=margin)]
    return costs_of(fit, panel, wish, lambda left: ground(left, margin), touched)


def near(point: Point, x: float, y: float) -> bool:
    """Return whether a point lies at a place, as well as a tape could tell."""
    return point.distance_to(Point(x, y)) < 0.5


def test_a_circle_in_a_triangle_touches_its_three_tangent_points() -> None:
    """They lie where the incircle meets the sides: half the perimeter less the side opposite."""
    a, b, c = Point(0, 0), Point(1300, 0), Point(500, 1200)  # sides 1300, 1300 and 1442.22
    panel = Panel(outline_through([a, b, c]), 20)
    contacts = contacts_of(best(panel, Wish(("circle",))), panel, sides=sides(panel))
    half = (a.distance_to(b) + b.distance_to(c) + c.distance_to(a)) / 2
    for name, start, end, opposite in (("AB", a, b, c), ("BC", b, c, a), ("CA", c, a, b)):
        (contact,) = (each for each in contacts if each.name == name)
        from_start = half - end.distance_to(opposite)
        expected = start + (end - start).unit() * from_start
        assert len(contact.points) == 1
        assert near(contact.points[0], *expected)
    assert len(contacts) == 3


def test_a_rectangle_in_a_rectangle_lies_along_all_four_edges() -> None:
    """It touches each from corner to corner, at the margin that is kept."""
    panel = Panel(rectangular_outline(1200, 500), 20)
    fit = best(panel, Wish(("rectangle",)), margin=6)
    contacts = contacts_of(fit, panel, margin=6, sides=sides(panel))
    assert sorted(contact.name for contact in contacts) == ["AB", "BC", "CD", "DA"]
    for contact in contacts:
        assert contact.clear == 6
        start, end = contact.points
        assert start.distance_to(end) == pytest.approx(
            1188 if contact.name in ("AB", "CD") else 488, abs=0.1
        )
        for point in (start, end):
            assert min(point.x - 6, 1194 - point.x) == pytest.approx(0, abs=0.02)
            assert min(point.y - 6, 494 - point.y) == pytest.approx(0, abs=0.02)


@pytest.mark.parametrize("turn", [0.0, 0.4, 2.0])
def test_a_capsule_touches_a_defect_where_its_clearance_ends(turn: float) -> None:
    """A knot on the centreline stops the round end at one point, wherever the panel lies."""
    frame = Placement(Point(300, -200), turn)
    outline = rectangular_outline(1500, 400).placed(frame)
    knot = Defect("knot", round_place(frame(Point(1400, 200)), 20), SHOWING, clear=15)
    panel = Panel(outline, 20, defects=(knot,))
    wish = Wish(("capsule",), limits=Limits(width=Span(399, 400)))
    (contact,) = (c for c in contacts_of(best(panel, wish), panel) if c.what is Touched.DEFECT)
    assert contact.name == "knot"
    assert contact.clear == 15
    assert near(contact.points[0], *frame(Point(1375, 200)))


def test_the_error_of_the_tape_is_part_of_what_is_kept() -> None:
    """A top that keeps 2 mm more to everything still touches, and says how much it keeps."""
    hole = Defect("hole", round_place(Point(600, 100), 30), SHOWING, clear=5)
    panel = Panel(rectangular_outline(1000, 200), 20, defects=(hole,))
    wood = panel.sound_for(Spoils.SHOWING, margin=4, tape_error=2)
    fit = best_fits(wood, Wish(("rectangle",)))[0]
    contacts = contacts_of(fit, panel, margin=4, tape_error=2)
    assert {c.name: c.clear for c in contacts} == {"the edge": 6, "hole": 7}


def test_a_waney_edge_is_one_contact_at_each_place() -> None:
    """Of hundreds of short segments those beside one another count once."""
    wane = [Point(x, 15 * math.cos(x / 1800 * 4 * math.pi)) for x in range(0, 1801, 5)]
    panel = Panel(outline_through([*wane, Point(1800, 600), Point(0, 600)]), 20)
    fit = best(panel, Wish(("rectangle",)))
    below = [c for c in contacts_of(fit, panel, sides=sides(panel)) if c.name == "AB"]
    crests = [0.0, 900.0, 1800.0]  # where the wane reaches farthest into the wood
    assert len(below) == 3
    for contact, crest in zip(sorted(below, key=lambda c: c.middle.x), crests, strict=True):
        assert contact.middle.x == pytest.approx(crest, abs=30)


def test_what_is_only_bad_to_stand_on_is_not_touched() -> None:
    """A leg heeds it, the edge of a top does not."""
    place = rectangular_place(Point(500, 20), 100, 40)
    soft = Defect("soft spot", place, frozenset({Spoils.BEARING}))
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(soft,))
    fit = best(panel, Wish(("rectangle",)))
    assert all(c.what is Touched.EDGE for c in contacts_of(fit, panel))


def test_a_point_to_cover_holds_a_top_that_just_reaches_it() -> None:
    """The circle that must cover a corner's neighbourhood touches the point with its edge."""
    panel = Panel(rectangular_outline(1000, 400), 20)
    point = Point(40, 40)
    wish = Wish(("circle",), covers=(point,))
    found = contacts_of(best(panel, wish), panel, points=(point,))
    assert Touched.POINT in {contact.what for contact in found}


@pytest.mark.parametrize(
    ("limits", "met"),
    [
        (Limits(length=Span(0, 700)), [("length", "greatest")]),
        (Limits(width=Span(0, 300)), [("width", "greatest")]),
        (Limits(ratio=Span(0, 1.5)), [("ratio", "greatest")]),
        (Limits(ratio=Span(3, 9)), [("ratio", "least")]),
        (Limits(), []),
        (Limits(most_turn_deg=0.0), [("turn", "greatest")]),
    ],
)
def test_the_limits_that_hold_a_top_are_named(limits: Limits, met: list[tuple[str, str]]) -> None:
    """An oval on a board twice as long as wide meets those that are tighter than the board."""
    panel = Panel(rectangular_outline(1000, 500), 20)
    found = limits_met(best(panel, Wish(("oval",), limits=limits)), Wish(("oval",), limits=limits))
    assert [(each.what.value, each.end.value) for each in found] == met


def test_a_hole_across_the_way_costs_what_the_board_is_longer() -> None:
    """A slot from edge to edge at 700 of 1000 leaves 700: without it the top is 10/7 as large."""
    slot = Defect("slot", rectangular_place(Point(702, 200), 4, 400), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(slot,))
    (cost,) = costs(panel, Wish(("rectangle",)))
    assert cost.gain == pytest.approx(1000 / 700 - 1, rel=0.002)
    assert cost.gain <= cost.most <= cost.gain + 0.01
    assert cost.is_settled
    assert cost.is_worth_it
    assert cost.lies is Lies.ACROSS or cost.lies is Lies.INSIDE


def test_two_holes_that_hold_it_together_are_told_together() -> None:
    """Two at one end of 1000 leave 900: without one nothing is gained, without both 11 %."""
    pair = [Defect(f"hole {y}", round_place(Point(905, y), 10), SHOWING) for y in (100, 300)]
    wish = Wish(("rectangle",), limits=Limits(width=Span(390, 400)))
    panel = Panel(rectangular_outline(1000, 400), 20, defects=tuple(pair))
    both, *alone = costs(panel, wish)
    assert both.names == ("hole 100", "hole 300")
    assert both.gain == pytest.approx(1000 / 900 - 1, rel=0.01)
    assert both.fit is not None and both.lies is None
    assert [(len(cost.names), cost.is_worth_it) for cost in alone] == [(1, False)] * 2
    lines = list(cost_lines((both, *alone), Goal.AREA))
    assert lines[0].startswith("without the hole 100 and hole 300 together: 11 % larger, if all")
    assert lines[1].startswith("nothing worth it alone: hole 100, hole 300 (at most")


def test_defects_that_gain_no_more_together_are_told_alone() -> None:
    """A speck in the corner beside a slot holds the top too, and costs 1 mm of 400."""
    slot = Defect("slot", rectangular_place(Point(902, 200), 4, 400), SHOWING)
    speck = Defect("speck", round_place(Point(900.5, 0.5), 1), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(speck, slot))
    wish = Wish(("rectangle",), limits=Limits(width=Span(390, 400)))
    touched = {contact.name for contact in contacts_of(best(panel, wish), panel)}
    assert touched >= {"slot", "speck"}
    assert [cost.names for cost in costs(panel, wish)] == [("slot",), ("speck",)]


def test_a_hole_in_the_middle_costs_what_is_beside_it() -> None:
    """The best beside a hole of 100 in a board of 1000 × 400 is a strip or an end: both known."""
    hole = Defect("hole", round_place(Point(500, 200), 100), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(hole,))
    (cost,) = costs(panel, Wish(("rectangle",)))
    in_hand = max(450 * 400, 1000 * 150)
    assert cost.gain == pytest.approx(1000 * 400 / in_hand - 1, rel=0.002)
    assert cost.lies is Lies.INSIDE


def test_a_hole_in_a_corner_costs_a_circle_nothing() -> None:
    """The largest circle does not come near it, and it is proved that none is larger without."""
    hole = Defect("hole", round_place(Point(30, 30), 20), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(hole,))
    (cost,) = costs(panel, Wish(("circle",)))
    assert cost.gain == 0
    assert cost.most < 0.006
    assert cost.fit is None
    assert not cost.is_worth_it


@pytest.mark.parametrize("shape", ["oval", "capsule", "rounded rectangle"])
def test_each_gain_lies_between_what_is_found_and_what_can_be(shape: str) -> None:
    """The best top without the defect, searched on its own, lies between gain and most."""
    knot = Defect("knot", round_place(Point(820, 260), 60), SHOWING, clear=10)
    stain = Defect("stain", rectangular_place(Point(100, 80), 160, 120), SHOWING)
    panel = Panel(rectangular_outline(1300, 450), 20, defects=(knot, stain))
    wish = Wish((shape,))
    fit = best(panel, wish)
    for cost in costs(panel, wish):
        left = panel.without_defect(*cost.names)
        freely = best(left, wish)
        assert freely.bound is not None
        assert 1 + cost.gain <= freely.bound.value / fit.score * (1 + 1e-9)
        assert 1 + cost.most >= freely.score / fit.score * (1 - 1e-9)
        if cost.fit is not None:
            core = cost.fit.core.inner()
            wood = left.sound_for(Spoils.SHOWING).inner
            assert wood.holds_points(cost.fit.placement.of(core)).all()


def test_what_spoils_only_cutting_costs_where_it_lies_outside() -> None:
    """A nail near the end may lie outside: without it the whole board is the top."""
    nail = Defect("nail", round_place(Point(960, 390), 30), CUTTING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(nail,))
    wish = Wish(("rectangle",))
    fit = best(panel, wish)
    (cost,) = costs(panel, wish)
    assert cost.gain == pytest.approx(1000 * 400 / fit.score - 1, rel=0.002)


def test_what_the_top_holds_costs_nothing_and_is_not_told_of() -> None:
    """A plug in the middle of the top is no question any more."""
    plug = Defect("plug", round_place(Point(500, 200), 40), SHOWING, mend=Mend.PLUG)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(plug,))
    assert costs(panel, Wish(("rectangle",))) == ()


def test_the_dearest_comes_first_and_a_longest_top_gains_length() -> None:
    """Of a slot near the end and one farther in, the gain is told in the goal's own measure."""
    near_end = Defect("near", rectangular_place(Point(902, 200), 4, 400), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(near_end,))
    wish = Wish(("rectangle",), goal=Goal.LENGTH, limits=Limits(width=Span(300, 400)))
    (cost,) = costs(panel, wish)
    longest = math.sqrt(1000**2 + 400**2)
    assert 1000 / 900 - 1 - 0.05 < cost.gain < longest / 900 - 1


def test_a_search_above_the_score_in_hand_proves_the_same() -> None:
    """With a score to beat, a better top is found or the bound says that there is none."""
    hole = Defect("hole", round_place(Point(700, 200), 60), SHOWING)
    panel = Panel(rectangular_outline(1000, 400), 20, defects=(hole,))
    wood = panel.sound_for(Spoils.SHOWING)
    for shape in ("rectangle", "oval", "capsule"):
        freely = answered(wood, Wish((shape,)), shape)
        assert freely.fit is not None
        above = answered(wood, Wish((shape,), beats=freely.fit.score * 1.01), shape)
        assert above.fit is None
        assert above.bound >= freely.fit.score
        below = answered(wood, Wish((shape,), beats=freely.fit.score * 0.97), shape)
        assert below.fit is not None
        assert below.fit.score >= freely.fit.score * 0.97
        assert below.bound >= freely.fit.score * (1 - 1e-9)


@settings(max_examples=20, deadline=None)
@given(
    st.floats(60, 900), st.floats(40, 360), st.floats(5, 60), st.floats(0, 30), st.floats(0, 0.002)
)
def test_wood_with_fewer_corners_lies_between_the_polygons(
    x: float, y: float, radius: float, clear: float, share: float
) -> None:
    """The inner polygon lies in the inner one and the outer polygon holds the outer one."""
    hole = Defect("hole", round_place(Point(x, y), 2 * radius), SHOWING, clear=clear)
    panel = Panel(rectangular_outline(1000, 400, bows=(0, 0, 30, 0)), 20, defects=(hole,))
    wood = panel.sound_for(Spoils.SHOWING, margin=3)
    fewer = coarser(wood, share)
    assert wood.inner.holds(fewer.inner)
    assert fewer.outer.holds(wood.outer)


def test_a_closed_line_of_contact_is_one_run() -> None:
    """A circle cut from a round panel of its own size touches all the way round."""
    ring = round_place(Point(0, 0), 800)
    panel = Panel(Path(ring.segments), 20)
    (contact,) = contacts_of(best(panel, Wish(("circle",))), panel)
    assert contact.name == "the edge"
    assert len(contact.points) == 2
