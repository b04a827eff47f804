"""Circles, ovals and capsules: known answers, laws, and a bound that nothing beats."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest
from held_to_proof import is_proved
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.errors import NothingFitsError
from panelwright.layout.fit import Fit, Limits, Span, Wish, best_fits
from panelwright.layout.fit.convex.capsule import CapsuleKind
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.panel.sound import SoundWood

CASES = json.loads((Path(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8"))
KNOWN_AS = {"circle": "circle", "oval": "ellipse", "capsule": "capsule"}
QUICK = [
    "rect_rot",
    "trapezoid",
    "bowed_out",
    "L_shape",
    "screw_holes8",
    "sliver_wedge",
    "live_200",
]
BOARD = np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 600.0], [0.0, 600.0]])


def best(region: Region, shape: str, **wished: object) -> Fit:
    """Return the best top of a shape, and hold it to its proof: it lies within the wood."""
    fit = best_fits(SoundWood.exact(region), Wish((shape,), **wished))[0]  # type: ignore[arg-type]
    assert is_proved(fit, region)
    assert fit.bound is not None and fit.score <= fit.bound.value
    return fit


def ring(points: tuple[Point, ...]) -> Points:
    """Return corners as an array."""
    return np.array([(p.x, p.y) for p in points])


@pytest.mark.parametrize("shape", KNOWN_AS)
@pytest.mark.parametrize("name", QUICK)
def test_known_panels_give_their_best_tops_with_proof(name: str, shape: str) -> None:
    """At least 0.99999 of the best known area, bounded within 0.1 %, and no better one known."""
    case = CASES["cases"][name]
    region = Region.from_rings(np.array(case["exterior"]), [np.array(h) for h in case["holes"]])
    known = case["best_known"][KNOWN_AS[shape]]
    fit = best(region, shape)
    assert fit.outline.area >= 0.99999 * known
    assert fit.bound is not None and fit.bound.value >= known * (1 - 1e-6)
    assert fit.gap is not None and fit.gap <= 0.001


triangles = st.tuples(
    st.floats(300, 1500), st.floats(0.1, 0.9), st.floats(200, 900), st.floats(0, 3)
).map(
    lambda t: Placement(turn=t[3]).of(
        np.array([[0, 0], [t[0], 0], [t[0] * t[1], t[2]]], dtype=float)
    )
)


@settings(max_examples=15)
@given(triangles)
def test_the_largest_oval_in_a_triangle_is_steiners(corners: Points) -> None:
    """The Steiner inellipse has π/(3√3) of the area of any triangle."""
    region = Region.from_rings(corners)
    share = best(region, "oval").outline.area / region.area
    assert share == pytest.approx(math.pi / (3 * math.sqrt(3)), rel=3e-4)


@settings(max_examples=15)
@given(triangles)
def test_the_largest_circle_in_a_triangle_is_its_incircle(corners: Points) -> None:
    """Its radius is twice the area over the way round (Euclid IV.4)."""
    region = Region.from_rings(corners)
    diameter = best(region, "circle").outline.length
    assert diameter == pytest.approx(4 * region.area / region.perimeter, abs=0.02)


@pytest.mark.parametrize("shape", KNOWN_AS)
@pytest.mark.parametrize("degrees", [0.0, 17.0, 90.0, -31.4])
def test_a_board_gives_itself(shape: str, degrees: float) -> None:
    """1400 × 600, turned by any angle, gives its own length and width to 0.01 mm."""
    place = Placement(Point(50.0, -30.0), math.radians(degrees))
    fit = best(Region.from_rings(place.of(BOARD)), shape)
    assert fit.outline.width == pytest.approx(600, abs=0.01)
    assert fit.outline.length == pytest.approx(600 if shape == "circle" else 1400, abs=0.01)


@pytest.mark.heavy
@settings(max_examples=8)
@given(star_rings(), st.floats(0, 3), st.sampled_from(["oval", "capsule"]))
def test_a_turned_mirrored_scaled_panel_gives_the_same_top(
    corners: tuple[Point, ...], turn: float, shape: str
) -> None:
    """Areas agree within the gap, whichever way the panel lies and however large it is."""
    own = ring(corners)
    first = best(Region.from_rings(own), shape)
    moved = Placement(Point(300.0, 90.0), turn).of(own * np.array([-1.0, 1.0])) * 2.0
    second = best(Region.from_rings(moved), shape)
    assert second.score / 4 == pytest.approx(first.score, rel=1.1e-3)


@pytest.mark.heavy
@settings(max_examples=8)
@given(
    star_rings(), st.floats(-150, 150), st.floats(-150, 150), st.sampled_from(["oval", "circle"])
)
def test_a_defect_never_makes_the_top_better(
    corners: tuple[Point, ...], x: float, y: float, shape: str
) -> None:
    """What is found with a defect does not beat the bound without it."""
    region = Region.from_rings(ring(corners))
    free = best(region, shape)
    spoilt = best(region.minus(Region.disk(Point(x, y), 40.0, around=True)), shape)
    assert free.bound is not None
    assert spoilt.score <= free.bound.value


@pytest.mark.heavy
@settings(max_examples=10)
@given(star_rings(), st.integers(0, 10_000))
def test_no_random_top_beats_the_bound(corners: tuple[Point, ...], number: int) -> None:
    """Hundreds of capsules grown at random places and turns stay below the bound."""
    region = Region.from_rings(ring(corners))
    fit = best(region, "capsule")
    rng = np.random.default_rng(number)
    assert fit.bound is not None
    for _ in range(200):
        outline = fit.outline.resized(
            *sorted(rng.uniform(0.6, 1.3, 2) * (fit.outline.length, fit.outline.width))[::-1]
        )
        where = Point(*(np.array([*fit.placement.centre]) + rng.normal(0, 60, 2)))
        place = Placement(where, fit.placement.turn + rng.normal(0, 0.3))
        if region.holds(Region.from_rings(place.of(outline.inner(0.5)))):
            assert outline.area <= fit.bound.value * (1 + 1e-5)


def test_an_island_lies_wholly_inside_or_wholly_outside() -> None:
    """What spoils only cutting is never crossed by the edge of the top."""
    for at in (Point(700, 300), Point(300, 80), Point(60, 300)):
        island = Region.disk(at, 30.0, around=True)
        wood = SoundWood.exact(Region.from_rings(BOARD))
        fit = best_fits(wood, Wish(("capsule",)), islands=[island])[0]
        top = Region.from_rings(fit.placement.of(fit.outline.outer(CHORD)))
        inner = Region.from_rings(fit.placement.of(fit.outline.inner(CHORD)))
        assert inner.holds(island) or top.meet(island).area == 0.0


def test_limits_are_kept() -> None:
    """Sizes, ratio and turn within the limits; the core of a lipped top is what must fit."""
    region = Region.from_rings(Placement(turn=math.radians(30)).of(BOARD))
    limits = Limits(Span(0, 1200), Span(0, 500), Span(1, 2.2), most_turn_deg=10)
    fit = best(region, "capsule", limits=limits)
    assert fit.outline.length <= 1200 + 1e-9 and fit.outline.width <= 500 + 1e-9
    assert fit.outline.length / fit.outline.width <= 2.2 + 1e-6
    assert abs(math.remainder(fit.placement.turn, math.pi)) <= math.radians(10) + 1e-9
    lipped = best(Region.from_rings(BOARD), "capsule", lipping=8.0)
    assert lipped.outline.width == pytest.approx(616, abs=0.01)
    assert lipped.core.width == pytest.approx(600, abs=0.01)


@pytest.mark.heavy
@pytest.mark.parametrize("shape", KNOWN_AS)
def test_where_nothing_fits_the_reason_names_the_limit(shape: str) -> None:
    """A least width that the board cannot hold is told, with the largest that it can."""
    wood = SoundWood.exact(Region.from_rings(BOARD))
    with pytest.raises(NothingFitsError, match="601"):
        best_fits(wood, Wish((shape,), limits=Limits(width=Span(least=601.0))))


def test_a_neck_a_needle_and_two_pieces() -> None:
    """Two lobes give the larger one, a needle a top along it, two pieces the better one's."""
    lobes = np.array(
        [[0, 0], [500, 0], [500, 240], [560, 240], [560, 0], [1100, 0], [1100, 520], [560, 520],
         [560, 260], [500, 260], [500, 500], [0, 500]], dtype=float
    )  # fmt: skip
    assert best(Region.from_rings(lobes), "circle").placement.centre.x > 560
    needle = np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 45.0], [0.0, 80.0]])
    assert best(Region.from_rings(needle), "capsule").outline.length > 1700
    slit = Region.from_rings(
        np.array([[880.0, -9.0], [890.0, -9.0], [890.0, 700.0], [880.0, 700.0]])
    )
    cut = Region.from_rings(BOARD).minus(slit)
    assert best(cut, "capsule").outline.length == pytest.approx(880, abs=0.01)


