"""Why a top is not larger, on the bench sheet: every figure from the plan, every place drawn."""

from __future__ import annotations

from itertools import pairwise

import pytest
from bench_page import page_of
from kept import plan_of, sample_folders
from readers import on

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.kit.picture import Stage
from panelwright.layout.drawing.scene import Area, Scene, Stroke, Text, text_box
from panelwright.layout.fit.why.contacts import End, Limited, LimitMet
from panelwright.layout.fit.why.costs import Cost, Lies
from panelwright.layout.fit.wish import Goal, Limits, Span
from panelwright.layout.jobfile import read_job
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.pictures.ground import (
    BEHIND_TALLEST,
    BEHIND_WIDTH,
    contacts_scene,
    others_scene,
)
from panelwright.layout.units import Tape
from panelwright.layout.words.why import (
    cost_lines,
    gain_words,
    limit_words,
    percent,
    without_words,
)

TALL = """
units = "in"
[panel]
outline = { length = 20, width = 70 }
thickness = 1
[[panel.defects]]
name = "knot"
at = [11, 40]
diameter = 3
[top]
shape = "rectangle"
length = 30
width = 14
"""

SAMPLES = {folder.name: folder for folder in sample_folders()}


HEAVY = pytest.mark.heavy
PARAMS = ["lab-bench", "tall", *(pytest.param(n, marks=HEAVY) for n in SAMPLES if n != "lab-bench")]


@pytest.fixture(scope="module", params=PARAMS)
def plan(request: pytest.FixtureRequest) -> Plan:
    """Lay out a job."""
    if request.param == "tall":
        return make_plan(read_job(TALL.encode(), source="job.toml"))
    return plan_of(SAMPLES[request.param])


def texts(scene: Scene) -> list[Text]:
    """Return all words of a drawing."""
    return [item for group in scene.groups for item in group.items if isinstance(item, Text)]


def test_it_stands_behind_the_work_with_every_figure(plan: Plan) -> None:
    """Contacts by their offsets, gains by their share, places by their centres."""
    page = page_of(plan)
    tape, datum = plan.job.tape, plan.datum
    (held,) = page.titled("What holds it")
    assert held.section == "Behind it" and not held.number
    rows = held.tables[0].rows if held.tables else []
    assert [row[1] for row in rows] == [contact.name for contact in plan.contacts]
    for row, contact in zip(rows, plan.contacts, strict=True):
        assert row[2] == (tape.measure(contact.clear) if contact.clear else "–")
        for point in contact.points:
            offsets = datum.coordinates(point)
            assert tape.figure(offsets.along) in row[3].split(" to ")
            assert tape.figure(offsets.square) in row[4].split(" to ")
    for cost in plan.costs:
        step = page.step("What mending would gain")
        told = [row for table in step.tables for row in table.rows if row[0] == without_words(cost)]
        assert bool(told) == cost.is_worth_it
        assert without_words(cost) in step.text or told[0][1].startswith(percent(cost.gain))
    places = page.step("Other places").tables[0].rows if plan.others else []
    for row, fit in zip(places, plan.others, strict=True):
        centre = datum.coordinates(fit.placement.centre)
        assert row[2:4] == [tape.figure(centre.along), tape.figure(centre.square)]


def test_every_contact_has_its_dot_in_its_place(plan: Plan) -> None:
    """A dot at each end of a run, one for each other place, and the number of each beside."""
    scene = contacts_scene(plan)
    box = plan.job.panel.boundary.bounds
    frame = Stage.around(box, width=BEHIND_WIDTH, tallest=BEHIND_TALLEST).frame
    dots = [i.boundary.bounds.middle for i in on(scene, layers.CONTACTS) if isinstance(i, Area)]
    places = [frame.at(point) for contact in plan.contacts for point in contact.points]
    assert len(dots) == len(places)
    for at in places:
        assert min(at.distance_to(dot) for dot in dots) < 0.2
    numbers = [i.words for i in on(scene, layers.CONTACTS) if isinstance(i, Text)]
    assert numbers == [f"{n}" for n in range(1, len(plan.contacts) + 1)]


