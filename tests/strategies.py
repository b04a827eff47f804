"""Random outlines, panels and places, for every test that states a law."""

from __future__ import annotations

import math
from itertools import pairwise

from hypothesis import assume
from hypothesis import strategies as st

from panelwright.layout.errors import OutlineError
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc, Line
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    DEnd,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel import Panel, rectangular_outline

sizes = st.floats(min_value=80.0, max_value=3000.0)
angles = st.floats(min_value=-math.pi, max_value=math.pi)
coordinates = st.floats(min_value=-3000.0, max_value=3000.0)


@st.composite
def length_and_width(draw: st.DrawFn) -> tuple[float, float]:
    """Draw a length and a width that is no greater, mm; at most 20 : 1."""
    length = draw(sizes)
    return length, length * draw(st.floats(min_value=0.05, max_value=1.0))


@st.composite
def rounded_rectangles(draw: st.DrawFn) -> RoundedRectangle:
    """Draw rounded rectangles whose four radii differ."""
    length, width = draw(length_and_width())
    share = st.floats(min_value=0.0, max_value=0.5)
    a, b, c, d = (draw(share) * width for _ in range(4))
    return RoundedRectangle(length, width, (a, b, c, d))


d_ends = length_and_width().map(lambda lw: DEnd.of_size(*lw))
capsules = length_and_width().map(lambda lw: Capsule(*lw))
ovals = length_and_width().map(lambda lw: Oval(*lw))
rectangles = length_and_width().map(lambda lw: Rectangle(*lw))
circles = sizes.map(Circle)
exponents = st.one_of(st.sampled_from([2.0, 2.5, 3.0, 4.0, 20.0]), st.floats(2.0, 20.0))
superellipses = st.builds(lambda lw, n: Superellipse(*lw, n), length_and_width(), exponents)
regular_polygons = st.builds(RegularPolygon, st.sampled_from([6, 8]), sizes)
symmetrical_outlines: st.SearchStrategy[Outline] = st.one_of(
    circles, rectangles, rounded_rectangles(), capsules, ovals, superellipses, regular_polygons
)

points = st.builds(Point, coordinates, coordinates)
placements = st.builds(Placement, points, angles)


@st.composite
def rectangular_panels(draw: st.DrawFn) -> Panel:
    """Draw panels with four sides and no defects."""
    length, width = draw(length_and_width())
    thickness = draw(st.floats(min_value=10.0, max_value=60.0))
    return Panel(rectangular_outline(length, width), thickness)


@st.composite
def star_rings(draw: st.DrawFn) -> tuple[Point, ...]:
    """Draw 5 to 12 corners, each of which turns, of a simple polygon that is often not convex."""
    count = draw(st.integers(min_value=5, max_value=12))
    reach = draw(
        st.lists(st.floats(min_value=200.0, max_value=1000.0), min_size=count, max_size=count)
    )
    ring = tuple(Point.polar(r, i * math.tau / count) for i, r in enumerate(reach))
    ways = [(b - a).unit() for a, b in pairwise((*ring, ring[0]))]
    assume(all(abs(a.cross(b)) > 0.01 for a, b in pairwise((*ways, ways[0]))))
    return ring


@st.composite
def freeforms(draw: st.DrawFn) -> Freeform:
    """Draw outlines of lines and arcs that bulge or are hollow, often not convex."""
    corners = draw(star_rings())
    rises = st.one_of(st.just(0.0), st.floats(min_value=-0.05, max_value=0.15))
    segments: list[Line | Arc] = []
    for one, other in pairwise((*corners, corners[0])):
        rise = draw(rises) * one.distance_to(other)
        flat = abs(rise) < 1.0
        edge = Line(one, other) if flat else Arc.from_chord_and_rise(one, other, rise)
        segments.append(edge)
    try:
        return Freeform.of(Path(tuple(segments)))
    except OutlineError:
        return Freeform.through(corners)


every_outline: st.SearchStrategy[Outline] = st.one_of(symmetrical_outlines, d_ends, freeforms())
