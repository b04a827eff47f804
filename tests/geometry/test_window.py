"""Cutting a path to a window loses nothing and bends nothing."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import assume, given
from hypothesis import strategies as st
from readers import off_path

from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.intersect import crossings
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Line, Segment
from panelwright.layout.geometry.window import clipped, pieces_in, split
from panelwright.layout.outlines import Capsule, Oval

placed_paths = st.builds(
    lambda outline, placement: outline.path().placed(placement),
    strategies.every_outline,
    strategies.placements,
)
shares = st.floats(min_value=-0.3, max_value=1.3)


def _tiles(path: Path, columns: int, rows: int) -> list[Bounds]:
    """Return a grid that covers a path's box and more, edge to edge."""
    box = path.bounds.grown(7.0)
    xs, ys = (
        np.linspace(box.left, box.right, columns + 1),
        np.linspace(box.bottom, box.top, rows + 1),
    )
    return [
        Bounds(float(xs[c]), float(ys[r]), float(xs[c + 1]), float(ys[r + 1]))
        for c in range(columns)
        for r in range(rows)
    ]


@given(placed_paths, st.integers(1, 5), st.integers(1, 4))
def test_a_grid_of_windows_shows_every_bit_once(path: Path, columns: int, rows: int) -> None:
    """Over windows that lie edge to edge the pieces of a path add up to its length."""
    pieces = [p for window in _tiles(path, columns, rows) for p in clipped(path, window)]
    assert sum(piece.length for piece in pieces) == pytest.approx(path.length, rel=1e-9, abs=1e-4)


@given(placed_paths, shares, shares, st.floats(0.05, 1.5), st.floats(0.05, 1.5))
def test_pieces_lie_in_the_window_and_on_the_path(
    path: Path, x: float, y: float, wide: float, high: float
) -> None:
    """No piece leaves the window, and every point of one is on the path that it was cut from."""
    box = path.bounds
    left, bottom = box.left + x * box.width, box.bottom + y * box.height
    window = Bounds(left, bottom, left + wide * box.width, bottom + high * box.height)
    for piece in clipped(path, window):
        points = np.array(
            [tuple(s.at(share)) for s in piece.segments for share in (0, 0.25, 0.5, 0.75, 1)]
        )
        assert all(window.holds(Point(*p), by=-1e-6) for p in points)
        assert off_path(points, path).max() < 2e-4


@given(placed_paths, shares, shares)
def test_pieces_know_how_far_along_they_start(path: Path, x: float, y: float) -> None:
    """A piece's start lies as far along the path as the path is long up to it."""
    box = path.bounds
    left, bottom = box.left + x * box.width, box.bottom + y * box.height
    window = Bounds(left, bottom, left + 0.6 * box.width, bottom + 0.6 * box.height)
    pieces = pieces_in(path, window)
    shown = sum(piece.length for piece in clipped(path, window))
    assert sum(piece.path.length for piece in pieces) == pytest.approx(shown, abs=1e-6)
    assert all(piece.start + piece.path.length <= path.length + 1e-3 for piece in pieces)
    for piece in pieces:
        before, start = 0.0, piece.path.segments[0].start
        for segment in path.segments:
            if before <= piece.start <= before + segment.length + 1e-6:
                point = _at_distance(segment, piece.start - before)
                if point.distance_to(start) < 1e-3:
                    break
            before += segment.length
        else:
            raise AssertionError(piece)


def _at_distance(segment: Segment, distance: float) -> Point:
    """Return the point so far along a segment, found by halving."""
    low, high = 0.0, 1.0
    for _ in range(50):
        middle = (low + high) / 2
        short = segment.part(0.0, middle).length < distance
        low, high = (middle, high) if short else (low, middle)
    return segment.at(low)


def test_a_path_inside_comes_back_whole() -> None:
    """A path that lies in the window is the same path, not a copy begun elsewhere."""
    path = Capsule(1200, 700).path()
    assert clipped(path, Bounds(-600, -350, 600, 350)) == (path,)
    assert clipped(path, Bounds(601, -350, 900, 350)) == ()


def test_a_closed_path_is_not_broken_at_its_start() -> None:
    """A circle whose start lies in the window comes back there in one piece."""
    (piece,) = clipped(circle(Point(0, 0), 100), Bounds(50, -200, 200, 200))
    assert piece.length == pytest.approx(100 * 2 * math.pi / 3)
    assert piece.segments[0].start.y < 0 < piece.segments[-1].end.y


def test_a_line_along_an_edge_is_shown() -> None:
    """A line that lies on the window's edge belongs to the window."""
    path = Path((Line(Point(-5, 10), Point(25, 10)),))
    (piece,) = clipped(path, Bounds(0, 0, 20, 10))
    assert piece.length == pytest.approx(20.0)


@given(strategies.every_outline, st.floats(-0.999, 0.999), st.sampled_from([0, 1]))
def test_crossings_lie_on_both_lines(outline: strategies.Outline, share: float, axis: int) -> None:
    """A convex outline meets a line through it twice, and both points lie on it and on the line."""
    reach = (outline.length, outline.width)[axis] / 2
    path = outline.path()
    start, way = [
        (Point(share * reach, 0.0), Point(0.0, 1.0)),
        (Point(0.0, share * reach), Point(1.0, 0.0)),
    ][axis]
    points = [crossing.point for crossing in crossings(path, start, way)]
    assume(len(points) != 1)
    assert len(points) == 2
    assert all(abs(tuple(p)[axis] - share * reach) < 1e-5 for p in points)
    assert off_path(np.array([tuple(p) for p in points]), path).max() < 2e-4


def test_an_outline_is_touched_at_its_end() -> None:
    """A line that only touches an oval meets it in one point; one beyond does not meet it."""
    path = Oval(1000, 600).path()
    (touched,) = crossings(path, Point(500.0, 0.0), Point(0.0, 1.0))
    assert touched.point.distance_to(Point(500, 0)) < 1e-3
    assert crossings(path, Point(500.1, 0.0), Point(0.0, 1.0)) == ()


@given(placed_paths, st.floats(0, 1), st.floats(0, 1))
def test_parts_share_the_way(path: Path, one: float, other: float) -> None:
    """A part between two shares begins and ends where the segment has them."""
    for segment in path.segments:
        cut = segment.part(one, other)
        assert cut.start.distance_to(segment.at(one)) < 1e-6
        assert cut.end.distance_to(segment.at(other)) < 1e-6


@given(placed_paths, st.floats(0.1, 3.0))
def test_split_pieces_turn_no_further(path: Path, most: float) -> None:
    """Pieces of an arc are equal, turn no further than asked, and follow one another."""
    for segment in path.segments:
        pieces = split(segment, most)
        if isinstance(segment, Line):
            assert pieces == (segment,)
            continue
        assert all(abs(p.sweep) <= most + 1e-6 for p in pieces if not isinstance(p, Line))
        assert pieces[0].start.distance_to(segment.start) < 1e-6
        assert pieces[-1].end.distance_to(segment.end) < 1e-6
        assert sum(p.swept_area for p in pieces) == pytest.approx(
            segment.swept_area, rel=1e-6, abs=1
        )


def test_a_placed_path_is_cut_where_the_page_is() -> None:
    """Cutting and then moving is moving and then cutting."""
    path, window = Oval(900, 500).path(), Bounds(0, 0, 265, 178)
    shift = Placement(Point(-30, 45))
    moved = Bounds(-30, 45, 235, 223)
    one = [piece.placed(shift) for piece in clipped(path, window)]
    other = clipped(path.placed(shift), moved)
    assert [p.length for p in one] == pytest.approx([p.length for p in other])
