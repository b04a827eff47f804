"""What is ruled out at a glance, and the fullest of equally long tops."""

from __future__ import annotations

import numpy as np
import pytest

from panelwright.layout.errors import NothingFitsError, UndecidedError
from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import OWN_OUTLINE, Freeform
from panelwright.layout.panel.sound import SoundWood

BOARD = Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 700.0], [0.0, 700.0]]))
CUT_OUT = np.array([[1450.0, 200.0], [1800.0, 200.0], [1800.0, 500.0], [1450.0, 500.0]])
PARTED = SoundWood.exact(BOARD.minus(Region.from_rings(CUT_OUT)))


@pytest.mark.parametrize("shape", ["oval", "capsule", "superellipse", "rectangle", "hexagon"])
def test_points_on_either_side_of_a_cut_out_cannot_both_be_covered(shape: str) -> None:
    """A convex top holds all between two of its points, and there the wood is cut out."""
    points = (Point(300, 300), Point(1900, 300))
    with pytest.raises(NothingFitsError, match="between them") as caught:
        best_fits(PARTED, Wish((shape,), covers=points))
    assert not isinstance(caught.value, UndecidedError)


def test_points_round_a_cut_out_cannot_all_be_covered() -> None:
    """No two of three points are parted by it, but it lies within their triangle."""
    points = (Point(1400, 100), Point(1950, 100), Point(1650, 690))
    with pytest.raises(NothingFitsError, match="between them"):
        best_fits(PARTED, Wish(("oval",), covers=points))


def test_a_circle_has_no_other_ratio_than_one() -> None:
    """A least ratio of 2 leaves no circle, though one would fit."""
    wish = Wish(("circle",), limits=Limits(ratio=Span(2)))
    with pytest.raises(NothingFitsError, match="as long as wide"):
        best_fits(SoundWood.exact(BOARD), wish)


def test_an_outline_far_longer_than_the_wood_is_refused_at_once() -> None:
    """The farthest two of its corners lie farther apart than any two points of the wood."""
    corners = [Point(0, 0), Point(3000, 0), Point(3000, 400), Point(1500, 100), Point(0, 400)]
    own = Freeform.through(corners, OWN_OUTLINE)
    with pytest.raises(NothingFitsError, match="reaches farther"):
        best_fits(SoundWood.exact(BOARD), Wish((OWN_OUTLINE,), own=own))


@pytest.mark.parametrize("shape", ["rectangle", "capsule", "oval"])
@pytest.mark.parametrize("goal", [Goal.LENGTH, Goal.WIDTH])
def test_of_equally_long_or_wide_tops_the_largest_is_found(shape: str, goal: Goal) -> None:
    """Held to 900 by 500 at most, the longest is 500 wide and the widest 900 long."""
    limits = Limits(Span(300, 900), Span(100, 500))
    fit = best_fits(SoundWood.exact(BOARD), Wish((shape,), goal, limits))[0]
    assert (fit.outline.length, fit.outline.width) == pytest.approx((900, 500), abs=0.02)
    assert fit.gap is not None and fit.gap <= 0.001
