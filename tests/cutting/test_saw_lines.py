"""Saw lines as they are told: which way pushed, rounded off the top, and ends that are in wood."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from fractions import Fraction

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from told import text, told

from panelwright.layout.cutting.cut import RouterCut, SkipReason, StraightCut, Trim
from panelwright.layout.cutting.plan import Act, CutPlan, plan_cuts
from panelwright.layout.cutting.straight import LEAST_RUN
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
)
from panelwright.layout.panel import (
    Build,
    Face,
    Kind,
    Panel,
    rectangular_outline,
    rectangular_place,
)
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.cuts import ACTS
from panelwright.layout.words.saw_lines import figures_of, saw_line
from panelwright.layout.words.say import Say

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)
SAW = Tools(guide_left=115.0)
CURVED = [Oval(1200, 700), Capsule(1200, 700), RoundedRectangle.with_radius(1200, 700, 90)]
MAYBE = st.one_of(st.none(), st.floats(0, 9))
L_DESK = Freeform.through(
    [Point(0, 0), Point(1200, 0), Point(1200, 380), Point(520, 380), Point(520, 700), Point(0, 700)]
)


def plan(
    outline: Outline, panel: Panel = WIDE, centre: Point = MIDDLE, turn: float = 0.0,
    tools: Tools = SAW,
) -> CutPlan:  # fmt: skip
    """Return the cuts of a top on a panel."""
    return plan_cuts(Top(panel, outline, Placement(centre, turn)), choose_datum(panel), tools)


def sawn(cuts: CutPlan) -> tuple[StraightCut, ...]:
    """Return all straight cuts."""
    return (*cuts.trims, *cuts.corner_cuts)


@settings(max_examples=12, deadline=None)
@given(
    st.sampled_from([Oval(1400, 600), Rectangle(1400, 600), L_DESK]),
    strategies.angles,
    st.sampled_from([Face.UP, Face.DOWN]),
    st.sampled_from([(115.0, None), (None, 115.0), (None, None)]),
)
def test_the_guide_is_on_its_side_as_the_saw_is_pushed(
    outline: Outline, turn: float, face: Face, base: tuple[float | None, float | None]
) -> None:
    """From the first place to the second the kept wood is on the guide's side, as the work lies."""
    tools = Tools(guide_left=base[0], guide_right=base[1], show_face=face)
    for cut in sawn(plan(outline, turn=turn, tools=tools)):
        ahead = cut.end.point - cut.start.point
        kept_left = ahead.cross(-cut.waste) > 0  # seen show face up
        seen_left = kept_left if face is Face.UP else not kept_left
        stops = isinstance(cut, Trim) and cut.kind.stops
        if stops:  # it starts at the edge, whichever side that leaves the kept wood on
            assert cut.guide is None or cut.guide.blade_side == ("left" if seen_left else "right")
        else:
            assert seen_left is (base[1] is None)
        assert (cut.spans[-1][1] - cut.spans[0][0]).dot(ahead) > 0
        if cut.guide is not None:
            assert (cut.guide.end.point - cut.guide.start.point).dot(ahead) > 0


@pytest.mark.parametrize("face", [Face.UP, Face.DOWN])
def test_a_cut_into_a_hollow_corner_starts_at_the_edge(face: Face) -> None:
    """Whichever way the saw is pushed elsewhere, no blade is let into the wood: it ends there."""
    cuts = plan(L_DESK, tools=replace(SAW, show_face=face))
    corner = MIDDLE + Point(520 - 600, 380 - 350)
    stopped = [trim for trim in cuts.trims if trim.kind.stops]
    assert len(stopped) == 2
    for trim in stopped:
        assert trim.end.point.distance_to(corner) < 20 < trim.start.point.distance_to(corner)


@settings(max_examples=20, deadline=None)
@given(
    st.floats(600, 1500), st.floats(300, 590), strategies.angles, st.booleans(),
    st.floats(-0.5, 0.5), st.floats(-0.5, 0.5),
)  # fmt: skip
def test_a_told_saw_line_is_never_nearer_the_top(
    length: float, width: float, turn: float, imperial: bool, dx: float, dy: float
) -> None:
    """Both ends of each line, as they are told, lie on its waste side or on it."""
    tape, datum = Tape(imperial=imperial), choose_datum(WIDE)
    cuts = plan(Oval(length, width), centre=MIDDLE + Point(dx, dy), turn=turn)
    say = Say(tape, datum, mirrored=True)
    step = 25.4 / 16 if imperial else 1.0
    corners = {corner.name: corner.point for corner in datum.corners}
    for cut in cuts.trims:
        line = saw_line(1, cut)
        cells = [cell for cell in figures_of(line, line.ends, say) if cell.figure]
        for cell, end in zip(cells if len(cells) > 1 else cells * 2, line.ends, strict=True):
            along, square = end.along, end.square
            if cell.axis == "along":
                along = _mm(cell.figure, imperial)
            elif cell.axis == "square":
                square = _mm(cell.figure, imperial)
            elif cell.axis == "both":
                along, square = (_mm(part, imperial) for part in cell.figure.split(" | "))
            else:
                corner = corners[cell.axis]
                at = corner + (end.point - corner).unit() * _mm(cell.figure, imperial)
                told = datum.coordinates(at)
                along, square = told.along, told.square
            off = (datum.at(along, square) - cut.start.point).dot(cut.waste)
            assert -0.02 * step <= off <= math.sqrt(2) * step + 1e-3


