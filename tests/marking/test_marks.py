"""Marks, tie measurements and crossings: laws that hold for any top on any panel."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
import strategies
from hypothesis import given
from hypothesis import strategies as st
from told import named as mark_called

from panelwright.layout.geometry.intersect import crossings
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc, EllipticArc
from panelwright.layout.geometry.tolerance import CURVE
from panelwright.layout.marking.mark import Kind, best_ties, tape_error
from panelwright.layout.marking.marks import marks_for
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    DEnd,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.panel.edges import Reference
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.marks import marks_advice

WIDE = Panel(rectangular_outline(9000, 7000), 20)
MIDDLE = Point(4500, 3500)


@given(st.floats(200, 900), st.floats(1.05, 4), strategies.angles)
def test_a_round_end_is_square_to_its_corners(width: float, ratio: float, turn: float) -> None:
    """Tangent points and corners make a rectangle: two sides and, by Pythagoras, its diagonals."""
    top = Top(WIDE, DEnd.of_size(width * ratio, width), Placement(MIDDLE, turn))
    held = marks_for(top, choose_datum(WIDE))
    told = {(check.start, check.end): check.distance for check in held.checks}
    assert (told["T1", "T2"], told["X1", "X2"]) == pytest.approx((width, width))
    diagonal = math.hypot(width * ratio - width / 2, width)
    assert (told["X1", "T2"], told["X2", "T1"]) == pytest.approx((diagonal, diagonal))
    assert len(held.of(Kind.CORNER)) == 2


@given(strategies.every_outline, strategies.angles)
def test_offsets_and_tapes_find_the_mark(outline: Outline, turn: float) -> None:
    """From its offsets, and from its two tapes, every mark is found where it is."""
    datum = choose_datum(WIDE)
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE, turn)), datum)
    at = {r.name: r.point for r in datum.references}
    for mark in marks.marks:
        assert datum.at(mark.along, mark.square).distance_to(mark.point) < 1e-8
        if mark.ties is not None:
            for tie in (mark.ties.first, mark.ties.second):
                assert at[tie.name].distance_to(mark.point) == pytest.approx(tie.distance)


@given(strategies.every_outline, strategies.angles)
def test_labels_are_not_used_twice(outline: Outline, turn: float) -> None:
    """Every mark has a label of its own, and every check names two marks or corners."""
    datum = choose_datum(WIDE)
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE, turn)), datum)
    labels = [mark.label for mark in marks.marks]
    assert len(labels) == len(set(labels))
    at = {m.label: m.point for m in marks.marks} | {c.name: c.point for c in datum.corners}
    for check in marks.checks:
        assert at[check.start].distance_to(at[check.end]) == pytest.approx(check.distance)


@given(strategies.symmetrical_outlines, st.floats(-0.7, 0.7), st.integers(0, 3))
def test_the_first_mark_is_nearest_the_datum(outline: Outline, slant: float, quarters: int) -> None:
    """However the top is turned, pairs start at the datum's start, sets of four next to A."""
    datum = choose_datum(WIDE)
    turn = slant + quarters * math.pi / 2
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE, turn)), datum)
    ends, sides = marks.of(Kind.END), marks.of(Kind.SIDE)
    upright = quarters % 2 == 1
    one, other = (sides, ends) if upright else (ends, sides)
    assert one[0].along <= one[1].along
    assert other[0].square <= other[1].square
    corners = marks.of(Kind.CORNER)
    if corners:
        assert corners[0].label == "X1"
        out = [c.point - MIDDLE for c in corners]
        assert out[0].turned(-slant).x <= 0 >= out[0].turned(-slant).y
        assert all(a.cross(b) > 0 for a, b in pairwise(out))


@given(strategies.symmetrical_outlines, strategies.angles)
def test_axis_ends_lie_on_the_outline(outline: Outline, turn: float) -> None:
    """Ends and sides of the axes lie on the outline, and its centrelines leave the panel."""
    placement = Placement(MIDDLE, turn)
    marks = marks_for(Top(WIDE, outline, placement), choose_datum(WIDE))
    path = outline.path()
    for mark in (*marks.of(Kind.ON_CURVE), *marks.of(Kind.END), *marks.of(Kind.SIDE)):
        own = placement.into(mark.point)
        reaches = [abs(c.reach - own.norm) for c in crossings(path, Point(0, 0), own.unit())]
        assert min(reaches) < (CURVE if isinstance(outline, Superellipse) else 1e-6)
    assert len(marks.of(Kind.CENTRELINE)) == len(marks.of(Kind.CROSS_CENTRELINE)) == 2


