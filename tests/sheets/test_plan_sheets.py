"""The drawing and the bench sheet hold what the plan holds, to scale and in the right places."""

from __future__ import annotations

import re

import numpy as np
import pytest
from bench_page import page_of
from jobs import PLAIN
from kept import plan_of, sample_folders
from readers import on

from panelwright.layout.cutting.cut import SkippedTrim, Trim
from panelwright.layout.drawing import layers
from panelwright.layout.drawing.kit.picture import Stage, areas_of
from panelwright.layout.drawing.scene import Mark, Scene, Stroke, Text, text_box
from panelwright.layout.geometry import Point, circle
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.polygon import Region, union
from panelwright.layout.jobfile import read_job
from panelwright.layout.panel import Defect, Panel, Spoils, rectangular_outline, rectangular_place
from panelwright.layout.panel.shown import drawn_defects
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.bench.page import bench_sheet
from panelwright.layout.sheets.plan_drawing import plan_frame, plan_scene
from panelwright.layout.words.cautions import caution_words, short_cautions
from panelwright.layout.words.cuts import words_of
from panelwright.layout.words.say import Say, found_words

DOOR = """
units = "in"
[panel]
outline = { length = 78, width = 33 }
thickness = "1 3/4"
build = "particleboard"
cutouts = [[[30, 28], [40, 28], [40, 33], [30, 33]]]
[[panel.defects]]
name = "<knot> & stain"
at = [10, 10]
diameter = 3
[top]
shape = "oval"
lipping = "1/4"
margin = "1/4"
[legs]
count = 3
"""


@pytest.fixture(scope="module", params=[PLAIN, DOOR], ids=["metric capsule", "oval in inches"])
def plan(request: pytest.FixtureRequest) -> Plan:
    """Lay out a job."""
    return make_plan(read_job(request.param.encode(), source="job.toml"))


@pytest.fixture(scope="module")
def scene(plan: Plan) -> Scene:
    """Draw its plan."""
    return plan_scene(plan)


def test_the_finish_line_is_drawn_to_scale_and_in_its_place(plan: Plan, scene: Scene) -> None:
    """Scaled up again, it is the finish line of the plan, exactly."""
    frame = plan_frame(plan)
    lines = [item for item in on(scene, layers.FINISH) if isinstance(item, Stroke)]
    drawn = max(lines, key=lambda item: item.path.length).path
    assert drawn.length * frame.scale == pytest.approx(plan.cuts.finish.length)
    middle = (drawn.bounds.middle - frame.corner) * frame.scale
    assert middle.distance_to(plan.top.placement.centre) < 1e-6


def test_every_mark_stands_where_the_plan_has_it(plan: Plan, scene: Scene) -> None:
    """One cross for each mark, at its place to scale, and its label beside."""
    frame = plan_frame(plan)
    crosses = [item.at for item in on(scene, layers.MARKS) if isinstance(item, Mark)]
    for mark in plan.marks.marks:
        assert min(frame.at(mark.point).distance_to(at) for at in crosses) < 1e-9
    words = {item.words for item in on(scene, layers.MARKS) if isinstance(item, Text)}
    assert {mark.label for mark in plan.marks.marks} <= words


def test_nothing_leaves_the_sheet_and_no_words_overlap(scene: Scene) -> None:
    """Every text lies within the paper's border and clear of every other."""
    texts = [item for group in scene.groups for item in group.items if isinstance(item, Text)]
    boxes = [(text.words, text_box(text)) for text in texts]
    border = scene.frame.grown(-5)
    for words, box in boxes:
        assert border.left <= box.left and box.right <= border.right, words
        assert border.bottom <= box.bottom and box.top <= border.top, words
    for i, (words, box) in enumerate(boxes):
        for others, other in boxes[i + 1 :]:
            wide = min(box.right, other.right) - max(box.left, other.left)
            high = min(box.top, other.top) - max(box.bottom, other.bottom)
            assert wide <= 0 or high <= 0, (words, others)


def test_the_legend_explains_every_layer(scene: Scene) -> None:
    """Each layer that is drawn stands in the legend by its title."""
    words = {item.words for item in on(scene, layers.LETTERING) if isinstance(item, Text)}
    used = {group.layer for group in scene.groups} - {layers.LETTERING}
    assert {layer.title for layer in used} <= words


def test_the_title_claims_no_more_than_was_found(plan: Plan, scene: Scene) -> None:
    """What was found stands in the title in the words of the bench sheet."""
    items = on(scene, layers.LETTERING)
    assert found_words(plan) in " ".join(item.words for item in items if isinstance(item, Text))


def test_the_bench_sheet_is_one_page_with_every_number(plan: Plan) -> None:
    """It is well-formed, asks for nothing from outside, and holds each mark, check, cut and leg."""
    page = page_of(plan)
    assert page.outside == []
    assert len(set(page.ids)) == len(page.ids)
    tape = plan.job.tape
    (table,) = page.step("Marks from").tables
    told = {row[0]: row[2] for row in table.rows} | {m.name: m.figure("along") for m in page.marks}
    assert told == {mark.label: tape.figure(mark.along) for mark in plan.marks.marks}
    (table,) = page.step("Checks").tables
    for check in plan.marks.checks:
        assert [f"{check.start} to {check.end}", tape.figure(check.distance)] in [
            row[:2] for row in table.rows
        ]
    labels = [label for row in page.saws for label in row.labels]
    assert sorted(labels) == sorted(cut.label for cut in (*plan.cuts.trims, *plan.cuts.corner_cuts))
    titles = [step.title for step in page.steps]
    for act in plan.cuts.acts:
        if not isinstance(act, Trim | SkippedTrim):
            assert words_of(act, Say.of(plan)).title in titles
    for caution in plan.cautions:
        words = caution_words(caution, plan.top, tape)
        assert words.words[0] in page.step(words.title).text or words.title == "Where it stood"
    (table,) = page.step("See it, ask for its history").tables or [None]
    rows = [] if table is None else [row[0] for row in table.rows]
    assert rows == [defect.name for defect in plan.job.panel.defects]


