"""Peaks and the ends of a property are found where they are."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.geometry.scalar import last_where, peak

places = st.floats(min_value=-50, max_value=50)
steeps = st.floats(min_value=0.1, max_value=10)


@given(places, steeps, steeps)
def test_a_peak_is_found_between_any_slopes(at: float, up: float, down: float) -> None:
    """Two straight slopes of any steepness have their peak where they meet."""
    found = peak(lambda x: up * (x - at) if x < at else down * (at - x), -60.0, 60.0)
    assert found == pytest.approx(at, abs=1e-8)


@given(places)
def test_a_peak_at_an_end_is_that_end(low: float) -> None:
    """A function that only falls is highest where it begins."""
    assert peak(lambda x: -x, low, low + 10) == pytest.approx(low, abs=1e-8)


@given(places)
def test_a_property_ends_where_it_ceases_to_hold(at: float) -> None:
    """It holds at the place that is found, and no longer a hair beyond."""
    found = last_where(lambda x: x <= at, -60.0, 60.0)
    assert found <= at < found + 1e-12
