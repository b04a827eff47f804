"""The best rectangle and rounded rectangle: known answers, laws, and bounds that hold."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from panelwright.layout.fit.branch_and_bound import Outcome, search
from panelwright.layout.fit.families import answered
from panelwright.layout.fit.found import Fit
from panelwright.layout.fit.rectangles.entry import make
from panelwright.layout.fit.wish import Goal, Limits, Span, Wish
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CHORD
from panelwright.layout.outlines import RoundedRectangle
from panelwright.layout.panel.sound import SoundWood

Array = NDArray[np.float64]
CASES: dict[str, Any] = json.loads(
    (Path(__file__).parent / "data" / "fit_cases.json").read_text(encoding="utf-8")
)["cases"]
BOARD = np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 600.0], [0.0, 600.0]])
LAME = np.array(
    [[0, 90], [70, 0], [1330, 20], [1400, 120], [1380, 500], [1250, 610], [600, 560], [30, 600]],
    dtype=float,
)
"""A board with broken corners and a hollow edge."""


def solved(
    ring: Array, wish: Wish, *, turn: float = 0.0, holes: Sequence[Array] = ()
) -> Outcome[Fit]:
    """Return what the search finds on a panel that is turned first."""
    place = Placement(Point(30.0, -20.0), turn) if turn else Placement()
    region = Region.from_rings(place.of(ring), [place.of(hole) for hole in holes])
    wood = SoundWood.exact(region)
    family = make(wood, wish, wish.shapes[0]).family
    outcome = search(family, gap=wish.gap, most_steps=wish.most_steps)
    if outcome.top is not None:
        core = outcome.top.placement.of(outcome.top.core.outer(CHORD / 10))
        assert region.holds(Region.from_rings(core))
    return outcome


def found(outcome: Outcome[Fit]) -> Fit:
    """Return the top found."""
    assert outcome.top is not None
    return outcome.top


def wished(radius: float = 60.0, **limits: Any) -> Wish:  # noqa: ANN401
    """Return a wish for rounded rectangles of one radius, or for rectangles where it is 0."""
    shape = "rounded rectangle" if radius > 0 else "rectangle"
    return Wish((shape,), limits=Limits(corner_radius=Span(radius, radius), **limits))


@pytest.mark.parametrize("name", CASES)
def test_known_panels_give_their_best_tops_with_proof(name: str) -> None:
    """On each reference panel the top is as good as any known, and the bound is close above."""
    case = CASES[name]
    best = case["best_known"]["rrect"]
    holes = [np.array(hole) for hole in case["holes"]]
    outcome = solved(np.array(case["exterior"]), wished(case["corner_radius"]), holes=holes)
    assert outcome.score >= 0.9999 * best
    assert outcome.bound >= best
    assert outcome.score >= (1 - 0.001) * outcome.bound


@pytest.mark.parametrize("radius", [0.0, 60.0])
@pytest.mark.parametrize("degrees", [0.0, 17.0, 90.0])
def test_a_board_gives_itself(radius: float, degrees: float) -> None:
    """A rectangular board gives a top of its own size and turn, however it lies."""
    fit = found(solved(BOARD, wished(radius), turn=math.radians(degrees)))
    assert fit.outline.length == pytest.approx(1400.0, abs=0.01)
    assert fit.outline.width == pytest.approx(600.0, abs=0.01)
    assert math.degrees(fit.placement.turn) == pytest.approx(degrees, abs=1e-9)


def test_an_upright_board_gives_an_upright_top() -> None:
    """On an upright board the turn is not nearly nothing, but nothing."""
    fit = answered(SoundWood.exact(Region.from_rings(BOARD)), wished(), "rounded rectangle").fit
    assert fit is not None and fit.placement.turn == 0.0


@pytest.mark.heavy
@settings(max_examples=6)
@given(apex=st.floats(0.05, 0.95), high=st.floats(250.0, 900.0), turn=st.floats(0.1, 1.4))
def test_the_largest_rectangle_in_a_triangle_is_half_of_it(
    apex: float, high: float, turn: float
) -> None:
    """A rectangle of half the area fits, and no larger one (a classical exercise)."""
    ring = np.array([[0.0, 0.0], [1000.0, 0.0], [1000.0 * apex, high]])
    outcome = solved(ring, Wish(("rectangle",), gap=0.002), turn=turn)
    assert outcome.score == pytest.approx(500.0 * high / 2, rel=2e-5)
    assert outcome.bound >= 500.0 * high / 2


@settings(max_examples=6)
@given(turn=st.floats(-3.1, 3.1), scale=st.floats(0.2, 5.0), mirror=st.booleans())
def test_a_turned_mirrored_scaled_panel_gives_the_same_top(
    turn: float, scale: float, mirror: bool
) -> None:
    """The best area goes with the square of the scale, and nothing else changes it."""
    plain = solved(LAME, wished(40.0))
    ring = LAME * np.array([-scale, scale]) if mirror else LAME * scale
    other = solved(ring[::-1] if mirror else ring, wished(40.0 * scale), turn=turn)
    assert other.score / scale**2 == pytest.approx(plain.score, rel=2e-3)
    assert other.score / scale**2 <= plain.bound * (1 + 1e-6)
    assert plain.score <= other.bound / scale**2 * (1 + 1e-6)


@pytest.mark.parametrize("lipping", [8.0, 40.0, 90.0])
def test_a_lipping_lets_the_top_be_larger_by_its_own(lipping: float) -> None:
    """The core of a lipped top is the best of a core's radius, the finished top that much more."""
    radius = 40.0
    wish = Wish(("rounded rectangle",), lipping=lipping, limits=wished(radius).limits)
    fit = found(solved(LAME, wish))
    assert fit.outline.length == pytest.approx(fit.core.length + 2 * lipping)
    assert fit.outline.width == pytest.approx(fit.core.width + 2 * lipping)
    core_radius = max(radius - lipping, 0.0)
    bare = solved(LAME, wished(core_radius))
    assert fit.core.area <= bare.bound


