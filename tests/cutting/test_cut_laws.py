"""Cuts: laws that hold for any top on any panel, and the limits of what a saw may do."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from told import told

from panelwright.layout.cutting.cut import HandCut, JigsawCut, SkipReason
from panelwright.layout.cutting.plan import CutPlan, plan_cuts
from panelwright.layout.cutting.sawn import SawLine, strip_beyond
from panelwright.layout.cutting.tools import Stroke, Tools
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Line
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    DEnd,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
)
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)
SAW = Tools(guide_left=115.0, guide_right=38.0)


def plan(
    outline: Outline,
    panel: Panel = WIDE,
    centre: Point = MIDDLE,
    turn: float = 0.0,
    tools: Tools = SAW,
    lipping: float = 0.0,
) -> CutPlan:
    """Return the cuts of a top on a panel."""
    datum = choose_datum(panel)
    return plan_cuts(Top(panel, outline, Placement(centre, turn), lipping), datum, tools)


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles, st.sampled_from([0.0, 1.5]))
def test_no_saw_touches_the_core(outline: Outline, turn: float, lipping: float) -> None:
    """No kerf reaches the line that is kept, and the blank holds all of it."""
    cuts = plan(outline, turn=turn, lipping=lipping)
    core = Region.from_rings(cuts.core.points(CHORD, "inside"))
    assert cuts.blank.grown(0.01).holds(core)
    for kerf in cuts.saw_kerfs:
        assert kerf.meet(core).area < 1e-6


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles)
def test_the_saw_line_stands_its_allowance_outside(outline: Outline, turn: float) -> None:
    """Each saw line stands exactly its allowance outside the farthest reach of the core.

    One that stops in a hollow corner stands so outside a side, for past it the core reaches on.
    """
    sides = [s for s in outline.path().placed(Placement(turn=turn)).segments if isinstance(s, Line)]
    for trim in plan(outline, turn=turn).trims:
        reach = outline.support(trim.waste.angle - turn)
        stands = (trim.start.point - MIDDLE).dot(trim.waste)
        if trim.kind.stops:
            along = [
                s.start.dot(trim.waste)
                for s in sides
                if trim.waste.dot(s.direction.left) < -1 + 1e-9
            ]
            assert min(abs(stands - trim.allowance - side) for side in along) < 1e-6
        else:
            assert stands == pytest.approx(reach + trim.allowance, abs=1e-6)
        assert (trim.end.point - MIDDLE).dot(trim.waste) == pytest.approx(stands, abs=1e-6)


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles)
def test_the_guide_stands_on_the_kept_wood(outline: Outline, turn: float) -> None:
    """The guide stands its offset from the saw line, away from the waste.

    It is on the wider side of the base, unless the saw comes from the edge to a hollow corner.
    """
    for trim in plan(outline, turn=turn).trims:
        assert trim.guide is not None
        side = trim.guide.blade_side
        assert side == "left" or trim.kind.stops
        for end in (trim.guide.start, trim.guide.end):
            off = (trim.start.point - end.point).dot(trim.waste)
            assert off == pytest.approx({"left": 115.0, "right": 38.0}[side], abs=1e-6)


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles)
def test_a_corner_cut_clears_the_curve(outline: Outline, turn: float) -> None:
    """It is square to its waste at 45° and stands outside the core by what it says."""
    for cut in plan(outline, turn=turn).corner_cuts:
        reach = outline.support(cut.waste.angle - turn)
        for end in (cut.start, cut.end):
            off = (end.point - MIDDLE).dot(cut.waste)
            assert off == pytest.approx(reach + cut.allowance, abs=1e-6)


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles)
def test_a_corner_cut_starts_its_leg_from_the_corner(outline: Outline, turn: float) -> None:
    """From the crossing of the saw lines that its ends lie on it starts its leg along both."""
    cuts = plan(outline, turn=turn)
    for cut in cuts.corner_cuts:
        if cut.leg is None:
            assert isinstance(outline, Freeform)  # some of its sides are sawn slantwise
            continue
        one, other = (
            next(t for t in cuts.trims if abs((end.point - t.start.point).dot(t.waste)) < 1e-6)
            for end in (cut.start, cut.end)
        )
        assert abs(one.waste.dot(other.waste)) < 1e-6
        corner = MIDDLE
        for trim in (one, other):
            corner = corner + trim.waste * (trim.start.point - MIDDLE).dot(trim.waste)
        assert cut.leg == pytest.approx(corner.distance_to(cut.start.point), abs=1e-6)
        assert cut.leg == pytest.approx(corner.distance_to(cut.end.point), abs=1e-6)


def test_what_falls_and_what_stays_make_the_panel() -> None:
    """Blank, dust and all that falls off add up to the panel."""
    cuts = plan(Capsule(1400, 600), turn=0.3)
    fallen = [p for cut in (*cuts.trims, *cuts.corner_cuts) for p in cut.fallen]
    held = WIDE.region()
    dust = 0.0
    for kerf in cuts.saw_kerfs[: len(cuts.trims) + len(cuts.corner_cuts)]:
        dust += held.meet(kerf).area
        held = held.minus(kerf)
        held = max(held.pieces, key=lambda p: p.holds_point(MIDDLE))
    assert held.area + dust + sum(p.area for p in fallen) == pytest.approx(WIDE.area, rel=1e-9)


@pytest.mark.parametrize(
    ("spare", "sawn"),
    [(0.0, False), (3.0, False), (7.3, False), (7.5, True), (40.0, True)],
)
def test_no_thin_trim(spare: float, sawn: bool) -> None:
    """A side is sawn only if the kerf of 2.4 and 3 mm lie outside the saw line 2 mm off."""
    panel = Panel(rectangular_outline(1600, 600 + spare), 20)
    cuts = plan(Rectangle(1400, 600), panel, Point(800, 300))
    up = [t for t in cuts.trims if t.waste.y > 0.5]
    assert bool(up) is sawn
    reasons = [s.reason for s in cuts.skipped if s.waste.y > 0.5]
    if not sawn:
        assert reasons == [SkipReason.TOO_THIN if spare else SkipReason.KEPT]
        limits = [(c.who, c.limit) for c in cuts.concerns if c.who == ("CD",)]
        assert limits == ([(("CD",), pytest.approx(7.4))] if spare else [])


def test_a_kept_edge_needs_no_router() -> None:
    """The lower edge of a top that lies on the panel's edge is kept, and that is said."""
    panel = Panel(rectangular_outline(1600, 700), 20)
    cuts = plan(Rectangle(1400, 600), panel, Point(800, 300))
    (kept,) = cuts.skipped
    assert (round(kept.waste.y), kept.strip) == (-1, pytest.approx(0.0, abs=0.01))