def test_a_top_that_is_touched_all_the_way_round_has_one_dot() -> None:
    """A round top in a round panel is drawn, though its run along the edge ends where it begins."""
    text = "[panel]\noutline = { length = 900, width = 900, radius = 450 }\nthickness = 25\n"
    plan = make_plan(read_job(f'{text}[top]\nshape = "circle"\nmargin = 6\n'))
    (contact,) = plan.contacts
    assert contact.points[0] == contact.points[-1]
    assert contacts_scene(plan)


def test_each_second_opinion_is_a_picture_to_scale(plan: Plan) -> None:
    """The top as planned and each other: one finish line each, all at one scale, in its panel."""
    scene = others_scene(plan)
    fits = (plan.fit, *plan.others)
    lines = [item.path for item in on(scene, layers.FINISH) if isinstance(item, Stroke)]
    assert len(lines) == len(fits)
    scales = [fit.outline.perimeter / line.length for fit, line in zip(fits, lines, strict=True)]
    assert max(scales) == pytest.approx(min(scales))
    panels = [group for group in scene.groups if group.layer is layers.PANEL]
    for line, panel, fit in zip(lines, panels, fits, strict=True):
        drawn = panel.items[0]
        assert isinstance(drawn, Area)
        way = line.bounds.middle - drawn.boundary.bounds.middle
        middle = plan.job.panel.region().bounds.middle
        expected = (fit.placement.centre - middle) * (1 / scales[0])
        assert way.distance_to(expected) < 0.5


def test_pictures_and_words_keep_apart_and_on_the_sheet(plan: Plan) -> None:
    """No words overlap, none leave their drawing, and no picture runs into another."""
    for scene in (contacts_scene(plan), others_scene(plan)):
        boxes = [text_box(text) for text in texts(scene)]
        for i, one in enumerate(boxes):
            assert scene.frame.left <= one.left
            assert one.right <= scene.frame.right
            assert scene.frame.bottom <= one.bottom
            assert one.top <= scene.frame.top
            for other in boxes[i + 1 :]:
                wide = min(one.right, other.right) - max(one.left, other.left)
                high = min(one.top, other.top) - max(one.bottom, other.bottom)
                assert wide <= 0 or high <= 0
    panels = [g.items[0] for g in others_scene(plan).groups if g.layer is layers.PANEL]
    extents = [panel.boundary.bounds for panel in panels if isinstance(panel, Area)]
    for one, other in pairwise(extents):
        assert one.right < other.left or other.top < one.bottom


def test_a_gain_between_two_figures_is_told_as_that() -> None:
    """A search that ended early tells the least and the most; one that ended well tells one."""
    loose = Cost(("knot",), 0.043, 0.12, None, Lies.INSIDE)
    close = Cost(("knot",), 0.1035, 0.109, None, Lies.ACROSS)
    assert gain_words(loose, Goal.AREA) == "at least 4.3 % and at most 12 % larger"
    assert gain_words(close, Goal.LENGTH) == "10 % longer"
    nothing = Cost(("stain",), 0.001, 0.006, None, None)
    lines = list(cost_lines((close, nothing), Goal.AREA))
    assert lines[0].startswith("without the knot: 10 % larger, if it is out or mended")
    assert lines[1] == "nothing worth it alone: stain (at most 0.60 %)"


@pytest.mark.parametrize(
    ("what", "end", "words"),
    [
        (Limited.LENGTH, End.GREATEST, "its length is the greatest allowed, 1200 mm"),
        (Limited.WIDTH, End.LEAST, "its width is the least allowed, 300 mm"),
        (Limited.RATIO, End.GREATEST, "its ratio is the greatest allowed, 2.5"),
        (Limited.CORNER_RADIUS, End.LEAST, "its corner radius is the least allowed, 20 mm"),
        (Limited.TURN, End.GREATEST, "it is turned from the grain as far as allowed, 5.0°"),
    ],
)
def test_a_limit_is_told_with_its_figure(what: Limited, end: End, words: str) -> None:
    """Which limit it is, which end of it, and what it comes to."""
    limits = Limits(
        length=Span(400, 1200),
        width=Span(300, 500),
        ratio=Span(1.2, 2.5),
        corner_radius=Span(20, 80),
        most_turn_deg=5,
    )
    assert limit_words(LimitMet(what, end), limits, Tape()) == words
