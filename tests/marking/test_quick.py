"""Quick answers and methods: what they name, which is the one to use, and why the others not."""

from __future__ import annotations

import dataclasses
import math
from fractions import Fraction
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import LengthError, OutlineError, PanelError
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.tolerance import ROUNDING
from panelwright.layout.keys.length import parse_length
from panelwright.layout.marking.arcs import LargeArc
from panelwright.layout.marking.mark import Ground
from panelwright.layout.marking.method import HandTool, Method, Workshop
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.marking.panel_check import Squareness
from panelwright.layout.marking.quick import (
    Division,
    mark_arc,
    mark_capsule,
    mark_circle,
    mark_oval,
    mark_rounded,
    mark_superellipse,
)
from panelwright.layout.outlines import Capsule, Outline, Oval, Rectangle
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import MM_PER_INCH, Tape, Units
from panelwright.layout.words.marks import beyond_words
from panelwright.layout.words.ways import against_words, ordinates_table, points_of


def named(methods: tuple[Method, ...], name: str) -> Method:
    """Return the method of that name."""
    (found,) = [m for m in methods if m.name == name]
    return found


def figures(method: Method) -> dict[str, Any]:
    """Return what a method sets, by name."""
    return {f.name: getattr(method.figures, f.name) for f in dataclasses.fields(method.figures)}


@pytest.mark.parametrize(
    ("method", "names"),
    [
        ("string and nails", {"nail_spacing", "loop"}),
        ("trammel rod", {"to_long_axis_pin", "to_short_axis_pin"}),
        (
            "four-centre oval, best",
            {"end_radius", "side_radius", "end_centre", "side_centre", "farthest_from_ellipse"},
        ),
        ("eight-centre oval", {"end_radius", "middle_radius", "side_radius"}),
        ("ordinates", {"ordinates"}),
    ],
)
def test_an_oval_carries_its_named_figures(method: str, names: set[str]) -> None:
    """Each way to draw an oval carries the figures under the names of the trade's formulas."""
    assert names <= figures(named(mark_oval(1800.0, 900.0).methods, method)).keys()


def test_an_oval_of_1800_by_900() -> None:
    """Its radii of curvature are 225 and 1800, its perimeter 4359.801699 (computed)."""
    oval = mark_oval(1800.0, 900.0)
    assert (oval.end_radius, oval.side_radius) == (225.0, 1800.0)
    assert oval.perimeter == pytest.approx(4359.801699, abs=5e-7)


def test_a_capsule_of_1800_by_900() -> None:
    """Its end radius is half the width, its perimeter 4627.4334 (computed)."""
    capsule = mark_capsule(1800.0, 900.0)
    assert (capsule.radius, capsule.centres_apart) == (450.0, 900.0)
    assert capsule.perimeter == pytest.approx(4627.4334, abs=5e-5)
    assert capsule.diagonal == pytest.approx(900.0 * math.sqrt(2))


def test_a_rounded_rectangle_of_1800_by_900() -> None:
    """With corners of 150 its perimeter is 5142.4778 (computed); centres 1500 by 600 apart."""
    rounded = mark_rounded(1800.0, 900.0, 150.0)
    assert rounded.perimeter == pytest.approx(5142.4778, abs=5e-5)
    assert (rounded.centres_apart, rounded.centres_across) == (1500.0, 600.0)
    assert named(rounded.methods, "corner template").leaves_hole is False


def test_an_arc_of_96_by_12_inches() -> None:
    """Its radius is 102 in, and every way to draw it is listed."""
    arc = mark_arc(LargeArc.from_chord_and_rise(96 * MM_PER_INCH, 12 * MM_PER_INCH))
    assert arc.radius / MM_PER_INCH == pytest.approx(102.0)
    assert {m.name for m in arc.methods} == {
        "swung radius",
        "arch trammel",
        "ordinates",
        "sprung lath",
    }