@pytest.mark.parametrize(
    ("outline", "labels"),
    [
        (Circle(600), {"O"}),
        (Rectangle(900, 600), {"O", "X1", "X2", "X3", "X4"}),
        (Capsule(900, 600), {"O", "C1", "C2", "T1", "T2", "T3", "T4"}),
        (Capsule(600, 600), {"O"}),
        (Oval(900, 600), {"O", "N1", "N2"}),
        (Oval(600, 600), {"O"}),
        (Superellipse(900, 600, 2.5), {"O", "D1", "D2", "D3", "D4"}),
        (RegularPolygon(6, 600), {"O", "X1", "X2", "X3", "X4"}),
        (RegularPolygon(8, 600), {"O", *(f"X{i}" for i in range(1, 9))}),
    ],
)
def test_what_is_marked(outline: Outline, labels: set[str]) -> None:
    """Each shape has the marks of its trade: centres, tangent points, corners, nails."""
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE)), choose_datum(WIDE))
    axes = {"E1", "E2", "S1", "S2", "L1", "L2", "M1", "M2"}
    assert {mark.label for mark in marks.marks} - axes == labels


def test_each_radius_names_its_corners() -> None:
    """A compass set to one radius is swung about the corners that have it."""
    outline = RoundedRectangle(900, 600, (50, 80, 50, 0))
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE), 5), choose_datum(WIDE))
    assert [(c.centres, c.radius, c.core_radius) for c in marks.compasses] == [
        (("K1", "K3"), 50, 45),
        (("K2",), 80, 75),
    ]


def test_a_tangent_point_is_a_radius_from_its_centre() -> None:
    """T1 and T2 lie the corner's radius from K1, T3 and T4 from K2, and so round."""
    outline = RoundedRectangle(900, 600, (50, 80, 110, 140))
    marks = marks_for(Top(WIDE, outline, Placement(MIDDLE, 2.0)), choose_datum(WIDE))
    radii = []
    for corner in range(4):
        centre = mark_called(marks, f"K{corner + 1}").point
        touching = [mark_called(marks, f"T{2 * corner + i}").point for i in (1, 2)]
        one, other = (centre.distance_to(p) for p in touching)
        assert one == pytest.approx(other)
        radii.append(round(one))
    assert sorted(radii) == [50, 80, 110, 140]


@given(strategies.angles, st.floats(200, 3000), st.floats(200, 3000))
def test_two_square_tapes_beat_two_slanting_ones(turn: float, one: float, other: float) -> None:
    """Of pairs of the same lengths the one that crosses square has the least error."""
    point = Point(0, 0)
    first = Reference("A", Point.polar(one, turn))
    square = Reference("B", Point.polar(other, turn + math.pi / 2))
    slanting = Reference("C", Point.polar(other, turn + 1.0))
    best = best_ties(point, (first, square))
    worse = best_ties(point, (first, slanting))
    assert best is not None
    assert best.crossing == pytest.approx(math.pi / 2)
    assert best.error == pytest.approx(math.hypot(tape_error(one), tape_error(other)))
    assert worse is None or worse.error > best.error


def test_tapes_along_one_line_fix_nothing() -> None:
    """Two reference points in line with a mark give no tie measurement."""
    line = (Reference("A", Point(0, 0)), Reference("B", Point(900, 0)))
    assert best_ties(Point(400, 0), line) is None


def test_tape_error_is_two_at_three_metres() -> None:
    """A tape is out by 2 mm at 3 m (common practice)."""
    assert tape_error(3000.0) == pytest.approx(2.0)


