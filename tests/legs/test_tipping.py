"""Tipping: by published figures, closed forms and laws."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import ORIGIN, Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.geometry.tolerance import CURVE
from panelwright.layout.legs.tipping import GRAVITY, HeldDown, farthest, tipping_of
from panelwright.layout.legs.wish import EDGE
from panelwright.layout.outlines import (
    Circle,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
    Superellipse,
)


def _feet_at(*points: tuple[float, float]) -> np.ndarray:
    return np.array(points, dtype=np.float64)


def _rectangle_of_feet(x: float, y: float) -> np.ndarray:
    return _feet_at((-x, -y), (x, -y), (x, y), (-x, y))


def test_forty_kilograms_on_a_lever_of_350_to_200_lift_at_686_newtons() -> None:
    """P = W·d/e with 40 kg, 350 mm and 200 mm is 686.5 N (computed, standard gravity)."""
    forces = HeldDown(_rectangle_of_feet(350, 350), 40.0).forces(np.full((4, 1), 550.0))
    assert forces == pytest.approx(np.full((4, 1), 686.47), abs=0.01)


@pytest.mark.parametrize("count", range(3, 13))
def test_a_round_table_tips_by_the_line_between_neighbouring_feet(count: int) -> None:
    """On a regular n-gon of feet the tipping line stands r·cos(π/n) from the middle."""
    r, radius, mass = 400.0, 600.0, 30.0
    feet = _feet_at(*(tuple(Point.polar(r, math.tau * k / count)) for k in range(count)))
    d = r * math.cos(math.pi / count)
    found = tipping_of(Circle(2 * radius), HeldDown(feet, mass), 700.0)
    assert found.least.force == pytest.approx(mass * GRAVITY * d / (radius - EDGE - d), rel=1e-9)
    assert found.least.place.norm == pytest.approx(radius - EDGE, abs=1e-6)


def test_a_worktop_on_four_points_lifts_at_the_worked_forces() -> None:
    """1450 × 560, 31 kg, feet 200 from the ends and 95 from the sides: 1060 and 1250 N (worked)."""
    top = RoundedRectangle.with_radius(1450, 560, 60)
    found = tipping_of(top, HeldDown(_rectangle_of_feet(525, 185), 31.0), 700.0)
    assert found.end == pytest.approx(1060, rel=0.01)
    assert found.side == pytest.approx(1250, rel=0.01)


def test_a_door_on_four_points_lifts_at_the_worked_force() -> None:
    """1800 × 720, 43 kg, feet 340 from the ends: lifts at about 820 N at the end (worked)."""
    top = RoundedRectangle.with_radius(1800, 720, 360)
    found = tipping_of(top, HeldDown(_rectangle_of_feet(560, 240), 43.0), 700.0)
    assert found.least.force == pytest.approx(820, rel=0.01)
    assert found.least.place.y == pytest.approx(0, abs=1e-6)


@given(strategies.every_outline, st.floats(0.05, 0.95), st.floats(1.0, 100.0))
def test_the_least_force_is_no_more_than_the_force_anywhere(
    outline: Outline, share: float, mass: float
) -> None:
    """Nowhere round the edge does a smaller force tip the table than at its least stable place."""
    feet = _rectangle_of_feet(outline.length / 2 * share, outline.width / 2 * share)
    found = tipping_of(outline, HeldDown(feet, mass), 700.0)
    for station in found.around:
        assert station.force >= found.least.force * (1 - 1e-9)
    assert min(found.side, found.end) >= found.least.force * (1 - 1e-9)


@given(strategies.every_outline, st.floats(1.0, 100.0))
def test_a_force_inside_the_feet_never_tips(outline: Outline, mass: float) -> None:
    """Where the feet reach as far as the force, no force tips the table."""
    feet = _rectangle_of_feet(outline.length / 2, outline.width / 2)
    found = tipping_of(outline, HeldDown(feet, mass), 700.0)
    assert found.least.force == math.inf
    assert all(station.force == math.inf for station in found.around)


@given(st.floats(100, 300), st.floats(1, 60))
def test_feet_farther_in_tip_sooner(y: float, further: float) -> None:
    """Moving every foot inwards never makes a table firmer."""
    top = Rectangle(1400, 700)
    outer = tipping_of(top, HeldDown(_rectangle_of_feet(500, y), 30.0), 700.0).least.force
    inner = tipping_of(
        top, HeldDown(_rectangle_of_feet(500 - further, y - further), 30.0), 700.0
    ).least.force
    assert inner < outer


@given(st.floats(1, 100), st.floats(1.1, 5))
def test_twice_the_weight_takes_twice_the_force(mass: float, factor: float) -> None:
    """The tipping force grows in step with the weight."""
    top, feet = Oval(1200, 700), _rectangle_of_feet(300, 200)
    light, heavy = (
        tipping_of(top, HeldDown(feet, mass), 700.0),
        tipping_of(top, HeldDown(feet, mass * factor), 700.0),
    )
    assert heavy.least.force == pytest.approx(factor * light.least.force, rel=1e-12)


def test_a_level_push_tips_over_the_nearest_side_of_the_feet() -> None:
    """P·h = W·d: 30 kg, 200 mm from the weight to the feet's side, pushed at 740 mm."""
    found = tipping_of(Rectangle(1400, 700), HeldDown(_rectangle_of_feet(500, 200), 30.0), 740.0)
    assert found.push == pytest.approx(30 * GRAVITY * 200 / 740)
    assert abs(math.sin(found.push_way)) == pytest.approx(1)


