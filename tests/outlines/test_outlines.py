"""Every outline obeys the same laws, and its figures are those of the handbooks."""

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.special import ellipe
from strategies import angles, every_outline, ovals, symmetrical_outlines

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.oval_parallels import ellipse_perimeter
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CURVE
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)


@given(every_outline)
def test_area_and_perimeter_are_those_of_the_path(outline: Outline) -> None:
    """The formulas and the path agree as well as the path is true, and it runs anticlockwise."""
    path = outline.path()
    assert path.is_closed
    drawn = CURVE if isinstance(outline, Superellipse) else 0.0
    assert path.area == pytest.approx(outline.area, rel=1e-9, abs=drawn * outline.perimeter)
    assert path.length == pytest.approx(outline.perimeter, rel=1e-6 if drawn else 1e-9, abs=drawn)
    box, bounds = path.bounds, outline.bounds
    assert (box.left, box.bottom, box.right, box.top) == pytest.approx(
        (bounds.left, bounds.bottom, bounds.right, bounds.top), abs=max(drawn, 1e-6)
    )
    assert bounds.width == pytest.approx(outline.length)
    assert bounds.height == pytest.approx(outline.width)


@given(every_outline, st.sampled_from([1.0, 0.1, 0.01]))
def test_inner_and_outer_polygons_enclose_the_truth(outline: Outline, tolerance: float) -> None:
    """Inner ⊂ outer, the exact area lies between theirs, and no point is farther off than said."""
    inner, outer = outline.inner(tolerance), outline.outer(tolerance)
    less, more = Region.from_rings(inner), Region.from_rings(outer)
    assert less.area <= outline.area * (1 + 1e-12) <= more.area * (1 + 2e-12)
    assert more.area - less.area <= 2.2 * tolerance * outline.perimeter
    assert more.grown(1e-6).holds(less)


@given(symmetrical_outlines)
def test_polygon_area_reaches_the_exact_area_at_the_expected_rate(outline: Outline) -> None:
    """The error is of the order of the tolerance: a hundredth of it leaves a hundredth."""
    coarse = outline.area - Region.from_rings(outline.inner(0.1)).area
    fine = outline.area - Region.from_rings(outline.inner(0.001)).area
    assert fine <= max(0.03 * coarse, 1e-6 * outline.area)


@given(every_outline, angles)
def test_support_is_the_farthest_point_of_the_polygon(outline: Outline, direction: float) -> None:
    """No point of the outline reaches farther towards a direction than its support says."""
    way = np.array([math.cos(direction), math.sin(direction)])
    reached = outline.support(direction)
    assert (outline.inner(0.001) @ way).max() <= reached + 1e-6
    assert (outline.outer(0.001) @ way).max() >= reached - 1e-6


@given(symmetrical_outlines, st.floats(min_value=0.5, max_value=60.0))
def test_outside_parallels_obey_steiner(outline: Outline, distance: float) -> None:
    """A line d outside a convex outline bounds A + P·d + π·d² and is P + 2π·d long (Steiner)."""
    line = outline.parallel(distance)
    assert line.is_closed
    expected = outline.area + outline.perimeter * distance + math.pi * distance**2
    assert line.area == pytest.approx(expected, rel=1e-6, abs=CURVE * line.length)
    assert line.length == pytest.approx(outline.perimeter + math.tau * distance, rel=1e-5)


@given(symmetrical_outlines, st.floats(min_value=0.02, max_value=0.95))
def test_inside_parallels_are_what_is_left_of_the_outline(outline: Outline, share: float) -> None:
    """The line d inside bounds the same region as all points at least d from the outline."""
    distance = share * outline.width / 2
    line = outline.parallel(-distance)
    face = Region.from_rings(outline.inner(0.0005))
    truth = face.shrunk(distance, around=True)
    assume(not truth.is_empty)
    drawn = Region.from_rings(line.points(0.0005))
    assert line.is_closed
    slack = (0.02 + 1e-4 * distance) * line.length + 0.02
    assert truth.minus(drawn).area <= slack
    assert drawn.minus(truth).area <= slack


