"""Hexagons and octagons are drawn by compass or from their corners, and checked all round."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import pairwise, product

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import off_path
from told import named as mark_called

from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import ORIGIN, Point
from panelwright.layout.marking.mark import Ground, Kind
from panelwright.layout.marking.marks import MarkSet, marks_for
from panelwright.layout.marking.method import BAR_PLAY, SETTING, HandTool, Method, Workshop
from panelwright.layout.marking.methods import methods_for
from panelwright.layout.outlines import RegularPolygon
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.panel.datum import Datum, choose_datum
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.marks import proves_words

PANEL = Panel(rectangular_outline(9000, 7000), 20)
tapes = st.sampled_from([Tape(), Tape(imperial=True)])


def crossing(one: Point, radius: float, other: Point, step: float, towards: Point) -> Point:
    """Return where two circles cross, on the side that a point lies on."""
    way = other - one
    along = (way.dot(way) + radius**2 - step**2) / (2 * way.norm)
    up = way.unit().left * math.sqrt(radius**2 - along**2)
    foot = one + way.unit() * along
    return min((foot + up, foot - up), key=towards.distance_to)


def by_circle(method: Method, top: RegularPolygon, *slips: float) -> list[Point]:
    """Step a hexagon's circle round from both ends; slips of its radius and of the step, mm."""
    slip_circle, slip_step = slips or (0.0, 0.0)
    radius, step = method.figures.radius + slip_circle, method.figures.step + slip_step
    ends = [p.at for p in method.pivots if p.name != "centre"]
    found = []
    for corner in top.corners:
        near = min(ends, key=corner.distance_to)
        struck = corner.distance_to(near) > 1e-6
        found.append(crossing(ORIGIN, radius, near, step, corner) if struck else corner)
    return found


def by_square(method: Method, top: RegularPolygon, *slips: float) -> list[Point]:
    """Strike half the diagonal on the sides of a square.

    Slips of the compass, of its pin along the side and of the side across it, mm.
    """
    compass, pin, side = slips or (0.0, 0.0, 0.0)
    found = []
    for one, other in pairwise((*(p.at for p in method.pivots), method.pivots[0].at)):
        along = (other - one).unit()
        across = along.left * side
        reach = method.figures.half_diagonal + compass + pin
        found += [other - along * reach + across, one + along * reach + across]
    return found


WAYS: dict[int, Callable[..., list[Point]]] = {6: by_circle, 8: by_square}


def of_compass(top: RegularPolygon, workshop: Workshop | None = None) -> list[Method]:
    """Return the methods that need a compass."""
    return [m for m in methods_for(top, workshop) if m.pivots]


@settings(max_examples=25)
@given(strategies.regular_polygons)
def test_struck_corners_are_the_corners(top: RegularPolygon) -> None:
    """By circle and step, or by square and half diagonal, each corner comes out where it is."""
    methods = of_compass(top)
    assert {m.tools[0] for m in methods} == {HandTool.STRING, HandTool.BAR}
    for method in methods:
        found = WAYS[top.sides](method, top)
        assert method.line_error == 0.0
        assert len(found) == top.sides
        assert all(
            p.distance_to(q) < 1e-9 * top.length for p, q in zip(found, top.corners, strict=True)
        )


@pytest.mark.parametrize("top", [RegularPolygon(6, 900), RegularPolygon(8, 900)])
def test_corners_are_out_by_what_is_stated(top: RegularPolygon) -> None:
    """With every slip to either side, the root mean square of a corner's miss is the error."""
    method = next(m for m in of_compass(top) if m.tools[0] is HandTool.BAR)
    compass = math.hypot(BAR_PLAY, SETTING)
    sizes = (compass, compass) if top.sides == 6 else (compass, SETTING, SETTING)
    misses: dict[int, list[float]] = {}
    for signs in product((-1, 1), repeat=len(sizes)):
        slips = [size * sign for size, sign in zip(sizes, signs, strict=True)]
        for i, at in enumerate(WAYS[top.sides](method, top, *slips)):
            misses.setdefault(i, []).append(at.distance_to(top.corners[i]))
    spread = [math.sqrt(sum(m * m for m in held) / len(held)) for held in misses.values()]
    assert max(spread) == pytest.approx(method.hand_error, rel=0.01)


@settings(max_examples=25)
@given(strategies.regular_polygons, strategies.angles, tapes)
def test_a_stranger_joins_the_corners(top: RegularPolygon, turn: float, tape: Tape) -> None:
    """From rounded offsets the sides lie within the corners' rounding of where they belong."""
    datum, placement = choose_datum(PANEL), Placement(Point(4500.3, 3499.7), turn)
    marks = marks_for(Top(PANEL, top, placement), datum)
    corners = ring(marks, top)
    found = [at_offsets(datum, marks, label, tape) for label in corners]
    drawn = Path.through(found, closed=True).points(1.0)
    middles = (drawn + np.roll(drawn, -1, axis=0)) / 2
    off = off_path(np.concatenate([drawn, middles]), top.path().placed(placement))
    assert off.max() <= tape.division / math.sqrt(2) + 1e-6
    assert marks.rounding_error(tape) >= off.max()


def ring(marks: MarkSet, top: RegularPolygon) -> list[str]:
    """Return the labels of all corners, round the middle."""
    held = [*marks.of(Kind.CORNER), *(marks.of(Kind.END) if top.sides == 6 else ())]
    middle = mark_called(marks, "O").point
    return [m.label for m in sorted(held, key=lambda m: (m.point - middle).angle)]


def at_offsets(datum: Datum, marks: MarkSet, label: str, tape: Tape) -> Point:
    """Return where a mark comes to lie that is set out by its rounded offsets."""
    mark = mark_called(marks, label)
    return datum.at(tape.nearest(mark.along), tape.nearest(mark.square))


@settings(max_examples=25)
@given(strategies.regular_polygons, strategies.angles)
def test_all_sides_and_both_widths_are_checked(top: RegularPolygon, turn: float) -> None:
    """Every side, every width across corners and each pair of flats has its distance."""
    marks = marks_for(Top(PANEL, top, Placement(Point(4500, 3500), turn)), choose_datum(PANEL))
    told: dict[str, list[float]] = {}
    for check in marks.checks:
        told.setdefault(proves_words(check).split(":")[0], []).append(check.distance)
    sides, half = top.sides, top.sides // 2
    assert told["side"] == pytest.approx([top.side] * sides)
    assert told["across the corners"] == pytest.approx([top.across_corners] * half)
    flats = half + (1 if sides == 6 else 2)
    assert told["across the flats"] == pytest.approx([top.across_flats] * flats)


def test_a_square_that_leaves_the_wood_goes_last() -> None:
    """Where the octagon's square has corners off the panel, its way asks for boards and waits."""
    board = Panel(tuple_of(RegularPolygon(8, 900)), 20)
    placement = Placement(Point(0, 0))
    ground = Ground(Top(board, RegularPolygon(8, 880), placement), choose_datum(board))
    methods = methods_for(RegularPolygon(8, 880), Workshop(ground=ground))
    assert methods[0].name == "corners joined"
    struck = [m for m in methods if m.pivots]
    assert all(pivot.off is not None for m in struck for pivot in m.pivots)


def tuple_of(top: RegularPolygon) -> Path:
    """Return the outline of a panel that is itself a regular octagon."""
    return top.path()
