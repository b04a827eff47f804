"""The overhanging beam: by figures checked with a frame solver, and by classical points."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import LegsError
from panelwright.layout.legs.beam import AIRY, LEAST_MOMENT, OverhangingBeam

OAK = OverhangingBeam(1800, 300, 12_300 * 900 * 25**3 / 12)


def test_a_beam_with_overhangs_bends_as_a_frame_solver_says() -> None:
    """1800 long, overhangs 300, 1 N/mm: middle 1.311220 down, tips 0.866341 up (computed)."""
    assert OAK.middle_under(1.0) == pytest.approx(1.311220, abs=1e-6)
    assert OAK.tip_under(1.0) == pytest.approx(-0.866341, abs=1e-6)
    assert OAK.moment_at_support(1.0) == pytest.approx(-45_000)
    assert OAK.moment_in_middle(1.0) == pytest.approx(135_000)


def test_a_force_on_one_tip_bends_it_as_a_frame_solver_says() -> None:
    """100 N on one tip of the same beam: 0.312195 down (computed)."""
    assert OAK.tip_under_force(100) == pytest.approx(0.312195, abs=1e-6)


def test_without_overhang_it_is_the_handbook_beam() -> None:
    """Simple supports and an even load: 5/384 · w l⁴/EI (*Wood Handbook*, Table 9-1)."""
    beam = OverhangingBeam(1000, 0, 1e9)
    assert beam.middle_under(1.0) == pytest.approx(5 / 384 * 1000**4 / 1e9)
    assert beam.tip_under(1.0) == 0


@given(st.floats(10, 10_000), st.floats(1e6, 1e12))
def test_classical_supports(length: float, stiff: float) -> None:
    """At 0.223149 L middle and tips sink alike, at 0.207107 L the moments match (classical)."""
    least = OverhangingBeam(length, 0.223149 * length, stiff)
    assert least.middle_under(1.0) == pytest.approx(least.tip_under(1.0), rel=1e-4)
    even = OverhangingBeam(length, LEAST_MOMENT * length, stiff)
    assert even.moment_in_middle(1.0) == pytest.approx(-even.moment_at_support(1.0))
    assert pytest.approx(0.207107, abs=1e-6) == LEAST_MOMENT
    assert pytest.approx(0.211325, abs=1e-6) == AIRY


@given(st.floats(500, 4000), st.floats(1e6, 1e12))
def test_the_ends_are_level_on_the_airy_points(length: float, stiff: float) -> None:
    """Supports 0.211325 L from the ends leave the tips level (Airy; classical)."""
    assert pytest.approx(0.211325, abs=5e-7) == AIRY
    level = OverhangingBeam(length, AIRY * length, stiff)
    steep = OverhangingBeam(length, 0.0, stiff)
    assert abs(level.tip_slope_under(1.0)) < 1e-9 * abs(steep.tip_slope_under(1.0))
    assert steep.tip_slope_under(1.0) == pytest.approx(-(length**3) / (24 * stiff))


def test_an_overhang_of_half_the_length_is_refused() -> None:
    """Two supports at one place hold nothing level."""
    with pytest.raises(LegsError, match="below half its length"):
        OverhangingBeam(1000, 500, 1e9)