def _mm(words: str, imperial: bool) -> float:
    found = re.match(r"([−▼◄]?)([\d /]+)", words.strip())
    assert found is not None
    value = float(sum(Fraction(part) for part in found[2].split()))
    return (-1 if found[1] else 1) * value * (25.4 if imperial else 1.0)


@pytest.mark.parametrize(
    "panel",
    [
        Panel(rectangular_outline(1981, 838, bows=(-12.0, 0.0, -12.0, 0.0)), 20),
        Panel(rectangular_outline(1600, 700, radii=(120.0, 120.0, 120.0, 120.0)), 20),
        Panel(rectangular_outline(1500, 640, clips=(90.0, 90.0, 0.0, 0.0)), 20),
    ],
)
def test_corner_cuts_are_found_in_the_wood_that_is_there(panel: Panel) -> None:
    """Their ends lie in the blank, outside the curve by what is left, and a leg is no air."""
    bounds = panel.boundary.bounds
    cuts = plan(Oval(bounds.width - 60, bounds.height - 60), panel, bounds.middle)
    wood = Region.of(panel.boundary, "outside").grown(0.01)
    core = Region.of(cuts.core)
    assert cuts.corner_cuts
    for cut in cuts.corner_cuts:
        for end in (cut.start, cut.end):
            assert wood.holds_point(end.point)
            assert choose_datum(panel).at(end.along, end.square).distance_to(end.point) < 1e-6
        middle = cut.start.point.midpoint(cut.end.point)
        assert core.edge_distance(middle) >= cut.allowance - 1e-6
        if cut.leg is not None:
            corner = middle + cut.waste * (cut.start.point.distance_to(cut.end.point) / 2)
            assert wood.holds_point(corner)


@settings(max_examples=12, deadline=None)
@given(st.sampled_from(CURVED), st.floats(12, 60), MAYBE, MAYBE)
def test_no_corner_cut_runs_inside_the_rough_line(
    outline: Outline, thickness: float, curve: float | None, corner: float | None
) -> None:
    """A corner cut leaves what the jigsaw leaves or more; unasked all leave the same."""
    tools = Tools(curve_allowance=curve, corner_clear=corner)
    cuts = plan(outline, replace(WIDE, thickness=thickness), tools=tools)
    assert all(cut.allowance >= cuts.allowance - 1e-9 for cut in cuts.corner_cuts)
    if corner is None:
        assert {cut.allowance for cut in sawn(cuts)} == {cuts.allowance}


@pytest.mark.parametrize(("radius", "handsaw"), [(60.0, True), (300.0, False)])
def test_a_short_corner_cut_takes_a_handsaw(radius: float, handsaw: bool) -> None:
    """One that is shorter than a saw's base has no guide, and is told so."""
    cuts = plan(RoundedRectangle.with_radius(1400, 700, radius))
    assert len(cuts.corner_cuts) == 4
    for cut in cuts.corner_cuts:
        assert cut.handsaw is handsaw is (cut.start.point.distance_to(cut.end.point) < LEAST_RUN)
        assert (cut.guide is None) is handsaw
    words = text(told(cuts, choose_datum(WIDE), title="Cut off the corners"))
    assert ("with a handsaw, held upright" in words) is handsaw


def test_a_sliver_beside_a_curve_is_left_to_the_jigsaw() -> None:
    """Along an oval a cut that takes off 5 or less is not made; along a rectangle it is."""
    panel = Panel(rectangular_outline(1600, 610.0), 20)  # 5 beyond either side: 3 left, 2.4 kerf
    for spare, made in ((10.0, False), (22.0, True)):
        on = replace(panel, boundary=rectangular_outline(1600, 600 + spare))
        cuts = plan(Oval(1400, 600), on, Point(800, 300 + spare / 2))
        assert bool([t for t in cuts.trims if abs(t.waste.y) > 0.5]) is made
    wider = replace(panel, boundary=rectangular_outline(1600, 618.0))
    cuts = plan(Oval(1400, 600), wider, Point(800, 309))
    assert {s.reason for s in cuts.skipped} == {SkipReason.TO_JIGSAW}


