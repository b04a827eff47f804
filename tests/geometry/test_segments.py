"""Lines and arcs are exact, and their polygons keep to one side."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipeinc
from strategies import angles, placements, points

from panelwright.layout.errors import GeometryError
from panelwright.layout.geometry.path import Path, circle, four_quarters
from panelwright.layout.geometry.placement import Placement, Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.segments import Arc, EllipticArc, Line, Segment

lengths = st.floats(min_value=10.0, max_value=2000.0)
sweeps = st.one_of(
    st.floats(min_value=0.05, max_value=math.pi), st.floats(min_value=-math.pi, max_value=-0.05)
)
lines = st.builds(
    lambda start, angle, length: Line(start, start + Point.polar(length, angle)),
    points, angles, lengths,
)  # fmt: skip
arcs = st.builds(Arc, points, lengths, angles, sweeps)
elliptic_arcs = st.builds(
    lambda centre, a, share, turn, start, sweep: EllipticArc(
        centre, a, a * share, turn, start, sweep
    ),
    points, lengths, st.floats(min_value=0.05, max_value=1.0), angles, angles, sweeps,
)  # fmt: skip
segments: st.SearchStrategy[Segment] = st.one_of(lines, arcs, elliptic_arcs)


def near(one: Point, other: Point, within: float = 1e-6) -> bool:
    """Whether two points are one, mm."""
    return one.distance_to(other) < within


@given(segments)
def test_a_reversed_segment_runs_the_same_way_backwards(segment: Segment) -> None:
    """Its ends swap, its length stays and its swept area changes sign."""
    back = segment.reversed()
    assert near(back.start, segment.end)
    assert near(back.at(0.25), segment.at(0.75))
    assert back.length == pytest.approx(segment.length)
    assert back.swept_area == pytest.approx(-segment.swept_area, abs=1e-6 * segment.length**2)


@given(segments, placements)
def test_moving_a_segment_moves_its_points(segment: Segment, placement: Placement) -> None:
    """Each point of a placed segment is the placed point of the segment."""
    moved = segment.placed(placement)
    for share in (0.0, 0.3, 1.0):
        assert near(moved.at(share), placement(segment.at(share)))
    assert moved.length == pytest.approx(segment.length)


@given(segments, st.sampled_from([0.0, 0.4, 1.0]))
def test_the_pace_is_that_of_ever_shorter_chords(segment: Segment, share: float) -> None:
    """A chord about a place, by the share that it spans, comes to the pace there."""
    chord = segment.at(share + 1e-4) - segment.at(share - 1e-4)
    assert near(chord * (1 / 2e-4), segment.pace(share), 1e-6 * segment.length + 1e-5)


@given(segments)
def test_mirroring_twice_changes_nothing(segment: Segment) -> None:
    """A mirrored segment has its x turned round, and a second mirror brings it back."""
    once = segment.mirrored()
    assert near(once.at(0.3), Point(-segment.at(0.3).x, segment.at(0.3).y))
    assert near(once.mirrored().at(0.6), segment.at(0.6))


@given(segments)
def test_the_bounds_hold_every_point_and_touch_one_on_each_side(segment: Segment) -> None:
    """No sampled point lies outside the bounds, and the samples reach them."""
    box = segment.bounds
    sampled = [segment.at(i / 400) for i in range(401)]
    reach = 1e-4 * segment.length + 1e-6
    assert min(p.x for p in sampled) == pytest.approx(box.left, abs=reach)
    assert max(p.x for p in sampled) == pytest.approx(box.right, abs=reach)
    assert min(p.y for p in sampled) == pytest.approx(box.bottom, abs=reach)
    assert max(p.y for p in sampled) == pytest.approx(box.top, abs=reach)
    assert all(box.grown(1e-6).left <= p.x <= box.grown(1e-6).right for p in sampled)


@given(lines, st.floats(min_value=-5.0, max_value=50.0))
def test_a_parallel_lies_to_the_right(segment: Line, distance: float) -> None:
    """Each of its points is `distance` from the segment, on the right of the way it runs."""
    other = segment.parallel(distance)
    step = segment.at(0.5001) - segment.at(0.4999)
    across = other.at(0.5) - segment.at(0.5)
    assert across.norm == pytest.approx(abs(distance), abs=1e-6)
    assert -step.unit().cross(across) == pytest.approx(distance, abs=1e-5)


@given(st.one_of(arcs, elliptic_arcs), st.sampled_from([0.001, 0.01, 0.5]))
def test_polygon_points_of_an_arc_stay_within_tolerance(
    arc: Arc | EllipticArc, tolerance: float
) -> None:
    """Closed by its chord, the inner polygon lies in the outer and both in a tolerance's ring."""
    path = Path((arc, Line(arc.end, arc.start)))
    path = path if path.area > 0 else path.reversed()
    inner, outer = path.points(tolerance, "inside"), path.points(tolerance, "outside")
    exact = path.area
    ring = tolerance * path.length
    inside, outside = (abs(_shoelace(ring)) for ring in (inner, outer))
    assert exact - ring <= inside <= exact + 1e-9 * exact + 1e-6
    assert exact - 1e-9 * exact - 1e-6 <= outside <= exact + ring


def _shoelace(ring: Points) -> float:
    ahead = np.roll(ring, -1, axis=0)
    return float((ring[:, 0] * ahead[:, 1] - ring[:, 1] * ahead[:, 0]).sum() / 2)


