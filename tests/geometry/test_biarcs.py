"""Curves drawn as arcs: smooth at every joint, and no more arcs than their bend asks for."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from strategies import exponents, length_and_width, ovals, points

from panelwright.layout.geometry.biarcs import Station, biarc
from panelwright.layout.geometry.intersect import turn_at
from panelwright.layout.geometry.oval_parallels import arcs_along
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import EllipticArc, Segment
from panelwright.layout.geometry.superellipse import END
from panelwright.layout.geometry.tolerance import CURVE
from panelwright.layout.outlines import Oval, Superellipse

SMOOTH = 1e-6
"""Radians that two ways may differ at a joint: 0.001 mm at a metre."""

leans = st.floats(-0.7, 0.7)


def kinks(segments: Sequence[Segment]) -> float:
    """Return the sharpest turn at a joint of a closed line, radians."""
    return max(abs(turn_at(one, other)) for one, other in pairwise((*segments, segments[0])))


def pairs_for_ellipse(oval: Oval, distance: float) -> float:
    """Return how many even steps of the eccentric angle a quarter needs to be followed to `CURVE`.

    A biarc with equal tangents strays from a curve by κ′s³/324 over a stretch s (Meek and Walton,
    *Approximating smooth planar curves by arc splines*, 1995; the figure from memory).
    """
    a, b = oval.length / 2, oval.width / 2
    t = np.linspace(0.0, math.pi / 2, 4001)
    pace = np.hypot(a * np.sin(t), b * np.cos(t))
    bend = a * b / pace**3
    pace = pace * (1 + distance * bend)
    change = np.abs(np.gradient(bend / (1 + distance * bend), t)) / pace
    strays = float((change * pace**3).max()) / 324
    return math.pi / 2 * (strays / CURVE) ** (1 / 3)


def pairs_for_superellipse(outline: Superellipse, distance: float) -> float:
    """Return how many stretches, each as long as its bend allows, follow a quarter to `CURVE`."""
    curve = outline.curve
    places = [END * i / 400 for i in range(401)]
    on = [curve.at(w) for w in places]
    bend = np.array([curve.bend(w) for w in places])
    steps = np.array([one.distance_to(other) for one, other in pairwise(on)])
    steps *= 1 + distance * (bend[1:] + bend[:-1]) / 2
    change = np.abs(np.diff(bend / (1 + distance * bend)))
    return float(((change * steps**2 / (324 * CURVE)) ** (1 / 3)).sum())


@given(points, st.floats(1, 500), st.floats(-math.pi, math.pi), leans, leans)
def test_a_biarc_leaves_meets_and_arrives_without_a_kink(
    start: Point, chord: float, way: float, first: float, last: float
) -> None:
    """Both arcs share their tangent where they meet, and have the given ones at the ends."""
    end = start + Point.polar(chord, way)
    leaves, arrives = Point.polar(1.0, way + first), Point.polar(1.0, way + last)
    one, other = biarc(Station(start, leaves), Station(end, arrives))
    assert one.start.distance_to(start) < 1e-6
    assert other.end.distance_to(end) < 1e-6
    assert one.end.distance_to(other.start) < 1e-6
    assert abs(turn_at(one, other)) < SMOOTH
    assert one.pace(0.0).unit().distance_to(leaves) < SMOOTH
    assert other.pace(1.0).unit().distance_to(arrives) < SMOOTH


@settings(max_examples=30)
@given(ovals, st.floats(-0.5, 2.0))
def test_the_parallel_of_an_oval_is_smooth_and_of_few_arcs(oval: Oval, share: float) -> None:
    """No joint turns, and even steps, doubled until they do, are at most twice what is needed.

    A quarter is added, since the figure holds for short stretches and a sharp tip is a long one.
    """
    distance = share * oval.tightest_radius
    assume(abs(distance) > 0.1 and oval.width < 0.99 * oval.length)
    segments = oval.parallel(distance).segments
    assert kinks(segments) < SMOOTH
    steps = max(4, 2 * math.ceil(1.25 * pairs_for_ellipse(oval, distance)))
    assert len(segments) <= 4 * 2 * steps


@settings(max_examples=30)
@given(length_and_width(), exponents, st.floats(-0.9, 2.0))
def test_a_superellipse_and_its_parallels_are_smooth_and_of_few_arcs(
    sizes: tuple[float, float], exponent: float, share: float
) -> None:
    """No joint turns, and stretches that are halved one by one are at most twice what is needed."""
    outline = Superellipse(*sizes, exponent)
    distance = share * outline.tightest_radius
    segments = outline.parallel(distance).segments
    assert kinks(segments) < SMOOTH
    assert len(segments) <= 4 * 2 * (2 * pairs_for_superellipse(outline, distance) + 4)


@pytest.mark.parametrize("sweep", [0.3, math.pi, -math.pi, math.tau])
@pytest.mark.parametrize("width", [30.0, 350.0, 599.0])
def test_arcs_along_an_elliptic_arc_are_smooth(width: float, sweep: float) -> None:
    """From its start to its end, however far it runs, either way round."""
    arc = EllipticArc(Point(7, -5), 600.0, width, 0.4, -1.1, sweep)
    segments = arcs_along(arc, CURVE)
    assert max(abs(turn_at(one, other)) for one, other in pairwise(segments)) < SMOOTH
    assert segments[0].pace(0.0).unit().distance_to(arc.pace(0.0).unit()) < SMOOTH
    assert segments[-1].pace(1.0).unit().distance_to(arc.pace(1.0).unit()) < SMOOTH
