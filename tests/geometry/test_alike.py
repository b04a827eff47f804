"""The choice among things that may be alike: noise changes nothing, and place decides."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.geometry.alike import at_least, at_most, first_of_best, ranked
from panelwright.layout.geometry.tolerance import SAME_PLACE

TOLERANCE = 1e-3

Thing = tuple[float, tuple[float, float]]

figures = st.integers(-50, 50).map(float)
things = st.lists(st.tuples(figures, st.tuples(figures, figures)), min_size=1, max_size=12)
noises = st.lists(st.tuples(*[st.floats(-1e-9, 1e-9)] * 3), min_size=12, max_size=12)


def _noisy(held: list[Thing], noise: list[tuple[float, float, float]]) -> list[Thing]:
    """Return things with every figure off by a share of 1e-9 at most."""
    return [
        (s * (1 + a) + a, (x * (1 + b) + b, y * (1 + c) + c))
        for (s, (x, y)), (a, b, c) in zip(held, noise, strict=False)
    ]


def _order(held: list[Thing]) -> list[int]:
    numbers = range(len(held))
    return ranked(numbers, lambda i: held[i][0], lambda i: held[i][1], tolerance=TOLERANCE)


def _first(held: list[Thing]) -> int:
    numbers = range(len(held))
    return first_of_best(numbers, lambda i: held[i][0], lambda i: held[i][1], tolerance=TOLERANCE)


@given(things, noises)
def test_noise_in_the_last_digits_changes_no_order(
    held: list[Thing], noise: list[tuple[float, float, float]]
) -> None:
    """Scores and places that are clearly apart or together keep their order under noise."""
    assert _order(_noisy(held, noise)) == _order(held)


@given(things, noises)
def test_the_first_of_the_best_heads_the_ranking(
    held: list[Thing], noise: list[tuple[float, float, float]]
) -> None:
    """Both ways to choose agree, with noise and without."""
    assert _first(held) == _order(held)[0]
    noisy = _noisy(held, noise)
    assert _first(noisy) == _order(noisy)[0]


@given(things)
def test_clear_differences_are_ranked_as_sorting_does(held: list[Thing]) -> None:
    """Where nothing is alike but what is equal, the greatest comes first, then the lowest place."""
    plain = sorted(range(len(held)), key=lambda i: (-held[i][0], held[i][1]))
    assert _order(held) == plain


@given(things, st.integers(0, 11))
def test_only_the_order_given_decides_between_equals(held: list[Thing], turn: int) -> None:
    """However the things are handed in, one equal to the first of the best is chosen."""
    turned = held[turn % len(held) :] + held[: turn % len(held)]
    chosen = [
        first_of_best(some, lambda t: t[0], lambda t: t[1], tolerance=TOLERANCE)
        for some in (held, turned)
    ]
    assert chosen[0] == chosen[1]


def test_groups_begin_at_the_best_and_have_no_grid() -> None:
    """Places a hair on either side of a rounded step are one, and a second figure decides."""
    edge = 2.5 * SAME_PLACE
    below, above = (1.0, (edge - 1e-12, 1.0)), (1.0, (edge + 1e-12, 0.0))
    assert _order([below, above]) == [1, 0]
    scores = [(1.0005, (5.0, 0.0)), (1.0, (4.0, 0.0)), (0.9996, (3.0, 0.0))]
    assert _order(scores) == [2, 1, 0]
    assert _order([*scores, (0.9994, (0.0, 0.0))]) == [2, 1, 0, 3]


def test_figures_of_a_score_count_in_turn() -> None:
    """A later figure decides only where those before it are alike."""
    held = [(True, 3.0), (True, 3.0 + 1e-12), (False, 9.0), (True, 2.0)]
    order = ranked(range(4), lambda i: held[i], tolerance=(0.0, 1e-9))
    assert order == [0, 1, 3, 2]


def test_limits_that_exact_inputs_meet_are_kept() -> None:
    """What rounding puts a hair past a limit meets it; what is clearly past does not."""
    assert at_least(0.1 * 3 - 1e-9, 0.3)
    assert at_most(0.1 * 3, 0.3)
    assert not at_least(0.29, 0.3)
    assert not at_most(0.31, 0.3)