@given(st.floats(300, 900), st.floats(300, 900), st.booleans())
def test_rounded_tapes_miss_by_no_more_than_stated(x: float, y: float, imperial: bool) -> None:
    """Where both tapes are rounded, their new crossing lies within the stated distance."""
    tape, point = Tape(imperial), Point(x, y)
    ends = (Reference("A", Point(0, 0)), Reference("B", Point(1200, 0)))
    cross = best_ties(point, ends)
    assert cross is not None
    a, b = tape.nearest(cross.first.distance), tape.nearest(cross.second.distance)
    along = (a * a - b * b + 1200.0**2) / 2400.0
    found = Point(along, math.sqrt(a * a - along * along))
    assert found.distance_to(point) <= cross.rounding_error(tape) * 1.01


@given(st.floats(-5000, 5000), st.floats(-5000, 5000))
def test_rounded_offsets_miss_by_no_more_than_half_a_diagonal(x: float, y: float) -> None:
    """Rounding both offsets to a tape's division moves a mark by half its diagonal at most."""
    marks = marks_for(Top(WIDE, Circle(100), Placement(Point(x, y))), choose_datum(WIDE))
    for tape in (Tape(), Tape(imperial=True)):
        error = mark_called(marks, "O").rounding_error(tape)
        assert error <= tape.division / math.sqrt(2) + 1e-9


def test_a_centre_off_the_panel_is_said_to_be() -> None:
    """A corner centre in a cut-out is not on wood, and how far it lies from it is said."""
    panel = replace(WIDE, cut_outs=(rectangular_place(Point(4200, 3500), 200, 100),))
    marks = marks_for(Top(panel, Capsule(1400, 800), Placement(MIDDLE)), choose_datum(panel))
    one, other = mark_called(marks, "C1"), mark_called(marks, "C2")
    assert other.off is None
    assert one.off is not None
    assert one.off.distance == pytest.approx(50.0)
    (advice,) = marks_advice(marks.marks, Tape())
    assert advice.startswith("C1: 50 mm off the wood: clamp a board of the same thickness")


def test_a_nail_in_a_defect_is_bridged() -> None:
    """A nail that would stand in something soft is to be bridged with a board, by name."""
    soft = Defect("knot", round_place(Point(4500 - 400, 3500), 60), frozenset({Spoils.BEARING}))
    panel = WIDE.with_defect(soft)
    marks = marks_for(Top(panel, Oval(1000, 600), Placement(MIDDLE)), choose_datum(panel))
    assert mark_called(marks, "N1").off is None
    assert (mark_called(marks, "N1").defect, mark_called(marks, "N2").defect) == ("knot", "")


@given(strategies.points, st.floats(10, 900), strategies.points, strategies.angles)
def test_a_line_crosses_a_circle_at_its_radius(
    centre: Point, radius: float, origin: Point, turn: float
) -> None:
    """Each crossing lies on the circle and on the line, and a line through it crosses twice."""
    way = Point.polar(1.0, turn)
    found = crossings(circle(centre, radius), origin, way)
    for crossing in found:
        assert crossing.point.distance_to(centre) == pytest.approx(radius, rel=1e-6)
        assert crossing.point.distance_to(origin + way * crossing.reach) < 1e-6
    if abs(way.cross(centre - origin)) < radius * 0.999:
        assert len(found) == 2


@given(st.floats(0, math.tau), st.floats(0.1, math.tau), strategies.angles, st.floats(0.01, 0.99))
def test_a_line_crosses_an_arc_where_the_arc_is(
    start: float, sweep: float, turn: float, share: float
) -> None:
    """A line through a point of an arc, circular or elliptic, finds that point."""
    arcs = (
        Arc(Point(10, 20), 300, start, sweep),
        EllipticArc(Point(10, 20), 300, 120, turn, start, -sweep),
    )
    for arc in arcs:
        point = arc.at(share)
        found = crossings(Path((arc,)), point, (point - Point(10, 20)).unit())
        assert min(abs(c.reach) for c in found) < 1e-6


def test_a_line_along_an_edge_crosses_at_its_ends() -> None:
    """A line that runs along an edge counts with the edge's ends, each once."""
    square = rectangular_outline(100, 100)
    found = crossings(square, Point(50, 0), Point(1, 0))
    assert [c.point for c in found] == [Point(0, 0), Point(100, 0)]


def test_a_line_that_misses_crosses_nothing() -> None:
    """A line beside an ellipse or circle has no crossing."""
    for path in (circle(Point(0, 0), 10), Oval(20, 10).path()):
        assert crossings(path, Point(0, 11), Point(1, 0)) == ()
