"""Limits that leave hardly anything: what little there is is found, what there is not is ruled out.

The longest straight line in a rectangle is its diagonal (Pythagoras), so nothing is longer.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from panelwright.layout.errors import NothingFitsError, UndecidedError
from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel import Panel, Spoils, round_place
from panelwright.layout.panel.sound import SoundWood

LONG, WIDE = 1584.0, 684.0
DIAGONAL = math.hypot(LONG, WIDE)
BOARD = SoundWood.exact(
    Region.from_rings(np.array([[0.0, 0.0], [LONG, 0.0], [LONG, WIDE], [0.0, WIDE]]))
)


@pytest.mark.parametrize("shape", ["capsule", "oval"])
@pytest.mark.parametrize("short", [25.0, 5.0, 1.5])
def test_a_top_nearly_as_long_as_the_diagonal_is_found(shape: str, short: float) -> None:
    """A narrow top that lies along the diagonal is found, with a proof."""
    wish = Wish((shape,), limits=Limits(length=Span(DIAGONAL - short)))
    fit = best_fits(BOARD, wish)[0]
    assert fit.outline.length == pytest.approx(DIAGONAL - short, abs=0.01)
    assert fit.gap is not None and fit.gap < 0.005
    slope = math.atan2(WIDE, LONG)
    assert abs(abs(fit.placement.turn) - slope) < 0.1


@pytest.mark.parametrize("shape", ["capsule", "oval", "D end", "superellipse", "rectangle"])
def test_the_largest_top_that_limits_allow_is_proved_in_a_few_boxes(shape: str) -> None:
    """Where a top as long and as wide as may be fits easily, none can be larger."""
    limits = Limits(length=Span(0, 500), width=Span(0, 260))
    fit = best_fits(BOARD, Wish((shape,), limits=limits))[0]
    assert (fit.outline.length, fit.outline.width) == pytest.approx((500, 260), abs=0.01)
    assert fit.gap is not None and fit.gap <= 1e-3
    assert fit.steps <= 10


def test_a_rectangle_nearly_as_long_as_the_diagonal_is_found() -> None:
    """A rectangle L long and w wide fits turned by t where L cos t + w sin t is the board's length.

    And where L sin t + w cos t is its width; both say how wide it is at a given length.
    """
    fit = best_fits(BOARD, Wish(("rectangle",), limits=Limits(length=Span(DIAGONAL - 25))))[0]
    long, wide, turn = fit.outline.length, fit.outline.width, abs(fit.placement.turn)
    assert fit.gap is not None and fit.gap <= 0.001
    assert long * math.cos(turn) + wide * math.sin(turn) == pytest.approx(LONG, abs=0.01)
    assert long * math.sin(turn) + wide * math.cos(turn) == pytest.approx(WIDE, abs=0.01)


@pytest.mark.parametrize("shape", ["capsule", "oval", "rectangle"])
def test_nothing_is_longer_than_the_diagonal(shape: str) -> None:
    """A top longer than the diagonal is ruled out, not left undecided."""
    wish = Wish((shape,), limits=Limits(length=Span(DIAGONAL + 0.1)))
    with pytest.raises(NothingFitsError) as caught:
        best_fits(BOARD, wish)
    assert not isinstance(caught.value, UndecidedError)


ROUND = Panel(round_place(Point(500.0, 500.0), 1000.0), 20).sound_for(Spoils.SHOWING)
"""Of so many edges that an outer polygon a little farther out is searched."""


@pytest.mark.parametrize("shape", ["circle", "hexagon", "rectangle"])
def test_hundredths_too_large_for_a_round_board_is_ruled_out(shape: str) -> None:
    """A top 0.02 mm longer than its diameter, or with such a diagonal, is not left undecided."""
    least = Span((1000.02 / math.sqrt(2)) if shape == "rectangle" else 1000.02)
    limits = Limits(length=least, width=least if shape == "rectangle" else Span())
    with pytest.raises(NothingFitsError) as caught:
        best_fits(ROUND, Wish((shape,), limits=limits))
    assert not isinstance(caught.value, UndecidedError)


def test_the_capsule_along_the_diagonal_is_as_thick_as_its_corners_leave_it() -> None:
    """A capsule of given length along a rectangle touches both edges at each of its ends.

    With the ends' centres r from both edges of opposite corners it is 2r wide and as long as the
    diagonal of what is left, and 2r: hypot(L − 2r, W − 2r) + 2r.
    """
    fit = best_fits(BOARD, Wish(("capsule",), limits=Limits(length=Span(DIAGONAL - 25))))[0]
    width = fit.outline.width
    assert math.hypot(LONG - width, WIDE - width) + width == pytest.approx(
        fit.outline.length, abs=0.05
    )


ELBOW = [(0.0, 0.0), (1200.0, 0.0), (1200.0, 380.0), (430.0, 380.0), (430.0, 900.0), (0.0, 900.0)]
"""Two arms as in a worn-out L-shaped counter: longer than either is the line past the corner."""


@pytest.mark.parametrize("long", [1280.0, 1330.0])
def test_a_capsule_longer_than_either_arm_is_found_past_the_corner(long: float) -> None:
    """It touches the inner corner, and no middle of a coarse cell sees anything of it."""
    board = SoundWood.exact(Region.from_rings(np.array(ELBOW)))
    fit = best_fits(board, Wish(("capsule",), limits=Limits(length=Span(long))))[0]
    assert fit.outline.length == pytest.approx(long, abs=0.005)
    assert fit.gap is not None and fit.gap <= 0.001
    turn, centre = fit.placement.turn, fit.placement.centre
    across = (430 - centre.x) * -math.sin(turn) + (380 - centre.y) * math.cos(turn)
    assert abs(across) == pytest.approx(fit.outline.width / 2, abs=0.01)


def test_a_point_to_be_held_leaves_a_free_radius_proved() -> None:
    """Where capsules may miss a point by much, radii are cut before all effort is gone."""
    hole = Region.disk(Point(450.0, 300.0), 40.0, around=True)
    ring = np.array([[0.0, 0.0], [900.0, 0.0], [900.0, 600.0], [0.0, 600.0]])
    wood = SoundWood.exact(Region.from_rings(ring).minus(hole))
    limits = Limits(corner_radius=Span(0.0, 300.0))
    wish = Wish(("rounded rectangle",), limits=limits, covers=(Point(3.0, 3.0),), most_effort=5e7)
    fit = best_fits(wood, wish)[0]
    assert fit.gap is not None and fit.gap <= 1e-3


@pytest.mark.parametrize("radius", [80.0, 130.0])
def test_the_nearest_top_is_as_wide_as_its_corners(radius: float) -> None:
    """On a board larger than the wanted top only the corners make it wider."""
    limits = Limits(corner_radius=Span(radius, radius))
    wish = Wish(("rounded rectangle",), Goal.NEAREST, limits, wanted=(616.0, 165.0))
    outline = best_fits(BOARD, wish)[0].outline
    assert (outline.length, outline.width) == pytest.approx((616.0, max(165.0, 2 * radius)))


def test_a_ratio_that_points_far_apart_rule_out_is_not_left_undecided() -> None:
    """Points that make a top wide make it long, and no such length is there."""
    ring = np.array([[0.0, 0.0], [800.0, 0.0], [800.0, 400.0], [0.0, 400.0]])
    limits = Limits(ratio=Span(1.9, 3.0), grain_deg=83.0, most_turn_deg=1.0)
    points = Point(760.0, 120.0), Point(526.0, 195.0)
    wish = Wish(("rectangle",), Goal.WIDTH, limits, covers=points, most_effort=5e7)
    with pytest.raises(NothingFitsError) as caught:
        best_fits(SoundWood.exact(Region.from_rings(ring)), wish)
    assert not isinstance(caught.value, UndecidedError)
