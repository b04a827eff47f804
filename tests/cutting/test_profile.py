"""The profile of the edge: what is left of it, and where nothing may be fixed."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import off_path
from worked_panels import BENCH_TOP, Worked

from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.profile import EdgeProfile, ProfilePlan, plan_profile
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Outline, Rectangle
from panelwright.layout.panel import Build, Kind, Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.edge import profile_words

PANEL = Panel(rectangular_outline(9000, 7000), 26)


def profile(wish: EdgeProfile, job: Worked = BENCH_TOP) -> ProfilePlan:
    """Return the edge of a worked top."""
    return plan_profile(wish, job.top)


def test_the_edge_of_the_lab_bench() -> None:
    """Rounded by 3 above, bevelled 30 in and 12 up, 14 is left and nothing is fixed within 40."""
    edge = profile(EdgeProfile(3.0, 30.0, 12.0))
    assert (edge.edge_left, edge.upright, edge.fixings_inside) == (14.0, 11.0, 40.0)
    assert math.degrees(edge.bevel_angle) == pytest.approx(21.80, abs=0.005)
    told = list(profile_words(edge, Tape()))
    assert [passage.title for passage in told] == [
        "Round over the edge",
        "Bevel under the edge",
        "Break the arris",
    ]
    assert "14 of the edge is left" in told[1].words[0]
    assert "Nothing is fixed within 40" in told[1].words[0]


@pytest.mark.parametrize(("kind", "inside"), [(Kind.SOLID, 25.0), (Kind.PLYWOOD, 40.0)])
def test_a_square_edge(kind: Kind, inside: float) -> None:
    """Without a bevel fixings keep what the wood asks for, and only the arris is broken."""
    panel = Panel(rectangular_outline(2000, 800), 20, build=Build(kind))
    edge = plan_profile(EdgeProfile(), Top(panel, Capsule(1400, 600), Placement()))
    assert (edge.fixings_inside, edge.edge_left, edge.bevel_line) == (inside, 20.0, None)
    assert [passage.title for passage in profile_words(edge, Tape())] == ["Break the arris"]


@pytest.mark.parametrize("kind", Kind)
@pytest.mark.parametrize(("lipping", "solid"), [(0.0, False), (2.0, False), (3.0, True)])
def test_an_arris_is_taken_off_by_build(kind: Kind, lipping: float, solid: bool) -> None:
    """Solid wood by 2, veneer and board eased by 0.5 with abrasive; a lipping is solid (practice).

    Common practice: a plane set to a veneered arris lifts the veneer.
    """
    panel = Panel(rectangular_outline(2000, 800), 20, build=Build(kind))
    edge = plan_profile(EdgeProfile(), Top(panel, Capsule(1400, 600), Placement(), lipping))
    of_wood = solid or kind in (Kind.SOLID, Kind.FRAMED)
    assert (edge.arris.size, edge.arris.by_abrasive) == ((2.0, False) if of_wood else (0.5, True))
    (told,) = profile_words(edge, Tape())
    assert ("abrasive only" in told.words[0]) is not of_wood


@pytest.mark.parametrize(
    ("radius", "above"), [(0.0, True), (1.9, True), (2.0, False), (3.0, False)]
)
def test_a_round_over_leaves_no_upper_arris(radius: float, above: bool) -> None:
    """Where 2 or more are rounded there is nothing sharp left above to break."""
    edge = profile(EdgeProfile(radius))
    assert edge.arris.above is above
    *_, told = profile_words(edge, Tape())
    assert ("every arris" in told.words[0]) is above


def test_a_kept_factory_edge_is_left_alone() -> None:
    """Neither profiled nor broken: its own edging would come off."""
    board = Panel(rectangular_outline(1400, 700), 22, build=Build(Kind.MDF))
    top = Top(board, Rectangle(1400, 600), Placement(Point(700, 300)))
    cuts = plan_cuts(top, choose_datum(board), Tools())
    assert cuts.edging is not None and cuts.edging.kept > 0
    kept = plan_profile(EdgeProfile(2.0, 20.0, 5.0), top, edging=cuts.edging)
    assert kept.keeps
    for told in profile_words(kept, Tape()):
        assert "None of it along the kept edge" in told.words[0]
    assert not plan_profile(EdgeProfile(), BENCH_TOP.top).keeps


@settings(max_examples=15)
@given(strategies.every_outline, strategies.angles, st.floats(2.0, 30.0))
def test_the_bevel_starts_on_the_true_parallel(
    outline: Outline, turn: float, inwards: float
) -> None:
    """Every point of its line lies its distance from the edge, for whatever outline."""
    if outline.width <= 2.5 * inwards:
        return
    edge = plan_profile(
        EdgeProfile(bevel_in=inwards, bevel_up=5.0),
        Top(PANEL, outline, Placement(Point(9, 7), turn)),
    )
    assert edge.bevel_line is not None
    finish = outline.path().placed(Placement(Point(9, 7), turn))
    far = off_path(edge.bevel_line.points(0.005), finish)
    assert np.all(far >= inwards - 0.01)
    assert np.median(far) == pytest.approx(inwards, abs=0.01)


@given(st.floats(0.0, 30.0), st.floats(1.0, 60.0), st.floats(1.0, 30.0))
def test_an_edge_is_left_or_it_is_refused(round_over: float, inwards: float, up: float) -> None:
    """Where bevel and round-over take the whole edge that is said; else they add up to it."""
    wish = EdgeProfile(round_over, inwards, up)
    if round_over + up >= 26.0:
        with pytest.raises(LayoutError, match="leave no edge"):
            profile(wish)
        return
    edge = profile(wish)
    assert edge.upright + round_over + up == pytest.approx(26.0)
    assert edge.fixings_inside == max(25.0, inwards + 10.0)


def test_a_leg_over_the_bevel_is_named() -> None:
    """A leg that stands nearer to the edge than fixings may is told by its number."""
    wish = EdgeProfile(bevel_in=30.0, bevel_up=12.0)
    crowded = plan_profile(wish, BENCH_TOP.top, overhangs=(60.0, 39.0, 39.99))
    assert crowded.crowded == (2,)
    bevel = next(p for p in profile_words(crowded, Tape()) if p.title.startswith("Bevel"))
    assert bevel.warnings == ("Leg 2 stands nearer to the edge than that: move it inwards.",)
    assert plan_profile(EdgeProfile(), BENCH_TOP.top, overhangs=(60.0, 39.0)).crowded == ()


def test_a_bevel_past_the_lipping_lays_the_core_bare() -> None:
    """Only board has a core to lay bare, and only where the bevel is wider than the lipping."""
    board = Panel(rectangular_outline(2000, 800), 26, build=Build(Kind.PARTICLEBOARD))
    wish, outline = EdgeProfile(bevel_in=5.0, bevel_up=4.0), Capsule(1400, 600)
    for lipping, bare in ((3.0, True), (6.0, False)):
        edge = plan_profile(wish, Top(board, outline, Placement(), lipping))
        assert edge.core_bare is bare
        assert ("bare" in next(profile_words(edge, Tape())).words[0]) is bare
    assert not profile(wish).core_bare


def test_a_bevel_that_meets_itself() -> None:
    """Bevelled past its middle from both sides, a top has nothing flat left underneath."""
    with pytest.raises(LayoutError, match="nothing flat under a top 600 mm wide"):
        profile(EdgeProfile(bevel_in=310.0, bevel_up=12.0))


@pytest.mark.parametrize("lengths", [(-1.0, 0.0, 0.0), (0.0, 30.0, 0.0), (0.0, 0.0, 12.0)])
def test_profiles_that_are_none(lengths: tuple[float, float, float]) -> None:
    """A length below 0 and half a bevel are refused."""
    with pytest.raises(LayoutError):
        EdgeProfile(*lengths)
