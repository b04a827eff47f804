"""Paths and boxes: what is asked of them in one way everywhere."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import freeforms, ovals, points, star_rings

from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import array_of
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.outlines import Freeform, Oval

reaches = st.floats(min_value=0.5, max_value=900.0)
boxes = st.builds(Bounds.about, points, reaches, reaches)


@given(star_rings())
def test_a_ring_of_points_comes_back_from_its_path(corners: tuple[Point, ...]) -> None:
    """Points as an array, as a path and as an array again are the same points."""
    ring = array_of(corners)
    assert np.array_equal(Path.through_ring(ring).points(1.0), ring)
    assert tuple(map(Point.of, ring)) == corners
    assert array_of(()).shape == (0, 2)


@given(boxes, points)
def test_a_box_is_its_path_and_its_corners(box: Bounds, by: Point) -> None:
    """The path runs anticlockwise round the box, and a box moved has its path moved."""
    path = Path.round_box(box)
    assert path.area == pytest.approx(box.width * box.height)
    assert path.bounds == box
    assert Path.round_box(box.moved(by)).bounds.middle.distance_to(box.middle + by) < 1e-6
    assert all(box.holds(corner) for corner in box.corners)
    assert not any(box.holds(corner, by=0.01) for corner in box.corners)
    assert box.holds_points(array_of((*box.corners, by))).tolist() == [True] * 4 + [box.holds(by)]
    assert box.grown(0.01).holds_box(box)
    assert not box.holds_box(box.grown(0.01))


@given(boxes, boxes)
def test_boxes_share_what_their_regions_share(one: Bounds, other: Bounds) -> None:
    """Width times height of what both hold is the area in common; one below 0 tells a gap."""
    first, second = Region.of(Path.round_box(one)), Region.of(Path.round_box(other))
    wide, high = one.shared(other)
    assert max(wide, 0.0) * max(high, 0.0) == pytest.approx(first.meet(second).area, abs=1e-6)
    assert (min(wide, high) >= 0) == first.touches_or_crosses(second)
    assert one.shared(other) == other.shared(one)


@given(star_rings(), st.data())
def test_runs_and_what_lies_between_them_are_the_whole_way(
    corners: tuple[Point, ...], data: st.DataObject
) -> None:
    """Runs that pass and runs that fail lie end to end round a ring, whose start breaks none."""
    ring = Path.through(corners, closed=True)
    passing = set(data.draw(st.lists(st.sampled_from(ring.segments), unique=True)))
    runs = ring.runs(lambda segment: segment in passing)
    between = ring.runs(lambda segment: segment not in passing)
    assert {segment for run in runs for segment in run.segments} == passing
    assert sum(run.length for run in (*runs, *between)) == pytest.approx(ring.length)
    ends = {run.segments[-1].end for run in runs}
    if passing and between:
        assert ends == {run.segments[0].start for run in between}
    starts = [ring.segments.index(run.segments[0]) for run in runs]
    assert starts == sorted(starts)
    pieces = ring.broken(starts)
    assert [piece.segments[0] for piece in pieces] == [run.segments[0] for run in runs]
    assert sum(piece.length for piece in pieces) == pytest.approx(ring.length if runs else 0.0)


@given(star_rings(), st.booleans())
def test_an_open_path_is_not_joined_over_its_ends(corners: tuple[Point, ...], closed: bool) -> None:
    """A run goes on over the start of a closed path alone."""
    path = Path.through(corners, closed=closed)
    middle = path.segments[2]
    assert len(path.runs(lambda segment: segment != middle)) == (1 if closed else 2)


@given(freeforms(), st.integers(2, 40))
def test_stations_are_an_even_way_apart(outline: Freeform, count: int) -> None:
    """The way to the next station is the same, and so far along the path lies the same point."""
    path = outline.path()
    step = path.length / count
    walked = {segment: path.segments[:i] for i, segment in enumerate(path.segments)}
    stations = list(path.stations(count))
    assert len(stations) == count
    for number, (segment, share) in enumerate(stations):
        before = sum(held.length for held in walked[segment])
        assert before + segment.part(0.0, share).length == pytest.approx(number * step, abs=1e-6)
        assert path.at(number * step).distance_to(segment.at(share)) < 1e-6
    assert path.at(path.length + 1.0).distance_to(path.segments[-1].end) < 1e-6


@given(ovals)
def test_stations_round_an_oval_are_even(top: Oval) -> None:
    """As far along the curve from each station to the next as from any other, ends and sides."""
    path, count = top.path(), 12
    places = [segment.at(share) for segment, share in path.stations(count)]
    fine = path.points(1e-4)
    walked = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(fine, axis=0).T))])
    at = [walked[np.hypot(*(fine - tuple(place)).T).argmin()] for place in places]
    grain = np.diff(walked).max()
    assert np.diff(at) == pytest.approx(path.length / count, abs=2 * grain + 0.01)
    assert path.at(path.length / count).distance_to(places[1]) < 1e-6
