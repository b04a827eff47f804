"""Straight-sided tops: sawn along their own sides, and hollow corners that a saw stops short of."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from told import text, told

from panelwright.layout.cutting.cut import JigsawCut, RouterCut, TrimKind
from panelwright.layout.cutting.plan import CutPlan, plan_cuts
from panelwright.layout.cutting.sides import SHORT_OF_CORNER
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.offcuts.plan import offcuts_of
from panelwright.layout.outlines import Freeform, Outline, RegularPolygon, Superellipse
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.cuts import sawn_words
from panelwright.layout.words.say import Say

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)
SAW = Tools(guide_left=115.0, guide_right=38.0)

DESK = Freeform.through(
    [Point(0, 0), Point(900, 0), Point(900, 400), Point(450, 620), Point(0, 400)]
)
CORNER_DESK = Freeform.through(
    [Point(0, 0), Point(1200, 0), Point(1200, 380), Point(520, 380), Point(520, 700), Point(0, 700)]
)


def plan(outline: Outline, turn: float = 0.0, tools: Tools = SAW, lipping: float = 0.0) -> CutPlan:
    """Return the cuts of a top on a wide board."""
    place = Placement(MIDDLE, turn)
    return plan_cuts(Top(WIDE, outline, place, lipping), choose_datum(WIDE), tools)


@pytest.mark.heavy
@settings(max_examples=12, deadline=None)
@given(strategies.every_outline, strategies.angles)
def test_the_cuts_free_the_top_and_never_touch_it(outline: Outline, turn: float) -> None:
    """No kerf reaches the top, what is left hugs it, and all areas add up to the panel."""
    cuts = plan(outline, turn)
    core = Region.from_rings(cuts.core.points(CHORD, "inside"))
    for kerf in cuts.saw_kerfs:
        assert kerf.meet(core).area < 1e-6
    balance = offcuts_of(WIDE, cuts.core, cuts.saw_kerfs).balance
    assert abs(balance.error) < 1e-6
    assert cuts.blank.area - cuts.core.area < 6.0 * cuts.core.length + 1200
    # saws stay 2 or 3 mm off, and a router takes 12 mm at a corner without a jigsaw
    assert balance.trimming < 6.0 * cuts.core.length + 1200
    assert cuts.blank.grown(0.01).holds(core)


@settings(max_examples=12, deadline=None)
@given(strategies.regular_polygons, strategies.angles, st.sampled_from([0.0, 6.0]))
def test_a_regular_top_is_sawn_along_each_side(
    top: RegularPolygon, turn: float, lipping: float
) -> None:
    """There is a cut for each side, its allowance outside it, and neither corner cut nor jigsaw."""
    cuts = plan(top, turn, lipping=lipping)
    assert len(cuts.trims) == top.sides
    for trim in cuts.trims:
        stands = (trim.start.point - MIDDLE).dot(trim.waste)
        assert stands == pytest.approx(top.across_flats / 2 - lipping + trim.allowance, abs=1e-6)
    turns = sorted((trim.waste.angle % math.tau) for trim in cuts.trims)
    assert np.diff(turns) == pytest.approx(np.full(top.sides - 1, math.tau / top.sides))
    assert cuts.corner_cuts == ()
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["router"]


def test_a_hexagon_leaves_six_pieces() -> None:
    """A hexagon 600 across flats, sawn 2 outside: its blank is the hexagon 604 across flats."""
    cuts = plan(RegularPolygon(6, 600))
    assert cuts.blank.area == pytest.approx(RegularPolygon(6, 604).area)
    assert len(offcuts_of(WIDE, cuts.core, cuts.saw_kerfs).pieces) == 6


def test_a_convex_outline_of_the_makers_own_needs_no_jigsaw() -> None:
    """Five sides take five cuts; those along and across the top are called so, the gable is not."""
    cuts = plan(DESK, tools=Tools(allowance=3.0, router=False))
    kinds = {trim.kind for trim in cuts.trims if trim.kind is not TrimKind.FREEING}
    assert len(cuts.trims) == 5
    assert kinds <= {TrimKind.END, TrimKind.SIDE, TrimKind.EDGE}
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["hand"]
    assert all(trim.allowance == 3.0 for trim in cuts.trims)


def test_two_cuts_stop_short_of_a_hollow_corner() -> None:
    """Both end 5 mm before the two saw lines would meet, and a jigsaw finishes the corner."""
    cuts = plan(CORNER_DESK)
    stopped = [trim for trim in cuts.trims if trim.kind.stops]
    corner = MIDDLE + Point(520 - 600, 380 - 350)
    meet = corner + Point(2.0, 2.0)  # of the two saw lines
    assert [trim.kind for trim in stopped] == [TrimKind.TO_CORNER] * 2
    for trim in stopped:
        assert trim.end.point.distance_to(meet) == pytest.approx(SHORT_OF_CORNER)
        assert trim.fallen == ()
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["jigsaw", "router"]
    assert cuts.curve_cuts[0].allowance == 2.0
    words = text(told(cuts, choose_datum(WIDE)))
    assert "stop 5 short of the hollow corner" in words
    trims = plan(CORNER_DESK, tools=Tools(guide_left=115.0)).trims
    numbers = {trim.label: n for n, trim in enumerate(trims, start=1)}
    sawn = sawn_words(trims, numbers, Say(Tape(), choose_datum(WIDE)))
    other = [p for p in sawn.points if "the other side of the base lies on the kept wood" in p]
    assert len(other) == 1  # only one side of the base is measured
    assert "the round bit stays 2.5 mm out: finish that by hand" in words


def test_stopped_cuts_come_after_those_that_free_the_top() -> None:
    """No cut goes through the panel once one has stopped short in it."""
    kinds = [trim.kind.stops for trim in plan(CORNER_DESK, 0.2).trims]
    assert kinds == sorted(kinds)


@pytest.mark.heavy
@settings(max_examples=8, deadline=None)
@given(strategies.star_rings(), strategies.angles)
def test_no_cut_saws_into_a_hollow_top(ring: tuple[Point, ...], turn: float) -> None:
    """However the corners lie, saw and jigsaw go round them and leave a thin rim."""
    cuts = plan(Freeform.through(ring), turn)
    core = Region.from_rings(cuts.core.points(CHORD, "inside"))
    assert all(kerf.meet(core).area < 1e-6 for kerf in cuts.saw_kerfs)
    balance = offcuts_of(WIDE, cuts.core, cuts.saw_kerfs).balance
    assert abs(balance.error) < 1e-9
    assert balance.trimming < 3.0 * cuts.core.length


def test_an_outline_of_many_points_is_a_curve() -> None:
    """Forty points of a circle are sawn like a curve: to a box, corner cuts, jigsaw, template."""
    ring = Freeform.through(Point.polar(400, k * math.tau / 40) for k in range(40))
    cuts = plan(ring)
    assert len(cuts.trims) == 4
    assert len(cuts.corner_cuts) == 4
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["jigsaw", "router"]
    assert isinstance(cuts.curve_cuts[1], RouterCut)
    assert cuts.curve_cuts[1].template is not None


def test_a_superellipse_is_sawn_like_an_oval() -> None:
    """Box, corner cuts, jigsaw, and a router on a template: there is no radius for a trammel."""
    cuts = plan(Superellipse(1400, 700, 2.5))
    assert len(cuts.trims) == 4
    assert len(cuts.corner_cuts) == 4
    jigsaw, router = cuts.curve_cuts
    assert isinstance(jigsaw, JigsawCut) and isinstance(router, RouterCut)
    assert (jigsaw.radii, router.radii) == ((), ())
    assert router.template is not None
    assert (router.template.length, router.template.width) == pytest.approx((1400, 700), abs=0.01)


@settings(max_examples=8, deadline=None)
@given(st.floats(9.0, 20.0))
def test_relief_cuts_lie_a_thumb_apart_in_the_tight_curve_of_a_superellipse(n: float) -> None:
    """However many arcs draw it, a tight curve is freed by a few cuts, evenly apart along it."""
    cuts = plan(Superellipse(900, 600, n), tools=Tools(router=False, corner_clear=60.0))
    jigsaw = cuts.curve_cuts[0]
    assert isinstance(jigsaw, JigsawCut)
    tight = sum(s.length for s in jigsaw.line.segments if getattr(s, "radius", 1e9) < 43 - 1e-9)
    assert len(jigsaw.relief) <= tight / 20 + 3 * 4