def test_more_than_half_a_circle_is_swung_or_slid() -> None:
    """An arc that rises more than half its chord has no ordinates from it."""
    arc = mark_arc(LargeArc.from_chord_and_rise(100.0, 80.0))
    assert arc.ordinates == ()
    assert {m.name for m in arc.methods} == {"swung radius", "arch trammel"}


def test_the_centre_of_a_high_arc_lies_on_its_side_of_the_chord() -> None:
    """A high arc is swung about a centre towards it, a flat one away from it; none is minus."""
    said = {
        rise: " ".join(
            point
            for method in mark_arc(LargeArc.from_chord_and_rise(900.0, rise)).methods
            for point in points_of(method, Tape())
        )
        for rise in (600.0, 300.0)
    }
    assert "131 from the middle of the chord, towards the arc" in said[600.0]
    assert "188 from the middle of the chord, away from the arc" in said[300.0]
    assert "−" not in said[600.0] + said[300.0]


@given(strategies.length_and_width(), st.sets(st.sampled_from(list(HandTool))))
@settings(max_examples=25)
def test_the_first_method_is_the_truest_that_serves(
    size: tuple[float, float], tools: set[HandTool]
) -> None:
    """Methods that serve come first, the truest of them at the head; the others say why not."""
    length, width = size
    if width >= length:
        return
    methods = mark_oval(length, width, Workshop(frozenset(tools))).methods
    serving = [m for m in methods if m.serves]
    assert methods[: len(serving)] == tuple(serving)
    assert [m.error for m in serving] == sorted(m.error for m in serving)
    assert all(m.against for m in methods[len(serving) :])
    assert all(set(m.tools) <= tools for m in serving)


def test_a_framing_square_reaches_as_far_as_its_arms() -> None:
    """A square whose arms are shorter than (L − W)/2 does not serve, and that is said."""
    assert named(mark_oval(1700.0, 900.0).methods, "framing square").serves
    square = named(mark_oval(1800.0, 900.0).methods, "framing square")
    assert against_words(square, Tape()) == (
        "its tongue, 406, does not reach the 450 that the pins run"
    )
    assert "16" in against_words(square, Tape(imperial=True))


def test_no_forty_five_degree_oval_of_three_to_one() -> None:
    """Three times as long as wide, the 45° oval cannot be, and that is said."""
    method = named(mark_oval(1800.0, 600.0).methods, "four-centre oval, 45°")
    assert "too long for its width" in against_words(method, Tape())


def test_a_side_centre_off_the_panel_needs_a_board() -> None:
    """Where a centre lies off the panel, the method says beyond which edge and how far."""
    panel = Panel(rectangular_outline(1300.0, 740.0), 20)
    placement = Placement(Point(650.0, 370.0))
    ground = Ground(Top(panel, Oval(1200.0, 700.0), placement), choose_datum(panel))
    methods = methods_for(Oval(1200.0, 700.0), Workshop(ground=ground))
    pivots = {p.name: p.off for p in named(methods, "four-centre oval, best").pivots}
    assert pivots["end 1"] is None
    below = pivots["side 1"]
    assert below is not None
    assert below.edge == "A–B"
    assert below.distance == pytest.approx(545.79 - 370.0, abs=0.01)
    above = pivots["side 2"]
    assert above is not None
    assert above.edge == "C–D"


def test_a_hole_has_no_edge() -> None:
    """A centre in a cut-out is off the wood, beyond no lettered edge."""
    from panelwright.layout.panel import rectangular_place

    hole = rectangular_place(Point(650.0, 370.0), 100.0, 60.0)
    panel = Panel(rectangular_outline(1300.0, 740.0), 20, cut_outs=(hole,))
    top = Top(panel, Oval(1200.0, 700.0), Placement(Point(650.0, 370.0)))
    ground = Ground(top, choose_datum(panel))
    off = ground.missing(Point(650.0, 370.0))
    assert off is not None
    assert (off.edge, off.distance) == ("", pytest.approx(30.0))
    assert beyond_words(off, Tape()) == "30 mm off the wood"


