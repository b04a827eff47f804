"""Points that a top must cover or avoid: held truly, and bounded as such."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from panelwright.layout.errors import NothingFitsError
from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.points import holds_all
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

ROUND = ("circle", "oval", "capsule")
SHAPES = (*ROUND, "rectangle", "rounded rectangle")
GAP = 0.001
TOUCH = 0.01
PANEL = Region.from_rings(
    np.array([[0.0, 0.0], [1600.0, 0.0], [1500.0, 900.0], [300.0, 1000.0], [0.0, 500.0]])
)
WOOD = SoundWood.exact(PANEL)


def best(shape: str, wood: SoundWood = WOOD, **asked: Any) -> Fit:  # noqa: ANN401 - fields of a wish
    """Return the best top of a shape."""
    return best_fits(wood, replace(Wish((shape,)), **asked))[0]


def off(fit: Fit, point: Point) -> float:
    """Return how far a point lies outside a top."""
    return Region.from_rings(fit.points()).distance_to(Region.at(point))


@pytest.mark.parametrize("shape", SHAPES)
def test_a_point_near_a_corner_is_covered_at_a_price(shape: str) -> None:
    """A point that the best top leaves out is covered by the best that holds it, with its gap."""
    point = Point(330.0, 930.0)
    free = best(shape)
    held = best(shape, covers=(point,))
    assert off(free, point) > 1.0
    assert off(held, point) <= TOUCH
    assert PANEL.holds(Region.from_rings(held.points()))
    assert held.bound is not None and free.bound is not None and held.gap is not None
    assert held.gap <= GAP
    assert held.score < free.score
    assert held.score <= free.bound.value


@pytest.mark.parametrize("shape", SHAPES)
def test_a_point_to_avoid_lies_outside_the_top(shape: str) -> None:
    """The best top that avoids a point in the middle keeps it outside, with its gap."""
    point = Point(700.0, 450.0)
    free = best(shape)
    clear = best(shape, avoids=(point,))
    assert off(free, point) == 0.0
    assert off(clear, point) > 0.0
    assert clear.gap is not None and clear.gap <= GAP
    assert clear.score < free.score


@pytest.mark.parametrize("shape", SHAPES)
def test_what_is_held_anyhow_costs_nothing(shape: str) -> None:
    """Points well inside the best top and far outside it leave it as good as it was."""
    free = best(shape)
    middle = free.placement.centre
    same = best(shape, covers=(middle,), avoids=(Point(30.0, 960.0), Point(-50.0, 0.0)))
    assert same.score == pytest.approx(free.score, rel=2 * GAP)
    assert off(same, middle) == 0.0


@pytest.mark.parametrize("shape", SHAPES)
def test_a_point_outside_the_wood_is_named(shape: str) -> None:
    """A point off the panel, or one both to cover and to avoid, can be covered by nothing."""
    for asked in (
        {"covers": (Point(40.0, 980.0),)},
        {"covers": (Point(500.0, 500.0),), "avoids": (Point(500.0, 500.0),)},
    ):
        named = f"{asked['covers'][0].x:g}, {asked['covers'][0].y:g}"
        with pytest.raises(NothingFitsError, match=named):
            best(shape, **asked)


@pytest.mark.parametrize("shape", ["oval", "capsule", "rounded rectangle"])
def test_two_points_set_the_turn(shape: str) -> None:
    """A top over two far ends of a strip lies along it, over three in a line as well."""
    strip = SoundWood.exact(
        Region.from_rings(np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 300.0], [0.0, 300.0]]))
    )
    ends = (Point(200.0, 150.0), Point(1000.0, 150.0), Point(1800.0, 150.0))
    fit = best(shape, strip, covers=ends, limits=Limits(length=Span(0.0, 1800.0)))
    assert max(off(fit, point) for point in ends) <= TOUCH
    assert fit.gap is not None and fit.gap <= GAP
    assert math.sin(fit.placement.turn) == pytest.approx(0.0, abs=0.05)
    assert fit.outline.length <= 1800.0 + 1e-9


@pytest.mark.parametrize("goal", [Goal.LENGTH, Goal.WIDTH])
def test_other_goals_cover_points_too(goal: Goal) -> None:
    """The longest and the widest rounded rectangle within limits still hold their point."""
    point = Point(330.0, 930.0)
    limits = Limits(length=Span(300.0), width=Span(250.0), corner_radius=Span(20.0, 60.0))
    free = best("rounded rectangle", goal=goal, limits=limits)
    held = best("rounded rectangle", goal=goal, limits=limits, covers=(point,))
    assert off(held, point) <= TOUCH
    assert held.bound is not None and free.bound is not None
    assert held.score <= free.bound.value


@pytest.mark.parametrize(("beyond", "held"), [(0.0, True), (0.009, True), (0.011, False)])
def test_a_point_is_held_within_a_hundredth(beyond: float, held: bool) -> None:
    """A point may lie a hair beyond the edge, a part not: it is held whole or not at all."""
    assert holds_all(PANEL, [Region.at(Point(700.0, -beyond))]) is held
    part = Region.disk(Point(700.0, 10.0 - beyond), 10.0, around=False)
    assert holds_all(PANEL, [part]) is (beyond == 0.0)
    assert not holds_all(PANEL, [Region.at(Point(700.0, 300.0)), Region.at(Point(700.0, -1.0))])


@pytest.mark.parametrize("lipping", [0.0, 25.0])
def test_the_core_covers_the_point_under_a_lipping(lipping: float) -> None:
    """What must be covered is covered by the wood of the core, not only by its lipping."""
    point = Point(330.0, 930.0)
    for shape in ("capsule", "rounded rectangle"):
        fit = best(shape, covers=(point,), lipping=lipping)
        core = Region.from_rings(fit.placement.of(fit.core.inner()))
        assert core.distance_to(Region.at(point)) <= TOUCH
