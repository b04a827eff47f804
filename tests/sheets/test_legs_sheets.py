"""Legs on the sheets: the comparison, the steps of the bench sheet, the drill marks."""

from __future__ import annotations

from functools import cache

import pytest
from bench_page import steps_of, words_in
from kept import plan_of, sample_folders
from readers import on

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.scene import Area, Mark, Scene, Stroke, Text, text_box
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry import Point, Region
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.plan.standing import Comparison, compare_legs
from panelwright.layout.sheets.bench.steps import Step
from panelwright.layout.sheets.pictures.legs import comparison_scene, quarters_scene
from panelwright.layout.sheets.plan_drawing import plan_scene
from panelwright.layout.words.leg_concerns import as_table, choices

GROUND = """
[panel]
outline = { length = 1400, width = 800 }
thickness = 30
material = "oak"
[[panel.defects]]
name = "old split"
kind = "split"
at = [700, 400]
size = [80, 10]
spoils = ["bearing"]
[top]
shape = "rounded rectangle"
bevel = [40, 12]
[legs]
"""
PLATES = GROUND + (
    'plate = 90\nfoot = "round"\nsize = 40\nsplay = 14\ntable_height = 440\nmaterial = "steel"\n'
    'counts = [4, 6]\ngoal = "even overhang"\n'
)
LOOSE = GROUND + 'foot = "trestle"\nsize = [60, 700]\nfixing = "loose"\nmass = 30\n'
PIPES = (
    'units = "in"\n'
    + GROUND.replace("1400", "56")
    .replace("800", "32")
    .replace("thickness = 30", "thickness = 1.25")
    .replace("[700, 400]", "[28, 16]")
    .replace("[80, 10]", "[3, 0.5]")
    .replace("[40, 12]", "[1.5, 0.5]")
    + ('foot = "pipe"\nsize = 3\nwall = 0.25\nfixing = "glued"\nmaterial = "steel"\ncount = 4\n')
)
APRON = GROUND + "count = 4\nplate = 80\napron = true\nscrew = [5, 30]\n"
BRICKS = GROUND + 'foot = "block"\nsize = [225, 225]\nmaterial = "brick"\ncount = 4\nheight = 300\n'

JOBS = {"plates": PLATES, "loose": LOOSE, "pipes": PIPES, "apron": APRON, "bricks": BRICKS}


@cache
def planned(name: str) -> Plan:
    """Return the plan of a job, laid out once."""
    return make_plan(read_job(JOBS[name]))


def steps(name: str) -> dict[str, Step]:
    """Return the steps by their titles."""
    return steps_of(planned(name))


def words(step: Step) -> str:
    """Return all sentences of a step."""
    return words_in(step.told)


@cache
def compared(name: str) -> tuple[Comparison, Scene]:
    """Return the comparison of a sample and its sheet."""
    plan = plan_of(next(folder for folder in sample_folders() if folder.name == name))
    found = compare_legs(plan.job, plan.top)
    return found, comparison_scene(plan.job, found)


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(folder.name, marks=[] if folder.name == "lab-bench" else pytest.mark.heavy)
        for folder in sample_folders()
    ],
)
def test_each_choice_is_drawn_with_its_legs_and_figures(name: str) -> None:
    """Every leg, every seat, the line it tips over and the place of the least force is drawn."""
    found, scene = compared(name)
    assert found.own is not None
    held = (found.own, *found.proposals)
    drawn = [item for item in on(scene, layers.LEGS) if isinstance(item, Area)]
    assert len(drawn) == sum(p.count for p in held)
    seats = [item for item in on(scene, layers.SEATS) if isinstance(item, Stroke)]
    assert len(seats) == sum(len(p.seating.seats) for p in held) + 1  # and the legend's sample
    pressed = [item for item in on(scene, layers.PRESSED) if isinstance(item, Mark)]
    assert len(pressed) == len(held)
    texts = [i for g in scene.groups for i in g.items if isinstance(i, Text)]
    for text in texts:
        box = text_box(text)
        assert scene.frame.left <= box.left and box.right <= scene.frame.right, text.words
        assert scene.frame.bottom <= box.bottom and box.top <= scene.frame.top, text.words
    boxes = [(text_box(text).grown(-0.3), text.words) for text in texts]
    for i, (one, said) in enumerate(boxes):
        for other, too in boxes[i + 1 :]:
            apart = (
                one.right < other.left or other.right < one.left
                or one.top < other.bottom or other.top < one.bottom
            )  # fmt: skip
            assert apart, (said, too)
    assert to_svg(scene) == to_svg(comparison_scene(plan_of_sample(name).job, found))


def plan_of_sample(name: str) -> Plan:
    """Return the plan of a sample by its name."""
    return plan_of(next(folder for folder in sample_folders() if folder.name == name))


def test_the_table_in_words_has_a_column_for_each_choice() -> None:
    """The terminal's table says of each choice what the sheet says."""
    found, scene = compared("lab-bench")
    held = choices(found, plan_of_sample("lab-bench").job.tape)
    lines = list(as_table(held))
    assert len(lines) == 1 + len(held[0].figures)
    assert len({len(line) for line in lines}) == 1
    said = {i.words for g in scene.groups for i in g.items if isinstance(i, Text)}
    for choice in held:
        assert {figure for _, figure in choice.figures} <= said