def test_without_a_router_the_strip_is_planed() -> None:
    """Where there is no router, what the jigsaw leaves is planed off."""
    tools = replace(SAW, router=False)
    panel = Panel(rectangular_outline(1600, 603), 20)
    cuts = plan(Capsule(1400, 600), panel, Point(800, 300), tools=tools)
    assert [type(c) for c in cuts.curve_cuts] == [JigsawCut, HandCut]
    assert cuts.curve_cuts[1].most_waste == cuts.curve_cuts[0].allowance


def test_a_saw_that_was_not_measured_has_no_guide() -> None:
    """Without a measured offset only the saw line is given, and the step says how to measure."""
    cuts = plan(Rectangle(1400, 600), tools=Tools())
    assert all(trim.guide is None for trim in cuts.trims)
    assert "test cut" in told(cuts, choose_datum(WIDE))[0].words[0]


@pytest.mark.parametrize(("left", "right"), [(115.0, None), (38.0, 115.0), (None, 115.0)])
def test_the_wider_side_of_the_base_is_used(left: float | None, right: float | None) -> None:
    """The guide stands by the wider measured side of the base."""
    tools = Tools(guide_left=left, guide_right=right)
    guide = plan(Rectangle(1400, 600), tools=tools).trims[0].guide
    assert guide is not None
    assert guide.offset == 115.0
    assert guide.blade_side == ("left" if left == 115.0 else "right")


def test_a_jigsaw_goes_round_what_no_saw_may_cross() -> None:
    """A tangent line or corner cut of an oval that a lock pocket lies in is not sawn."""
    panel, middle = Panel(rectangular_outline(1700, 800), 20), Point(850, 400)
    in_line = Defect("lock", rectangular_place(Point(1350, 705), 90, 60), frozenset(Spoils))
    cuts = plan(Oval(1400, 600), panel.with_defect(in_line), middle)
    (skipped,) = cuts.skipped
    assert (skipped.reason, skipped.in_the_way) == (SkipReason.IN_THE_WAY, ("lock",))
    assert len(cuts.trims) == 3
    in_corner = Defect("lock", round_place(Point(5100, 3669), 20), frozenset({Spoils.CUTTING}))
    assert len(plan(Oval(1400, 600), WIDE.with_defect(in_corner)).corner_cuts) == 3


