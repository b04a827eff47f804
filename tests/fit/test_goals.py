"""The longest, the widest and the nearest top beside a general optimiser, and limits as laws."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from peer import Array, Question, Score, found_by_evolution
from strategies import star_rings

from panelwright.layout.fit import Fit, Goal, Limits, Span, Wish, best_fits
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

SHAPES = ("oval", "capsule", "rounded rectangle", "rectangle")
CORNER = 25.0
SQUARE_ENDS = np.array([[0.0, 0.0], [1300.0, 60.0], [1250.0, 640.0], [30.0, 560.0]])
PANELS = {
    "a board out of square": Region.from_rings(SQUARE_ENDS),
    "a broken board": Region.from_rings(
        np.array([[0, 90], [70, 0], [1330, 20], [1400, 120], [1380, 500], [1250, 610], [600, 470],
                  [30, 600.0]])
    ),
    "a board with a hole": Region.from_rings(
        SQUARE_ENDS, [np.array([[500.0, 420.0], [560.0, 470.0], [610.0, 400.0]])]
    ),
}  # fmt: skip
LEAST_WIDTH, LEAST_LENGTH = 260.0, 780.0
WANTED = (1150.0, 480.0)


def reference(goal: Goal) -> Score:
    """Return what a goal counts, of lengths and widths; a limit missed counts against it."""

    def longest(length: Array, width: Array) -> Array:
        lack = np.maximum(LEAST_WIDTH - width, 0.0)
        return np.where(lack > 0, -lack, np.where(width <= length, length, length - width))

    def widest(length: Array, width: Array) -> Array:
        lack = np.maximum(np.maximum(LEAST_LENGTH, width) - length, 0.0)
        return np.where(lack > 0, -lack, width)

    def nearest(length: Array, width: Array) -> Array:
        scale = math.hypot(*WANTED)
        score = scale / (scale + np.hypot(length - WANTED[0], width - WANTED[1]))
        return np.where(width <= length, score, length - width)

    return {Goal.LENGTH: longest, Goal.WIDTH: widest, Goal.NEAREST: nearest}[goal]


def limits_of(goal: Goal) -> Limits:
    """Return the limits that a goal is sought within."""
    corner = Span(CORNER, CORNER)
    if goal is Goal.LENGTH:
        return Limits(width=Span(least=LEAST_WIDTH), corner_radius=corner)
    if goal is Goal.WIDTH:
        return Limits(length=Span(least=LEAST_LENGTH), corner_radius=corner)
    return Limits(corner_radius=corner)


def best(region: Region, shape: str, goal: Goal, limits: Limits, gap: float = 0.001) -> Fit:
    """Return the best top of a shape."""
    wanted = WANTED if goal is Goal.NEAREST else None
    wish = Wish((shape,), goal=goal, limits=limits, wanted=wanted, gap=gap)
    return best_fits(SoundWood.exact(region), wish)[0]


@pytest.mark.parametrize(
    "goal", [pytest.param(Goal.LENGTH, marks=pytest.mark.heavy), Goal.WIDTH, Goal.NEAREST]
)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("name", PANELS)
def test_no_general_search_beats_the_bound_of_a_goal(name: str, shape: str, goal: Goal) -> None:
    """Differential evolution finds nothing above the bound, and hardly more than was found."""
    region = PANELS[name]
    fit = best(region, shape, goal, limits_of(goal))
    corner = CORNER if shape == "rounded rectangle" else 0.0
    wanted = WANTED if goal is Goal.NEAREST else None
    asked = Question(region.edges, shape, reference(goal), corner, wanted,
                     LEAST_WIDTH if goal is Goal.LENGTH else 0.0)  # fmt: skip
    peer = max(found_by_evolution(asked, seed, 120).score for seed in (1, 2))
    assert fit.bound is not None and fit.gap is not None
    assert peer <= fit.bound.value * (1 + 1e-9)
    assert fit.score >= peer * (1 - 1e-3)
    assert fit.gap <= 0.001
    assert fit.outline.width >= (LEAST_WIDTH if goal is Goal.LENGTH else 0.0) - 0.01
    assert fit.outline.length >= (LEAST_LENGTH if goal is Goal.WIDTH else 0.0) - 0.01


def test_the_nearest_circle_is_as_near_as_its_limits_let_it() -> None:
    """Of a board 600 wide the circle nearest to a wanted 500 is that, and to 700 is the largest."""
    board = Region.from_rings(np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 600.0], [0.0, 600.0]]))
    for wanted, given_back in ((500.0, 500.0), (700.0, 600.0)):
        wish = Wish(("circle",), goal=Goal.NEAREST, wanted=(wanted, wanted))
        fit = best_fits(SoundWood.exact(board), wish)[0]
        assert fit.outline.length == pytest.approx(given_back, abs=0.01)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("greatest", [170.0, math.inf])
def test_a_wanted_length_beyond_the_panel_ends_the_search(shape: str, greatest: float) -> None:
    """Wanted 3000 long and 5 wide of a pentagon 400 across: no needle keeps the proof open."""
    turns = np.arange(5) * math.tau / 5
    pentagon = Region.from_rings(200.0 * np.stack([np.cos(turns), np.sin(turns)], axis=1))
    limits = Limits(
        length=Span(greatest=greatest),
        corner_radius=Span(2.0, 2.0),
        most_turn_deg=math.degrees(0.5),
    )
    wish = Wish((shape,), goal=Goal.NEAREST, wanted=(3000.0, 5.0), limits=limits)
    fit = best_fits(SoundWood.exact(pentagon), wish)[0]
    assert fit.gap is not None and fit.gap <= 0.001
    assert 0 < fit.outline.length <= min(greatest, 381.0) + 0.01


goals = st.sampled_from(Goal)
shapes = st.sampled_from(("circle", *SHAPES))


def star(corners: tuple[Point, ...]) -> np.ndarray:
    """Return corners as an array."""
    return np.array([(p.x, p.y) for p in corners])


def loose(goal: Goal) -> Limits:
    """Return limits that every star here can meet."""
    least = 60.0 if goal is Goal.LENGTH else 0.0
    return Limits(width=Span(least=least), corner_radius=Span(CORNER, CORNER))


@pytest.mark.heavy
@settings(max_examples=6)
@given(star_rings(), shapes, goals, st.floats(-3, 3), st.floats(0.3, 3), st.booleans())
def test_answer_and_bound_go_with_the_panel(
    corners: tuple[Point, ...], shape: str, goal: Goal, turn: float, scale: float, mirror: bool
) -> None:
    """Turned, mirrored and, but for the nearest, scaled: what either finds is below both bounds."""
    ring = star(corners)
    plain = best(Region.from_rings(ring), shape, goal, loose(goal), gap=0.01)
    scale = 1.0 if goal is Goal.NEAREST else scale
    limits = loose(goal)
    grown = Limits(width=Span(least=limits.width.least * scale),
                   corner_radius=Span(CORNER * scale, CORNER * scale))  # fmt: skip
    moved = Placement(Point(120.0, -70.0), turn).of(ring * scale * [-1.0 if mirror else 1.0, 1.0])
    other = best(Region.from_rings(moved), shape, goal, grown, gap=0.01)
    power = {Goal.AREA: 2, Goal.LENGTH: 1, Goal.WIDTH: 1, Goal.NEAREST: 0}[goal]
    assert plain.bound is not None and other.bound is not None
    assert other.score / scale**power <= plain.bound.value * (1 + 1e-4)
    assert plain.score <= other.bound.value / scale**power * (1 + 1e-4)


@pytest.mark.heavy
@settings(max_examples=6)
@given(star_rings(), shapes, goals, st.floats(-120, 120), st.floats(-120, 120))
def test_a_defect_never_beats_the_bound_without_it(
    corners: tuple[Point, ...], shape: str, goal: Goal, x: float, y: float
) -> None:
    """Whatever the goal, what is found round a hole is no better than the bound of the whole."""
    region = Region.from_rings(star(corners))
    spoilt = region.minus(Region.disk(Point(x, y), 30.0, around=True))
    free = best(region, shape, goal, loose(goal), gap=0.01)
    assert free.bound is not None
    holed = best(spoilt, shape, goal, loose(goal), gap=0.01)
    assert holed.score <= free.bound.value * (1 + 1e-9)


@pytest.mark.heavy
@settings(max_examples=6)
@given(star_rings(), shapes, goals, st.floats(0.4, 0.95), st.floats(0.0, 0.8))
def test_a_tighter_limit_never_beats_the_bound_of_a_looser_one(
    corners: tuple[Point, ...], shape: str, goal: Goal, share: float, turn: float
) -> None:
    """A greatest length and a greatest turn below those of the free top leave nothing better."""
    region = Region.from_rings(star(corners))
    free = best(region, shape, goal, loose(goal), gap=0.01)
    wide = loose(goal)
    longest = max(free.outline.length * share, 2.5 * CORNER)
    tight = Limits(
        length=Span(greatest=longest),
        width=wide.width,
        corner_radius=wide.corner_radius,
        most_turn_deg=math.degrees(turn),
    )
    held = best(region, shape, goal, tight, gap=0.01)
    assert held.outline.length <= longest + 0.01
    if shape != "circle":
        assert abs(math.remainder(held.placement.turn, math.pi)) <= turn + 1e-9
    assert free.bound is not None
    assert held.score <= free.bound.value * (1 + 1e-9)