def test_a_free_radius_is_as_good_as_any_fixed_one() -> None:
    """Within a span of radii the best top beats the best of each radius, and its bound too."""
    free = Wish(("rounded rectangle",), limits=Limits(corner_radius=Span(20.0, 160.0)))
    outcome = solved(LAME, free)
    outline = found(outcome).outline
    assert isinstance(outline, RoundedRectangle)
    assert 20.0 <= outline.radii[0] <= 160.0
    for radius in (20.0, 70.0, 115.0, 160.0):
        fixed = solved(LAME, wished(radius))
        assert fixed.score <= outcome.bound * (1 + 1e-9)
        assert outcome.score >= fixed.score * (1 - 1e-3)


def test_a_size_that_just_fits_is_found() -> None:
    """A top of the very size of one arm of the panel is found there, and its bound is its area."""
    ring = np.array([[0, 0], [1400, 0], [1400, 600], [800, 600], [800, 1300], [0, 1300.0]])
    wish = wished(length=Span(1400.0, 1400.0), width=Span(600.0, 600.0))
    outcome = solved(ring, wish, turn=0.5)
    fit = found(outcome)
    assert fit.outline.length == pytest.approx(1400.0, abs=0.01)
    assert fit.outline.width == pytest.approx(600.0, abs=0.01)
    assert outcome.bound <= outcome.score * 1.001


def test_a_size_that_does_not_fit_is_refused() -> None:
    """One millimetre more than the board, and the search proves that nothing fits."""
    wish = wished(length=Span(1401.0, 1401.0), width=Span(590.0, 600.0))
    outcome = solved(BOARD, wish, turn=0.3)
    assert outcome.top is None
    assert outcome.bound == 0.0


def test_a_long_strip_goes_across_the_board() -> None:
    """The longest top 100 wide lies near the diagonal, and both of its ends touch."""
    wish = Wish(("rectangle",), goal=Goal.LENGTH, limits=Limits(width=Span(100.0, 600.0)))
    outcome = solved(BOARD, wish)
    lean = found(outcome).placement.turn
    length = (1400.0 - 100.0 * math.sin(abs(lean))) / math.cos(lean)
    assert outcome.score == pytest.approx(length, abs=0.01)
    assert outcome.score >= 0.999 * outcome.bound


def test_the_widest_top_of_a_least_length() -> None:
    """On a board the widest top is as wide as the board."""
    wish = Wish(("rounded rectangle",), goal=Goal.WIDTH, limits=Limits(length=Span(700.0, 5000.0)))
    outcome = solved(BOARD, wish, turn=0.2)
    assert outcome.score == pytest.approx(600.0, abs=0.01)


def test_the_nearest_top_is_the_wanted_one_where_it_fits() -> None:
    """A wanted size that fits is found to 0.01 mm; one that does not is missed by little."""
    wish = Wish(("rounded rectangle",), goal=Goal.NEAREST, wanted=(1000.0, 450.0))
    fit = found(solved(BOARD, wish, turn=0.2))
    assert fit.outline.length == pytest.approx(1000.0, abs=0.01)
    assert fit.outline.width == pytest.approx(450.0, abs=0.01)
    long = Wish(("rounded rectangle",), goal=Goal.NEAREST, wanted=(1500.0, 590.0))
    fit = found(solved(BOARD, long, turn=0.2))
    assert math.hypot(fit.outline.length - 1500.0, fit.outline.width - 590.0) <= 100.1


@pytest.mark.parametrize("degrees", [0.0, 4.0])
def test_the_grain_limits_the_turn(degrees: float) -> None:
    """A top turns no farther from the grain than it may, and is settled also where it may not."""
    limits: dict[str, Any] = {"grain_deg": math.degrees(0.1), "most_turn_deg": degrees}
    outcome = solved(LAME, wished(10.0, **limits), turn=0.4)
    assert abs(found(outcome).placement.turn - 0.1) <= math.radians(degrees) + 1e-9
    assert outcome.score >= 0.998 * outcome.bound
    free = solved(LAME, wished(10.0), turn=0.4)
    assert outcome.score <= free.bound


