"""Rectangular panels, where the best top of each family is known beforehand."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Rectangle
from panelwright.layout.panel.sound import SoundWood

ALL = ("circle", "oval", "capsule", "rounded rectangle", "rectangle")
RADIUS = 40.0
PRINTED = 0.01
"""mm: what a top that touches all round may lack at most, twice the allowance of the proof."""

lengths = st.floats(300.0, 2500.0)
ratios = st.floats(1.02, 8.0)
turns = st.floats(-3.1, 3.1)
places = st.builds(Point, st.floats(-800.0, 800.0), st.floats(-800.0, 800.0))


def panel(length: float, width: float, place: Placement) -> Region:
    """Return a rectangular panel somewhere."""
    return Region.from_rings(place.of(Rectangle(length, width).outer()))


def best(region: Region, shape: str, **wished: object) -> Fit:
    """Return the best top of a shape."""
    wished.setdefault("limits", Limits(corner_radius=Span(RADIUS, RADIUS)))
    wish = Wish((shape,), **wished)  # type: ignore[arg-type]
    return best_fits(SoundWood.exact(region), wish)[0]


def known(shape: str, length: float, width: float) -> float:
    """Return the area of the best top of a rectangular panel, mm²: of the panel's own sizes."""
    return {
        "circle": math.pi / 4 * width**2,
        "oval": math.pi / 4 * length * width,
        "capsule": (length - width) * width + math.pi / 4 * width**2,
        "rounded rectangle": length * width - (4 - math.pi) * RADIUS**2,
        "rectangle": length * width,
    }[shape]


@pytest.mark.parametrize("shape", ALL)
@settings(max_examples=8)
@given(lengths, ratios, turns, places)
def test_the_best_top_of_a_rectangle_is_as_long_and_wide_as_it(
    shape: str, length: float, ratio: float, turn: float, centre: Point
) -> None:
    """Sizes and place to 0.01 mm, the turn of the panel, and a bound at its very area or above."""
    width = max(length / ratio, 2.1 * RADIUS)
    length = max(length, 1.02 * width)
    place = Placement(centre, turn)
    fit = best(panel(length, width, place), shape)
    assert fit.outline.width == pytest.approx(width, abs=PRINTED)
    assert fit.bound is not None and fit.bound.value >= known(shape, length, width) * (1 - 1e-9)
    assert fit.score <= known(shape, length, width) * (1 + 1e-9)
    if shape == "circle":
        return
    assert fit.outline.length == pytest.approx(length, abs=PRINTED)
    off = math.remainder(fit.placement.turn - turn, math.pi)
    assert abs(off) * length < 2 * PRINTED
    assert fit.placement.centre.distance_to(centre) < 2 * PRINTED


@pytest.mark.parametrize("shape", ALL)
@settings(max_examples=5)
@given(side=lengths, turn=turns)
def test_a_square_gives_a_top_of_its_side_either_way_round(
    shape: str, side: float, turn: float
) -> None:
    """Two turns are equally good for rectangles, and for the others the best is the circle."""
    fit = best(panel(side, side, Placement(turn=turn)), shape)
    assert fit.outline.width == pytest.approx(side, abs=2 * PRINTED)
    assert fit.outline.length == pytest.approx(side, abs=2 * PRINTED)
    assert fit.bound is not None and fit.bound.value >= known(shape, side, side) * (1 - 1e-9)
    assert fit.gap is not None and fit.gap <= 0.001
    if "rectangle" in shape:
        off = math.remainder(fit.placement.turn - turn, math.pi / 2)
        assert abs(off) * side < 2 * PRINTED


@pytest.mark.parametrize("shape", ALL)
@pytest.mark.parametrize("length", [1200.0, 700.0])
def test_of_two_equal_lobes_either_is_right(shape: str, length: float) -> None:
    """Two rectangles joined by a narrow neck at a corner give one of them, and a bound for both."""
    one, other = Placement(Point(0.0, 0.0)), Placement(Point(length + 60.0, 30.0))
    neck = panel(120.0, 20.0, Placement(Point(length / 2 + 30.0, 190.0)))
    wood = panel(length, 400.0, one).joined(panel(length, 400.0, other), neck)
    fit = best(wood, shape)
    score = known(shape, length, 400.0)
    assert fit.score == pytest.approx(score, rel=1e-4)
    assert fit.bound is not None and fit.bound.value >= score * (1 - 1e-9)
    assert fit.gap is not None and fit.gap <= 0.001


@pytest.mark.parametrize("shape", ["oval", "capsule", "rounded rectangle", "rectangle"])
@settings(max_examples=2)
@given(length=st.floats(800.0, 2000.0), ratio=st.floats(1.6, 4.0), turn=turns)
def test_the_widest_top_of_a_rectangle_is_as_wide_as_it(
    shape: str, length: float, ratio: float, turn: float
) -> None:
    """No turn makes room for more than the width, whatever least length is asked for."""
    width = length / ratio
    limits = Limits(length=Span(least=1.2 * width), corner_radius=Span(RADIUS, RADIUS))
    fit = best(panel(length, width, Placement(turn=turn)), shape, goal=Goal.WIDTH, limits=limits)
    assert fit.outline.width == pytest.approx(width, abs=PRINTED)
    assert fit.bound is not None and fit.bound.value >= width * (1 - 1e-9)
    assert fit.outline.length >= 1.2 * width - PRINTED


@pytest.mark.parametrize("shape", ["rounded rectangle", "rectangle"])
@pytest.mark.parametrize("ratio", [10.0, 20.0])
def test_a_long_strip_is_filled(shape: str, ratio: float) -> None:
    """A strip ten or twenty times as long as wide gives a top of its own sizes."""
    fit = best(panel(2000.0, 2000.0 / ratio, Placement(turn=0.4)), shape)
    assert fit.outline.length == pytest.approx(2000.0, abs=PRINTED)
    assert fit.outline.width == pytest.approx(2000.0 / ratio, abs=PRINTED)
    assert fit.gap is not None and fit.gap <= 0.001


@pytest.mark.parametrize("shape", ["oval", "capsule"])
def test_a_strip_of_ratio_twenty_gives_a_round_ended_top_of_its_sizes(shape: str) -> None:
    """Oval and capsule of ratio 20 are found, and the proof closes within 0.1 %."""
    fit = best(panel(2000.0, 100.0, Placement(turn=1.1)), shape)
    assert fit.outline.length == pytest.approx(2000.0, abs=0.05)
    assert fit.outline.width == pytest.approx(100.0, abs=PRINTED)
    assert fit.gap is not None and fit.gap <= 0.001