@given(st.floats(min_value=20, max_value=4000), st.floats(min_value=0.001, max_value=0.5))
def test_an_arc_from_chord_and_rise_stands_its_rise_off_the_chord(chord: float, k: float) -> None:
    """Its middle lies `rise` to the right of the chord, its ends on the chord's."""
    rise = k * chord
    start, end = Point(3, 4), Point(3, 4) + Point.polar(chord, 0.3)
    for sign in (1, -1):
        arc = Arc.from_chord_and_rise(start, end, sign * rise)
        assert near(arc.start, start)
        assert near(arc.end, end, 1e-6 * chord)
        across = arc.at(0.5) - start.midpoint(end)
        assert (end - start).unit().left.dot(across) == pytest.approx(-sign * rise, rel=1e-6)


@pytest.mark.parametrize(
    ("chord", "rise", "radius"),
    [
        (96, 12, 102),  # Hatfield, The American House-Carpenter, art. 518 (span and rise in inches)
        (96, 24, 60),  # the same
        (120, 30, 75),  # the same: chord 120 ft, radius 75 ft, versed sine 30 ft
    ],
)
def test_radius_from_chord_and_rise_as_carpenters_print_it(
    chord: float, rise: float, radius: float
) -> None:
    """The radius agrees with the worked examples of a carpenter's handbook."""
    arc = Arc.from_chord_and_rise(Point(0, 0), Point(chord, 0), rise)
    assert arc.radius == pytest.approx(radius, rel=1e-12)


@given(elliptic_arcs, st.floats(min_value=0.0, max_value=1.0))
def test_so_much_of_its_length_lies_before_the_share_that_it_is_passed_at(
    arc: EllipticArc, passed: float
) -> None:
    """The part of an arc up to a share of its length is as long as that share of the whole."""
    part = arc.part(0.0, arc.share_after(passed))
    assert part.length == pytest.approx(passed * arc.length, abs=1e-6)


def test_the_length_of_an_elliptic_arc_is_the_elliptic_integral() -> None:
    """DLMF 19.30.3: b times the incomplete integral of the second kind, at modulus 1 − a²/b²."""
    arc = EllipticArc(Point(0, 0), 600, 350, 0.0, 0.2, 1.1)
    steps = [arc.at(i / 20000) for i in range(20001)]
    chords = sum(a.distance_to(b) for a, b in pairwise(steps))
    assert arc.length == pytest.approx(chords, rel=1e-8)
    whole = EllipticArc(Point(0, 0), 900, 450, 0.0, 0.0, math.tau)
    assert whole.length == pytest.approx(4 * 450 * float(ellipeinc(math.pi / 2, -3.0)), rel=1e-12)


def test_a_broken_path_is_refused_with_the_place() -> None:
    """Segments that do not meet make no path, and the message says where."""
    with pytest.raises(GeometryError, match="breaks off"):
        Path((Line(Point(0, 0), Point(1, 0)), Line(Point(2, 0), Point(3, 0))))
    with pytest.raises(GeometryError, match="at least one"):
        Path(())


@given(points, lengths, placements)
def test_area_and_length_of_a_circle_stay_wherever_it_lies(
    centre: Point, radius: float, placement: Placement
) -> None:
    """πr² and 2πr, moved, turned, mirrored; reversed, the area is negative."""
    path = circle(centre, radius).placed(placement)
    assert path.area == pytest.approx(math.pi * radius**2, rel=1e-6)
    assert path.length == pytest.approx(math.tau * radius)
    assert path.mirrored().area == pytest.approx(math.pi * radius**2, rel=1e-6)
    assert path.reversed().area == pytest.approx(-math.pi * radius**2, rel=1e-6)


@given(lengths, lengths)
def test_four_quarters_are_one_line_round_the_middle(a: float, b: float) -> None:
    """From a quarter of an ellipse comes the whole: closed, of area πab, 2a by 2b."""
    whole = four_quarters([EllipticArc(Point(0, 0), a, b, 0.0, 0.0, math.pi / 2)])
    assert whole.is_closed
    assert whole.area == pytest.approx(math.pi * a * b)
    assert (whole.bounds.width, whole.bounds.height) == pytest.approx((2 * a, 2 * b))


@given(points, placements)
def test_a_placement_and_its_inverse_cancel(point: Point, placement: Placement) -> None:
    """What is carried onto the panel comes back into the shape's own frame."""
    assert near(placement.into(placement(point)), point)
    assert near(placement.inverse(placement(point)), point)
    both = placement.then(Placement(Point(5, 6), 0.7))
    assert near(both(point), Placement(Point(5, 6), 0.7)(placement(point)))


@given(st.floats(min_value=5, max_value=900), st.floats(min_value=0.1, max_value=90))
def test_grown_and_shrunk_regions_stand_on_their_side_of_the_truth(half: float, by: float) -> None:
    """Round a square, growth adds perimeter·d + πd²; `around` says from which side it is held."""
    square = Region.from_rings(
        np.array([[-half, -half], [half, -half], [half, half], [-half, half]])
    )
    true = square.area + square.perimeter * by + math.pi * by * by
    assert square.grown(by, around=False).area <= true * (1 + 1e-12)
    assert square.grown(by, around=True).area >= true * (1 - 1e-12)
    if by < half * 0.99:
        inside = (2 * half - 2 * by) ** 2
        assert square.shrunk(by).area <= inside * (1 + 1e-9)
        assert square.shrunk(by, around=True).area >= inside * (1 - 1e-9)
