"""The curve: template and trammel, relief cuts, passes, and what is left of the wood by then."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import off_path
from told import text, told
from worked_panels import BENCH_TOP, DOOR, WORKTOP

from panelwright.layout.cutting.cut import CurveCut, JigsawCut, RouterCut, StraightCut, SwungRadius
from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.router import TemplateGuide
from panelwright.layout.cutting.sawn import extent_of, line_of
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.errors import LayoutError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Capsule, Circle, Outline, Oval, RoundedRectangle
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)


def router(outline: Outline, tools: Tools, panel: Panel = WIDE) -> RouterCut:
    """Return the router's cut along an outline."""
    cuts = plan_cuts(Top(panel, outline, Placement(MIDDLE)), choose_datum(panel), tools)
    return next(cut for cut in cuts.curve_cuts if isinstance(cut, RouterCut))


def router_words(outline: Outline, tools: Tools) -> str:
    """Return what is said about the router."""
    cuts = plan_cuts(Top(WIDE, outline, Placement(MIDDLE)), choose_datum(WIDE), tools)
    return text(told(cuts, choose_datum(WIDE), title="Rout to the line"))


def radii(cut: CurveCut) -> tuple[SwungRadius, ...]:
    """Return what it swings."""
    assert isinstance(cut, JigsawCut | RouterCut)
    return cut.radii


def test_a_disk_is_measured_to_the_near_edge_and_a_hole_to_the_far_one() -> None:
    """The door's trammel stands 354 to the near edge of a 12 mm bit, 360 to its middle, 366 far."""
    (swung,) = radii(DOOR.cuts.curve_cuts[-1])
    assert (swung.radius, swung.to_bit_middle, swung.to_far_edge) == (354.0, 360.0, 366.0)
    words = text(told(DOOR.cuts, DOOR.datum, title="Rout to the line"))
    assert "near edge of the bit; to its far edge it is 366" in words


def test_an_oval_template_is_no_oval() -> None:
    """20 mm inside an oval of 1200 × 700 the true parallel lies 0.7 mm off the oval of its size."""
    guide = TemplateGuide.of(Top(WIDE, Oval(1200, 700), Placement()), bush=52.0, cutter=12.0)
    assert guide.offset == 20.0
    assert (guide.length, guide.width) == pytest.approx((1160.0, 660.0), abs=0.01)
    assert guide.off_oval == pytest.approx(0.7, abs=0.05)
    assert TemplateGuide.of(Top(WIDE, Circle(800), Placement()), 52.0, 12.0).off_oval == 0.0


@settings(max_examples=15)
@given(strategies.every_outline, st.floats(12.0, 40.0), st.floats(0.0, 6.0))
def test_every_template_is_the_true_parallel(outline: Outline, bush: float, lipping: float) -> None:
    """A bush on the template keeps the bit on the core line, wherever the line is reached."""
    inside = lipping + (bush - 12.0) / 2
    if outline.width <= 2.2 * inside + 1:
        return
    place = Placement(MIDDLE, 0.3)
    guide = TemplateGuide.of(Top(WIDE, outline, place, lipping), bush, 12.0)
    far = off_path(guide.line.points(1.0), outline.path().placed(place))
    assert np.all(far >= inside - 0.01)
    assert np.median(far) == pytest.approx(inside, abs=0.01)


@pytest.mark.parametrize(
    ("outline", "bush", "has"),
    [
        (Oval(1200, 700), None, True),
        (RoundedRectangle.with_radius(1200, 700, 60), None, True),
        (Capsule(1200, 700), None, False),
        (Capsule(1200, 700), 24.0, True),
    ],
)
def test_what_runs_on_a_template(outline: Outline, bush: float | None, has: bool) -> None:
    """Ovals and rounded corners need a template, capsules only where a bush is asked for."""
    tools = Tools(bush=bush)
    template = router(outline, tools).template
    assert (template is not None) is has
    if template is not None:
        assert template.offset == (0.0 if bush is None else 6.0)
        assert "true parallel" in router_words(outline, tools)


def test_a_template_that_would_be_seen_to_be_wrong_is_warned_of() -> None:
    """Far inside a long oval the sheet says how wrong an oval drawn anew would be."""
    words = router_words(Oval(1400, 500), Tools(bush=80.0))
    assert "n oval drawn anew to that size would be wrong by up to" in words
    assert "drawn anew" not in router_words(Oval(1400, 500), Tools())


