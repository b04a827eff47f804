"""What a wish asks of sizes, as half-planes and as bounds over shapes and radii."""

from __future__ import annotations

import math

import numpy as np
import pytest

from panelwright.layout.fit import Goal, Limits, Span, Wish
from panelwright.layout.fit.convex.entry import kind_of
from panelwright.layout.fit.convex.sizing import Sizing
from panelwright.layout.fit.goal import half_planes_of
from panelwright.layout.outlines import Capsule, DEnd, Oval, RegularPolygon, Superellipse


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
        goal = (Goal.AREA, Goal.NEAREST, Goal.WIDTH)[k % 3]
        limits = some_limits(rng)
        wish = Wish((top.name,), goal, limits, lipping, (600.0, 250.0))
        sizing = Sizing(kind, wish, top)
        reach = {"hexagon": 0.0, "capsule": 400.0, "D end": 400.0}.get(top.name, 1.5)
        low, high = np.sort(rng.uniform(0.0, reach, 2))
        radius = rng.uniform(1.0, 500.0)
        best = sizing.best(rng.uniform(low, high), rng.uniform(0.0, radius))
        if best is not None:
            met += 1
            bound = float(sizing.upper(low, high, np.array([radius]))[0])
            assert sizing.score(*best) <= bound * (1 + 1e-9)
    assert met > 20
