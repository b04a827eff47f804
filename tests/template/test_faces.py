"""Which face a template is drawn for, and what it says of hollow corners."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from readers import off_path

from panelwright.layout.drawing.scene import Scene, Text
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile.job import read_job
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.folder import template_files, template_pages
from panelwright.layout.top.runs import hollow_corners

DESK = """
name = "corner desk"
units = "mm"
[panel]
outline = { length = 1500, width = 1200 }
thickness = 22
build = "plywood"
[top]
shape = "own outline"
outline = [[0, 0], [1300, 0], [1300, 500], [600, 500], [600, 1000], [0, 1000]]
"""


def plan_of(more: str = "") -> Plan:
    """Return the plan of a corner desk, whose outline is alike on no two sides."""
    return make_plan(read_job(DESK + more))


def words_on(scenes: tuple[Scene, ...]) -> str:
    """Return all words of some pages."""
    texts = (item for scene in scenes for group in scene.groups for item in group.items)
    return " ".join(item.words for item in texts if isinstance(item, Text))


def test_a_desk_sawn_face_down_is_drawn_from_its_underside() -> None:
    """Laid ink up on the face that is marked, the paper's line falls on the line that is cut."""
    plan = plan_of('[template]\nportion = "whole"\n')
    assert plan.cuts.face.mirrored
    assert plan.template.mirrored
    assert plan.template.below
    # on the bench the panel is seen mirrored: so is the finish line, about the top's own middle
    seen = plan.cuts.finish.placed(plan.top.placement.inverse).mirrored()
    assert off_path(plan.template.finish.points(1.0), seen).max() < 1e-6
    assert off_path(plan.template.finish.points(1.0) * np.array([-1, 1]), seen).max() > 50
    assert set(template_files(plan)) == {
        f"template-mirrored.{kind}" for kind in ("pdf", "svg", "dxf")
    }
    assert "ink up on the face that is marked: the underside" in words_on(
        template_pages(plan.template, plan.sheets)
    )


def test_paper_for_the_other_face_says_so_on_cover_and_sheets() -> None:
    """Asked for face up where the underside is marked, every page says to lay it ink down."""
    plan = plan_of('[template]\nportion = "whole"\nmirrored = false\n')
    assert not plan.template.mirrored
    cover, *sheets = template_pages(plan.template, plan.sheets, with_ordinates=False)
    assert "lay the paper INK DOWN there, or print it mirrored" in words_on((cover,))
    assert len(sheets) == plan.sheets.sheets > 1
    assert all("lay it ink down" in words_on((sheet,)) for sheet in sheets)


def test_work_marked_on_the_show_face_is_drawn_face_up() -> None:
    """Where the show face lies up it is that which is drawn, and the legs are told to turn it."""
    legs = '[legs]\nat = [[-300, -200], [300, -300], [-450, 350]]\n[tools]\nshow_face = "up"\n'
    plan = plan_of(legs + '[template]\nportion = "whole"\n')
    assert (plan.template.mirrored, plan.template.below) == (False, False)
    words = words_on(template_pages(plan.template, plan.sheets))
    assert "ink up on the face that is marked: the show face" in words
    assert "Legs and their screws belong on the underside" in words


def test_a_straight_top_has_a_cover_and_no_sheet() -> None:
    """The desk has no curve: the cover says so, gives every mark by measure, and no bar."""
    plan = plan_of()
    assert (plan.sheets.portion.name, plan.sheets.sheets) == ("none", 0)
    words = words_on(template_pages(plan.template, plan.sheets, with_ordinates=False))
    assert "No sheet is needed" in words
    assert "check bar" not in words
    assert "seen from the underside: right (− left), then up (− down)" in words
    for mark in plan.template.marks:
        along, up = (plan.job.tape.measure(figure) for figure in mark.at)
        assert f"{mark.label}: {along}, {up}" in words


def test_a_hollow_corner_is_told_on_paper() -> None:
    """A bit of 12 stays 2.5 mm out of a square hollow corner; without a router nothing is told."""
    plan = plan_of('[template]\nportion = "whole"\n')
    (hollow,) = plan.template.hollows
    assert hollow.out == pytest.approx(6 * (math.sqrt(2) - 1))
    corner = min(plan.template.finish.points(1.0), key=lambda p: math.dist(p, tuple(hollow.at)))
    assert math.dist(corner, tuple(hollow.at)) < 1e-6
    words = words_on(template_pages(plan.template, plan.sheets))
    assert "bit stays 2.5 mm out: pare by hand" in words
    assert "a bit of 12 mm stays up to 2.5 mm out of it" in words
    by_hand = plan_of('[template]\nportion = "whole"\n[tools]\nrouter = false\n')
    assert by_hand.template.hollows == ()


@given(st.floats(0.3, 2.0), st.floats(8.0, 40.0))
def test_no_disk_comes_nearer_to_a_hollow_corner(opening: float, bit: float) -> None:
    """A disk that just keeps off both sides of a notch stands as far out of it as is told."""
    sides = (Point(1.0, 0.0), Point.polar(1.0, opening))
    around = [Point.polar(900, t) for t in np.linspace(opening + 0.2, math.tau - 0.2, 8)]
    ring = Path.through([sides[0] * 400, Point(0, 0), sides[1] * 400, *around], closed=True)
    (hollow,) = (h for h in hollow_corners(ring, bit) if h.at == Point(0, 0))
    middle = Point.polar(hollow.out + bit / 2, opening / 2)
    for side in sides:
        assert abs(side.cross(middle)) == pytest.approx(bit / 2)