@pytest.mark.parametrize(
    ("tools", "depths"),
    [
        (Tools(), 10.0),
        (Tools(bit=40.0), 6.0),
        (Tools(pass_depth=4.0), 4.0),
    ],
)
def test_no_pass_is_deeper_than_the_router_takes(tools: Tools, depths: float) -> None:
    """10 at once where 5 or less stands outside the line, 6 where more does, or as the job says."""
    outline = RoundedRectangle.with_radius(1400, 600, 20)
    thick = replace(WIDE, thickness=44.0)
    cut = router(outline, tools, thick)
    expected = depths if cut.most_waste <= 5 or tools.pass_depth else 6.0
    assert cut.depth <= expected + 1e-9
    assert cut.passes == math.ceil(44.0 / expected)
    assert cut.passes * cut.depth == pytest.approx(44.0)


@settings(max_examples=30)
@given(st.floats(12.0, 70.0), st.booleans())
def test_the_passes_that_are_told_reach_through(thickness: float, imperial: bool) -> None:
    """Their number times the depth that is printed is no less than the wood is thick."""
    panel, tape = replace(WIDE, thickness=thickness), Tape(imperial=imperial)
    datum = choose_datum(panel)
    plan = plan_cuts(Top(panel, Capsule(1400, 600), Placement(MIDDLE)), datum, Tools(), tape)
    cut = plan.curve_cuts[-1]
    assert isinstance(cut, RouterCut)
    told_deep = tape.at_least(cut.depth)
    depth = math.fsum(Fraction(part) for part in told_deep.split()) * (25.4 if imperial else 1.0)
    assert cut.passes * depth >= thickness - 1e-3


def _wood_after(panel: Panel, cuts: Sequence[StraightCut]) -> Region:
    """Return what is left of a panel when these cuts, all sawn through, are made."""
    left = panel.region()
    for cut in cuts:
        left = left.minus(line_of(cut).beyond(extent_of(left)))
    return left


@settings(max_examples=15)
@given(st.floats(12.0, 39.0), strategies.angles)
def test_relief_cuts_free_the_waste_of_a_tight_curve(radius: float, turn: float) -> None:
    """They run square to the line, through waste only, in corners below 40 that keep much waste."""
    outline = RoundedRectangle.with_radius(900, 600, radius)
    datum, place = choose_datum(WIDE), Placement(MIDDLE, turn)
    cuts = plan_cuts(Top(WIDE, outline, place), datum, Tools(router=False, corner_clear=40.0))
    jigsaw = cuts.curve_cuts[0]
    assert isinstance(jigsaw, JigsawCut)
    assert cuts.corner_cuts == ()
    outside = (math.sqrt(2) - 1) * (radius + 3)  # 3 left by saw and jigsaw
    if abs(outside - 5) > 1:
        assert bool(jigsaw.relief) is (outside > 5)
    blank = _wood_after(WIDE, cuts.trims)
    for start, end in jigsaw.relief:
        assert float(off_path(np.array([tuple(end)]), jigsaw.line)[0]) < 1e-6
        assert blank.grown(0.01).holds_point(start)
        middle = place.into(start.midpoint(end))
        assert max(abs(middle.x) - 450, abs(middle.y) - 300) > -radius
        ahead = float(off_path(np.array([tuple(start)]), jigsaw.line)[0])
        assert ahead == pytest.approx(start.distance_to(end), abs=1e-6)  # square to the line


def test_without_a_router_the_line_is_reached_by_hand() -> None:
    """Over 38 mm the jigsaw stays 5 off, and what stands outside is planed and filed off."""
    thick = replace(BENCH_TOP, panel=replace(BENCH_TOP.panel, thickness=42.0))
    cuts = replace(thick, tools=Tools(router=False)).cuts
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["jigsaw", "hand"]
    step = told(cuts, thick.datum)[-1]
    assert step.title == "To the line by hand"
    assert step.figures == (("5", "stand outside it"),)


def test_what_is_left_after_the_cuts() -> None:
    """Blank by blank the worktop comes down to 1454 by 564, then loses its corners."""
    cuts = WORKTOP.cuts
    panel = WORKTOP.panel
    areas = [_wood_after(panel, cuts.trims[:n]).area for n in range(5)]
    assert areas == pytest.approx(
        [3000 * 600, 1622 * 600, 1454 * 600, 1454 * (600 - 13), 1454 * 564]
    )
    leg = cuts.corner_cuts[0].leg
    assert leg is not None
    assert _wood_after(panel, (*cuts.trims, *cuts.corner_cuts)).area == pytest.approx(
        areas[4] - 2 * leg**2
    )


@pytest.mark.parametrize("name", ["bush", "pass_depth"])
def test_a_tool_of_no_size_is_refused(name: str) -> None:
    """A bush and a pass are more than nothing."""
    with pytest.raises(LayoutError, match=name):
        Tools(**{name: 0.0})
