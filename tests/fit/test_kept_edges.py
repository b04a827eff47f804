"""Tops with a long side on a kept edge: known answers, laws, and a bound that nothing beats."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from held_to_proof import is_proved
from hypothesis import given, settings
from hypothesis import strategies as st
from strategies import star_rings

from panelwright.layout.errors import LayoutError, NothingFitsError, PanelError
from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.fit.on_edge.tops import Box, KeptTops
from panelwright.layout.fit.wish import Keeping
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD, PROOF_ALLOWANCE
from panelwright.layout.panel import Panel, Spoils, rectangular_outline
from panelwright.layout.panel.named_edges import edge_named
from panelwright.layout.panel.sound import SoundWood

SHAPES = ("rectangle", "rounded rectangle", "capsule")
BOARD = np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 600.0], [0.0, 600.0]])


def wished(corners: Points, shape: str, edge: int = 0, **more: object) -> Wish:
    """Return the wish for a top on the edge that leaves a corner."""
    ends = [Point(*(float(v) for v in corners[i % len(corners)])) for i in (edge, edge + 1)]
    keeping = Keeping((Path.through(ends),))
    return Wish((shape,), keeping=keeping, **more)  # type: ignore[arg-type]


def best(
    corners: Points, shape: str, edge: int = 0, holes: tuple[Points, ...] = (), **more: object
) -> Fit:
    """Return the best top on an edge, and hold it to its proof and to the edge."""
    region = Region.from_rings(corners, holes)
    wish = wished(corners, shape, edge, **more)
    fit = best_fits(SoundWood.exact(region), wish)[0]
    assert is_proved(fit, region)
    assert fit.gap is not None and fit.gap <= wish.gap
    start, end = (corners[i % len(corners)] for i in (edge, edge + 1))
    normal = np.array([start[1] - end[1], end[0] - start[0]]) / np.hypot(*(end - start))
    off = (fit.placement.of(fit.core.inner(CHORD)) - start) @ normal
    assert -1e-9 <= off.min() <= PROOF_ALLOWANCE
    assert off.max() == pytest.approx(fit.outline.width, abs=PROOF_ALLOWANCE)
    return fit


triangles = st.tuples(
    st.floats(500, 1500), st.floats(0.1, 0.9), st.floats(0.1, 0.9), st.floats(-3, 3)
).map(
    lambda t: Placement(turn=t[3]).of(
        np.array([[0, 0], [t[0], 0], [t[0] * t[1], t[0] * t[2]]], dtype=float)
    )
)


@settings(max_examples=10)
@given(triangles)
def test_the_largest_rectangle_on_a_side_of_a_triangle_has_half_its_area(corners: Points) -> None:
    """Half the base and half the height (Euclid VI.27); all these triangles lie on a long side."""
    fit = best(corners, "rectangle")
    area = Region.from_rings(corners).area
    assert fit.outline.area == pytest.approx(area / 2, rel=1e-4)
    assert fit.outline.length == pytest.approx(np.hypot(*(corners[1] - corners[0])) / 2, rel=1e-2)


def half_disk(radius: float, count: int = 720) -> Points:
    """Return a half disk standing on its diameter."""
    angles = np.linspace(0.0, math.pi, count + 1)
    return radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)[[-1, *range(count)]]


def test_the_largest_rectangle_on_the_diameter_of_a_half_disk_is_its_radius_squared() -> None:
    """2r cos t by r sin t is r² sin 2t, greatest at 45°: √2 r by r/√2 (first-year calculus)."""
    fit = best(half_disk(500.0), "rectangle")
    assert fit.outline.area == pytest.approx(500.0**2, rel=1e-4)
    assert fit.outline.length == pytest.approx(math.sqrt(2) * 500, rel=1e-2)


def test_the_largest_capsule_in_a_half_disk_is_where_its_slope_is_zero() -> None:
    """Its ends touch the arc where (r − ρ)² = ρ² + s²: s² = r² − 2rρ, tried in a million places."""
    r = 500.0
    radii = np.linspace(1.0, r / 2, 1_000_001)
    areas = math.pi * radii**2 + 4 * radii * np.sqrt(r * r - 2 * r * radii)
    fit = best(half_disk(r, 2000), "capsule")
    assert fit.outline.area == pytest.approx(float(areas.max()), rel=1e-4)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("turn", [0.0, 0.3, -2.0])
def test_a_board_gives_itself(shape: str, turn: float) -> None:
    """On its own long edge a board gives a top of its own length and width."""
    fit = best(Placement(Point(30, -20), turn).of(BOARD), shape)
    assert (fit.outline.length, fit.outline.width) == pytest.approx((1400, 600), abs=0.005)


def test_the_length_runs_along_the_edge() -> None:
    """On its short edge a board gives a square, for no top is wider than long."""
    fit = best(BOARD, "rectangle", edge=1)
    assert (fit.outline.length, fit.outline.width) == pytest.approx((600, 600), abs=0.005)


@pytest.mark.parametrize("shape", SHAPES)
def test_no_long_side_runs_past_the_end_of_its_edge(shape: str) -> None:
    """Where the wood goes on along the same line beyond a hollow corner, the side ends there."""
    tee = np.array(
        [[0, 0], [800, 0], [800, -300], [1500, -300], [1500, 500], [0, 500]], dtype=float
    )
    fit = best(tee, shape, limits=Limits(corner_radius=Span(40, 40)))
    straight = {"rectangle": 800, "rounded rectangle": 800 + 40, "capsule": 800 + 250}[shape]
    assert fit.outline.length == pytest.approx(straight, abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
@settings(max_examples=4)
@given(ring=star_rings(), turn=st.floats(-3, 3))
def test_what_moves_the_panel_moves_the_top(
    shape: str, ring: tuple[Point, ...], turn: float
) -> None:
    """Turned, moved or mirrored, a panel gives the same score within the gap."""
    corners = np.array([tuple(p) for p in ring])
    moved = Placement(Point(40, -70), turn).of(corners)
    mirrored = (corners * np.array([-1.0, 1.0]))[::-1]
    fits = [best(corners, shape), best(moved, shape), best(mirrored, shape, len(ring) - 2)]
    for fit in fits:
        assert fit.bound is not None
        for other in fits:
            assert other.score <= fit.bound.value * (1 + 1e-6)


@pytest.mark.parametrize("shape", SHAPES)
@settings(max_examples=4)
@given(ring=star_rings(), at=st.floats(-150, 150), least=st.just(0.0) | st.floats(0.001, 200.0))
def test_defects_and_limits_never_help(
    shape: str, ring: tuple[Point, ...], at: float, least: float
) -> None:
    """Found with a hole, or within a limit, is no more than the bound without."""
    corners = np.array([tuple(p) for p in ring])
    free = best(corners, shape)
    hole = np.array([[at, 0], [at + 30, 5], [at + 10, 40]])
    limited = Limits(length=Span(greatest=500), width=Span(least=least))
    for more in ({"holes": (hole,)}, {"limits": limited}):
        try:
            less = best(corners, shape, **more)  # type: ignore[arg-type]
        except NothingFitsError:
            continue
        assert free.bound is not None
        assert less.score <= free.bound.value


@pytest.mark.parametrize("shape", SHAPES)
@settings(max_examples=2)
@given(star_rings())
def test_a_top_on_an_edge_never_beats_the_free_search(shape: str, ring: tuple[Point, ...]) -> None:
    """It is one of all the tops."""
    corners = np.array([tuple(p) for p in ring])
    kept = best(corners, shape)
    anywhere = best_fits(SoundWood.exact(Region.from_rings(corners)), Wish((shape,)))[0]
    assert anywhere.bound is not None
    assert kept.score <= anywhere.bound.value


def some_family(shape: str, rng: np.random.Generator) -> KeptTops:
    """Return a family on a random panel with holes."""
    count = int(rng.integers(4, 40))
    reach = rng.uniform(250, 900, count)
    angles = np.arange(count) * math.tau / count + rng.uniform(0, 6)
    corners = np.stack([reach * np.cos(angles), reach * np.sin(angles)], axis=1)
    region = Region.from_rings(corners)
    for _ in range(int(rng.integers(0, 3))):
        spot = rng.uniform(-200, 200, 2) + rng.uniform(-50, 50, (3, 2))
        region = region.minus(Region.from_rings(spot))
    limits = Limits(corner_radius=Span(*sorted(rng.uniform(0, 90, 2))))
    goal = [Goal.AREA, Goal.WIDTH, Goal.NEAREST][int(rng.integers(0, 3))]
    wish = wished(corners, shape, int(rng.integers(0, count)), limits=limits, goal=goal)
    return KeptTops(SoundWood.exact(region), replace(wish, wanted=(700.0, 350.0)), shape)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("seed", range(12))
def test_no_real_top_beats_the_bound_of_its_box(shape: str, seed: int) -> None:
    """Whatever box holds a top that fits, large or small, its bound is no lower."""
    rng = np.random.default_rng(seed)
    family = some_family(shape, rng)
    tried = 0
    for _ in range(60):
        width = float(rng.uniform(1.0, family.most))
        radius = float(rng.uniform(*family.radii))
        found = family._best(width, radius)
        if found is None:
            continue
        tried += 1
        score, top = found
        scale = 10.0 ** rng.uniform(-4, 0)
        low, high = top.width - rng.uniform(0, 200, 2) * scale * np.array([1, -1])
        widths = (max(float(low), 1e-3), float(high))
        radii = (widths[0] / 2, widths[1] / 2)
        if shape != "capsule":
            spread = rng.uniform(0, 60, 2) * scale * (not family.by_width)
            radii = (
                max(top.radius - float(spread[0]), 0.0),
                min(top.radius + float(spread[1]), widths[1] / 2),
            )
        box = Box(widths, radii)
        assert family.bound(box, score * (1 - 1e-3)) >= score * (1 - 1e-8)
    assert tried or family.most < 50


def test_the_longest_is_as_wide_as_it_may_be() -> None:
    """Of tops that are equally long the largest is taken, within its limits."""
    fit = best(BOARD, "capsule", goal=Goal.LENGTH, limits=Limits(width=Span(300, 500)))
    assert fit.outline.width == pytest.approx(500, abs=2 * PROOF_ALLOWANCE)


@pytest.mark.parametrize("shape", SHAPES)
def test_limits_are_kept(shape: str) -> None:
    """Length, width, ratio and corner radius each hold of the top found."""
    limits = Limits(
        length=Span(0, 1000), width=Span(100, 450), ratio=Span(2.5, 4), corner_radius=Span(10, 30)
    )
    outline = best(BOARD, shape, limits=limits).outline
    assert outline.length <= 1000
    assert 100 <= outline.width <= 450
    assert 2.5 - 1e-3 <= outline.length / outline.width <= 4 + 1e-3
    assert outline.length == pytest.approx(1000, abs=0.01)
    assert outline.width == pytest.approx(400, abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
def test_points_are_covered_and_avoided(shape: str) -> None:
    """With a point to avoid in the middle, a point high on the left is covered by a left half."""
    cover, avoid = Point(300, 400), Point(700, 300)
    fit = best(BOARD, shape, covers=(cover,), avoids=(avoid,))
    within = Region.from_rings(fit.placement.of(fit.core.inner(CHORD)))
    assert within.holds_point(cover)
    assert within.shrunk(PROOF_ALLOWANCE).distance_to(Region.disk(avoid, 1e-6, around=True)) > 0
    assert fit.placement.centre.x < 700


def test_an_island_lies_inside_or_outside() -> None:
    """A plug near the far edge that a top on the whole board would hold may lie inside it."""
    plug = Region.disk(Point(700, 560), 20, around=True)
    wood = SoundWood.exact(Region.from_rings(BOARD))
    wish = wished(BOARD, "rectangle", limits=Limits(width=Span(greatest=570)))
    fit = best_fits(wood, wish, islands=[plug])[0]
    assert fit.outline.width == pytest.approx(540, abs=0.01)
    wide = best_fits(wood, replace(wish, limits=Limits()), islands=[plug])[0]
    assert wide.outline.width == pytest.approx(600, abs=0.01)


@pytest.mark.parametrize("bow", [0.8, -0.8])
def test_on_an_edge_with_a_bow_of_less_than_a_millimetre_the_whole_top_is_wood(bow: float) -> None:
    """Bowed outwards the side is the string from end to end; inwards it touches the hollow."""
    panel = Panel(rectangular_outline(1400, 600, bows=(bow, 0, 0, 0)), 30)
    keeping = Keeping((edge_named(panel, "AB").path,))
    wood = panel.sound_for(Spoils.SHOWING, margin=6, kept=keeping.edges)
    fit = best_fits(wood, Wish(("rectangle",), keeping=keeping))[0]
    assert wood.inner.holds(Region.from_rings(fit.points()))
    assert fit.outline.width == pytest.approx(594 + min(bow, 0), abs=PROOF_ALLOWANCE)
    assert fit.outline.length == pytest.approx(1388, abs=PROOF_ALLOWANCE)


@pytest.mark.parametrize("shape", ["circle", "oval"])
def test_what_has_no_long_straight_side_is_refused(shape: str) -> None:
    """A round top cannot lie on an edge."""
    with pytest.raises(LayoutError, match="no long straight side"):
        best(BOARD, shape)


def test_what_cannot_be_kept_is_refused_with_what_to_do() -> None:
    """A lipping, two edges, a bowed edge and an edge across the grain each have their message."""
    wood = SoundWood.exact(Region.from_rings(BOARD))
    wish = wished(BOARD, "rectangle")
    assert wish.keeping is not None
    with pytest.raises(LayoutError, match="lipping goes all round"):
        best_fits(wood, replace(wish, lipping=6.0))
    with pytest.raises(LayoutError, match="one long side on one kept edge, not on 2"):
        best_fits(wood, replace(wish, keeping=Keeping(wish.keeping.edges * 2)))
    with pytest.raises(LayoutError, match=r"90\.0° off the grain"):
        best_fits(
            wood,
            replace(
                wish,
                limits=Limits(grain_deg=math.degrees(math.pi / 2), most_turn_deg=math.degrees(0.1)),
            ),
        )
    with pytest.raises(LayoutError, match="longest top needs"):
        best_fits(wood, replace(wish, goal=Goal.LENGTH))
    with pytest.raises(LayoutError, match="wanted length and width"):
        best_fits(wood, replace(wish, goal=Goal.NEAREST))
    bowed = Path(rectangular_outline(1400, 600, bows=(5, 0, 0, 0)).segments[:1])
    with pytest.raises(PanelError, match=r"5\.0 mm off a taut string"):
        best_fits(wood, replace(wish, keeping=Keeping((bowed,))))
