"""String, nails and rod: what is tied is what is drawn."""

from __future__ import annotations

import math

import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.instruments import StringLoop, TrammelRod, oval_checks, taut_length

thicknesses = st.floats(min_value=0.0, max_value=12.0)


@pytest.mark.parametrize(
    ("length", "width", "spacing", "loop"),
    [
        (1800.0, 900.0, 1558.8457, 3358.8457),
        (1500.0, 1000.0, 1118.0340, 2618.0340),
        (1200.0, 700.0, 974.6794, 2174.6794),
    ],
)
def test_nails_and_loop(length: float, width: float, spacing: float, loop: float) -> None:
    """Nails stand √(L² − W²) apart and the loop is that and L (computed; read in several books)."""
    found = StringLoop.for_oval(length, width)
    assert found.nail_spacing == pytest.approx(spacing, abs=5e-5)
    assert found.loop == pytest.approx(loop, abs=5e-5)


@settings(max_examples=25)
@given(strategies.length_and_width(), thicknesses, st.floats(0.0, 0.01))
def test_equal_nails_and_pencil_draw_the_oval(
    size: tuple[float, float], thickness: float, stretch: float
) -> None:
    """With nails and pencil of one size the drawn line is the oval, all the way round."""
    length, width = size
    loop = StringLoop.for_oval(length, width, thickness, thickness, stretch)
    assert loop.drawn.length == pytest.approx(length, rel=1e-9)
    assert loop.drawn.width == pytest.approx(width, rel=1e-6)
    assert loop.farthest_from_ellipse(length, width, steps=8) < 1e-6 * length


@given(strategies.length_and_width(), thicknesses)
def test_thickness_lengthens_the_loop_by_pi_d(size: tuple[float, float], thickness: float) -> None:
    """Nails and pencil of diameter d lengthen the loop by exactly πd."""
    bare = StringLoop.for_oval(*size)
    thick = StringLoop.for_oval(*size, nail=thickness, pencil=thickness)
    assert thick.loop - bare.loop == pytest.approx(math.pi * thickness, abs=1e-9)


def test_unequal_nails_and_pencil() -> None:
    """Nails of 3 and a pencil of 7 lengthen the loop by 15.7 at the ends, 11.9 at the sides."""
    bare = StringLoop.for_oval(1200.0, 700.0)
    spacing = bare.nail_spacing
    at_end = taut_length(Point(600.0, 0.0), spacing, 3.0, 7.0)
    at_side = taut_length(Point(0.0, 350.0), spacing, 3.0, 7.0)
    assert at_end - bare.loop == pytest.approx(15.7, abs=0.05)
    assert at_side - bare.loop == pytest.approx(11.9, abs=0.05)
    uncorrected = StringLoop(spacing, bare.loop, 3.0, 7.0).drawn
    assert (round(uncorrected.length), round(uncorrected.width)) == (1184, 679)


@settings(max_examples=25)
@given(strategies.length_and_width(), thicknesses, thicknesses)
def test_unequal_thickness_keeps_the_width(
    size: tuple[float, float], nail: float, pencil: float
) -> None:
    """Whatever the thicknesses, the loop draws the width; what it makes of the length is stated."""
    length, width = size
    loop = StringLoop.for_oval(length, width, nail, pencil)
    assert loop.drawn.width == pytest.approx(width, rel=1e-6)
    off = abs(loop.drawn.length - length) / 2
    assert loop.farthest_from_ellipse(length, width, steps=8) >= off * (1 - 1e-9)


def test_one_per_cent_too_long() -> None:
    """At 1200 × 700 a loop 1 % too long adds 22 mm to the length and 37 mm to the width."""
    loop = StringLoop.for_oval(1200.0, 700.0)
    drawn = loop.slipped(0.01 * loop.loop)
    assert (round(drawn.length - 1200), round(drawn.width - 700)) == (22, 37)


@settings(max_examples=25)
@given(st.floats(100.0, 2000.0), thicknesses)
def test_a_circle_needs_one_nail(diameter: float, thickness: float) -> None:
    """An oval as wide as long has its nails in one place and is drawn round."""
    loop = StringLoop.for_oval(diameter, diameter, thickness, 3.0)
    assert loop.nail_spacing == 0.0
    assert loop.drawn.length == pytest.approx(loop.drawn.width)
    assert loop.drawn.length == pytest.approx(diameter)


@given(st.floats(-900.0, 900.0), st.floats(1.0, 900.0), st.floats(1.0, 1500.0))
def test_a_thin_string_is_a_triangle(x: float, y: float, spacing: float) -> None:
    """With nails and pencil of no thickness the string is the sides of a triangle."""
    pencil = Point(x, y)
    left, right = Point(-spacing / 2, 0.0), Point(spacing / 2, 0.0)
    sides = spacing + pencil.distance_to(left) + pencil.distance_to(right)
    assert taut_length(pencil, spacing, 0.0, 0.0) == pytest.approx(sides, rel=1e-9)


@given(strategies.length_and_width(), st.floats(0.0, math.tau))
def test_the_rod_draws_the_oval(size: tuple[float, float], tilt: float) -> None:
    """With its pins on the two axes the pencil at the rod's end lies on the oval."""
    length, width = size
    rod = TrammelRod.for_oval(length, width)
    way = Point.polar(1.0, tilt)
    pencil = Point(rod.to_short_axis_pin * way.x, rod.to_long_axis_pin * way.y)
    on_long_axis = pencil + way * -rod.to_long_axis_pin
    on_short_axis = pencil + way * -rod.to_short_axis_pin
    assert on_long_axis.y == pytest.approx(0.0, abs=1e-9)
    assert on_short_axis.x == pytest.approx(0.0, abs=1e-9)
    assert rod.pins_apart == pytest.approx(on_long_axis.distance_to(on_short_axis))


@given(strategies.length_and_width())
def test_check_ordinates_lie_on_the_oval(size: tuple[float, float]) -> None:
    """Each check ordinate is a point of the ellipse."""
    length, width = size
    for ordinate in oval_checks(length, width):
        level = (2 * ordinate.out / length) ** 2 + (2 * ordinate.up / width) ** 2
        assert level == pytest.approx(1.0, abs=1e-12)


@pytest.mark.parametrize("make", [StringLoop.for_oval, TrammelRod.for_oval])
def test_an_oval_is_no_wider_than_long(make: object) -> None:
    """An oval wider than long is refused with both figures."""
    assert callable(make)
    with pytest.raises(OutlineError, match="not 700 by 600"):
        make(600.0, 700.0)
