"""A stranger with the sheet alone: from rounded figures the outline comes out where it is."""

from __future__ import annotations

import math

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from told import named as mark_called

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.mark import Kind
from panelwright.layout.marking.marks import MarkSet, marks_for
from panelwright.layout.outlines import Capsule, Outline, Oval, RoundedRectangle
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape

PANEL = Panel(rectangular_outline(9000, 7000), 20)
tapes = st.sampled_from([Tape(), Tape(imperial=True)])


def on_panel(datum: Datum, marks: MarkSet, label: str, tape: Tape) -> Point:
    """Return where a mark comes to lie that is set out by its rounded offsets."""
    mark = mark_called(marks, label)
    return datum.at(tape.nearest(mark.along), tape.nearest(mark.square))


def set_out(outline: Outline, turn: float) -> tuple[Datum, MarkSet]:
    """Return the datum and the marks of a top in the middle of the panel."""
    datum, placement = choose_datum(PANEL), Placement(Point(4500.3, 3499.7), turn)
    return datum, marks_for(Top(PANEL, outline, placement), datum)


@settings(max_examples=30)
@given(strategies.capsules, strategies.angles, tapes)
def test_a_capsule_from_its_sheet(outline: Capsule, turn: float, tape: Tape) -> None:
    """From two rounded centres and the rounded radius the ends lie within a division."""
    datum, marks = set_out(outline, turn)
    (compass,) = marks.compasses
    for label in compass.centres:
        centre = on_panel(datum, marks, label, tape)
        for share in (0.0, 0.2, 0.5, 0.9):
            drawn = centre + Point.polar(tape.nearest(compass.radius), share * math.tau)
            true = mark_called(marks, label).point.distance_to(drawn)
            assert abs(true - outline.radius) <= 1.25 * tape.division


@settings(max_examples=30)
@given(strategies.rounded_rectangles(), strategies.angles, tapes)
def test_corners_from_their_sheet(outline: RoundedRectangle, turn: float, tape: Tape) -> None:
    """Each rounded corner centre lies its stated rounding error from where it belongs."""
    datum, marks = set_out(outline, turn)
    for mark in marks.of(Kind.ARC_CENTRE):
        found = on_panel(datum, marks, mark.label, tape)
        assert found.distance_to(mark.point) == pytest.approx(mark.rounding_error(tape), abs=1e-8)
        assert mark.rounding_error(tape) <= tape.division / math.sqrt(2) + 1e-9


@settings(max_examples=20)
@given(strategies.ovals, strategies.angles, tapes)
def test_an_oval_from_its_sheet(outline: Oval, turn: float, tape: Tape) -> None:
    """From two rounded nails and the rounded loop the axes come out as a slip of it makes them."""
    if outline.width > 0.98 * outline.length or outline.width < 0.2 * outline.length:
        return
    datum, marks = set_out(outline, turn)
    assert marks.loop is not None
    one, other = (on_panel(datum, marks, label, tape) for label in ("N1", "N2"))
    string = tape.nearest(marks.loop.loop) - math.pi * marks.loop.nail
    long_axis = string - one.distance_to(other)
    focal = one.distance_to(other) / 2
    short_axis = 2 * math.sqrt(max((long_axis / 2) ** 2 - focal**2, 0.0))
    slip = 2 * tape.division
    worst = marks.loop.slipped(2 * slip)
    assert abs(long_axis - outline.length) <= slip
    assert abs(short_axis - outline.width) <= 2 * (worst.width - outline.width) + slip