@given(ovals, st.floats(min_value=-0.9, max_value=0.9))
def test_every_point_of_an_ovals_parallel_is_at_the_distance(oval: Oval, share: float) -> None:
    """Measured to a fine polygon of the oval, the parallel stays within a thousandth."""
    distance = share * oval.width / 2
    assume(abs(distance) > 0.1)
    line = oval.parallel(distance)
    edge = Region.from_rings(oval.inner(0.0001))
    for segment in line.segments[:: max(1, len(line.segments) // 40)]:
        for part in (0.0, 0.37, 0.8):
            assert edge.edge_distance(segment.at(part)) == pytest.approx(abs(distance), abs=1e-3)


def test_a_parallel_of_an_oval_is_no_oval() -> None:
    """At 1200 × 700, 20 mm inside, a smaller ellipse would be 0.7 mm off (computed by support)."""
    oval, smaller = Oval(1200, 700), Oval(1160, 660)
    off = max(
        smaller.support(t) - (oval.support(t) - 20) for t in np.linspace(0, math.pi / 2, 2001)
    )
    assert off == pytest.approx(0.7, abs=0.05)
    line = Region.from_rings(oval.parallel(-20).points(0.001))
    assert Region.from_rings(smaller.outer(0.001)).holds(line)


def test_beyond_the_tightest_radius_the_inner_parallel_ends_in_points() -> None:
    """Inside W²/(2L) it is smooth; beyond, its cusps are trimmed to a corner on the long axis."""
    oval = Oval(1200, 700)
    limit = oval.tightest_radius
    assert limit == pytest.approx(700**2 / 2400)
    smooth, pointed = oval.parallel(-(limit - 1)), oval.parallel(-(limit + 60))
    assert smooth.bounds.right == pytest.approx(600 - (limit - 1), abs=1e-6)
    assert pointed.bounds.right < 600 - (limit + 60)
    assert pointed.segments[0].start.y == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    ("length", "width", "perimeter"),
    [(1800, 900, 4359.801699), (1200, 700, 3036.411578), (2000, 800, 4602.622519)],
)
def test_the_way_round_an_oval(length: float, width: float, perimeter: float) -> None:
    """4a·E(m), m = 1 − b²/a² (DLMF 19.9.9); figures computed with an independent library."""
    assert ellipse_perimeter(length / 2, width / 2) == pytest.approx(perimeter, abs=1e-6)
    parameter = 1 - (width / length) ** 2
    assert ellipse_perimeter(length / 2, width / 2) == pytest.approx(
        2 * length * float(ellipe(parameter)), rel=1e-13
    )


def test_handbook_figures_of_a_capsule_and_a_rounded_rectangle() -> None:
    """1800 × 900: a circle and a rectangle; corners of 150 each lose (1 − π/4) r²."""
    capsule = Capsule(1800, 900)
    assert capsule.perimeter == pytest.approx(4627.4334, abs=1e-4)
    assert capsule.area == pytest.approx(1_446_172.51, abs=5e-3)
    rounded = RoundedRectangle.with_radius(1800, 900, 150)
    assert rounded.perimeter == pytest.approx(5142.4778, abs=1e-4)
    assert rounded.area == pytest.approx(1_600_685.83, abs=5e-3)
    assert Oval(1800, 900).area == pytest.approx(1_272_345.02, abs=5e-3)


@given(st.floats(min_value=50, max_value=2000))
def test_limits_between_the_families(size: float) -> None:
    """As long as wide, capsule and oval are circles; radius 0 is a rectangle, W/2 a capsule."""
    disk = Circle(size)
    for round_one in (Capsule(size, size), Oval(size, size)):
        assert round_one.area == pytest.approx(disk.area)
        assert round_one.perimeter == pytest.approx(disk.perimeter)
    square_cornered = RoundedRectangle.with_radius(2 * size, size, 0.0)
    assert square_cornered.path() == Rectangle(2 * size, size).path()
    ends = RoundedRectangle.with_radius(2 * size, size, size / 2)
    assert ends.area == pytest.approx(Capsule(2 * size, size).area)
    assert ends.perimeter == pytest.approx(Capsule(2 * size, size).perimeter)


@given(every_outline, st.sampled_from([1e-3, 1e3]))
def test_ten_to_the_power_of_three_scales_area_and_perimeter(o: Outline, factor: float) -> None:
    """Scaled by k, areas grow by k² and lengths by k, however large or small."""
    if isinstance(o, RoundedRectangle):
        a, b, c, d = (r * factor for r in o.radii)
        scaled: Outline = RoundedRectangle(o.length * factor, o.width * factor, (a, b, c, d))
    elif isinstance(o, Circle):
        scaled = Circle(o.diameter * factor)
    else:
        scaled = o.resized(o.length * factor, o.width * factor)
    assert scaled.area == pytest.approx(o.area * factor**2, rel=1e-9)
    assert scaled.perimeter == pytest.approx(o.perimeter * factor, rel=1e-9)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Circle(0),
        lambda: Capsule(600, 700),
        lambda: Oval(math.nan, 3),
        lambda: Oval(math.inf, 3),
        lambda: Rectangle(100, -1),
        lambda: RoundedRectangle.with_radius(900, 500, 251),
        lambda: RoundedRectangle(900, 500, (10, 10, -1, 10)),
        lambda: Circle(100).parallel(-50),
        lambda: Capsule(500, 100).parallel(-60),
        lambda: Oval(500, 100).parallel(-50),
        lambda: Rectangle(500, 100).parallel(-50),
        lambda: RoundedRectangle.with_radius(500, 100, 20).parallel(-50),
        lambda: Circle(100).resized(100, 90),
        lambda: Superellipse(900, 500, 1.9),
        lambda: Superellipse(900, 500, 21),
        lambda: Superellipse(500, 900, 3),
        lambda: Superellipse(900, 500, math.nan),
        lambda: Superellipse(900, 500, 3).parallel(-250),
        lambda: RegularPolygon(7, 500),
        lambda: RegularPolygon(6, 0),
        lambda: RegularPolygon(8, 500).parallel(-250),
        lambda: RegularPolygon(6, 500).resized(500, 500),
    ],
)
def test_shapes_that_cannot_be_are_refused(make: object) -> None:
    """A size out of its limits raises an OutlineError, never a strange shape."""
    with pytest.raises(OutlineError, match=r"\d|nan|inf"):
        make()  # type: ignore[operator]


def test_four_different_corners_go_round_from_the_lower_left() -> None:
    """Each radius rounds its own corner: the path passes the corner at (√2 − 1) r."""
    top = RoundedRectangle(1000, 600, (10.0, 40.0, 90.0, 0.0))
    face = Region.from_rings(top.inner(0.0001))
    for corner, radius in zip(
        (Point(-500, -300), Point(500, -300), Point(500, 300), Point(-500, 300)),
        top.radii,
        strict=True,
    ):
        assert face.edge_distance(corner) == pytest.approx((math.sqrt(2) - 1) * radius, abs=1e-3)
