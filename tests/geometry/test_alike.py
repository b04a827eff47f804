"""Choices among alike things: by score, then along, then up, whatever the last bits say."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.geometry.alike import first_of_best, ranked

scores = st.lists(st.integers(0, 3), min_size=1, max_size=8)


@given(whole=scores, seed=st.integers(0, 10**6))
def test_rounding_and_order_change_no_choice(whole: list[int], seed: int) -> None:
    """Scores and places shaken far within the tolerances, in any order, are ranked the same."""
    rng = np.random.default_rng(seed)
    plain = [(float(s), 10.0 * (i % 3), 10.0 * i) for i, s in enumerate(whole)]
    shaken = [tuple(np.array(item) + rng.uniform(-1e-9, 1e-9, 3)) for item in plain]
    shaken = [shaken[i] for i in rng.permutation(len(shaken))]
    order = ranked(shaken, lambda x: x[0], lambda x: x[1:], tolerance=1e-6)
    known = sorted(plain, key=lambda x: (-x[0], x[1], x[2]))
    assert np.allclose(order, known, atol=1e-8)
    best = first_of_best(shaken, lambda x: x[0], lambda x: x[1:], tolerance=1e-6)
    assert np.allclose(best, known[0], atol=1e-8)


def test_without_a_place_the_first_of_the_alike_goes() -> None:
    """Of two scores that differ by rounding the earlier item is taken."""
    assert first_of_best("ab", {"a": 1.0, "b": 1.0 + 1e-12}.__getitem__, tolerance=1e-9) == "a"
