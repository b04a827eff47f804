"""Is the panel what the job says: square corners, even bows, and what is left beside the line."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
import strategies
from hypothesis import example, given, settings
from hypothesis import strategies as st
from worked_panels import BENCH_TOP, BOWED_TOP, DOOR, SLAB, WORKTOP, Worked

from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.marking.panel_check import PanelCheck, check_panel
from panelwright.layout.outlines import Outline
from panelwright.layout.panel import (
    Defect,
    Panel,
    Spoils,
    outline_through,
    rectangular_outline,
    rectangular_place,
    round_place,
)
from panelwright.layout.panel.datum import choose_datum
from panelwright.layout.units import MM_PER_INCH as INCH
from panelwright.layout.units import Tape


def check(job: Worked, *defects: Defect) -> PanelCheck:
    """Return the checks of a worked panel with some defects."""
    panel = job.panel
    for defect in defects:
        panel = panel.with_defect(defect)
    return check_panel(panel, job.datum, job.cuts.core, job.tape)


def clear_of(check: PanelCheck, name: str) -> float:
    """Return how far the line stays from something, mm."""
    return next(clear.distance for clear in check.clearances if clear.name == name)


def seen(name: str, *corners: float) -> Defect:
    """Return a rectangular defect by left, bottom, right, top."""
    left, bottom, right, top = corners
    middle = Point((left + right) / 2, (bottom + top) / 2)
    place = rectangular_place(middle, right - left, top - bottom)
    return Defect(name, place, frozenset({Spoils.SHOWING}))


def test_what_is_left_on_the_lab_bench() -> None:
    """Tap holes clear by 7, the sink by 60, the drip groove by 4 (by hand)."""
    tap = Defect("tap hole", round_place(Point(520, 640), 22), frozenset({Spoils.SHOWING}))
    found = check(
        BENCH_TOP, tap, seen("sink", 1500, 150, 2000, 550), seen("groove", 0, 12, 2100, 18)
    )
    assert clear_of(found, "tap hole") == pytest.approx(7.0, abs=0.005)
    assert clear_of(found, "sink") == pytest.approx(60.0, abs=0.05)
    assert clear_of(found, "groove") == pytest.approx(4.0)
    assert clear_of(found, "A–B") == pytest.approx(22.0)


def test_what_is_left_on_the_worktop() -> None:
    """Bolt pockets clear by 30 at the left end, swelling by 30 at the right (by hand)."""
    found = check(WORKTOP, seen("bolts", 0, 200, 140, 400), seen("swelling", 1650, 0, 1700, 600))
    assert clear_of(found, "bolts") == pytest.approx(30.0)
    assert clear_of(found, "swelling") == pytest.approx(30.0)


def test_what_is_left_of_the_bow() -> None:
    """The oval is clear of A–B by 1/2 in and of the bow by 2 1/2, the bare corner by 4 5/8."""
    bare = seen("bare", 50 * INCH, 0, 54 * INCH, 3 * INCH)
    found = check(BOWED_TOP, bare)
    figure = BOWED_TOP.tape.figure
    assert figure(clear_of(found, "A–B")) == "1/2"
    assert figure(clear_of(found, "C–D")) == "2 1/2"
    assert figure(clear_of(found, "bare")) == "4 5/8"


def test_the_bow_is_an_arc() -> None:
    """Over a chord of 54 in a rise of 3 has radius 123; 13 1/2 from each end it stands 2 1/4."""
    (bow,) = check(BOWED_TOP).bows
    figure = BOWED_TOP.tape.figure
    assert (bow.edge, figure(bow.radius), bow.outwards) == ("C–D", "123", True)
    assert (figure(bow.quarter), figure(bow.stands)) == ("13 1/2", "2 1/4")


def test_corners_are_tried_at_both_ends_of_the_datum() -> None:
    """At A and at B the door's edges of 1981 and 838 want a diagonal of 2151 (by hand)."""
    found = check(DOOR)
    assert [(s.corner, s.along_to, s.across_to) for s in found.squares] == [
        ("A", "B", "D"),
        ("B", "A", "C"),
    ]
    assert {round(s.found.square_diagonal) for s in found.squares} == {2151}
    assert all(held.found.is_square for held in found.squares)


def test_a_slab_is_squared_by_three_four_five() -> None:
    """No edge helps; 600, 800 and 1000 do: 900 by hand would not stand on 742 mm of wood."""
    found = check(SLAB)
    assert found.squares == ()
    three = found.triangle
    assert three is not None
    assert (three.across, three.along, three.diagonal) == (600.0, 800.0, 1000.0)
    feet = check_panel(SLAB.panel, SLAB.datum, SLAB.cuts.core, Tape(imperial=True)).triangle
    assert feet is not None
    assert (feet.across / INCH, feet.along / INCH) == pytest.approx((24.0, 32.0))


@given(st.floats(-60.0, 60.0))
@example(1.5)
def test_a_leaning_panel_is_known_to_lean(lean: float) -> None:
    """Corner B leans by what its upper end stands off square, and the check knows it."""
    corners = [Point(0, 0), Point(1800, 0), Point(1800 + lean, 900), Point(0, 900)]
    panel = Panel(outline_through(corners), 20)
    job = replace(WORKTOP, panel=panel)
    found = check_panel(panel, choose_datum(panel), job.cuts.core, Tape())
    at_b = next(s for s in found.squares if s.corner == "B")
    assert at_b.found.out_by == pytest.approx(lean, abs=1e-6)
    square = all(held.found.is_square for held in found.squares)
    assert square is (abs(lean) <= 1.5 + 1e-6)


@settings(max_examples=15, deadline=None)
@given(strategies.every_outline, strategies.angles, strategies.points)
def test_a_clearance_is_the_least_distance(outline: Outline, turn: float, at: Point) -> None:
    """It joins a point of the line to a point of the other, and no two points are nearer."""
    board = Panel(rectangular_outline(20_000, 20_000), 20)
    hole = Defect("hole", round_place(at + Point(9000, 9000), 300), frozenset({Spoils.SHOWING}))
    core = outline.path().placed(Placement(Point(9000, 9000), turn))
    panel = board.with_defect(hole)
    found = check_panel(panel, choose_datum(panel), core, Tape())
    (clear,) = [c for c in found.clearances if c.name == "hole"]
    ring, line = hole.place.points(0.5), core.points(0.5)
    gaps = np.hypot(*(ring[:, None] - line[None]).transpose(2, 0, 1))
    assert clear.distance <= gaps.min() + 1e-6
    assert clear.on_line.distance_to(clear.to) == pytest.approx(clear.distance, abs=1e-9)
    if clear.distance > 0:
        assert math.isclose(clear.to.distance_to(at + Point(9000, 9000)), 150, abs_tol=0.1)


@pytest.mark.parametrize("corner", [{"radii": (40.0,) * 4}, {"clips": (40.0, 0.0, 70.0, 0.0)}])
def test_edges_between_lost_corners_have_their_letters(
    corner: dict[str, tuple[float, float, float, float]],
) -> None:
    """A panel with rounded or clipped corners is clear of all four edges by name."""
    panel = Panel(rectangular_outline(1200, 600, **corner), 22)
    core = Path.round_box(Bounds(100, 90, 1080, 530))
    check = check_panel(panel, choose_datum(panel), core, Tape())
    assert {c.name: round(c.distance) for c in check.clearances} == {
        "A–B": 90,
        "B–C": 120,
        "C–D": 70,
        "D–A": 100,
    }