@pytest.mark.parametrize(
    "outline", [Capsule(1200, 600), Oval(1200, 600), DEnd.of_size(1200, 600)], ids=lambda o: o.name
)
def test_a_cut_that_frees_much_is_made_whatever_lies_in_its_line(outline: Outline) -> None:
    """A jigsaw would part the door beside a lock all the same, with all of it hanging on."""
    panel, middle = Panel(rectangular_outline(2000, 640), 30), Point(620, 320)
    across = Defect("lock", rectangular_place(Point(1222, 40), 90, 60), frozenset(Spoils))
    cuts = plan(outline, panel.with_defect(across), middle)
    (freeing,) = [trim for trim in cuts.trims if trim.waste.x > 0.5]
    assert freeing.widest > 700
    short = Panel(rectangular_outline(1300, 640), 30).with_defect(across)
    (skipped,) = [s for s in plan(outline, short, middle).skipped if s.waste.x > 0.5]
    assert skipped.reason is SkipReason.IN_THE_WAY


def test_a_cut_out_interrupts_the_cut() -> None:
    """Where a cut-out lies on a saw line, the saw is in wood on both sides of it."""
    hole = rectangular_place(Point(4500 - 702, 3500), 100, 200)
    cuts = plan(Rectangle(1400, 600), replace(WIDE, cut_outs=(hole,)))
    (across,) = [t for t in cuts.trims if t.waste.x < -0.5]
    assert len(across.spans) == 2
    assert across.spans[0][1].distance_to(across.spans[1][0]) == pytest.approx(200.0)


def test_thick_wood_is_left_fuller() -> None:
    """Over 38 mm the jigsaw leaves 5 in place of 3 and takes rough waste only."""
    for thickness, allowance in ((38, 3.0), (39, 5.0)):
        cuts = plan(Capsule(1400, 600), replace(WIDE, thickness=float(thickness)))
        jigsaw = cuts.curve_cuts[0]
        assert isinstance(jigsaw, JigsawCut)
        assert (jigsaw.allowance, cuts.allowance) == (allowance, allowance)
        assert jigsaw.thick is (thickness > 38)
        sawn = (*cuts.trims, *cuts.corner_cuts)
        assert {cut.allowance for cut in sawn} == {allowance}


def test_only_what_is_flattened_is_cut_to_rough_length() -> None:
    """A bowed panel gets the first rip first; one that is flattened its rough length before."""
    bowed = rectangular_outline(1981, 838, bows=(8.0, 0.0, 8.0, 0.0))
    kinds = []
    for flattened in (None, 22.0):
        panel = Panel(bowed, 25, flattened=flattened)
        cuts = plan(Rectangle(1700, 700), panel, Point(990, 419))
        kinds.append([t.kind.name for t in cuts.trims])
    assert kinds[0] == ["FIRST_RIP", "END", "END", "SIDE"]
    assert kinds[1] == ["ROUGH", "ROUGH", *kinds[0]]
    nearly = plan(Rectangle(1920, 700), Panel(bowed, 25, flattened=22.0), Point(990, 419))
    assert "ROUGH" not in {trim.kind.name for trim in nearly.trims}  # 20 mm shorter is no shorter


def test_the_largest_clean_piece_comes_off_whole() -> None:
    """Of two cuts that free much wood, the one whose offcut is cleaner goes first and is whole."""
    board = Panel(rectangular_outline(2000, 1200), 20)
    outline, centre = Rectangle(1000, 600), Point(510, 310)
    plain = plan(outline, board, centre)
    assert [trim.waste.x > 0.5 for trim in plain.trims[:2]] == [True, False]
    assert sum(p.area for p in plain.trims[0].fallen) == pytest.approx((990 - 4.4) * 1200)
    stain = Defect("stain", rectangular_place(Point(1500, 600), 700, 1000), frozenset(Spoils))
    stained = plan(outline, board.with_defect(stain), centre)
    assert [trim.waste.y > 0.5 for trim in stained.trims[:2]] == [True, False]
    assert sum(p.area for p in stained.trims[0].fallen) == pytest.approx(2000 * (590 - 4.4))


@given(st.floats(1, 400), st.floats(1, 400))
def test_a_tapered_strip(one: float, other: float) -> None:
    """The strip beyond a line along a slanting edge is as wide as at its two ends."""
    corners = [Point(0, 0), Point(1000, 0), Point(1000, 500 + other), Point(0, 500 + one)]
    wood = Region.from_rings(np.array([(p.x, p.y) for p in corners]))
    strip = strip_beyond(wood, SawLine(Point(500, 500), Point(0, 1)))
    slope = abs(one - other) / 1000
    assert strip.widest == pytest.approx(max(one, other), abs=slope + 1e-6)
    assert strip.narrowest == pytest.approx(min(one, other), abs=slope + 1e-6)