def test_plates_are_screwed_slotted_and_drilled() -> None:
    """Plates, holes and leaning feet stand on the plan, pilot holes on the template."""
    plan = planned("plates")
    assert plan.legs is not None and plan.table is not None
    count = len(plan.legs.legs)
    scene = plan_scene(plan)
    assert len([i for i in on(scene, layers.PLATES) if isinstance(i, Stroke)]) == count + 1
    assert len([i for i in on(scene, layers.FEET) if isinstance(i, Stroke)]) == count + 1
    assert len([i for i in on(scene, layers.SCREWS) if isinstance(i, Mark)]) == 4 * count
    drilled = [mark for mark in plan.template.marks if mark.diameter == pytest.approx(3.5)]
    assert [mark.label for mark in drilled][:4] == ["1a", "1b", "1c", "1d"]
    assert len(drilled) == 4 * count
    assert {(round(m.at.x, 6), round(m.at.y, 6)) for m in drilled} == {
        (round(h.place.x, 6), round(h.place.y, 6)) for h in plan.table.holes
    }
    screwed = words(steps("plates")["Screw the legs on"])
    assert "4 screws 5 mm × 25 mm in each leg" in screwed
    assert "slots" in screwed
    assert "They lean 14° outwards" in words(steps("plates")["Set out the legs"])
    chosen = words(steps("plates")["Why the legs stand there"])
    assert "what counts is even overhang" in chosen
    assert "Compared were 4 and 6 legs" in chosen
    assert min(leg.overhang for leg in plan.legs.legs) >= 50 - 0.01  # a bevel of 40, and 10


def test_a_loose_top_is_laid_on_and_carried_in_parts() -> None:
    """Trestles: nothing is screwed, the top tips over its own line, each part is lifted."""
    found = steps("loose")
    assert "it tips over the line on which it lies" in words(found["Lay the top on its legs"])
    assert "each leg, about 30 kg: two people" in words(found["Who sits, who lifts"])
    assert planned("loose").table is not None
    assert planned("loose").table.holes == ()  # type: ignore[union-attr]


def test_pipes_are_glued_with_a_block_and_days_to_wait() -> None:
    """A pipe has only its wall to glue; a flexible adhesive takes its days."""
    glued = words(steps("pipes")["Glue the legs on"])
    assert "fit a block 2 1/2 × 2 1/2 in" in glued
    assert "for 13 to 19 days" in glued
    sags = words(steps("pipes")["Does it sag?"])
    assert "lb a square foot" in sags and " in when first loaded" in sags


def test_a_hollow_leg_is_drawn_hollow_where_it_is_set_out() -> None:
    """Where only the wall stands, the step shows no full disk."""
    drawing = steps("pipes")["Set out the legs"].drawing
    assert drawing is not None
    assert [len(area.holes) for area in on(drawing, layers.LEGS) if isinstance(area, Area)] == [
        1
    ] * 4


def test_an_apron_has_a_row_for_every_screw() -> None:
    """Joined legs: each hole is round or a slot, and the longest slots lie farthest out."""
    step = steps("apron")["Screw the legs on"]
    (table,) = step.told.tables
    assert len(table.rows) == 16
    round_holes = [row for row in table.rows if row[3] == "round"]
    assert len(round_holes) == 4


def test_masonry_has_its_pads_and_its_warning() -> None:
    """Brick piers: pads, a block against sliding, and their weight."""
    assert "three pads of cork or rubber" in words(steps("bricks")["Lay the top on its legs"])


@pytest.mark.parametrize("name", list(JOBS))
def test_no_step_promises_more_than_an_estimate(name: str) -> None:
    """Tipping and sag are called estimates, and nothing is called safe or certified."""
    found = steps(name)
    told = (step for step in found.values() if "treated" not in step.told.title)
    said = " ".join(words(step) for step in told).casefold()
    assert not {"safe", "safely", "certified", "guaranteed"} & set(said.replace(".", " ").split())
    for title in ("Does it stand?", "Does it sag?"):
        assert "estimate" in words(found[title])


@pytest.mark.parametrize("name", list(JOBS))
def test_the_drawings_of_legs_keep_their_words_apart(name: str) -> None:
    """On the small drawings no words lie on others."""
    for step in steps(name).values():
        if step.drawing is None:
            continue
        texts = [i for g in step.drawing.groups for i in g.items if isinstance(i, Text)]
        boxes = [text_box(text).grown(-0.2) for text in texts]
        for i, one in enumerate(boxes):
            for other in boxes[i + 1 :]:
                assert (
                    one.right < other.left or other.right < one.left
                    or one.top < other.bottom or other.top < one.bottom
                ), step.title  # fmt: skip


def test_a_solid_top_is_kept_flat_by_battens() -> None:
    """Battens are drawn, measured and never glued."""
    step = steps("apron")["Keep it flat"]
    (table,) = step.told.tables
    assert len(table.rows) == 2
    assert step.drawing is not None
    assert "never glued" in words(step)
    assert len(on(plan_scene(planned("apron")), layers.BATTENS)) == 3


@pytest.mark.parametrize("avoided", [15, 985])
def test_the_first_page_shows_the_legs_as_the_top_lies(avoided: int) -> None:
    """Of a top that is round at one end the small drawing has that end where the large one has."""
    panel = "[panel]\noutline = { length = 1000, width = 700 }\nthickness = 30\n"
    top = f'[top]\nshape = "D end"\navoids = [[{avoided}, 15], [{avoided}, 685]]\n'
    plan = make_plan(read_job(panel + top + "[legs]\ncount = 3\n"))
    scene = quarters_scene(plan)
    assert scene is not None
    (line,) = (item for item in on(scene, layers.BENCH_FINISH) if isinstance(item, Stroke))
    box = line.path.bounds
    right = Region.of(line.path).holds_point(Point(box.right - 0.5, box.top - 0.5))
    assert right is (avoided > 500)  # seen from below: what is square at the left lies at the right
