"""A superellipse lies between ellipse and rectangle; its polygons and parallels are true."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from strategies import exponents, length_and_width, superellipses

from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Oval, Superellipse


@given(length_and_width())
def test_of_exponent_2_it_is_an_oval(sizes: tuple[float, float]) -> None:
    """|2x/L|² + |2y/W|² = 1 is the ellipse: area, way round, bend and reach are those of one."""
    one, oval = Superellipse(*sizes, 2.0), Oval(*sizes)
    assert one.area == pytest.approx(oval.area, rel=1e-12)
    assert one.perimeter == pytest.approx(oval.perimeter, rel=1e-9)
    assert one.tightest_radius == pytest.approx(oval.tightest_radius, rel=1e-9)
    for direction in (0.0, 0.4, 2.0, -1.1):
        assert one.support(direction) == pytest.approx(oval.support(direction), rel=1e-12)


@given(superellipses)
def test_it_lies_between_the_oval_and_the_rectangle(top: Superellipse) -> None:
    """It holds the oval of its sizes and lies in their rectangle, which it nears as n grows."""
    oval, box = Oval(top.length, top.width), top.length * top.width
    assert oval.area * (1 - 1e-12) <= top.area < box
    assert oval.perimeter * (1 - 1e-9) <= top.perimeter < 2 * (top.length + top.width)
    # Γ(1 + 1/n)²/Γ(1 + 2/n) = 1 − π²/6·1/n² + …, from the series of ln Γ (DLMF 5.7.3)
    n = top.exponent
    assert top.area / box > 1 - math.pi**2 / 6 / n**2
    assert top.area / box < 1 - math.pi**2 / 6 / n**2 + 2.5 / n**3


@pytest.mark.parametrize(
    ("exponent", "share"), [(2.0, math.pi / 4), (4.0, 0.927037), (2.5, None), (20.0, None)]
)
def test_share_of_the_rectangle(exponent: float, share: float | None) -> None:
    """L·W·Γ(1 + 1/n)²/Γ(1 + 2/n), by Dirichlet's integral (DLMF 5.14.1), is that of a quadrature.

    The share of n = 4 is that of the squircle, 8Γ(5/4)²/√π a radius squared (from memory).
    """
    top = Superellipse(1800, 900, exponent)
    counted, _ = quad(lambda u: (1 - u**exponent) ** (1 / exponent), 0, 1, epsabs=1e-12, limit=200)
    assert top.area / (1800 * 900) == pytest.approx(counted, rel=1e-8)
    assert share is None or top.area / (1800 * 900) == pytest.approx(share, abs=1e-6)


@given(length_and_width(), exponents)
def test_the_way_round_is_that_of_an_independent_quadrature(
    sizes: tuple[float, float], n: float
) -> None:
    """∫√(x′² + y′²) over the whole quarter in a parameter of another kind agrees to 1e-9."""
    top = Superellipse(*sizes, n)
    a, b = sizes[0] / 2, sizes[1] / 2

    def pace(t: float) -> float:
        # x = a·σ(t)^(1/n), y = b·σ(−t)^(1/n) with the logistic σ: smooth from end to end
        up, down = 1 / (1 + math.exp(-t)), 1 / (1 + math.exp(t))
        return math.hypot(a * up ** (1 / n) * down, b * down ** (1 / n) * up) / n

    far = 25.0 * n
    pieces = np.linspace(-far, far, 21)
    total = sum(quad(pace, low, high, epsabs=0, epsrel=1e-12)[0] for low, high in pairwise(pieces))
    assert top.perimeter == pytest.approx(4 * total, rel=1e-9)


@given(superellipses, st.sampled_from([1.0, 0.05, 0.001]))
def test_its_polygons_lie_on_their_side_of_the_true_curve(
    top: Superellipse, tolerance: float
) -> None:
    """Chords stay in |2x/L|ⁿ + |2y/W|ⁿ ≤ 1; no tangent polygon's edge cuts it."""
    inner, outer = top.inner(tolerance), top.outer(tolerance)
    half = np.array([top.length / 2, top.width / 2])
    ends = np.stack([inner, np.roll(inner, -1, axis=0)])
    for share in (0.0, 0.3, 0.5):
        level = (np.abs((ends[0] + (ends[1] - ends[0]) * share) / half) ** top.exponent).sum(axis=1)
        assert level.max() <= 1 + 1e-12
    ways = np.roll(outer, -1, axis=0) - outer
    for point, way in zip(outer, ways, strict=True):
        out = math.atan2(-way[0], way[1])
        reach = point[0] * math.cos(out) + point[1] * math.sin(out)
        assert reach >= top.support(out) - 1e-9 * top.length


@given(superellipses, st.floats(-0.98, 0.98))
def test_every_point_of_its_parallel_is_at_the_distance(top: Superellipse, share: float) -> None:
    """Measured to a fine polygon, the parallel stays within a thousandth, beyond its cusps too."""
    distance = share * top.width / 2
    assume(abs(distance) > 0.1)
    line = top.parallel(distance)
    edge = Region.from_rings(top.inner(0.0002))
    for segment in line.segments[:: max(1, len(line.segments) // 40)]:
        for part in (0.0, 0.37, 0.8):
            assert edge.edge_distance(segment.at(part)) == pytest.approx(abs(distance), abs=1e-3)


@pytest.mark.parametrize("exponent", [2.0, 2.001, 2.5, 4.0, 20.0])
@pytest.mark.parametrize("beyond", [1 - 1e-9, 1.0, 1 + 1e-9, 1.001, 1.2, 1.6])
def test_no_gap_opens_where_the_parallel_turns_back(exponent: float, beyond: float) -> None:
    """At its tightest radius and beyond, the line is closed, simple and of the right area."""
    top = Superellipse(1400, 700, exponent)
    distance = min(top.tightest_radius * beyond, 345.0)
    line = top.parallel(-distance)
    face = Region.from_rings(line.points(0.01))
    truth = Region.from_rings(top.inner(0.01)).shrunk(distance, around=True)
    assert line.is_closed
    assert face.area == pytest.approx(truth.area, abs=0.05 * line.length)


def test_deep_inside_it_has_a_corner_in_each_quarter_and_then_two_on_its_long_axis() -> None:
    """1400 × 700, n = 2.2: round, then four corners, then two, as its medial axis branches."""
    top = Superellipse(1400, 700, 2.2)
    corners = {}
    for distance in (190.0, 240.0, 300.0):
        line = top.parallel(-distance)
        joints = zip(line.segments, (*line.segments[1:], line.segments[0]), strict=True)
        sharp = [a.end for a, b in joints if abs(_turn(a, b)) > 0.01]
        corners[distance] = len(sharp)
    assert corners == {190.0: 0, 240.0: 4, 300.0: 2}


def _turn(one: object, other: object) -> float:
    from panelwright.layout.geometry.intersect import turn_at

    return turn_at(one, other)  # type: ignore[arg-type]
