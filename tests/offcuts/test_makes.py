"""What an offcut makes: only what it is large, thick, solid and clean enough for."""

from __future__ import annotations

import pytest

from panelwright.layout.errors import JobError
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.turned_box import TurnedBox
from panelwright.layout.jobfile import read_job
from panelwright.layout.offcuts.wish import Make, fit_for_food, makes_of
from panelwright.layout.panel import Coat, Panel, Was, rectangular_outline
from panelwright.layout.plan.plan import make_plan
from panelwright.layout.units import Tape
from panelwright.layout.words.panel import offcuts_words

JOB = """
[panel]
outline = { length = 1900, width = 700 }
thickness = 26
build = "solid"
material = "oak"
[top]
shape = "circle"
"""


@pytest.mark.parametrize(
    ("length", "width", "thickness", "solid", "told"),
    [
        (700, 60, 26, True, {Make.BATTEN, Make.GLUE}),
        (700, 200, 26, True, {Make.SHELF, Make.BATTEN, Make.GLUE, Make.CORNER}),
        (700, 200, 26, False, {Make.SHELF, Make.CORNER}),
        (1000, 30, 40, True, {Make.STICK, Make.GLUE}),
        (450, 40, 36, True, {Make.LEG, Make.BATTEN, Make.GLUE}),
        (50, 29, 26, True, set()),
    ],
)
def test_a_piece_makes_what_fits_in_it(
    length: float, width: float, thickness: float, solid: bool, told: set[Make]
) -> None:
    """By its clean rectangle, its thickness and its build."""
    box = TurnedBox(Point(0, 0), length, width, 0.0)
    assert set(makes_of(box, thickness, Make, solid=solid, food=False)) == told


def test_food_lies_on_what_is_known_to_be_clean_alone() -> None:
    """A bench from a laboratory, paint, or a past that nobody knows makes no serving board."""
    board = Panel(rectangular_outline(900, 400), 20)
    assert not fit_for_food(board)
    for was, finish, clean in (
        (Was.FURNITURE, (Coat.OIL,), True),
        (Was.LABORATORY, (Coat.NONE,), False),
        (Was.FURNITURE, (Coat.PAINT,), False),
    ):
        told = Panel(rectangular_outline(900, 400), 20, was=was, finish=finish)
        assert fit_for_food(told) is clean


def test_the_sheet_tells_what_the_job_asks_for() -> None:
    """Kept pieces have a row each with what they make; the crumbs stand in one line."""
    plan = make_plan(read_job(JOB + '[offcuts]\nmakes = ["shelf", "story stick"]\n'))
    told = offcuts_words(plan.offcuts, Tape())
    kept = [offcut for offcut in plan.offcuts.pieces if offcut.kept]
    assert kept and len(told.tables[0].rows) == len(kept)
    assert {make for offcut in kept for make in offcut.makes} <= {Make.SHELF, Make.STICK}
    assert told.tables[0].rows[0][-1] == "shelf"
    crumbs = len(plan.offcuts.pieces) - len(kept)
    assert told.words[0].startswith(f"{crumbs} crumb") is (crumbs > 0)


def test_a_thing_that_nobody_knows_is_told_with_those_that_are() -> None:
    """A word that is none of them is one clear problem."""
    with pytest.raises(JobError, match=r"offcuts\.makes.*battens"):
        read_job(JOB + '[offcuts]\nmakes = ["bird box"]\n')
