"""Odd panels: whatever their outline, a top inside can be marked and cut, and all adds up."""

from __future__ import annotations

import math

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.marking.marks import marks_for
from panelwright.layout.offcuts.plan import offcuts_of
from panelwright.layout.outlines import Capsule, Oval, Rectangle, RoundedRectangle
from panelwright.layout.panel import Panel, outline_through, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top

SMALL = (
    Capsule(150, 90),
    Oval(150, 90),
    Rectangle(140, 80),
    RoundedRectangle(150, 90, (10, 20, 0, 45)),
)


@pytest.mark.heavy
@settings(max_examples=30, deadline=None)
@given(strategies.star_rings(), strategies.angles, st.sampled_from(SMALL), st.booleans())
def test_a_star_shaped_panel(
    ring: tuple[Point, ...], turn: float, outline: Capsule | Oval, struck: bool
) -> None:
    """On any star-shaped panel the core is never cut, and top, dust and offcuts make the panel."""
    panel = Panel(outline_through(ring), 20)
    given_line = (Point(-180.0, -80.0), Point(180.0, -75.0)) if struck else None
    datum = choose_datum(panel, given_line)
    placement = Placement(Point(0, 0), turn)
    core = Region.from_rings(placement.of(outline.inner()))
    if not panel.region().holds(core):
        return
    marks = marks_for(Top(panel, outline, placement), datum)
    cuts = plan_cuts(Top(panel, outline, placement), datum, Tools(guide_left=115))
    for mark in marks.marks:
        assert datum.at(mark.along, mark.square).distance_to(mark.point) < 1e-8
    assert cuts.blank.grown(0.01).holds(core)
    assert abs(offcuts_of(panel, cuts.core, cuts.saw_kerfs).balance.error) < 1e-6
    assert all(math.isfinite(trim.sawn) and trim.spans for trim in cuts.trims)


@settings(max_examples=20, deadline=None)
@given(
    st.tuples(*[st.floats(-15.0, 15.0)] * 4),
    st.tuples(*[st.sampled_from([0.0, 0.0, 40.0])] * 4),
    st.floats(-0.05, 0.05),
)
def test_a_door_with_bows_and_rounded_corners(
    bows: tuple[float, float, float, float],
    radii: tuple[float, float, float, float],
    turn: float,
) -> None:
    """Whatever bows and whatever corners are round, there is a datum, and its ends are in wood."""
    panel = Panel(rectangular_outline(1981, 838, bows=bows, radii=radii), 40)
    datum = choose_datum(panel)
    wood = panel.region("outside").grown(1.0)
    assert all(wood.holds_point(r.point) for r in datum.references)
    assert datum.coordinates(Point(990, 419)).square > 0
    cuts = plan_cuts(Top(panel, Oval(1500, 600), Placement(Point(990, 419), turn)), datum, Tools())
    assert len(cuts.trims) + len(cuts.skipped) >= 4


def test_a_top_as_large_as_a_round_panel() -> None:
    """A circle cut from a hardly larger round panel needs no straight cut at all."""
    panel = Panel(circle(Point(500, 500), 503), 20)
    datum = choose_datum(panel)
    cuts = plan_cuts(Top(panel, Oval(1000, 1000), Placement(Point(500, 500))), datum, Tools())
    assert (cuts.trims, cuts.corner_cuts) == ((), ())
    assert [cut.tool.value for cut in cuts.curve_cuts] == ["router"]
    whole = Region.from_rings(panel.boundary.points(CHORD))
    assert cuts.blank.area == whole.area
