"""The steps of a bench sheet as the person at the bench meets them: nothing before it can be."""

from __future__ import annotations

import pytest
from bench_page import steps_of, words_in, work_of
from kept import plan_of, sample_folders

from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.bench.first import first_page

LIPPED_PAST_THE_PANEL = """
[panel]
outline = { length = 1980, width = 760 }
thickness = 40
build = "particleboard"
[top]
shape = "capsule"
lipping = 6
"""

RODS = """
[tools]
draw_with = ["rod", "bar"]
"""

ROUND = """
[panel]
outline = { length = 900, width = 900 }
thickness = 40
build = "particleboard"
[top]
shape = "circle"
margin = 20
"""


BESIDE_A_SINK = """
[panel]
outline = { length = 2400, width = 750 }
thickness = 30
build = "solid"
material = "iroko"
cutouts = [{ at = [1800, 400], size = [450, 380] }]
[[panel.defects]]
kind = "hole"
at = [500, 690]
diameter = 25
[[panel.defects]]
kind = "stain"
at = [900, 120]
diameter = 120
[top]
shape = "rounded rectangle"
corner_radius = 80
margin = 6
[tools]
kerf = 2.4
guide_left = 115
"""


@pytest.fixture(scope="module")
def slab() -> Plan:
    """Lay out the sample that is cut short, flattened and marked again."""
    (plan,) = (plan_of(folder) for folder in sample_folders() if folder.name == "elm-slab")
    return plan


def test_a_slab_is_checked_before_the_line_that_is_sawn_next(slab: Plan) -> None:
    """Lines 1 and 2 are sawn by then, so "before the first cut" would be in the past."""
    titles = [step.told.title for step in work_of(slab)]
    checked = titles.index("Check before line 3")
    assert titles.index("Saw lines 1 to 2") < checked < titles.index("Saw lines 3 to 6")
    page = first_page(slab)
    assert page.before == "line 3"
    assert page.slip.endswith("before line 3.")


def test_only_the_saw_lines_of_one_setting_out_are_drawn(slab: Plan) -> None:
    """What is measured from the line that is struck again is not drawn before that."""
    drawn = [step.told for step in work_of(slab) if step.told.title.startswith("Draw the saw")]
    assert [told.words[0].partition(",")[0] for told in drawn] == ["Lines 1 to 2", "Lines 3 to 7"]
    assert "centreline" not in words_in(steps_of(slab)["Flatten"].told), "none is drawn yet"


def test_legs_are_set_out_by_what_sanding_leaves(slab: Plan) -> None:
    """Both faces are sanded by then, so both centrelines were pricked into the underside."""
    titles = [step.told.title for step in work_of(slab)]
    sanded = next(i for i, title in enumerate(titles) if title.startswith("Sand with"))
    assert titles.index("Lines") < sanded < titles.index("Set out the legs")
    told = steps_of(slab)
    assert "On the underside prick" in words_in(told["Lines"].told)
    assert "through their pricks" in words_in(told["Set out the legs"].told)


def test_a_top_without_legs_is_not_pricked() -> None:
    """Nothing is set out on its underside."""
    told = steps_of(make_plan(read_job(LIPPED_PAST_THE_PANEL)))["Lines"].told
    assert "prick" not in words_in(told)


@pytest.mark.parametrize("job", [ROUND, LIPPED_PAST_THE_PANEL], ids=["circle", "capsule"])
def test_both_centrelines_are_set_out_by_their_ends(job: str) -> None:
    """They are drawn before anything is found by them, where a lipping stands off the panel too."""
    told = steps_of(make_plan(read_job(job)))["Set out the marks"].told
    assert "Draw both centrelines" in words_in(told)
    assert [row[0] for row in told.tables[0].rows] == ["L1", "L2", "M1", "M2"]


@pytest.mark.parametrize("job", [ROUND, ROUND.replace("circle", "oval").replace("900", "600", 1)])
def test_every_mark_that_a_check_names_is_set_out(job: str) -> None:
    """The ends of both axes have their figures on the page, of a circle and for a rod."""
    page = first_page(make_plan(read_job(job + RODS)))
    shown = {mark.name for mark in page.tables[0].marks}
    assert shown == {"O", "E1", "E2", "S1", "S2"}
    assert {"E1–E2", "S1–S2"} <= {pair for what, _ in page.checks for pair in what.split(" and ")}


def test_what_lies_on_the_outline_is_measured_once_it_is_drawn(slab: Plan) -> None:
    """Tangent points have no figures on the first page; what is set out waits for nothing."""
    bench = next(plan_of(folder) for folder in sample_folders() if folder.name == "lab-bench")
    told = words_in(steps_of(bench)["Check before the first cut"].told)
    assert "those of T once the outline is drawn" in told
    assert "once the outline" not in words_in(steps_of(slab)["Check before line 3"].told)


def test_no_distance_is_measured_off_the_wood() -> None:
    """The finish line of a lipped top may lie past the panel: its points are not there."""
    plan = make_plan(read_job(LIPPED_PAST_THE_PANEL))
    off = {mark.label for mark in plan.marks.marks if mark.off is not None}
    assert {"T1", "E1"} <= off
    named = " ".join(what for what, _ in first_page(plan).checks)
    assert "C1–C2" in named
    assert not [label for label in off if label in named]
    told = steps_of(plan)
    assert not told["Set out the marks"].told.warnings
    assert "as far as there is wood" in words_in(told["Lines"].told)


def test_a_corner_that_a_saw_takes_is_not_told_to_be_cut_by_hand() -> None:
    """Where the saw is not measured the guide stands by its own offset, at its own depth."""
    page = first_page(make_plan(read_job(LIPPED_PAST_THE_PANEL)))
    (corners,) = (row for row in page.tables[0].saws if len(row.labels) > 1)
    assert [cell.note for cell in corners.guide] == ["by the saw's own offset"]
    assert page.tables[0].depth


def test_a_corner_that_takes_a_handsaw_is_told_so_in_the_table_too() -> None:
    """Step and table name one tool for each corner, told with the others or in a row of its own."""
    job = read_job(BESIDE_A_SINK)
    page = first_page(make_plan(job))
    told = {row.labels: row.guide[0].note for row in page.tables[0].saws}
    corners = [note for labels, note in told.items() if labels[0].startswith("Corner")]
    assert len(corners) == 4
    assert set(corners) == {"by handsaw, clamped"}


def test_lines_on_the_face_that_lies_down_are_knifed_by_their_ends() -> None:
    """The work is turned over for it, and laid back."""
    (door,) = (plan_of(folder) for folder in sample_folders() if folder.name == "corridor-door")
    told = words_in(steps_of(door)["Knife the lines"].told)
    assert told.startswith("Turn it over, join the ends of the saw lines")
