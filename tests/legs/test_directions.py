"""Plus and minus in tables of offsets go towards marks that are there, and lie on that side."""

from __future__ import annotations

import math

import pytest
from bench_page import steps_of
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import read_job
from panelwright.layout.marking.marks import marks_for
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.plan.plan import make_plan
from panelwright.layout.top import Top
from panelwright.layout.words.datum import directions_of

CORNER = Freeform.through(
    [Point(0, 0), Point(900, 0), Point(900, 300), Point(300, 300), Point(300, 600), Point(0, 600)]
)
TOPS: list[Outline] = [
    Capsule(900, 500),
    Circle(700),
    Oval(900, 500),
    Rectangle(900, 500),
    RegularPolygon(6, 600),
    RoundedRectangle.with_radius(900, 500, 60),
    Superellipse(900, 500, 2.5),
    CORNER,
]
PANEL = Panel(rectangular_outline(1600, 1500), 30, material="oak")


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from(TOPS),
    st.floats(-math.pi, math.pi),
    st.sampled_from([None, "A", "B", "AB", "ABC"]),
    st.booleans(),
)
def test_plus_and_minus_go_where_their_marks_lie(
    outline: Outline, turn: float, chewed: str | None, struck: bool
) -> None:
    """Whatever corner is the datum and however the top is turned: by the marks' own coordinates."""
    top = Top(PANEL, outline, Placement(Point(800, 750), turn))
    given = (Point(1500, 1400), Point(100, 1380)) if struck else None
    datum = choose_datum(PANEL, given, frozenset(chewed or ""))
    marks = marks_for(top, datum).marks
    ways = directions_of(top, datum, marks)
    own = {mark.label: top.placement.into(mark.point) for mark in marks}
    for axis, (minus, plus) in enumerate((ways.along, ways.across)):
        assert tuple(own[minus])[axis] < -10
        assert tuple(own[plus])[axis] > 10


CAPTION = """
[panel]
outline = {{ length = 1400, width = 700, bows = [-6, 0, 0, 0] }}
thickness = 25
[top]
shape = "{shape}"
[legs]
at = [[-450, -150], [450, -150], [450, 150], [-300, 200]]
foot = "round"
apron = true
"""


@pytest.mark.heavy
@pytest.mark.parametrize("shape", ["oval", "rectangle"])
def test_a_leg_set_out_by_its_row_lands_where_it_is_planned(shape: str) -> None:
    """Walking from O by the figures of a row, towards the marks that it names, finds the leg.

    The datum of this panel runs from corner C to D, so that E1 lies at its right.
    """
    plan = make_plan(read_job(CAPTION.format(shape=shape)))
    assert plan.legs is not None and plan.table is not None
    places = {mark.label: mark.point for mark in plan.marks.marks}
    found = steps_of(plan)
    planned = {
        "Set out the legs": [leg.on_panel for leg in plan.legs.legs],
        "Screw the legs on": [hole.on_panel for hole in plan.table.holes],
        "Keep it flat": [plan.top.placement(batten.middle) for batten in plan.table.battens],
    }
    for title, points in planned.items():
        (table,) = found[title].told.tables
        for row, point in zip(table.rows, points, strict=True):
            walked = places["O"]
            for cell in row[1:3]:
                figure, _, name = cell.partition(" towards ")
                if name:
                    walked += (places[name] - places["O"]).unit() * float(figure)
            assert walked.distance_to(point) < 1.0