@pytest.mark.parametrize(("beside", "said"), [(1.0, True), (15.0, True), (25.0, False)])
def test_a_thin_wall_beside_a_hole_is_told(beside: float, said: bool) -> None:
    """A piece that falls with a wall below 20 beside a cut-out breaks there, and that is said."""
    kerf_ends = 1500 + 2.0 + 2.4
    hole = rectangular_place(Point(kerf_ends + beside + 200, 350), 400, 300)
    panel = Panel(rectangular_outline(2100, 700), 28, cut_outs=(hole,))
    cuts = plan(Rectangle(1400, 640), panel, Point(800, 350))
    (trim,) = [t for t in cuts.trims if t.waste.x > 0.5]
    assert trim.wall == (pytest.approx(beside, abs=0.01) if said else None)
    assert (
        "breaks there" in text(told(cuts, choose_datum(panel), title=f"Saw line {trim.label[-1]}"))
    ) is said


@pytest.mark.parametrize(
    "tools", [Tools(), Tools(router_base=150.0), Tools(router_base=150.0, bit=20.0)]
)
@pytest.mark.parametrize("outline", [Rectangle(1400, 600), Capsule(1400, 600)])
def test_straight_sides_are_routed_along_a_straightedge(outline: Outline, tools: Tools) -> None:
    """It stands inside the line by half the base less half the bit; unmeasured it says how."""
    cuts = plan(outline, tools=tools)
    (router,) = [cut for cut in cuts.curve_cuts if isinstance(cut, RouterCut)]
    assert router.straights
    base = tools.router_base
    assert router.straightedge == (None if base is None else (base - tools.bit) / 2)
    words = text(told(cuts, choose_datum(WIDE), title="Rout to"))
    assert "along a straightedge" in words
    assert ("half the width of the router's base" in words) is (base is None)


@pytest.mark.parametrize(
    ("radius", "base", "swung"), [(90, None, True), (80, None, False), (80, 160.0, True)]
)
def test_no_pin_under_the_routers_base(radius: float, base: float | None, swung: bool) -> None:
    """A radius below half the base less half the bit is not swung: there a template is followed."""
    cuts = plan(Circle(2 * radius), tools=Tools(router_base=base))
    (router,) = [cut for cut in cuts.curve_cuts if isinstance(cut, RouterCut)]
    assert bool(router.radii) is swung
    assert (router.template is None) is swung


@settings(max_examples=20, deadline=None)
@given(st.floats(math.radians(25), math.radians(150)), st.floats(6.0, 30.0))
def test_a_round_bit_stays_out_of_a_hollow_corner(turn: float, bit: float) -> None:
    """As far as the middle of a disk that touches both sides, less half of its diameter."""
    far, half = 600.0, (math.pi - turn) / 2
    notch = [Point.polar(far, half), Point(0, 0), Point.polar(far, -half)]
    left = [Point(-400, -900), Point(-400, 900)]
    outline = Freeform.through([notch[2], *reversed(notch[:2]), *left[::-1]])
    cuts = plan(outline, tools=Tools(bit=bit))
    (router,) = [cut for cut in cuts.curve_cuts if isinstance(cut, RouterCut)]
    centre = bit / 2 / math.sin(half)
    assert router.stays_out == pytest.approx(centre - bit / 2, rel=1e-6)


@pytest.mark.parametrize("face", [Face.UP, Face.DOWN])
def test_a_trammel_is_not_turned_over(face: Face) -> None:
    """Round a solid circle the work stays as marked: two quarters run downhill, two up lightly."""
    solid = replace(WIDE, build=Build(Kind.SOLID))
    cuts = plan(Circle(900), solid, tools=replace(SAW, show_face=face))
    up = face is Face.UP
    assert [feed.show_face_up for feed in cuts.feeds] == [up] * 4
    assert sum(feed.uphill for feed in cuts.feeds) == 2
    marks = {"E1": Point(-1, 0), "E2": Point(1, 0), "S1": Point(0, -1), "S2": Point(0, 1)}
    for feed in cuts.feeds:
        assert (marks[feed.start].cross(marks[feed.end]) > 0) is up
        assert feed.end.startswith("S") is feed.uphill
    assert "the pin's holes are in that face" in text(
        told(cuts, choose_datum(solid), title="Rout to")
    )


def test_every_type_of_act_has_its_words() -> None:
    """No act falls through to what has no words."""
    for kind in Act.__args__:
        assert kind in ACTS, kind


def test_a_lipping_of_an_oval_has_no_joint_on_a_straight() -> None:
    """Only a top with straight sides is told to put its joints there."""
    board = replace(WIDE, build=Build(Kind.MDF))
    for outline, where in (
        (Oval(1400, 700), "one scarfed joint"),
        (Capsule(1400, 700), "on the straights"),
    ):
        top = Top(board, outline, Placement(MIDDLE), 6.0)
        datum: Datum = choose_datum(board)
        assert where in text(told(plan_cuts(top, datum, SAW), datum, title="Lipping"))
