"""Sheets of the shapes that are not round or square: their sizes in words, their kept edges."""

from __future__ import annotations

import io
import math
from functools import cache

import ezdxf
import pytest
from bench_page import page_of
from readers import on

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.scene import Area, Stroke
from panelwright.layout.geometry.point import Point
from panelwright.layout.jobfile import read_job
from panelwright.layout.outlines import (
    Freeform,
    Outline,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from panelwright.layout.plan.plan import Plan, make_plan
from panelwright.layout.sheets.folder import plan_files
from panelwright.layout.sheets.pictures.lying.scene import lying_scene
from panelwright.layout.sheets.plan_drawing import plan_scene
from panelwright.layout.units import Tape
from panelwright.layout.words.saw_lines import lying_of, rounds_of
from panelwright.layout.words.say import exact_words, outline_words

PANEL = """
units = "mm"
name = "Reading-room table"
[panel]
name = "bench top"
outline = { length = 1500, width = 700 }
thickness = 28
build = "solid"
material = "iroko"
grain = 0
[top]
margin = 6
round_over = 4
"""

LEGS = """
[legs]
count = 4
foot = "round"
size = 50
height = 700
material = "ash"
"""

WISHES = {
    "octagon": 'shape = "octagon"\nmost_turn = 0',
    "kept": 'shape = "rectangle"\nkeep = ["AB"]',
    "capsule": 'shape = "capsule"\nkeep = ["AB"]\nbevel = [20, 8]',
    "own": 'shape = "own outline"\noutline = [[0,0],[900,0],[900,400],[450,620],[0,400]]',
    "corner": 'shape = "own outline"\n'
    "outline = [[0,0],[1200,0],[1200,300],[520,300],[520,600],[0,600]]",
    "superellipse": 'shape = "superellipse"\nlength = 1300\nwidth = 650',
}


@cache
def plan_for(wish: str) -> Plan:
    """Return the plan of one wish on one bench top."""
    return make_plan(read_job((PANEL + WISHES[wish] + LEGS).encode(), source="job.toml"))


@cache
def files_of(wish: str) -> dict[str, str | bytes]:
    """Return all that is written of it."""
    return plan_files(plan_for(wish))


GABLE = Freeform.through(
    [Point(0, 0), Point(900, 0), Point(900, 400), Point(450, 620), Point(0, 400)]
)


@pytest.mark.parametrize(
    ("outline", "words"),
    [
        (RegularPolygon(6, 600), "hexagon 600 mm across flats, 692.8 mm across corners"),
        (RegularPolygon(8, 900), "octagon 900 mm across flats"),
        (Superellipse(1400, 700, 2.5), "superellipse 1400 × 700 mm, exponent 2.5"),
        (GABLE, "own outline 900 × 620 mm"),
        (
            RoundedRectangle(900, 600, (60,) * 4),
            "rounded rectangle 900 × 600 mm, corner radius 60 mm",
        ),
    ],
)
def test_a_shape_is_named_by_what_a_maker_measures(outline: Outline, words: str) -> None:
    """Flats and corners, exponents, radii, and the box of an outline of one's own."""
    assert outline_words(outline, Tape()) == words
    assert "in in" not in outline_words(outline, Tape(imperial=True))


def test_the_found_size_of_a_hexagon_is_that_across_its_flats() -> None:
    """Its length follows, so one figure tells it."""
    assert exact_words(RegularPolygon(6, 603.27), Tape()) == "603.3 mm across flats"


@pytest.mark.parametrize("wish", list(WISHES))
def test_every_file_is_written(wish: str) -> None:
    """Bench sheet, drawings, template and figures are there, and the DXF is read back sound."""
    files = files_of(wish)
    assert len(files) == 8
    assert page_of(plan_for(wish)).size in str(files["bench-sheet.html"])
    document = ezdxf.read(io.StringIO(str(files["template-mirrored.dxf"])))
    assert not document.audit().errors
    assert abs(plan_for(wish).offcuts.balance.error) < 1e-6


@pytest.mark.parametrize("wish", ["kept", "capsule"])
def test_a_kept_edge_is_drawn_as_one(wish: str) -> None:
    """Plan and template have it on its own layer, and the template says to lay it on the panel."""
    drawn = [g for g in plan_scene(plan_for(wish)).groups if g.layer is layers.KEPT]
    strokes = [item for group in drawn for item in group.items if isinstance(item, Stroke)]
    assert len(strokes) == 2  # the edge, and its sample in the legend
    document = ezdxf.read(io.StringIO(str(files_of(wish)["template-mirrored.dxf"])))
    on_layer = document.modelspace().query(f'*[layer=="{layers.KEPT.key}"]')
    assert len(on_layer) == 1
    assert "lay it on the panel" in str(files_of(wish)["template-mirrored.svg"])
    words = str(files_of(wish)["bench-sheet.html"])
    assert "Kept edge AB" in words and "Kept as it is: edge AB" in words
    assert "None of it along the kept edge" in words


def test_a_top_that_keeps_nothing_shows_no_kept_edge() -> None:
    """Neither layer nor words of it appear on the sheets of an octagon."""
    for name in ("plan.svg", "template-mirrored.svg", "bench-sheet.html"):
        assert "ept edge" not in str(files_of("octagon")[name])


@pytest.mark.parametrize("wish", ["octagon", "own"])
@pytest.mark.parametrize("plain", [False, True])
def test_a_saw_starts_where_its_triangle_stands(wish: str, plain: bool) -> None:
    """Of slanting lines too: beside each start, across the tape at most, a triangle points in."""
    plan = plan_for(wish)
    scene = lying_scene(plan, lying_of(plan), rounds_of(plan), tallest=90.0, plain=plain)
    tips = [
        item.boundary.points(1.0)[0] for item in on(scene, layers.INK) if isinstance(item, Area)
    ]
    lines = [item for item in on(scene, layers.BENCH_SAW) if isinstance(item, Stroke)]
    assert len(lines) == len(tips) == len(plan.cuts.trims)
    for line, cut in zip(lines, plan.cuts.trims, strict=True):
        before = cut.start.point.distance_to(cut.spans[0][0])  # taken off by an earlier line
        share = before / cut.start.point.distance_to(cut.end.point)
        start = line.path.at(share * line.path.length)
        assert min(math.dist((start.x, start.y), tip) for tip in tips) < 6.0


def test_an_outline_of_ones_own_is_said_to_keep_its_size() -> None:
    """It was not made as large as may be, but laid where it has most clearance."""
    words = str(files_of("own")["bench-sheet.html"])
    assert "where it is clearest of edges and of what shows" in words
    assert "The largest found" not in words


def test_a_rounded_top_still_lies_on_its_kept_edge() -> None:
    """The bench top is 700 wide: of it 690 are kept by whole fives, and the front edge is kept."""
    plan = plan_for("kept")
    assert plan.top.outline.width == 690
    assert plan.top.placement.centre.y == pytest.approx(345)
    assert plan.cuts.kept[0].stretch.length == pytest.approx(plan.top.outline.length)


def test_the_legs_of_a_corner_desk_stand_under_it() -> None:
    """No leg stands where the desk is hollow."""
    legs = plan_for("corner").legs
    assert legs is not None
    assert all(leg.overhang > 50 for leg in legs.legs)