@pytest.mark.parametrize("ratio", [Span(1.0, 1.3), Span(3.0, 5.0)])
def test_a_ratio_is_kept(ratio: Span) -> None:
    """Length over width stays within its span, and the tighter limit is never better."""
    outcome = solved(LAME, wished(30.0, ratio=ratio), turn=0.3)
    outline = found(outcome).outline
    assert ratio.holds(outline.length / outline.width, slack=1e-6)
    assert outcome.score <= solved(LAME, wished(30.0), turn=0.3).bound
    assert outcome.score >= 0.999 * outcome.bound


def test_a_strip_just_two_corners_wide_gives_a_round_ended_top() -> None:
    """A board 120 wide takes corners of 60, and a board 119 wide does not."""
    strip = np.array([[0.0, 0.0], [1400.0, 0.0], [1400.0, 120.0], [0.0, 120.0]])
    outcome = solved(strip, wished(60.0), turn=0.7)
    assert found(outcome).outline.length == pytest.approx(1400.0, abs=0.02)
    assert outcome.score >= 0.998 * outcome.bound
    assert solved(strip * np.array([1.0, 119 / 120]), wished(60.0)).top is None


def test_a_defect_never_makes_the_top_better() -> None:
    """The top of a panel with a hole is below the bound of the same panel without it."""
    hole = np.array([[650.0, 250.0], [700.0, 250.0], [690.0, 320.0]])
    with_it = solved(LAME, wished(30.0), holes=[hole])
    assert with_it.score <= solved(LAME, wished(30.0)).bound


def test_of_two_lobes_with_a_narrow_neck_the_larger_is_taken() -> None:
    """Nothing goes through the neck; the top fills the larger lobe."""
    ring = np.array(
        [
            [0, 0], [500, 0], [500, 180], [700, 180], [700, 0], [1300, 0],
            [1300, 400], [700, 400], [700, 220], [500, 220], [500, 400], [0, 400],
        ],
        dtype=float,
    )  # fmt: skip
    fit = found(solved(ring, wished(20.0), turn=0.25))
    assert fit.outline.length == pytest.approx(600.0, abs=0.01)
    assert fit.outline.width == pytest.approx(400.0, abs=0.01)


def test_a_panel_in_two_pieces_gives_the_top_of_the_better_one() -> None:
    """Pieces are searched together, and the top lies in one of them."""
    small = Region.from_rings(BOARD * 0.5)
    large = Region.from_rings(BOARD * 0.8 + 2000.0)
    wood = SoundWood.exact(small.joined(large))
    outcome = search(make(wood, Wish(), "rectangle").family, gap=0.001, most_steps=1000)
    assert outcome.score == pytest.approx(BOARD[2, 0] * BOARD[2, 1] * 0.64, rel=1e-6)


def test_an_oblique_slit_is_not_crossed() -> None:
    """A saw cut half a millimetre wide, askew, parts the board as surely as a wide one."""
    slit = np.array([[300.0, -5.0], [300.5, -5.0], [800.5, 590.0], [800.0, 590.0]])
    whole = Region.from_rings(BOARD)
    cut = whole.minus(Region.from_rings(slit))
    wood = SoundWood.exact(cut)
    outcome = search(make(wood, Wish(), "rectangle").family, gap=0.001, most_steps=3000)
    fit = found(outcome)
    assert cut.holds(Region.from_rings(fit.placement.of(fit.outline.outer())))
    assert outcome.score >= 0.999 * outcome.bound
    assert outcome.score < 0.75 * whole.area


def test_a_needle_is_followed() -> None:
    """In a wedge twenty-five times as long as wide the top lies along it."""
    ring = np.array([[0.0, 0.0], [2000.0, 0.0], [2000.0, 45.0], [0.0, 80.0]])
    outcome = solved(ring, wished(5.0), turn=1.1)
    assert outcome.score >= 0.999 * outcome.bound
    assert found(outcome).outline.length > 1800.0


def test_a_hundred_screw_holes() -> None:
    """A board full of holes still gets a proved top that clears them all."""
    rng = np.random.default_rng(3)
    around = np.arange(8) * math.tau / 8
    ring8 = np.stack([np.cos(around), np.sin(around)], axis=1)
    holes = Region.empty()
    for _ in range(100):
        middle = rng.uniform([20, 20], [1380, 580])
        holes = holes.joined(Region.from_rings(middle + rng.uniform(2, 6) * ring8))
    wood = SoundWood.exact(Region.from_rings(BOARD).minus(holes))
    outcome = search(
        make(wood, wished(15.0), "rounded rectangle").family, gap=0.001, most_steps=3000
    )
    fit = found(outcome)
    assert wood.inner.holds(Region.from_rings(fit.placement.of(fit.outline.outer(CHORD / 10))))
    assert outcome.score >= 0.999 * outcome.bound
