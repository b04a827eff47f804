"""What a wish asks of sizes, as half-planes and as bounds over shapes and radii."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from panelwright.layout.errors import LayoutError
from panelwright.layout.fit import Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.convex.entry import kind_of
from panelwright.layout.fit.convex.sizing import Sizing
from panelwright.layout.fit.goal import half_planes_of
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Capsule, DEnd, Oval, RegularPolygon, Superellipse
from panelwright.layout.panel.sound import SoundWood

BOARD = SoundWood.exact(Region.from_rings([[0, 0], [1200, 0], [1150, 600], [0, 640]]))


def some_limits(rng: np.random.Generator) -> Limits:
    """Return limits of which each end is there or not."""

    def span(low: float, high: float) -> Span:
        least = rng.uniform(low, high) if rng.uniform() < 0.6 else low
        return Span(least, rng.uniform(least, 2 * high) if rng.uniform() < 0.6 else math.inf)

    return Limits(length=span(0.0, 900.0), width=span(0.0, 500.0), ratio=span(1.0, 3.0))


def test_half_planes_hold_the_sizes_that_the_limits_hold() -> None:
    """A length and a width obey all rows just where length, width and ratio keep their limits."""
    rng = np.random.default_rng(3)
    for _ in range(2000):
        limits, (length, width) = some_limits(rng), rng.uniform(1.0, 1500.0, 2)
        kept = limits.length.holds(length) and limits.width.holds(width)
        kept = kept and length >= width and limits.ratio.holds(length / width)
        rows = half_planes_of(limits)
        assert kept == all(a * length + b * width <= c for a, b, c in rows)


@pytest.mark.parametrize(
    "top",
    [
        Capsule(2.0, 1.0),
        Oval(2.0, 1.0),
        Superellipse(2.0, 1.0, 2.5),
        RegularPolygon(6, 2.0),
        RegularPolygon(8, 2.0),
        DEnd.of_size(2.0, 1.0),
    ],
    ids=lambda top: top.name,
)
def test_no_top_of_a_span_of_shapes_beats_its_bound(
    top: Capsule | Oval | Superellipse | RegularPolygon | DEnd,
) -> None:
    """The best core of any shape between two, of any radius, is worth no more than told."""
    rng, kind, met = np.random.default_rng(4), kind_of(top), 0
    for k in range(400):
        lipping = 0.0 if top.name == "superellipse" else rng.uniform(0.0, 10.0)
        goal = (Goal.AREA, Goal.NEAREST, Goal.WIDTH, Goal.LENGTH)[k % 4]
        limits = some_limits(rng)
        if goal is Goal.LENGTH:
            limits = replace(limits, ratio=Span(1.0, 4.0))
        wish = Wish((top.name,), goal, limits, lipping, (600.0, 250.0))
        sizing = Sizing(kind, wish, top)
        reach = {"hexagon": 0.0, "octagon": 0.0, "capsule": 400.0, "D end": 400.0}.get(
            top.name, 1.5
        )
        low, high = np.sort(rng.uniform(0.0, reach, 2))
        radius = rng.uniform(1.0, 500.0)
        best = sizing.best(rng.uniform(low, high), rng.uniform(0.0, radius))
        if best is not None:
            met += 1
            bound = float(sizing.upper(low, high, np.array([radius]))[0])
            assert sizing.score(*best) <= bound * (1 + 1e-9)
    assert met > 20


def test_what_is_as_long_as_wide_is_proved_at_one_turn() -> None:
    """An octagon that may not turn: that it is no shorter than wide asks nothing of its size."""
    (fit,) = best_fits(BOARD, Wish(("octagon",), limits=Limits(most_turn_deg=0.0), gap=1e-4))
    assert fit.bound is not None
    assert fit.score <= fit.bound.value <= fit.score * 1.0001


@pytest.mark.parametrize("shape", ["oval", "capsule", "rectangle", "superellipse"])
def test_the_nearest_top_counts_what_a_limit_costs(shape: str) -> None:
    """It must be 350 mm wide where 300 are wanted: 50 mm off at least, and none is nearer."""
    wish = Wish(
        (shape,),
        Goal.NEAREST,
        Limits(width=Span(350.0), most_turn_deg=5.0),
        wanted=(800.0, 300.0),
        most_steps=200,
    )
    (fit,) = best_fits(BOARD, wish)
    assert fit.bound is not None and fit.bound.value <= fit.score * 1.001
    assert fit.outline.width == pytest.approx(350.0, abs=0.1)
    assert fit.outline.length == pytest.approx(800.0, abs=0.1)


@pytest.mark.parametrize("shape", ["oval", "rectangle", "rounded rectangle", "hexagon"])
def test_the_nearest_top_needs_what_it_is_near_to(shape: str) -> None:
    """Of every family, in one plain sentence."""
    with pytest.raises(LayoutError, match="wanted length and width"):
        best_fits(BOARD, Wish((shape,), Goal.NEAREST))
