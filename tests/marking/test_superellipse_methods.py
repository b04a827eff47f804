"""A superellipse by ordinates is out by what it says, and its proofs lie on its line."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import strategies
from hypothesis import assume, given, settings
from readers import off_path

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.marks import marks_for
from panelwright.layout.marking.method import HandTool, Workshop
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.marking.oval_methods import SAG, SuperellipseOrdinates
from panelwright.layout.outlines import Superellipse
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top

PANEL = Panel(rectangular_outline(9000, 7000), 20)


def level(top: Superellipse, out: float, up: float) -> float:
    """Return |2x/L|ⁿ + |2y/W|ⁿ, which is 1 on the line."""
    return float((2 * out / top.length) ** top.exponent + (2 * up / top.width) ** top.exponent)


@settings(max_examples=40)
@given(strategies.superellipses)
def test_ordinates_lie_on_the_line_and_chords_off_it_by_what_is_stated(top: Superellipse) -> None:
    """Points joined straight lie from the superellipse by the stated line error, no less."""
    assume(top.width >= 120)
    method = next(m for m in methods_for(top) if m.name == "ordinates")
    points = [Point(o.out, o.up) for o in method.figures.ordinates]
    assert all(level(top, p.x, p.y) == pytest.approx(1.0, abs=1e-9) for p in points)
    drawn = np.array(
        [tuple(a + (b - a) * float(s)) for a, b in pairwise(points) for s in np.linspace(0, 1, 60)]
    )
    far = off_path(drawn, top.path()).max()
    assert far == pytest.approx(method.line_error, rel=0.03, abs=0.003)


@settings(max_examples=40)
@given(strategies.superellipses)
def test_stations_are_even_and_close_enough(top: Superellipse) -> None:
    """All but the diagonal's point stand at whole 5 mm one way, and no chord is off by over 1."""
    table = SuperellipseOrdinates.of(top)
    points = table.ordinates
    diagonal = top.curve.at(1.0)
    for o in points[:-1]:
        if abs(o.out - diagonal.x) > 1e-6:
            assert min(o.out % 5.0, o.up % 5.0, abs(o.up % 5.0 - 5.0)) < 1e-6
    assert points[0].out == 0.0
    assert (points[-1].out, points[-1].up) == (top.length / 2, 0.0)
    assert all(a.out < b.out or a.up > b.up for a, b in pairwise(points))
    assert table.farthest <= SAG or top.tightest_radius < 8.0


def test_a_template_needs_no_tool() -> None:
    """With nothing at hand, the printed template still serves, and no other way does."""
    methods = methods_for(Superellipse(1400, 700, 2.5), Workshop(tools=frozenset()))
    assert [m.name for m in methods if m.serves] == ["full-size template"]
    assert methods[0].tools == (HandTool.PAPER,)
    assert methods[0].figures.length == 1400


@given(strategies.superellipses, strategies.angles)
def test_axes_diagonals_and_proofs(top: Superellipse, turn: float) -> None:
    """Both diagonal measures are one figure; the proving points lie on the line."""
    marks = marks_for(Top(PANEL, top, Placement(Point(4500, 3500), turn)), choose_datum(PANEL))
    told = {(c.start, c.end): c.distance for c in marks.checks}
    assert told["D1", "D3"] == pytest.approx(told["D2", "D4"])
    reach = 0.5 ** (1 / top.exponent)
    assert told["D1", "D3"] == pytest.approx(reach * np.hypot(top.length, top.width))
    assert told["E1", "E2"] == pytest.approx(top.length)
    assert told["S1", "S2"] == pytest.approx(top.width)
    assert len(marks.ordinates) == 3
    assert all(level(top, o.out, o.up) == pytest.approx(1.0, abs=1e-9) for o in marks.ordinates)
