"""The drawings of single steps: what each shows, to scale, its words apart, mirrored where due."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from bench_page import Page
from kept import plan_of, sample_folders

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.lettering import text_box
from panelwright.layout.drawing.scene import Area, Mark, Scene, Stroke, Text
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.job.plan import Plan, make_plan
from panelwright.layout.job.reading import read_job
from panelwright.layout.sheets.bench import bench_sheet
from panelwright.layout.sheets.bench.after import after
from panelwright.layout.sheets.bench.before import before
from panelwright.layout.sheets.bench.cuts import cuts, first_cuts
from panelwright.layout.sheets.bench.marks import marks, marks_again
from panelwright.layout.sheets.bench.rows import BenchStep
from panelwright.layout.sheets.bench.why import why
from panelwright.layout.sheets.frame import DrawingFrame
from panelwright.layout.sheets.plan_drawing import plan_scene
from panelwright.layout.sheets.pictures.ground import Wood
from panelwright.layout.sheets.pictures.setting_out import marks_scene
from panelwright.layout.sheets.pictures.straight import trim_scene

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
follower = 1
[legs]
count = 3
"""

JOBS = {folder.name: folder for folder in sample_folders()} | {"hollow": HOLLOW, "framed": FRAMED}

UNDRAWN = {
    *("Metal", "Flatness", "Other ways to draw it", "Straight sides", "Does it stand?", "Finish"),
    *("Arris", "Bevel under the edge", "Edging", "Frame joints", "Done"),
    *(
        "What mending would gain",
        "Screw the legs",
        "Glue the legs",
        "Lay the top on",
        "Does it sag?",
        "Who sits, who lifts",
    ),
}
"""Steps whose words are enough, or that share the drawing of the step before them."""


@cache
def plan_named(name: str) -> Plan:
    """Return the plan of a job, laid out once."""
    job = JOBS[name]
    return make_plan(read_job(job)) if isinstance(job, str) else plan_of(job)


@pytest.fixture(params=list(JOBS))
def plan(request: pytest.FixtureRequest) -> Plan:
    """Lay out a job."""
    return plan_named(request.param)


def steps(plan: Plan) -> list[BenchStep]:
    """Return every step of the bench sheet, in order."""
    sections = (make(plan) for make in (why, before, marks, first_cuts, marks_again, cuts, after))
    return [step for section in sections if section is not None for step in section.steps]


def scenes(plan: Plan) -> Iterator[Scene]:
    """Yield every drawing of a step."""
    yield from (step.drawing for step in steps(plan) if step.drawing is not None)


def words(scene: Scene) -> list[str]:
    """Return all words of a drawing."""
    return [i.words for g in scene.groups for i in g.items if isinstance(i, Text)]


def test_every_step_that_shows_something_has_its_drawing(plan: Plan) -> None:
    """Whatever is set out, cut, mended or fixed is drawn beside its words."""
    found = steps(plan)
    assert len(found) > 15
    for step in found:
        if step.title not in UNDRAWN:
            assert step.drawing is not None, step.title


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


def test_the_sheet_is_numbered_and_holds_each_drawing_once(plan: Plan) -> None:
    """Steps count from 1; no id stands twice on the page and nothing comes from outside."""
    page = Page(bench_sheet(plan, to_svg(plan_scene(plan))))
    found = steps(plan)
    assert [step.number for step in page.steps] == [str(i + 1) for i in range(len(found))]
    assert [step.title for step in page.steps] == [step.title for step in found]
    assert len(set(page.ids)) == len(page.ids)
    assert page.outside == []
    drawn = [bool(step.drawing) for step in page.steps]
    assert drawn == [step.drawing is not None for step in found]


def test_work_done_face_down_is_drawn_mirrored(plan: Plan) -> None:
    """Marks and cuts are drawn as the wood lies, and say so; the legs always from below."""
    mirrored = plan.cuts.face.mirrored
    for make in (marks, cuts):
        for step in make(plan).steps:
            if step.drawing is None or step.title in ("Lipping", "Router"):
                continue
            said = any("MIRRORED" in text for text in words(step.drawing))
            assert said is (mirrored and not step.title.startswith("Mend")), step.title
    if plan.legs is not None:
        (legs,) = [step for step in after(plan).steps if step.title == "Legs"]
        assert legs.drawing is not None
        assert any("MIRRORED" in text for text in words(legs.drawing))


def test_a_mirrored_drawing_is_the_mirror_image() -> None:
    """Left and right swap, up and down stay, and the lettering is not turned round."""
    plan = plan_named("lab-bench")
    there, back = (
        marks_scene(plan, Wood.found(plan, mirrored=mirrored), plan.marks)
        for mirrored in (False, True)
    )
    places = [
        sorted((item.at.x, item.at.y) for item in scene.on(layers.MARKS) if isinstance(item, Mark))
        for scene in (there, back)
    ]
    width = there.frame.width
    swapped = sorted((width - x, y) for x, y in places[0])
    for one, other in zip(swapped, places[1], strict=True):
        assert one == pytest.approx(other, abs=1e-9)
    assert sorted(words(there)[1:]) == sorted(words(back)[1:])