@settings(max_examples=25)
@given(strategies.every_outline)
def test_every_way_has_words(outline: Outline) -> None:
    """Every way to draw is told point by point, each a sentence, in mm and in inches."""
    for method in methods_for(outline):
        for tape in (Tape(), Tape(imperial=True)):
            points = points_of(method, tape)
            assert points
            assert all(p.endswith(".") and ": " in p and ".." not in p for p in points)
            assert not tape.imperial or " mm" not in " ".join(points)
            assert (ordinates_table(method.figures, tape) is None) is (method.name != "ordinates")


def test_a_thin_nail_is_not_rounded_to_the_tape() -> None:
    """Nails of 2.5 are told as 2.5; the slip that is shown is one that the tape has."""
    shop = Workshop(nail=2.5, pencil=3.0)
    (string,) = [m for m in mark_oval(1200.0, 700.0, shop).methods if m.name == "string and nails"]
    told = " ".join(points_of(string, Tape()))
    assert "nails of 2.5 mm, a pencil of 3 mm" in told
    assert "a loop 3 too long makes the top 3 longer but 5 wider" in told
    assert "a loop 1/8 too long" in " ".join(points_of(string, Tape(imperial=True)))


def test_a_rectangle_has_no_curve() -> None:
    """A rectangle needs no method; a round oval has those of a circle."""
    assert methods_for(Rectangle(900.0, 600.0)) == ()
    assert {m.name for m in methods_for(Oval(600.0, 600.0))} == {
        m.name for m in mark_circle(600.0).methods
    }


@settings(max_examples=15)
@given(strategies.length_and_width())
def test_ordinates_draw_the_oval_within_what_is_stated(size: tuple[float, float]) -> None:
    """Points joined straight lie on the ellipse, and no chord's sag is more than is stated."""
    length, width = size
    if width >= length:
        return
    method = named(mark_oval(length, width).methods, "ordinates")
    points = method.figures.ordinates
    for point in points:
        level = (2 * point.out / length) ** 2 + (2 * point.up / width) ** 2
        assert level == pytest.approx(1.0, abs=1e-9)
    angles = [math.atan2(2 * p.out / length, 2 * p.up / width) for p in points]
    for one, other in pairwise(angles):
        middle = (one + other) / 2
        true = np.array([length / 2 * math.sin(middle), width / 2 * math.cos(middle)])
        start = np.array([length / 2 * math.sin(one), width / 2 * math.cos(one)])
        end = np.array([length / 2 * math.sin(other), width / 2 * math.cos(other)])
        way, off = end - start, true - start
        sag = abs(way[0] * off[1] - way[1] * off[0]) / math.hypot(*way)
        assert sag <= method.line_error * (1 + 1e-9)


def test_a_bare_pencil_is_not_true() -> None:
    """With a pencil thicker than the nails the string's own error is stated and is not 0."""
    shop = Workshop(nail=3.0, pencil=7.0)
    method = named(mark_oval(1200.0, 700.0, shop).methods, "string and nails")
    assert method.line_error == pytest.approx(1.9, abs=0.05)
    assert named(mark_oval(1200.0, 700.0).methods, "string and nails").line_error == 0.0


def test_a_slip_shows_most_in_the_width() -> None:
    """The hand error of the string is what 1 mm on the loop and on the nails makes of the width."""
    method = named(mark_oval(1800.0, 900.0).methods, "string and nails")
    loop = method.figures
    longer = loop.slipped(1.0).width - 900.0
    assert longer == pytest.approx(1800.0 / 900.0, rel=0.01)
    assert method.hand_error >= longer / 2


