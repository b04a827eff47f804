"""An outline of any form is marked by its corners; of a piece as found, what is newly cut."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import off_path

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc, Line
from panelwright.layout.geometry.tolerance import SAME_PLACE
from panelwright.layout.marking.instruments import Swing
from panelwright.layout.marking.mark import Ground, Kind
from panelwright.layout.marking.marks import MarkSet, marks_for
from panelwright.layout.marking.method import Workshop
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.marking.places import FreeformPlaces
from panelwright.layout.outlines import PIECE_AS_FOUND, Freeform
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.ways import points_of

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500.3, 3499.7)
tapes = st.sampled_from([Tape(), Tape(imperial=True)])

LIVE = (
    *[(0, 0), (400, 25), (800, -15), (1300, 30), (1900, 5), (2400, 20)],
    *[(2400, 700), (1700, 735), (1100, 690), (500, 720), (0, 700)],
)
"""A slab with two live edges, mm."""


def slab() -> Panel:
    """Return the slab, its lower and upper edge live."""
    return Panel(Path.through((Point(*p) for p in LIVE), closed=True), 45)


def piece(*, rounded: bool) -> tuple[Freeform, Placement]:
    """Return what two cuts at 200 and 2200 leave of the slab, its ends square or half-round."""
    lower = [Point(200, 12.5), *(Point(*p) for p in LIVE[1:5]), Point(2200, 14.0)]
    upper = [Point(2200, 710.0), *(Point(*p) for p in LIVE[7:10]), Point(200, 708.0)]

    def end(start: Point, stop: Point) -> Line | Arc:
        middle = start.midpoint(stop)
        turn = (start - middle).angle
        return (
            Arc(middle, start.distance_to(middle), turn, math.pi) if rounded else Line(start, stop)
        )

    sides = [Path.through(points).segments for points in (lower, upper)]
    path = Path((*sides[0], end(lower[-1], upper[0]), *sides[1], end(upper[-1], lower[0])))
    return Freeform.of(path, PIECE_AS_FOUND), Freeform.frame_of(path)


def ground_of(panel: Panel, top: Freeform, placement: Placement) -> Ground:
    """Return the ground under a top on a panel."""
    return Ground(Top(panel, top, placement), choose_datum(panel))


@settings(max_examples=40)
@given(strategies.star_rings(), strategies.angles, tapes)
def test_a_stranger_joins_the_corners(corners: tuple[Point, ...], turn: float, tape: Tape) -> None:
    """From rounded offsets, in the order of their numbers, the sides lie where they belong."""
    top, placement, datum = Freeform.through(corners), Placement(MIDDLE, turn), choose_datum(WIDE)
    marks = marks_for(Top(WIDE, top, placement), datum)
    held = marks.of(Kind.CORNER)
    found = [datum.at(tape.nearest(m.along), tape.nearest(m.square)) for m in held]
    drawn = Path.through(found, closed=True).points(1.0)
    off = off_path(drawn, top.path().placed(placement))
    assert len(held) == len(top.corners)
    assert off.max() <= tape.division / math.sqrt(2) + 1e-6
    assert methods_for(top)[0].name == "corners joined"
    assert methods_for(top)[0].figures.sides == len(top.corners)


@settings(max_examples=40)
@given(strategies.star_rings(), strategies.angles)
def test_checks_fix_every_corner(corners: tuple[Point, ...], turn: float) -> None:
    """With the sides and the diagonals told, no corner can move: each has two tapes of its own."""
    top = Freeform.through(corners)
    marks = marks_for(Top(WIDE, top, Placement(MIDDLE, turn)), choose_datum(WIDE))
    count = len(top.corners)
    pairs = {frozenset((c.start, c.end)) for c in marks.checks if c.start.startswith("X")}
    assert len(pairs) >= 2 * count - 3
    assert {name for pair in pairs for name in pair} == {f"X{i}" for i in range(1, count + 1)}


def test_of_a_piece_as_found_only_the_cuts_are_marked() -> None:
    """Kept live edges have no marks but their ends, and the method joins the two cuts."""
    top, placement = piece(rounded=False)
    panel = slab()
    marks = marks_for(Top(panel, top, placement), choose_datum(panel))
    ends = sorted((round(m.point.x), round(m.point.y)) for m in marks.of(Kind.CORNER))
    assert ends == [(200, 12), (200, 708), (2200, 14), (2200, 710)]
    assert [m.label for m in marks.of(Kind.CORNER)] == ["X1", "X2", "X3", "X4"]
    (join, template) = methods_for(top, Workshop(ground=ground_of(panel, top, placement)))
    assert (join.name, join.figures.sides) == ("corners joined", 2)
    assert template.name == "full-size template"


def test_half_round_ends_are_swung_about_their_marks() -> None:
    """Each end has its centre marked, and is drawn by its radius; the live edges are left alone."""
    top, placement = piece(rounded=True)
    panel = slab()
    marks = marks_for(Top(panel, top, placement), choose_datum(panel))
    centres = {m.label: m.point for m in marks.of(Kind.ARC_CENTRE)}
    for compass in marks.compasses:
        for label in compass.centres:
            turns = np.linspace(0, math.tau, 240)
            swept = [centres[label] + Point.polar(compass.radius, float(t)) for t in turns]
            off = off_path(np.array([tuple(p) for p in swept]), top.path().placed(placement))
            assert np.sum(off < 1e-6) >= 100  # the half that bounds the piece
    assert {round(c.radius, 2) for c in marks.compasses} == {347.75, 348.0}
    ways = methods_for(top, Workshop(ground=ground_of(panel, top, placement)))
    swings = [m.figures for m in ways if isinstance(m.figures, Swing)]
    assert {round(swing.radius, 2) for swing in swings} == {347.75, 348.0}


def test_off_the_panel_nothing_is_taken_for_kept() -> None:
    """Without a panel, or away from its edge, all of the outline is cut."""
    top, placement = piece(rounded=False)
    assert len(FreeformPlaces.of(top).corners) == len(top.corners)
    away = ground_of(WIDE, top, Placement(MIDDLE, placement.turn))
    assert FreeformPlaces.of(top, away).cut == (top.path().segments,)


def test_a_hollow_arc_has_a_larger_core() -> None:
    """Inside a lipping of 6, a bulge of 500 is swung with 494 and a hollow of 500 with 506."""
    bulge = Arc.from_chord_and_rise(Point(0, -100), Point(0, 700), 200)
    hollow = Arc.from_chord_and_rise(Point(-1500, 700), Point(-1500, -100), -200)
    lower, upper = Line(hollow.end, bulge.start), Line(bulge.end, hollow.start)
    path = Path((lower, bulge, upper, hollow))
    top = Freeform.of(path)
    marks = marks_for(Top(WIDE, top, Placement(MIDDLE), 6.0), choose_datum(WIDE))
    assert sorted((round(c.radius), round(c.core_radius)) for c in marks.compasses) == [
        (500, 494),
        (500, 506),
    ]
    swung = [m for m in methods_for(top) if m.name == "trammel bar"]
    assert [m.figures.hollow for m in swung] == [False, True]
    assert [m.figures.core_radius(6.0) for m in swung] == pytest.approx([494.0, 506.0])
    assert [m.joins for m in swung] == [0, 2]
    assert points_of(swung[-1], Tape())[-1].startswith("Join: each straight side")
    assert swung[-1].serves


def test_what_is_drawn_by_points_or_flat_arcs_goes_by_a_template() -> None:
    """A ring of 60 points, and an arc of 30 m, are drawn by the template alone."""
    ring = [Point.polar(600 + 20 * math.sin(3 * t), t) for t in np.arange(60) / 60 * math.tau]
    flat = Arc.from_chord_and_rise(Point(1000, 400), Point(-1000, 400), 16.0)
    bowed = Path((Line(flat.end, Point(0, -500)), Line(Point(0, -500), flat.start), flat))
    for top in (Freeform.through(ring), Freeform.of(bowed)):
        assert [m.name for m in methods_for(top)] == ["full-size template"]
        marks = marks_for(Top(WIDE, top, Placement(MIDDLE)), choose_datum(WIDE))
        assert len(marks.of(Kind.CORNER)) <= 3
        assert marks.compasses == ()


@settings(max_examples=30)
@given(strategies.freeforms(), strategies.angles)
def test_the_first_corner_is_the_lowest_left_one(top: Freeform, turn: float) -> None:
    """Seen from the datum, no corner lies lower to the left than X1, and they run on in order.

    Corners that lie as low within a hundredth of a millimetre are alike.
    """
    datum = choose_datum(WIDE)
    marks: MarkSet = marks_for(Top(WIDE, top, Placement(MIDDLE, turn)), datum)
    corners = marks.of(Kind.CORNER)
    low = [m.along + m.square for m in corners]
    assert low[0] <= min(low) + SAME_PLACE
    places = [Placement(MIDDLE, turn).into(m.point) for m in corners]
    count = len(top.corners)
    order = [min(range(count), key=lambda i: p.distance_to(top.corners[i])) for p in places]
    # a corner that hardly turns is not marked, so that steps may leave one out
    assert len(set(order)) == len(order)
    assert sum((order[i] - order[i - 1]) % count for i in range(len(order))) == count
