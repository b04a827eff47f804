"""Where saws start and what they meet, replayed cut by cut on the wood that is left."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.cutting.cut import StraightCut, Trim
from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import DEnd, Outline
from panelwright.layout.panel import Face, Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top

BOARD = Panel(rectangular_outline(9000, 7000), 20)
FAR = 2e4


def gone(cut: StraightCut) -> shapely.Polygon:
    """Return what a cut takes off: all beyond its line, or its kerf alone where it stops."""
    one, other = np.array([*cut.start.point]), np.array([*cut.end.point])
    way = (other - one) / np.hypot(*(other - one))
    stops = isinstance(cut, Trim) and cut.kind.stops
    one, other = (one if stops else one - FAR * way), (other if stops else other + FAR * way)
    out = np.array([*cut.waste]) * (cut.kerf if stops else FAR)
    return shapely.Polygon([one, other, other + out, one + out])


@settings(max_examples=25)
@given(
    strategies.every_outline,
    strategies.angles,
    st.sampled_from([Face.UP, Face.DOWN]),
    st.sampled_from([(115.0, None), (None, 115.0), (38.0, 115.0), (None, None)]),
)
def test_every_saw_starts_at_an_edge_and_runs_through_wood(
    outline: Outline, turn: float, face: Face, base: tuple[float | None, float | None]
) -> None:
    """No blade is let into the wood: where each cut begins, the wood left by then begins."""
    tools = Tools(guide_left=base[0], guide_right=base[1], show_face=face)
    top = Top(BOARD, outline, Placement(Point(4500, 3500), turn))
    cuts = plan_cuts(top, choose_datum(BOARD), tools)
    left = shapely.box(0, 0, 9000, 7000)
    for cut in (*cuts.trims, *cuts.corner_cuts):
        first = shapely.Point(*cut.spans[0][0])
        assert left.exterior.distance(first) < 1e-6
        sawn = sum(start.distance_to(end) for start, end in cut.spans)
        line = shapely.LineString([(*cut.start.point,), (*cut.end.point,)])
        assert sawn == pytest.approx(left.intersection(line).length, abs=1e-3)
        assert sawn > 0
        left = left.difference(gone(cut))
    assert left.buffer(1e-6).covers(shapely.Polygon(cuts.core.points(0.1)))


@pytest.mark.parametrize(("spare", "made"), [(10.0, False), (25.0, True)])
def test_a_sliver_at_a_round_end_is_left_to_the_jigsaw(spare: float, made: bool) -> None:
    """A top with straight sides is sawn along these; its round end is a curve like any other."""
    panel = Panel(rectangular_outline(1400 + spare, 700), 20)
    top = Top(panel, DEnd.of_size(1000, 600), Placement(Point(900, 350)))
    cuts = plan_cuts(top, choose_datum(panel), Tools())
    assert bool([cut for cut in cuts.trims if cut.waste.x > 0.5]) is made
    assert len(cuts.trims) == 3 + made
