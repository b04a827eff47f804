"""Edges of the panel that stay: nothing is cut, planed or routed there, and all else is."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from told import text, told

from panelwright.layout.cutting.cut import JigsawCut
from panelwright.layout.cutting.plan import CutPlan, plan_cuts
from panelwright.layout.cutting.profile import EdgeProfile, plan_profile
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc, Line, Segment
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.offcuts.plan import offcuts_of
from panelwright.layout.outlines import (
    PIECE_AS_FOUND,
    Capsule,
    Freeform,
    Outline,
    Rectangle,
    RoundedRectangle,
)
from panelwright.layout.panel import Panel, outline_through, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.panel.named_edges import edge_named
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.edge import profile_words

BENCH = Panel(rectangular_outline(2000, 1000), 26)
SAW = Tools(guide_left=115.0)

LOWER = [(0, 0), (400, -12), (900, 6), (1500, -20), (2200, 4)]
UPPER = [(2200, 610), (1700, 640), (1100, 600), (500, 655), (0, 620)]
SLAB = Panel(outline_through([Point(*p) for p in LOWER + UPPER]), 55, flattened=42.0)

TOPS = st.one_of(
    st.builds(Rectangle, st.floats(900, 1600), st.floats(300, 800)),
    st.builds(Capsule, st.floats(900, 1600), st.floats(300, 800)),
    st.builds(
        lambda length, width, radius: RoundedRectangle.with_radius(length, width, radius),
        st.floats(900, 1600),
        st.floats(300, 800),
        st.floats(20, 140),
    ),
)


def on_edge(outline: Outline, name: str, panel: Panel = BENCH) -> tuple[CutPlan, Path]:
    """Return the cuts of a top whose long side lies in the middle of an edge, and that edge."""
    edge = edge_named(panel, name)
    inwards = edge.direction.left
    centre = edge.start.midpoint(edge.end) + inwards * (outline.width / 2)
    place = Placement(centre, edge.direction.angle)
    datum = choose_datum(panel)
    return plan_cuts(Top(panel, outline, place, kept=(edge.path,)), datum, SAW), edge.path


def between(path: Path, low: float, high: float) -> list[Segment]:
    """Return what of a straight-sided path lies between two values of x."""
    found: list[Segment] = []
    for line in path.segments:
        shares = [(x - line.start.x) / (line.end.x - line.start.x) for x in (low, high)]
        first, last = max(0.0, min(shares)), min(1.0, max(shares))
        if last - first > 1e-9:
            found.append(Line(line.at(first), line.at(last)))
    return found


def piece(
    left: float, right: float, *, back: float | None = None, round_ends: bool = False
) -> CutPlan:
    """Return the cuts of a piece of the slab."""
    lower, upper = edge_named(SLAB, "AB").path, edge_named(SLAB, "CD").path
    below = between(lower, left, right)
    above: list[Segment] = between(upper, left, right)
    if back is not None:
        above = [Line(Point(right, back), Point(left, back))]
    ends: list[Segment] = [Line(below[-1].end, above[0].start), Line(above[-1].end, below[0].start)]
    if round_ends:
        ends = [Arc.from_chord_and_rise(e.start, e.end, e.length / 3) for e in ends]
    path = Path((*below, ends[0], *above, ends[1]))
    kept = (lower,) if back is not None else (lower, upper)
    outline, place = Freeform.of(path, PIECE_AS_FOUND), Freeform.frame_of(path)
    return plan_cuts(Top(SLAB, outline, place, kept=kept), choose_datum(SLAB), SAW)


@settings(max_examples=15, deadline=None)
@given(TOPS, st.sampled_from(["AB", "CD"]))
def test_nothing_is_cut_on_a_kept_edge(outline: Outline, name: str) -> None:
    """No kerf comes near the stretch that is kept, no trim runs along it, and it has one step."""
    cuts, _ = on_edge(outline, name)
    (kept,) = cuts.kept
    assert kept.name == name
    assert not kept.live
    stretch = Region.along(kept.stretch.points(CHORD), 1.9, around=False)
    for kerf in cuts.saw_kerfs:
        assert kerf.meet(stretch).area < 1e-6
    assert len(cuts.trims) + len(cuts.skipped) == 3
    (kept,) = told(cuts, choose_datum(BENCH), title=f"Kept edge {name}")
    assert "no saw, router, plane or profile" in kept.words[0]


@pytest.mark.heavy
@settings(max_examples=5, deadline=None)
@given(TOPS, st.sampled_from(["AB", "CD"]))
def test_the_other_sides_are_freed_and_areas_add_up(outline: Outline, name: str) -> None:
    """Top, kerf, rim and offcuts are the panel; no offcut lies along the kept stretch."""
    cuts, _ = on_edge(outline, name)
    plan = offcuts_of(BENCH, cuts.core, cuts.saw_kerfs)
    assert abs(plan.balance.error) < 2e-6
    assert plan.balance.trimming < 6.0 * cuts.core.length + 600
    stretch = Region.along(cuts.kept[0].stretch.points(CHORD), 1.9, around=False)
    assert all(offcut.piece.meet(stretch).area < 1e-6 for offcut in plan.pieces)
    core = Region.from_rings(cuts.core.points(CHORD, "inside"))
    assert cuts.blank.grown(0.01).holds(core)
    assert all(kerf.meet(core).area < 1e-6 for kerf in cuts.saw_kerfs)


@settings(max_examples=15, deadline=None)
@given(TOPS, st.sampled_from(["AB", "CD"]))
def test_the_rough_line_runs_along_the_kept_edge(outline: Outline, name: str) -> None:
    """It is closed; where it is not that edge it stands its allowance outside the line."""
    cuts, _ = on_edge(outline, name)
    assert cuts.rough.is_closed
    assert cuts.rough.area > cuts.core.area
    core = Region.from_rings(cuts.core.points(CHORD, "outside"))
    cut = [p for path in cuts.drawn(cuts.rough) for s in path.segments for p in (s.at(0.5),)]
    assert cut
    for point in cut:
        assert core.edge_distance(point) == pytest.approx(cuts.allowance, abs=0.01)
    assert len(cuts.drawn(cuts.finish)) == 1


def test_an_edge_that_bows_stays_whole() -> None:
    """A front edge that bows out by 0.8 mm is kept as it is: no kerf comes onto it."""
    panel = Panel(rectangular_outline(2000, 1000, bows=(0.8, 0.0, 0.0, 0.0)), 26)
    cuts, edge = on_edge(Rectangle(1400, 600), "AB", panel)
    assert [round(kept.stretch.length) for kept in cuts.kept] == [1400]
    top = cuts.kept[0].stretch.bounds
    proud = panel.region().minus(Region.from_rings(cuts.core.points(CHORD)))
    band = Region.along(edge.points(0.01), 1.5, around=False).meet(proud)
    beside = Region.from_rings(
        Path.through(
            [
                Point(top.left, -5),
                Point(top.right, -5),
                Point(top.right, 5),
                Point(top.left, 5),
            ],
            closed=True,
        ).points(CHORD)
    )
    assert all(kerf.meet(band).meet(beside).area < 1e-6 for kerf in cuts.saw_kerfs)


def test_a_waney_piece_with_square_ends_takes_two_cuts() -> None:
    """After its rough length and flattening it is cut across twice, and routed at the ends only."""
    cuts = piece(200, 2000)
    assert [trim.kind.value for trim in cuts.trims] == ["to rough length"] * 2 + ["end"] * 2
    assert cuts.skipped == ()
    assert cuts.corner_cuts == ()
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["router"]
    assert [kept.live for kept in cuts.kept] == [True, True]
    lengths = [path.length for path in cuts.drawn(cuts.core)]
    assert sum(lengths) < 1300
    words = text(told(cuts, choose_datum(SLAB)))
    assert "Bark off with a drawknife" in words
    assert "ramp a strip behind the kept edge" in words


def test_a_piece_with_one_kept_edge_is_ripped_along_its_back() -> None:
    """The back is a long edge, sawn straight; the ends are cut across."""
    cuts = piece(200, 2000, back=500.0)
    kinds = sorted(trim.kind.value for trim in cuts.trims)
    assert kinds == ["end", "end", "long edge", "to rough length", "to rough length"]
    assert len(cuts.kept) == 1


@pytest.mark.parametrize("round_ends", [False, True])
def test_a_piece_as_found_is_cut_nowhere_along_its_live_edges(round_ends: bool) -> None:
    """No kerf reaches the live edges within the top, and all areas add up."""
    cuts = piece(500, 1700, round_ends=round_ends)
    core = Region.from_rings(cuts.core.points(CHORD, "inside"))
    assert all(kerf.meet(core).area < 1e-6 for kerf in cuts.saw_kerfs)
    plan = offcuts_of(SLAB, cuts.core, cuts.saw_kerfs)
    assert abs(plan.balance.error) < 1e-6
    for kept in cuts.kept:
        near = Region.along(kept.stretch.points(CHORD), 1.4, around=False)
        assert all(kerf.meet(near).area < 1e-3 for kerf in cuts.saw_kerfs)
    if round_ends:
        jigsaw = cuts.curve_cuts[0]
        assert isinstance(jigsaw, JigsawCut)
        assert len(jigsaw.line.without(jigsaw.kept)) == 2
        assert "in the air past the kept edge" in text(told(cuts, choose_datum(SLAB)))


def test_no_profile_runs_along_a_kept_edge() -> None:
    """The bevel's line is the edge itself where that is kept, and the step says so."""
    edge = edge_named(BENCH, "AB").path
    place = Placement(Point(900, 300))
    wish = EdgeProfile(round_over=4.0, bevel_in=30.0, bevel_up=10.0)
    profile = plan_profile(wish, Top(BENCH, Rectangle(1400, 600), place, kept=(edge,)))
    assert profile.bevel_line is not None
    assert profile.bevel_line.area == pytest.approx(1340 * 570)
    for passage in profile_words(profile, Tape()):
        assert "None of it along the kept edge" in passage.words[0]
    plain = plan_profile(wish, Top(BENCH, Rectangle(1400, 600), place))
    assert not plain.keeps
    assert plain.bevel_line is not None
    assert plain.bevel_line.area == pytest.approx(1340 * 540)


def test_a_kept_edge_of_board_is_not_edged() -> None:
    """The edging goes round all but what is kept."""
    edge = edge_named(BENCH, "AB").path
    place, datum = Placement(Point(900, 300)), choose_datum(BENCH)
    cuts = plan_cuts(Top(BENCH, Capsule(1400, 600), place, kept=(edge,)), datum, SAW)
    assert cuts.edging is None  # solid wood
    assert cuts.kept[0].stretch.length == pytest.approx(800)
    assert math.isclose(sum(p.length for p in cuts.drawn(cuts.finish)), 800 + 600 * math.pi)
