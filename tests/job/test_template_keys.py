"""Keys of [template]: any paper, margins side by side, what is written; read and refused."""

from __future__ import annotations

import pytest

from panelwright.layout.errors import Problem
from panelwright.layout.jobfile import look_over, read_job
from panelwright.layout.plan.plan import make_plan
from panelwright.layout.template.paper import A3, LETTER, Margins, Paper
from panelwright.layout.template.wish import TemplateWish

GROUND = "[panel]\noutline = { length = 1000, width = 600 }\nthickness = 28\n[template]\n"
INCHES = 'units = "in"\n[panel]\noutline = { length = 40, width = 24 }\nthickness = 1\n[template]\n'


def wish(text: str) -> TemplateWish:
    """Return what a job asks of its template."""
    return read_job(text).template


def only(text: str) -> Problem:
    """Return the one problem of a text."""
    (found,) = look_over(text).problems
    return found


def test_what_is_read() -> None:
    """Each key arrives where the library wants it."""
    found = wish(
        GROUND + 'paper = "a3"\nmargin = [4, 5, 6, 7]\noverlap = 20\nportion = "half"\n'
        'mirrored = true\nordinates = false\ndxf_release = "r12"\nprinter = "Hall printer"\n'
    )
    assert found == TemplateWish(
        A3, Margins(left=4, bottom=5, right=6, top=7), 20.0, "half", True, False, "R12",
        "Hall printer",
    )  # fmt: skip
    assert wish(GROUND) == TemplateWish()


@pytest.mark.parametrize(
    ("written", "paper"),
    [
        ('"320 x 450"', Paper.custom(320, 450)),
        ("[450, 320]", Paper.custom(320, 450)),
        ('["32 cm", 450]', Paper.custom(320, 450)),
        ('"13 x 19 in"', Paper.custom(330.2, 482.6, imperial=True)),
        ('"roll 1067"', Paper.from_roll(1067)),
        ('"letter"', LETTER),
    ],
)
def test_paper_may_be_of_any_size(written: str, paper: Paper) -> None:
    """A name, a size as a text or as two lengths, or a roll."""
    assert wish(GROUND + f"paper = {written}") == TemplateWish(paper)


def test_bare_numbers_count_in_the_jobs_units() -> None:
    """In a job of inches 13 x 19 and a margin of 1/2 are inches."""
    found = wish(INCHES + 'paper = "13 x 19"\nmargin = ["1/2", 0.25, 0.25, 0.25]')
    assert found.paper == Paper.custom(330.2, 482.6, imperial=True)
    assert found.margins == Margins(left=12.7, bottom=6.35, right=6.35, top=6.35)
    assert wish(INCHES + "paper = [13, 19]").paper == found.paper


@pytest.mark.parametrize(
    ("written", "key", "says"),
    [
        ('paper = "A9"', "template.paper", "use one of A4"),
        ("paper = 4", "template.paper", "is no paper"),
        ("paper = [320]", "template.paper", "is no paper"),
        ("paper = [320, 0]", "template.paper[2]", "is not above 0"),
        ('paper = "320 x"', "template.paper", "is not known"),
        ("paper = [60, 450]", "template", "margins leave 40 by 430 mm"),
        ("margin = [1, 2]", "template.margin", "write [left, bottom, right, top]"),
        ("margin = [1, 2, 3, 90]", "template.margin[4]", "above 80 mm"),
        ("margin = -1", "template.margin", "below 0"),
        ('mirrored = "yes"', "template.mirrored", "neither true nor false"),
        ('dxf_release = "R14"', "template.dxf_release", "use one of R2010, R12"),
        ("printer = 3", "template.printer", "is not a text"),
        ('printer = ""', "template.printer", "is empty"),
    ],
)
def test_a_slip_is_told_once_where_it_is(written: str, key: str, says: str) -> None:
    """One problem with its key and what may be written."""
    problem = only(GROUND + written)
    assert problem.key == key
    assert says in problem.message


def test_an_oval_has_its_nails_and_holes_as_they_are() -> None:
    """On the template a nail has its own thickness, a screw its pilot hole, a centre its sign."""
    plan = make_plan(
        read_job(
            GROUND + 'mirrored = true\n[top]\nshape = "oval"\n[legs]\ncount = 4\n'
            "[tools]\nnail = 2.5\n"
        )
    )
    marks = {mark.label: mark for mark in plan.template.marks}
    assert (marks["N1"].diameter, marks["N1"].sign) == (2.5, "nail")
    assert marks["O"].sign == "middle"
    assert marks["E1"].sign == "point"
    assert plan.table is not None
    assert plan.table.screw is not None
    assert marks["leg 1"].diameter == plan.table.screw.pilot
    assert marks["leg 1"].sign == "hole"
    assert plan.template.mirrored
    assert plan.legs is not None
    first = plan.legs.legs[0].middle
    assert (marks["leg 1"].at.x, marks["leg 1"].at.y) == pytest.approx((-first.x, first.y))
