"""Laws of every family: a panel moved, turned, mirrored or scaled gives the same top."""

from __future__ import annotations

import math

import numpy as np
import pytest

from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

pytestmark = pytest.mark.heavy

SHAPES = [
    "circle", "oval", "capsule", "superellipse", "hexagon", "octagon", "rectangle",
    "rounded rectangle",
]  # fmt: skip
RING = np.array([[0, 0], [1210, 60], [1090, 420], [840, 380], [700, 690], [80, 560.0]])
HOLE = np.array([[300, 200], [330, 190], [340, 230.0]])
EVEN = np.array([[-600, -200], [0, -130], [600, -200], [520, 240], [0, 170], [-520, 240.0]])
TO = 0.001
"""mm to which sizes stand."""


def best(rings: list[Points], shape: str, scale: float = 1.0) -> Fit:
    """Return the best top of a shape; corner radii grow with the panel."""
    wish = Wish((shape,), limits=Limits(corner_radius=Span(60.0 * scale, 60.0 * scale)))
    return best_fits(SoundWood.exact(Region.from_rings(rings[0], rings[1:])), wish)[0]


def sizes(fit: Fit) -> tuple[float, float]:
    """Return length and width, mm."""
    return fit.outline.length, fit.outline.width


@pytest.mark.parametrize("shape", SHAPES)
def test_a_panel_moved_and_turned_gives_the_same_top(shape: str) -> None:
    """Its sizes stand to 0.001 mm, and it lies at the place that the first one's moves to."""
    one = best([RING, HOLE], shape)
    for degrees in (33.0, -71.0):
        there = Placement(Point(310.0, -95.0), math.radians(degrees))
        other = best([there.of(RING), there.of(HOLE)], shape)
        assert sizes(other) == pytest.approx(sizes(one), abs=TO)
        centre = there.of(np.array([[*one.placement.centre]]))[0]
        assert [*other.placement.centre] == pytest.approx(centre, abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_mirrored_panel_gives_the_mirrored_top(shape: str) -> None:
    """Its sizes stand to 0.001 mm, and it lies at the mirrored place."""
    one = best([RING, HOLE], shape)
    other = best([ring[::-1] * [-1.0, 1.0] for ring in (RING, HOLE)], shape)
    assert sizes(other) == pytest.approx(sizes(one), abs=TO)
    x, y = one.placement.centre
    assert [*other.placement.centre] == pytest.approx([-x, y], abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
def test_a_panel_twice_as_large_gives_a_top_twice_as_large(shape: str) -> None:
    """Length and width are twice as great to 0.002 mm."""
    one, other = best([RING, HOLE], shape), best([2 * RING, 2 * HOLE], shape, scale=2.0)
    assert sizes(other) == pytest.approx((2 * sizes(one)[0], 2 * sizes(one)[1]), abs=2 * TO)


@pytest.mark.parametrize("shape", SHAPES)
def test_of_the_twins_in_a_symmetrical_panel_the_same_one_is_named(shape: str) -> None:
    """A panel that is its own mirror image gives the same top from whichever side it is drawn."""
    tongue = np.array([[-20, 300], [0, 100], [20, 300.0]])
    ring = Region.from_rings(EVEN).minus(Region.from_rings(tongue)).exterior
    one, other = best([ring], shape), best([ring[::-1] * [-1.0, 1.0]], shape)
    assert sizes(other) == pytest.approx(sizes(one), abs=TO)
    assert [*other.placement.centre] == pytest.approx([*one.placement.centre], abs=0.01)
    assert math.cos(2 * (other.placement.turn - one.placement.turn)) == pytest.approx(1, abs=1e-6)
