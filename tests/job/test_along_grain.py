"""A top that lies out of the grain has the best one along it told beside it."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from panelwright.layout.jobfile.job import read_job
from panelwright.layout.panel import Build, Kind
from panelwright.layout.plan.fitting import along_grain_in, fits_of
from panelwright.layout.top import Top
from panelwright.layout.units import Tape
from panelwright.layout.words.why import along_grain_words

JOB = read_job("""
[panel]
name = "top of the coffee table in the staff room"
outline = { length = 1200, width = 600, radius = 40 }
thickness = 22
defects = [
    { kind = "stain", name = "ring", at = [700, 350], diameter = 110 },
    { kind = "hole", at = [200, 100], diameter = 5 },
    { kind = "hole", at = [1000, 100], diameter = 5 },
]
[top]
shape = "capsule"
""")


def test_the_best_along_the_grain_is_told() -> None:
    """The best of all lies 34° across the grain; within 10° the best is 5 % smaller (by search)."""
    best = fits_of(JOB)[0]
    assert math.degrees(Top(JOB.panel, best.outline, best.placement).off_grain) > 30
    along = along_grain_in(JOB, best)
    assert along is not None
    off = math.degrees(Top(JOB.panel, along.outline, along.placement).off_grain)
    assert off <= 10 + 1e-6
    limits = replace(JOB.wish.limits, most_turn_deg=10)
    asked = fits_of(replace(JOB, wish=replace(JOB.wish, limits=limits)))[0]
    assert along.score == pytest.approx(asked.score, rel=1e-3)
    told = along_grain_words(along, best, JOB.wish.goal, Tape())
    assert told.startswith("within 10° of the grain: ") and told.endswith("5.4 % smaller")


@pytest.mark.parametrize("kind", [Kind.MDF, Kind.PLYWOOD])
def test_board_has_no_grain_to_lie_along(kind: Kind) -> None:
    """Only solid wood and veneer are asked for it."""
    job = replace(JOB, panel=replace(JOB.panel, build=Build(kind)))
    best = fits_of(job)[0]
    assert along_grain_in(job, best) is None


def test_a_top_along_the_grain_has_nothing_beside_it() -> None:
    """Within 10° of the grain already, it is the best of that itself."""
    limits = replace(JOB.wish.limits, most_turn_deg=9.9)
    job = replace(JOB, wish=replace(JOB.wish, limits=limits))
    assert along_grain_in(job, fits_of(job)[0]) is None


def test_of_tops_that_are_as_good_one_along_the_grain_is_taken() -> None:
    """Round the hole in the middle of a round board any turn gives a hexagon of the same size."""
    board = """
    [panel]
    outline = { diameter = 1100 }
    thickness = 25
    defects = [{ kind = "screw hole", at = [550, 550], diameter = 5 }]
    [top]
    shape = "hexagon"
    """
    job = read_job(board)
    fit = fits_of(job)[0]
    assert math.degrees(Top(job.panel, fit.outline, fit.placement).off_grain) <= 10 + 1e-6
    assert fit.bound is not None and fit.score >= fit.bound.value * (1 - 2e-3)