def test_weight_outside_the_feet_tips_by_itself() -> None:
    """A table whose weight lies beyond its feet needs no force at all."""
    found = tipping_of(
        Rectangle(1400, 700), HeldDown(_rectangle_of_feet(300, 200), 30.0, Point(320, 0)), 700.0
    )
    assert found.least.force == 0.0


def test_a_shifted_weight_tips_towards_itself() -> None:
    """The least stable place lies on the side to which the weight is shifted."""
    feet = _rectangle_of_feet(400, 300)
    found = tipping_of(Rectangle(1400, 700), HeldDown(feet, 30.0, Point(50, 0)), 700.0)
    assert found.least.place.x == pytest.approx(650)


@given(strategies.every_outline, strategies.angles)
def test_the_farthest_point_lies_at_the_support(outline: Outline, direction: float) -> None:
    """The farthest point of an outline reaches exactly as far as its support says."""
    way = Point.polar(1.0, direction)
    reached = farthest(outline.path(), way).dot(way)
    # the arcs drawn for a superellipse are no nearer to it than this; all other paths are exact
    drawn = CURVE if isinstance(outline, Superellipse) else 1e-6
    assert reached == pytest.approx(outline.support(direction), abs=drawn)


def test_the_farthest_of_a_straight_is_its_middle() -> None:
    """A straight square to the direction gives the place in its middle."""
    square = Path.through([Point(-1, -1), Point(1, -1), Point(1, 1), Point(-1, 1)], closed=True)
    assert farthest(square, Point(1, 0)) == Point(1, 0)
    assert farthest(square, Point(0, -1)).distance_to(Point(0, -1)) < 1e-12
    assert ORIGIN.distance_to(farthest(square, Point(1, 1).unit())) == pytest.approx(math.sqrt(2))


@st.composite
def _feet_and_mass(draw: st.DrawFn) -> tuple[np.ndarray, Point]:
    """Draw three to six feet round the middle, and where the mass is: among them or outside."""
    count = draw(st.integers(3, 6))
    reach = draw(st.floats(80.0, 400.0))
    turn = draw(strategies.angles)
    feet = [Point.polar(reach, turn + math.tau * k / count) for k in range(count)]
    share = draw(st.one_of(st.floats(0.0, 0.45), st.floats(1.05, 2.0)))
    mass = Point.polar(share * reach, draw(strategies.angles))
    return np.array([tuple(foot) for foot in feet]), mass


@settings(max_examples=30)
@given(strategies.every_outline, _feet_and_mass(), st.floats(5.0, 60.0))
def test_a_table_stands_while_its_load_meets_the_floor_among_its_feet(
    outline: Outline, drawn: tuple[np.ndarray, Point], mass: float
) -> None:
    """Weight and force together press on one point of the floor: it leaves the feet at the force.

    So a table stands under a little less and falls under a little more; one whose mass stands
    outside its feet falls wherever it is pressed, without any force; and a level push carries that
    point P·h/W along.
    """
    feet, centre = drawn
    weight, height = mass * GRAVITY, 720.0
    floor = Region.from_rings(feet)
    found = tipping_of(outline, HeldDown(feet, mass, centre), height)
    falls = not floor.holds_point(centre)

    def stands(place: Point, force: float) -> bool:
        pressed = (centre * weight + place * force) * (1 / (weight + force))
        return floor.holds_point(pressed)

    for pressed in (*found.around[::6], found.least):
        if falls:
            assert pressed.force == 0.0
        elif math.isinf(pressed.force):
            assert stands(pressed.place, 1e9 * weight) or floor.edge_distance(pressed.place) < 1e-3
        else:
            assert stands(pressed.place, pressed.force * 0.999)
            assert not stands(pressed.place, pressed.force * 1.001)
    if falls:
        assert (found.least.force, found.side, found.end, found.push) == (0.0, 0.0, 0.0, 0.0)
        return
    carried = found.push * height / weight
    ways = [Point.polar(1.0, math.tau * k / 48) for k in range(48)]
    assert all(floor.holds_point(centre + way * (carried * 0.999)) for way in ways)
    assert not floor.holds_point(centre + Point.polar(carried * 1.001, found.push_way))
