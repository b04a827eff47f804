"""Each way to draw a curve is carried out point by point: it is out by what it says, no less."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import drawn_by, off_path

from panelwright.layout.geometry.placement import Points
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.arcs import EightCentreOval, FourCentreOval
from panelwright.layout.marking.instruments import StringLoop, Swing, TrammelRod
from panelwright.layout.marking.method import Method, Workshop
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.marking.oval_methods import OvalOrdinates
from panelwright.layout.outlines import Capsule, Circle, Outline, Oval, RoundedRectangle

SIZES = st.tuples(st.floats(300.0, 2500.0), st.floats(0.42, 0.95))


def drawn(method: Method, outline: Outline) -> Points:
    """Return points of the line that a method draws when everything is set truly, (n, 2) mm."""
    return np.array([tuple(point) for point in _drawn(method.figures, outline)])


def _drawn(figures: object, outline: Outline) -> Iterator[Point]:
    if isinstance(figures, StringLoop):
        yield from _string(figures)
    elif isinstance(figures, TrammelRod):
        yield from _rod(figures)
    elif isinstance(figures, FourCentreOval | EightCentreOval):
        yield from (Point(float(x), float(y)) for x, y in drawn_by(figures).points(0.005))
    elif isinstance(figures, OvalOrdinates):
        yield from _chords(figures)
    elif isinstance(figures, Swing):
        for centre in figures.centres:
            yield from _swung(centre, figures.radius, outline)


def _string(loop: StringLoop) -> Iterator[Point]:
    for turn in np.linspace(0.0, math.tau, 400):
        yield Point.polar(loop.reach(float(turn)), float(turn))


def _rod(rod: TrammelRod) -> Iterator[Point]:
    """Slide the near pin along the long axis; the far one stays on the short axis."""
    reach = rod.pins_apart
    for out in np.linspace(-reach, reach, 201):
        for sign in (1.0, -1.0):
            near, far = Point(float(out), 0.0), Point(0.0, sign * math.sqrt(reach**2 - out**2))
            yield near + (near - far).unit() * rod.to_long_axis_pin


def _chords(table: OvalOrdinates) -> Iterator[Point]:
    corners = [Point(o.out, o.up) for o in table.ordinates]
    for one, other in pairwise(corners):
        for share in np.linspace(0.0, 1.0, 41):
            yield one + (other - one) * float(share)


def _swung(centre: Point, radius: float, outline: Outline) -> Iterator[Point]:
    """Swing over the arc that belongs to a centre: away from the middle of the top."""
    if isinstance(outline, Circle):
        middle, half = 0.0, math.pi
    elif isinstance(outline, Capsule):
        middle, half = (0.0 if centre.x >= 0 else math.pi), math.pi / 2
    else:
        middle = math.atan2(math.copysign(1, centre.y), math.copysign(1, centre.x))
        half = math.pi / 4
    for turn in np.linspace(middle - half, middle + half, 60):
        yield centre + Point.polar(radius, float(turn))


@pytest.mark.heavy
@settings(max_examples=6, deadline=None)
@given(SIZES, st.floats(0.0, 9.0), st.floats(0.0, 9.0))
def test_an_oval_is_out_by_what_is_stated(
    size: tuple[float, float], nail: float, pencil: float
) -> None:
    """String, rod, square, arcs and ordinates lie from the ellipse by their stated line error."""
    length, ratio = size
    oval = Oval(length, length * ratio)
    for method in methods_for(oval, Workshop(nail=nail, pencil=pencil, tongue=5000.0)):
        if "45°" in method.name and not method.serves:
            continue
        far = off_path(drawn(method, oval), oval.path()).max()
        assert far == pytest.approx(method.line_error, rel=0.03, abs=0.02), method.name


@settings(max_examples=20, deadline=None)
@given(st.one_of(strategies.circles, strategies.capsules, strategies.rounded_rectangles()))
def test_swung_arcs_lie_on_the_line(outline: Circle | Capsule | RoundedRectangle) -> None:
    """Every arc that is swung about its centre is an arc of the outline."""
    for method in methods_for(outline):
        points = drawn(method, outline)
        assert method.line_error == 0.0
        assert len(points) >= 60
        assert off_path(points, outline.path()).max() < 1e-6 * outline.length
