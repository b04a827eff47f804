"""Sizes come down to what a maker would choose; the rounded top lies in the found one."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from strategies import freeforms, placements, symmetrical_outlines

from panelwright.layout.fit.found import Fit
from panelwright.layout.fit.wish import Keeping, Limits, Span, Wish
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.panel import Panel, rectangular_outline
from panelwright.layout.plan.fitting import fits_of
from panelwright.layout.plan.job import Job
from panelwright.layout.top import Top, top_from

ROOM = Panel(rectangular_outline(3000, 3000), 26)
BOARD = """
[panel]
outline = { length = 1603, width = 703 }
thickness = 27
[top]
shape = "rectangle"
"""


def fit_of(outline: Outline, placement: Placement | None = None) -> Fit:
    """Return a fit of an outline, without a bound."""
    return Fit(outline, outline, placement or Placement(), outline.area, None, 1)


def rounded(fit: Fit, limits: Limits | None = None, step: float = 5.0, **wish: Any) -> Top:  # noqa: ANN401 - fields of a wish
    """Return the top that is made of a fit on a sound panel."""
    return top_from(fit, ROOM, Wish(("any",), limits=limits or Limits(), **wish), step=step)


def made(text: str) -> tuple[Job, Fit, Top]:
    """Return a job, its fit and the top that is made of it."""
    job = read_job(text)
    fit = fits_of(job)[0]
    return job, fit, top_from(fit, job.panel, job.wish, step=job.step, tape_error=job.tape_error)


@given(symmetrical_outlines, placements, st.sampled_from([5.0, 6.35, 10.0]))
def test_a_rounded_top_lies_within_the_found_one(
    outline: Outline, placement: Placement, step: float
) -> None:
    """It is no more than a step smaller each way, and nowhere sticks out by more than the slack."""
    top = rounded(fit_of(outline, placement), step=step)
    # a hexagon's length follows its width
    longest = step * (1.155 if outline.name == "hexagon" else 1.0)
    assert 0 <= outline.length - top.outline.length + 0.013 <= longest + 0.026
    assert 0 <= outline.width - top.outline.width + 0.011 <= step + 0.022
    found = Region.from_rings(outline.outer(0.01)).grown(0.02)
    assert found.holds(Region.from_rings(top.outline.inner(0.01)))


@pytest.mark.parametrize(
    ("found", "length", "width"),
    [
        (Capsule(1403.7, 602.1), 1400, 600),
        (Capsule(1399.995, 599.995), 1400, 600),  # reduced only to be proved
        (Oval(1404.98, 604.98), 1400, 600),
        (Circle(803.2), 800, 800),
        (RoundedRectangle.with_radius(1403, 604, 60), 1400, 600),
        (Superellipse(1403, 604, 2.5), 1400, 600),
        (RegularPolygon(8, 604), 600, 600),
        (RegularPolygon(6, 604), 600 / math.cos(math.pi / 6), 600),
    ],
)
def test_sizes_come_down_to_whole_steps(found: Outline, length: float, width: float) -> None:
    """Nobody wants 1403.7: 5 mm steps, with a hundredth of slack for the proof."""
    top = rounded(fit_of(found))
    assert (top.outline.length, top.outline.width) == (length, width)
    assert top.exact == found


def test_a_size_that_is_fixed_stays() -> None:
    """A length wished for exactly is not rounded, and none goes below its least."""
    found = Capsule(1403.0, 602.0)
    fixed = Limits(length=Span(1403.0, 1403.0), width=Span(least=601.0))
    top = rounded(fit_of(found), fixed)
    assert (top.outline.length, top.outline.width) == (1403.0, 602.0)


@given(freeforms(), placements)
def test_a_form_of_its_own_stays_as_found(outline: Freeform, placement: Placement) -> None:
    """Neither the maker's own outline nor a piece as found is stretched to whole sizes."""
    top = rounded(fit_of(outline, placement))
    assert top.outline == outline


@pytest.mark.parametrize("limits", [Limits(length=Span(600.2)), Limits(length=Span(603.0, 603.0))])
def test_a_regular_top_stays_as_found_where_its_length_may_not_follow(limits: Limits) -> None:
    """An octagon of 603 does not come down to 600 where its length must be 600.2 or just 603."""
    top = rounded(fit_of(RegularPolygon(8, 603.0)), limits)
    assert top.outline == RegularPolygon(8, 603.0)


def test_the_core_line_lies_a_lipping_inside() -> None:
    """The saw follows a line that many millimetres within the finish line."""
    top = rounded(fit_of(Oval(1200, 700)), lipping=6.0)
    assert top.finish.area - top.core.area == pytest.approx(
        6 * Oval(1200, 700).perimeter - 3.14159265 * 36, rel=1e-5
    )


@given(
    st.floats(300.0, 900.0),
    st.floats(1.0, 3.0),
    st.sampled_from(["rectangle", "rounded", "capsule"]),
    placements,
    st.booleans(),
)
def test_a_long_side_stays_on_the_edge_that_is_kept(
    width: float, ratio: float, shape: str, placement: Placement, above: bool
) -> None:
    """Rounded down, its side lies on the edge as before, and it lies within the found top."""
    length = width * ratio
    found: Outline = Rectangle(length, width)
    if shape == "rounded":
        found = RoundedRectangle.with_radius(length, width, 80.0)
    elif shape == "capsule":
        found = Capsule(length, width)
    half = Point(length / 2 + 50, 0.0), Point(0.0, -width / 2)
    ends = (half[1] - half[0], half[1] + half[0])
    if above:
        ends = (-ends[0], -ends[1])
    edge = Path.through(ends).placed(placement)
    top = rounded(fit_of(found, placement), keeping=Keeping((edge,)))
    inwards = (edge.segments[-1].end - edge.segments[0].start).unit().left
    stands = (top.placement.centre - edge.segments[0].start).dot(inwards)
    assert stands == pytest.approx(top.outline.width / 2, abs=1e-6)
    within = Region.from_rings(placement.of(found.outer(0.01))).grown(0.02)
    assert within.holds(Region.from_rings(top.placement.of(top.outline.inner(0.01))))


def test_sizes_are_rounded_down_where_nothing_is_lost() -> None:
    """A plain board gives a top in whole steps."""
    _, _, top = made(BOARD)
    assert (top.outline.length, top.outline.width) == (1600.0, 700.0)


def test_a_covered_point_stays_under_the_top() -> None:
    """A point half a millimetre inside the corner would be lost by rounding, so nothing is."""
    job, _, top = made(BOARD + "covers = [[0.5, 0.5]]")
    assert top.outline.length == pytest.approx(1603, abs=0.02)
    within = Region.from_rings(top.finish.points(0.001))
    assert within.distance_to(Region.at(job.wish.covers[0])) < 0.02


def test_the_edge_does_not_come_to_run_through_a_defect_that_lies_inside() -> None:
    """A screw wholly inside the found top, close to its edge, stays wholly inside the one made."""
    screw = '[[panel.defects]]\nname = "screw"\nat = [800, 5.3]\ndiameter = 8\n'
    screw += 'spoils = ["cutting"]\nclear = 1\n'
    job, fit, top = made(BOARD.replace("[top]", f"{screw}[top]"))
    island = job.panel.islands[0].reach()
    assert Region.from_rings(fit.points()).holds(island)
    assert Region.from_rings(top.finish.points(0.001)).holds(island)
