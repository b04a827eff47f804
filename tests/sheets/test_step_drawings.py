"""The work step by step: each step once, its drawing clear to read, its figures few and large."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from bench_page import page_of, steps_of, words_in, work_of
from kept import plan_of, sample_folders

from panelwright.layout.drawing.scene import Scene, Text, text_box
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan

HOLLOW = """
[panel]
outline = { length = 1981, width = 762 }
thickness = 35
build = "hollow"
stile = 45
rail = 60
[top]
shape = "rectangle"
length = 1400
width = 600
lipping = 8
[tools]
guide_right = 90
router = false
"""

FRAMED = """
units = "in"
[panel]
outline = { length = 80, width = 32, bows = [0, 0, 1, 0] }
thickness = 1.5
build = "framed"
stile = 4
rail = 8
[[panel.defects]]
name = "old hole"
at = [30, 15]
diameter = 1.375
mend = "plug"
[[panel.defects]]
name = "burn"
kind = "stain"
at = [40, 18]
size = [3, 2]
mend = "patch"
[top]
shape = "oval"
length = 70
width = 28
round_over = 0.25
[tools]
guide_left = 4.5
draw_with = ["string"]
bush = 1
[legs]
count = 3
"""

SLAB = """
[panel]
outline = { points = [[0, 30], [900, 0], [1980, 40], [2010, 420], [1100, 430], [20, 440]] }
thickness = 60
flattened = 48
datum = { from = [100, 230], to = [1900, 230] }
[top]
shape = "capsule"
"""

JOBS = {folder.name: folder for folder in sample_folders()} | {"hollow": HOLLOW, "framed": FRAMED}


@cache
def plan_named(name: str) -> Plan:
    """Return the plan of a job, laid out once."""
    job = JOBS[name]
    return make_plan(read_job(job)) if isinstance(job, str) else plan_of(job)


@pytest.fixture(params=list(JOBS))
def plan(request: pytest.FixtureRequest) -> Plan:
    """Lay out a job."""
    return plan_named(request.param)


def scenes(plan: Plan) -> Iterator[Scene]:
    """Yield every drawing of a step."""
    yield from (step.drawing for step in steps_of(plan).values() if step.drawing is not None)


def test_what_is_cut_mended_or_fixed_is_drawn(plan: Plan) -> None:
    """Saw lines, router, mends, lipping, the profile, battens and legs have their drawing."""
    found = work_of(plan)
    assert len(found) > 12
    drawn = ("Saw line", "Rout to", "Mend ", "Lipping", "Flatten", "Set out the legs", "Is it sq")
    for step in found:
        if step.told.title.startswith(drawn):
            assert step.drawing is not None, step.told.title


def test_nothing_is_measured_from_a_line_before_it_is_struck() -> None:
    """Flattening takes off all marks: the new line is struck first, by mends that need it too."""
    mended = (
        SLAB
        + '[[panel.defects]]\nkind = "loose knot"\nat = [700, 300]\ndiameter = 60\nmend = "resin"\n'
    )
    for job in (SLAB, mended):
        struck = False
        for step in work_of(make_plan(read_job(job))):
            told, drawing = words_in(step.told), step.drawing
            struck = struck or "Strike P′–Q′" in told
            items = () if drawing is None else [i for g in drawing.groups for i in g.items]
            drawn = any(isinstance(item, Text) and "′" in item.words for item in items)
            assert struck or not ("′" in told or drawn), step.told.title
        assert struck


def test_figures_of_a_step_are_few(plan: Plan) -> None:
    """At most two are read from an arm's length: three figures are two steps."""
    figures = [len(step.told.figures) for step in work_of(plan)]
    assert 0 < max(figures) <= 2


def test_no_words_overlap_and_none_leave_their_drawing(plan: Plan) -> None:
    """On each drawing every text lies within its frame and clear of every other."""
    for scene in scenes(plan):
        texts = [i for g in scene.groups for i in g.items if isinstance(i, Text)]
        boxes = [(text.words, text_box(text)) for text in texts]
        for name, box in boxes:
            assert scene.frame.left <= box.left and box.right <= scene.frame.right, name
            assert scene.frame.bottom <= box.bottom and box.top <= scene.frame.top, name
        for i, (name, box) in enumerate(boxes):
            for other_name, other in boxes[i + 1 :]:
                wide = min(box.right, other.right) - max(box.left, other.left)
                high = min(box.top, other.top) - max(box.bottom, other.bottom)
                assert min(wide, high) <= 0.01, (scene.title, name, other_name)


def test_the_sheet_is_numbered_and_holds_each_step_once(plan: Plan) -> None:
    """Steps count from 1 and stand once, each with its drawing where it has one."""
    page, found = page_of(plan), work_of(plan)
    steps = [step for step in page.steps if step.number]
    assert [step.number for step in steps] == [str(i + 1) for i in range(len(found))]
    assert [step.title for step in steps] == [step.told.title for step in found]
    assert [step.drawn for step in steps] == [step.drawing is not None for step in found]
    assert len(set(page.ids)) == len(page.ids)
    assert page.outside == []


def test_what_the_build_asks_for_is_on_the_sheet() -> None:
    """A lost rim, a joint, a plug, a patch and a bow each have their step and their figures."""
    hollow, framed = (
        {title: step.told for title, step in steps_of(plan_named(name)).items()}
        for name in ("hollow", "framed")
    )
    assert "all the way round" in hollow["Hollow core"].words[0]
    assert "To the line by hand" in hollow
    assert any(title.startswith("Frame joint") for title in framed)
    assert "Bore clean to 1 1/2" in framed["Mend old hole"].words[0]
    assert "patch 3 1/4 by 2 1/4" in framed["Mend burn"].words[0]
    bows = framed["Is it square?"].tables[1]
    assert bows.rows[0][:3] == ("C–D", "80", "1")
    drawn = framed["Draw the curve: string and nails"]
    assert any("Loop: tie a closed loop" in point for point in drawn.points)
    (others,) = framed["Other ways to draw it"].tables
    assert all(row[3] for row in others.rows if row[1] == "–")
