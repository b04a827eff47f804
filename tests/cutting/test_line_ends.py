"""Where an end of a saw line is found: by one figure on the edge it runs along, or by both."""

from __future__ import annotations

import math

from panelwright.layout.cutting.plan import plan_cuts
from panelwright.layout.cutting.tools import Tools
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import RoundedRectangle
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.saw_lines import figures_of, saw_line
from panelwright.layout.words.say import Say


def test_an_end_on_another_edge_is_told_by_both_figures() -> None:
    """One figure finds a place on the edge that it runs along alone: others need both."""
    panel = Panel(rectangular_outline(2400, 750), 30)
    datum = choose_datum(panel)
    top = RoundedRectangle.with_radius(1540, 515, 80)
    place = Placement(Point(788, 434), math.radians(-4.33))
    cuts = plan_cuts(Top(panel, top, place), datum, Tools())
    seen = set()
    for cut in cuts.trims:
        line = saw_line(1, cut)
        cells = [cell for cell in figures_of(line, line.ends, Say(Tape(), datum)) if cell.figure]
        for cell, end in zip(cells if len(cells) > 1 else cells * 2, line.ends, strict=True):
            on_ends = min(end.along, 2400 - end.along) < 1e-6
            on_sides = min(end.square, 750 - end.square) < 1e-6
            assert cell.axis != "along" or on_sides
            assert cell.axis != "square" or on_ends
            seen.add(cell.axis)
    assert seen >= {"along", "square", "both"}