@given(st.integers(0, 10_000))
def test_a_spine_that_crosses_an_edge_goes_so_far_before_it_is_clear(number: int) -> None:
    """What lies clear after a turn and a move is no farther away than before, and than it went."""
    rng, kind = np.random.default_rng(number), CapsuleKind()
    edges, centres = rng.normal(size=(40, 2, 2)), rng.normal(size=(20, 2)) / 2
    p, turn, by = rng.uniform(0.1, 1.5), rng.uniform(-3, 3), rng.uniform(0, 0.4)
    step = 10 ** rng.uniform(-3, 0) * rng.normal(size=2)
    before = kind.distances(turn, p, edges, centres)
    there = [kind.distances(turn + by, p, way, centres + step) for way in (edges, edges[:, ::-1])]
    after, gone = np.minimum(*there), np.hypot(*step) + 2 * p * math.sin(by / 2)
    assert (after <= before + gone + 1e-12)[after >= 0].all()
    assert (before < 0).any()


@pytest.mark.parametrize("least", [1340, 1380])
def test_a_capsule_too_long_for_a_panel_is_soon_ruled_out(least: float) -> None:
    """Spines that would cut across the inner corner are dropped by how far they do."""
    corners = np.array(CASES["cases"]["L_shape"]["exterior"])
    wish = Wish(("capsule",), limits=Limits(length=Span(least)), most_steps=100)
    with pytest.raises(NothingFitsError):
        best_fits(SoundWood.exact(Region.from_rings(corners)), wish)