def test_a_circle_is_boxed_along_the_datum() -> None:
    """However its placement is turned, a circle's cuts run square to the datum."""
    for trim in plan(Circle(800), turn=0.4).trims:
        assert min(abs(trim.waste.x), abs(trim.waste.y)) < 1e-12


@pytest.mark.parametrize(
    ("outline", "tools"),
    [
        (Rectangle(1400, 600), ["router"]),
        (RoundedRectangle.with_radius(1400, 600, 15), ["router"]),
        (Capsule(1400, 600), ["jigsaw", "router"]),
        (Oval(1400, 600), ["jigsaw", "router"]),
        (Circle(900), ["jigsaw", "router"]),
    ],
)
def test_which_tool_takes_the_curve(outline: Outline, tools: list[str]) -> None:
    """A jigsaw goes only where more stands outside the line than a router takes at once."""
    cuts = plan(outline)
    assert [cut.tool.value for cut in cuts.curve_cuts] == tools
    assert all(cut.most_waste >= 0 for cut in cuts.curve_cuts)


@pytest.mark.parametrize("name", ["kerf", "guide_left", "allowance", "bit", "below"])
def test_tools_of_negative_size_are_refused(name: str) -> None:
    """A tool with a length below 0 is refused, and its name is said."""
    with pytest.raises(LayoutError, match=name):
        Tools(**{name: -1.0})


def test_string_that_gives_is_refused() -> None:
    """A string that gives 5 % draws no oval."""
    with pytest.raises(LayoutError, match="below 5 %"):
        Tools(string_stretch=0.05)


@pytest.mark.parametrize(
    ("outline", "relief"),
    [(RoundedRectangle.with_radius(900, 600, 30), True), (Capsule(900, 600), False)],
)
def test_a_tight_curve_wants_relief_cuts(outline: Outline, relief: bool) -> None:
    """Without a router a jigsaw goes round a corner below 40 mm by relief cuts."""
    cuts = plan(outline, tools=replace(SAW, router=False))
    jigsaw = cuts.curve_cuts[0]
    assert isinstance(jigsaw, JigsawCut)
    assert bool(jigsaw.relief) is relief


@given(st.floats(0.05, 0.95), st.floats(10.0, 80.0))
def test_a_peak_between_two_stations_is_seen(share: float, high: float) -> None:
    """However narrow, the highest place of an edge is what falls off at its widest."""
    peak = 1000 * share
    ring = [
        [0, 0],
        [1000, 0],
        [1000, 50],
        [peak + 1, 50],
        [peak, 50 + high],
        [peak - 1, 50],
        [0, 50],
    ]
    strip = strip_beyond(
        Region.from_rings(np.array(ring, float)), SawLine(Point(5, 10), Point(0, 1))
    )
    assert strip.widest == pytest.approx(40 + high)


def test_wood_beyond_a_gap_does_not_count() -> None:
    """A strip ends at the first gap: what lies past it does not hang on the blade's side."""
    slot = Region.from_rings(np.array([[-9.0, 20.0], [109.0, 20.0], [109.0, 30.0], [-9.0, 30.0]]))
    wood = Region.from_rings(np.array([[0.0, 0.0], [100.0, 0.0], [100.0, 70.0], [0.0, 70.0]]))
    strip = strip_beyond(wood.minus(slot), SawLine(Point(50, 5), Point(0, 1)))
    assert (strip.narrowest, strip.widest) == pytest.approx((15.0, 15.0))


@pytest.mark.parametrize(("share", "first"), [(0.14, "END"), (0.17, "FREEING"), (0.28, "FREEING")])
def test_what_frees_a_seventh_of_the_panel_comes_first(share: float, first: str) -> None:
    """A side that takes off 15 % or more is cut before any other (common practice)."""
    off = 700 * share
    panel = Panel(rectangular_outline(2000, 700), 20)
    top = Rectangle(1900, 700 - off - SAW.left_by(Stroke.SIDE, 20, curved=False) - 30)
    cuts = plan(top, panel, Point(1000, 30 + top.width / 2))
    assert cuts.trims[0].kind.name == first


@pytest.mark.parametrize(
    ("outside", "depth"), [(0.0, 10.0), (5.0 + 1e-6, 10.0), (5.1, 6.0), (12.0, 6.0)]
)
def test_a_router_goes_deeper_where_little_is_left(outside: float, depth: float) -> None:
    """Up to 5 mm it cleans up 10 deep at once, more is cut 6 at a time (common practice)."""
    assert SAW.depth_of_pass(outside) == depth
    assert replace(SAW, pass_depth=4.0).depth_of_pass(outside) == 4.0
