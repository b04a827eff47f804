"""Tapes that were out: the top found still fits in the panel as it really is."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel import Defect, Panel, Spoils, outline_through, rectangular_outline
from panelwright.layout.panel.told import polygonal_place, round_place

SHAPES = ("circle", "oval", "capsule", "rounded rectangle", "rectangle")
SHOWING = frozenset({Spoils.SHOWING})
CRACK = (Point(-90.0, -40.0), Point(60.0, -55.0), Point(40.0, 10.0))
KNOT, KNOT_ACROSS = Point(110.0, 60.0), 40.0


def panel(corners: tuple[Point, ...], crack: tuple[Point, ...], knot: Point) -> Panel:
    """Return a panel with a crack and a knot."""
    defects = (
        Defect("crack", polygonal_place(crack), SHOWING, clear=3.0),
        Defect("knot", round_place(knot, KNOT_ACROSS), SHOWING, clear=5.0),
    )
    return Panel(outline_through(list(corners)), 30.0, defects=defects)


def top(measured: Panel, shape: str, tape_error: float) -> Fit:
    """Return the best top for tapes that may be out."""
    wood = measured.sound_for(Spoils.SHOWING, margin=4.0, tape_error=tape_error)
    wish = Wish((shape,), limits=Limits(corner_radius=Span(20.0, 20.0)), gap=0.01)
    return best_fits(wood, wish)[0]


def out_by(points: tuple[Point, ...], error: float, rng: np.random.Generator) -> tuple[Point, ...]:
    """Return where the points really are, each out by the whole error in some direction."""
    turns = rng.uniform(0, math.tau, len(points))
    return tuple(p + Point.polar(error, turn) for p, turn in zip(points, turns, strict=True))


@settings(max_examples=6)
@given(
    star_rings(),
    st.floats(0.2, 8.0),
    st.sampled_from(SHAPES),
    st.integers(min_value=0, max_value=10**6),
)
def test_the_top_fits_whichever_way_every_tape_was_out(
    corners: tuple[Point, ...], error: float, shape: str, number: int
) -> None:
    """Every corner, crack and knot out by the whole error: the top keeps margin and clearances."""
    fit = top(panel(corners, CRACK, KNOT), shape, error)
    drawn = Region.from_rings(fit.placement.of(fit.core.inner()))
    rng = np.random.default_rng(number)
    for _ in range(10):
        really = panel(
            out_by(corners, error, rng), out_by(CRACK, error, rng), *out_by((KNOT,), error, rng)
        )
        inside = really.sound_for(Spoils.SHOWING, margin=4.0 - 0.01).outer
        assert drawn.minus(inside).area < 0.05


@settings(max_examples=6)
@given(star_rings(), st.floats(0.5, 6.0), st.sampled_from(SHAPES))
def test_larger_tape_errors_never_give_a_larger_top(
    corners: tuple[Point, ...], error: float, shape: str
) -> None:
    """What is found for poor tapes does not beat the bound for good ones."""
    measured = panel(corners, CRACK, KNOT)
    poor, good = top(measured, shape, error), top(measured, shape, error / 3)
    assert good.bound is not None
    assert poor.score <= good.bound.value * (1 + 1e-9)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_board_gives_up_the_error_at_both_edges(shape: str) -> None:
    """A tape that may be 1.5 mm out takes 3 mm from the width of the top, and from its length."""
    board = Panel(rectangular_outline(1200.0, 500.0), 30.0)
    wood = board.sound_for(Spoils.SHOWING, tape_error=1.5)
    wish = Wish((shape,), limits=Limits(corner_radius=Span(20.0, 20.0)))
    fit = best_fits(wood, wish)[0]
    assert fit.outline.width == pytest.approx(497.0, abs=0.01)
    if shape != "circle":
        assert fit.outline.length == pytest.approx(1197.0, abs=0.01)