def test_a_side_that_is_not_sawn_keeps_its_corners(plan: Plan) -> None:
    """It is told with the letters of its edge as the drawings have them: DA, not da."""
    page = page_of(plan)
    for side in plan.cuts.skipped:
        title = words_of(side, Say.of(plan)).title
        assert title.endswith(f"along {side.edge}" if side.edge else side.kind.value[1:])
        assert title in page.step("Sides that no saw takes").text


def test_no_figure_of_a_saw_line_stands_twice(plan: Plan) -> None:
    """The steps of sawing point to the first page, and repeat none of its figures."""
    page = page_of(plan)
    for step in (*page.titled("Saw line"), *page.titled("Cut off the corners")):
        assert "first page" in step.text.lower()
        for row in page.saws:
            for figure in (*row.line, *row.guide):
                assert not re.search(rf"(?<![\d/]){re.escape(figure.text)}(?![\d/])", step.text)


def test_what_breaks_beside_a_hole_lies_on_boards_on_both_sides_of_it() -> None:
    """Page and step ask for both ends of the piece that falls, and name no arms."""
    (bench,) = (plan_of(folder) for folder in sample_folders() if folder.name == "lab-bench")
    (line,) = (words for words in map(str, short_cautions(bench)) if "beside a hole" in words)
    assert "boards under it on both sides of the hole" in line
    assert any("boards under both ends" in row.falls for row in page_of(bench).saws)


def test_all_that_a_saw_line_runs_through_is_told_before_it_is_sawn() -> None:
    """The first page names every piece of metal in a line, not only the first two of them."""
    panel = '[panel]\noutline = { length = 1600, width = 700 }\nthickness = 30\nbuild = "plywood"\n'
    for y, name in ((100, "screw"), (200, "nail"), (500, "lock"), (600, "bolt")):
        panel += f'[[panel.defects]]\nname = "{name}"\nkind = "metal"\nat = [1004, {y}]\n'
        panel += "diameter = 4\nclear = 1\n"
    top = '[top]\nshape = "rectangle"\nmost_length = 1000\ncovers = [[3, 350], [997, 350]]\n'
    told = [caution.words for caution in short_cautions(make_plan(read_job(panel + top)))]
    assert "Line 1 runs through screw, nail, lock and bolt: take out any metal first." in told


def test_the_order_is_marks_then_checks_then_cuts(plan: Plan) -> None:
    """Nothing is cut before everything is marked and checked."""
    titles = [step.title for step in page_of(plan).steps if step.number]
    tools = ("Saw line", "Cut off", "Jigsaw", "Rout")
    cuts = [i for i, title in enumerate(titles) if title.startswith(tools)]
    held = [titles.index(t) for t in ("See it, ask for its history", "Set out the marks")]
    assert held[0] < held[1] < titles.index("Check before the first cut") < min(cuts)
    assert max(cuts) < titles.index("Coat underside and edge")


def test_a_defect_is_drawn_on_the_wood_alone() -> None:
    """A recess that runs in over the edge is drawn as far as the panel goes, any other exactly."""
    hole = Defect("hole", circle(Point(300, 300), 20.0), {Spoils.SHOWING})
    recess = Defect("recess", rectangular_place(Point(0, 300), 60, 90), {Spoils.SHOWING})
    panel = Panel(rectangular_outline(1200, 600), 22, defects=(hole, recess))
    drawn = dict(drawn_defects(panel.boundary, panel.defects))
    assert drawn[hole] == (hole.place,)
    (path,) = drawn[recess]
    box = path.bounds
    assert [box.left, box.right, box.bottom, box.top] == pytest.approx([0, 30, 255, 345])


def test_a_crumb_of_a_region_is_not_drawn() -> None:
    """A piece or a hole that is one place on paper is no area, and what is round it is drawn."""
    frame = Stage.around(Bounds(0.0, 0.0, 1000.0, 500.0)).frame
    corners = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    crumb = Region.from_rings(500 + corners * 0.005)
    board = Region.from_rings(corners * 300, [100 + corners[::-1] * 0.005])
    drawn = areas_of(union([crumb, board]), frame)
    assert len(drawn) == 1
    assert drawn[0].holes == ()


def test_the_sheet_goes_by_the_order_of_the_work(plan: Plan) -> None:
    """What is done stands in the order of the plan: washed, stripped, sawn, sanded, coated."""
    titles = [step.title for step in page_of(plan).steps if step.number]
    wanted = [
        "Wash it",
        "Take the old coat off, wet, if it has one",
        "Set out the marks",
        "Jigsaw round it",
        next(title for title in titles if title.startswith("Sand with")),
        "Stand the legs on dry",
        "Coat underside and edge",
        "Screw the legs on",
        "Coat the top",
        "Photograph it",
    ]
    places = [titles.index(title) for title in wanted]
    assert places == sorted(places)
    assert "Buy what is missing" in titles[0]


def test_no_line_ends_within_a_figure(plan: Plan) -> None:
    """Between a whole number and its fraction stands no space at which a line could end."""
    page = re.sub(r"<svg.*?</svg>|<style>.*?</style>", "", bench_sheet(plan), flags=re.DOTALL)
    page = page.replace('<span class="fr"> ', "")  # set in figures that never break
    assert len(re.findall(r"\d\N{NO-BREAK SPACE}\d+/\d+", page)) > 20
    assert re.findall(r"\d \d+/\d+", page) == []
