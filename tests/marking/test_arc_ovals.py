"""Ovals of four and eight arcs: published figures, joints, how far they lie from the ellipse."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import drawn_by

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.segments import Arc
from panelwright.layout.marking.arcs import EightCentreOval, FourCentreOval

lengths = st.floats(300.0, 2500.0)
ratios = st.floats(0.45, 0.97)


def farthest_by_points(path: Path, length: float, width: float) -> float:
    """Return the farthest that points of a drawn line lie from a dense polygon of the ellipse."""
    angles = np.linspace(0.0, math.pi / 2, 20001)
    ellipse = np.column_stack((length / 2 * np.cos(angles), width / 2 * np.sin(angles)))
    drawn = path.points(0.01)
    drawn = drawn[(drawn[:, 0] >= 0) & (drawn[:, 1] >= 0)]
    return max(float(np.hypot(*(ellipse - p).T).min()) for p in drawn)


@pytest.mark.parametrize(
    ("length", "width", "end", "side", "farthest"),
    [
        (1800.0, 900.0, 285.88, 1516.93, 8.78),
        (1200.0, 900.0, 369.41, 739.60, 3.16),
        (1200.0, 700.0, 244.35, 895.79, 5.06),
    ],
)
def test_best_four_arcs(
    length: float, width: float, end: float, side: float, farthest: float
) -> None:
    """The best four arcs that keep both axes (computed by minimising the farthest distance)."""
    oval = FourCentreOval.best(length, width)
    assert oval.end_radius == pytest.approx(end, abs=0.01)
    assert oval.side_radius == pytest.approx(side, abs=0.01)
    assert oval.farthest_from_ellipse == pytest.approx(farthest, abs=0.005)


def test_forty_five_degrees() -> None:
    """At 45° all centres lie (a − b)(1 + √2/2) from the middle (Rose, 1883)."""
    oval = FourCentreOval.joined_at(1200.0, 700.0, math.pi / 4)
    out = 250.0 * (1 + math.sqrt(2) / 2)
    assert oval.end_centre == pytest.approx(out)
    assert oval.side_centre == pytest.approx(out)
    assert oval.farthest_from_ellipse == pytest.approx(20.8, abs=0.05)


def test_sixty_degrees() -> None:
    """At 1200 × 700 arcs that meet at 60° have radii 258.5 and 941.5 and lie 8.8 off (computed)."""
    oval = FourCentreOval.joined_at(1200.0, 700.0, math.pi / 3)
    assert oval.end_radius == pytest.approx(258.5, abs=0.05)
    assert oval.side_radius == pytest.approx(941.5, abs=0.05)
    assert oval.farthest_from_ellipse == pytest.approx(8.8, abs=0.05)


def test_forty_five_degrees_ends_at_the_silver_ratio() -> None:
    """Longer than 1 + √2 times its width, no oval of four arcs meets at 45°."""
    silver = 1 + math.sqrt(2)
    FourCentreOval.joined_at(700.0 * silver - 1, 700.0, math.pi / 4)
    with pytest.raises(OutlineError, match="too long for its width"):
        FourCentreOval.joined_at(700.0 * silver + 1, 700.0, math.pi / 4)


def test_eight_arcs() -> None:
    """1800 × 900 in eight arcs has radii 225, 675 and 1800 (Rose, 1883, figs 81 and 82)."""
    oval = EightCentreOval.for_oval(1800.0, 900.0)
    assert (oval.end_radius, oval.middle_radius, oval.side_radius) == (225.0, 675.0, 1800.0)


@settings(max_examples=25)
@given(lengths, ratios)
def test_arcs_meet_smoothly_and_keep_both_axes(length: float, ratio: float) -> None:
    """Neighbouring arcs touch: centres lie apart by the difference of radii; both axes are kept."""
    width = length * ratio
    for oval in (FourCentreOval.best(length, width), EightCentreOval.for_oval(length, width)):
        path = drawn_by(oval)
        arcs = [s for s in path.segments if isinstance(s, Arc)]
        for one, other in zip(arcs, arcs[1:] + arcs[:1], strict=True):
            apart = one.centre.distance_to(other.centre)
            assert apart == pytest.approx(abs(one.radius - other.radius), abs=1e-6 * length)
        assert path.is_closed
        bounds = path.bounds
        assert (bounds.width, bounds.height) == pytest.approx((length, width), rel=1e-6)


@settings(max_examples=8, deadline=None)
@given(lengths, ratios)
def test_the_stated_distance_is_the_true_one(length: float, ratio: float) -> None:
    """Drawn point by point, the line lies from the ellipse by what is stated."""
    width = length * ratio
    for oval in (
        FourCentreOval.best(length, width),
        FourCentreOval.joined_at(length, width, math.pi / 3),
        EightCentreOval.for_oval(length, width),
    ):
        found = farthest_by_points(drawn_by(oval), length, width)
        assert found == pytest.approx(oval.farthest_from_ellipse, rel=0.02, abs=0.02)


@settings(max_examples=15)
@given(lengths, ratios, st.floats(0.6, 1.3))
def test_nothing_beats_the_best(length: float, ratio: float, join: float) -> None:
    """No oval of four arcs that keeps both axes lies nearer to the ellipse than the best."""
    width = length * ratio
    best = FourCentreOval.best(length, width).farthest_from_ellipse
    try:
        other = FourCentreOval.joined_at(length, width, join)
    except OutlineError:
        return
    assert other.farthest_from_ellipse >= best - 1e-3


@pytest.mark.parametrize("make", [FourCentreOval.best, EightCentreOval.for_oval])
def test_as_long_as_wide_is_no_oval(make: object) -> None:
    """Arcs make an oval only of what is longer than wide."""
    assert callable(make)
    with pytest.raises(OutlineError, match="width < length"):
        make(700.0, 700.0)