ROUNDED = """
[panel]
outline = { length = 1200, width = 600, radius = 40 }
thickness = 22
build = "veneered board"
[top]
shape = "capsule"
margin = 6
length = 900
"""


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("name", ["lab-bench", "rounded"])
def test_rulers_stand_at_their_marks(name: str, mirrored: bool) -> None:
    """On either face a tick lies square off each centre, and its figure is the one of the table."""
    plan = make_plan(read_job(ROUNDED)) if name == "rounded" else plan_named(name)
    wood = Wood.found(plan, mirrored=mirrored)
    scene, datum = marks_scene(plan, wood, plan.marks), wood.datum
    frame = DrawingFrame.for_step(wood.boundary.bounds, mirrored=mirrored)
    held = scene.on(layers.DIMENSIONS)
    ticks = [i.path for i in held if isinstance(i, Stroke) and i.path.length == pytest.approx(2.0)]
    told = {item.words for item in held if isinstance(item, Text)}
    figures = set()
    for mark in (m for m in plan.marks.marks if m.kind.is_pinned):
        at = frame.at(mark.point)
        for figure, foot in (
            (mark.along, datum.at(mark.along, 0.0)),
            (mark.square, datum.at(0.0, mark.square)),
        ):
            figures.add(plan.job.tape.figure(figure))
            way = (frame.at(foot) - at).unit()
            assert any(abs(way.cross(tick.segments[0].start - at)) < 0.01 for tick in ticks)
    assert told == figures
    assert min(mark.along for mark in plan.marks.marks) > -1e-9


def test_each_cut_is_drawn_to_scale(plan: Plan) -> None:
    """Its guide stands its offset from the saw line, its waste has the area that falls."""
    for trim in plan.cuts.trims:
        scene = trim_scene(plan, trim)
        rough = trim.label in ("Cut 1", "Cut 2") and plan.cuts.again is not None
        wood = Wood.found(plan) if rough else Wood.marked(plan)
        scale = DrawingFrame.for_step(wood.boundary.bounds).scale
        waste = sum(a.boundary.area for a in scene.on(layers.WASTE) if isinstance(a, Area))
        holes = sum(
            abs(hole.area)
            for a in scene.on(layers.WASTE)
            if isinstance(a, Area)
            for hole in a.holes
        )
        fallen = sum(piece.area for piece in trim.fallen)
        assert waste - holes == pytest.approx(fallen / scale**2, rel=0.01)
        if trim.guide is None:
            continue
        saw = next(i for i in scene.on(layers.SAW_LINE) if isinstance(i, Stroke)).path
        guide = next(i for i in scene.on(layers.GUIDE) if isinstance(i, Stroke)).path
        way = (saw.segments[0].end - saw.segments[0].start).unit()
        off = abs(way.cross(guide.segments[0].start - saw.segments[0].start))
        assert off * scale == pytest.approx(trim.guide.offset, abs=1e-6)


def test_the_guide_lies_on_its_side_of_the_blade(plan: Plan) -> None:
    """Pushed as the arrow points, the saw has its guide on the side that was measured."""
    for trim in plan.cuts.trims:
        if trim.guide is None:
            continue
        scene = trim_scene(plan, trim)
        line, arrow, _ = (i.path for i in scene.on(layers.SAW_LINE) if isinstance(i, Stroke))
        guide = next(i for i in scene.on(layers.GUIDE) if isinstance(i, Stroke)).path
        pushed = arrow.segments[0].end - arrow.segments[0].start
        side = pushed.cross(guide.segments[0].start - line.segments[0].start)
        assert (side > 0) is (trim.guide.blade_side == "left")


def test_what_the_build_asks_for_is_on_the_sheet() -> None:
    """A lost rim, a joint, a plug, a patch and a bow each have their step and their figures."""
    hollow, framed = ({s.title: s for s in steps(plan_named(n))} for n in ("hollow", "framed"))
    assert "all the way round" in hollow["Hollow core"].words[0]
    assert "To the line by hand" in hollow
    assert any(title.startswith("Frame joint") for title in framed)
    assert "Bore clean to 1 1/2" in framed["Mend old hole"].words[0]
    assert "patch 3 1/4 by 2 1/4" in framed["Mend burn"].words[0]
    bows = framed["Is it square?"].more
    assert bows is not None
    assert bows.rows[0][:3] == ("C–D", "80", "1")
    drawn = framed["Draw the curve: string and nails"]
    assert any("Loop: tie a closed loop" in point for point in drawn.points)
    others = framed["Other ways to draw it"].table
    assert others is not None
    assert all(row[3] for row in others.rows if row[1] == "–")