@given(st.floats(100.0, 3000.0), st.floats(0.2, 1.0), st.floats(1.1, 6.0))
def test_a_superellipse_by_ordinates(length: float, ratio: float, exponent: float) -> None:
    """Every ordinate lies on |2x/L|ⁿ + |2y/W|ⁿ = 1, from one axis to the other."""
    width = length * ratio
    shape = mark_superellipse(length, width, exponent)
    for o in shape.ordinates:
        level = (2 * o.out / length) ** exponent + (2 * o.up / width) ** exponent
        assert level == pytest.approx(1.0, abs=1e-9)
    assert (shape.ordinates[0].out, shape.ordinates[-1].up) == (0.0, 0.0)


def test_a_superellipse_bulges() -> None:
    """An exponent of 1 or less is refused."""
    with pytest.raises(OutlineError, match="above 1"):
        mark_superellipse(900.0, 600.0, 1.0)


@given(st.integers(1, 4000), st.integers(2, 60))
def test_dividing_never_adds_up_errors(sixteenths: int, parts: int) -> None:
    """Each mark lies within half a division of its true place, however many parts there are."""
    tape = Tape(imperial=True)
    total = sixteenths * MM_PER_INCH / 16
    division = Division.of(total, parts, tape)
    assert len(division.marks) == parts - 1
    for i, mark in enumerate(division.marks, start=1):
        true = Fraction(sixteenths * i, parts)
        assert mark.exact / MM_PER_INCH * 16 == pytest.approx(float(true))
        assert abs(mark.rounded / MM_PER_INCH * 16 - float(true)) <= 0.5 + 1e-6
        assert mark.error == pytest.approx(mark.rounded - mark.exact)


def test_a_length_in_fifteen() -> None:
    """107 5/8 in in 15 parts is 7 3/16 in a part to the nearest 1/16, but 7 parts are 50 1/4."""
    tape = Tape(imperial=True)
    division = Division.of(parse_length("107 5/8 in", Units.MM), 15, tape)
    assert tape.figure(division.spacing) == "7 3/16"
    assert tape.figure(division.marks[6].exact) == "50 1/4"


@pytest.mark.parametrize(("total", "parts"), [(100.0, 1), (0.0, 3), (-1.0, 2)])
def test_what_cannot_be_divided(total: float, parts: int) -> None:
    """A length of nothing, or a single part, is refused."""
    with pytest.raises(LengthError, match="2 parts or more"):
        Division.of(total, parts)


def test_three_four_five() -> None:
    """Sides of 3 and 4 with a diagonal of 5 meet square; 4 mm more lean the corner out by 6.7."""
    assert Squareness.of_corner(1200.0, 900.0, 1500.0).out_by == pytest.approx(0.0)
    leaning = Squareness.of_corner(900.0, 1200.0, 1504.0)
    assert not leaning.is_square
    assert leaning.out_by == pytest.approx((1504.0**2 - 1500.0**2) / (2 * 900.0))
    assert leaning.square_diagonal == 1500.0


@given(st.floats(300, 3000), st.floats(300, 3000), st.floats(-60.0, 60.0))
def test_a_leaning_corner_is_found(first: float, second: float, lean: float) -> None:
    """However a side leans, its lean is found from the diagonal across the corner."""
    rise = math.sqrt(second**2 - lean**2)
    diagonal = Point(first, 0.0).distance_to(Point(-lean, rise))
    found = Squareness.of_corner(first, second, diagonal)
    assert found.out_by == pytest.approx(lean, abs=1e-6)
    assert found.is_square is (abs(found.out_by) <= 1.5 + ROUNDING)


def test_sides_that_do_not_meet() -> None:
    """Two sides and a diagonal longer than both together are a slip of the tape."""
    with pytest.raises(PanelError, match="measure again"):
        Squareness.of_corner(400.0, 300.0, 800.0)


def test_a_capsule_is_swung_about_two_centres() -> None:
    """String, bar and router of a capsule are set to half the width about its two centres."""
    for method in methods_for(Capsule(1400.0, 600.0)):
        assert method.figures.radius == 300.0
        assert method.figures.centres == (Point(-400.0, 0.0), Point(400.0, 0.0))
        assert [p.at for p in method.pivots] == list(method.figures.centres)
