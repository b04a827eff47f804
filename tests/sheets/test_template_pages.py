"""Template pages, written and read back: nothing lost, nothing in the margins, true on paper."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pikepdf
import pytest
from hypothesis import assume, given, settings
from readers import Drawn, Raster, drawn_on, off_path, on
from template_strategies import (
    bench_top,
    contents,
    corrections,
    margins,
    overlaps,
    papers,
    tile_scenes,
)

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.scene import Mark, Scene, Stroke, Text, mark_lines, text_box
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Circle, Oval
from panelwright.layout.sheets.folder import template_pages
from panelwright.layout.sheets.template_drawing import Shown
from panelwright.layout.sheets.template_sheet import template_sheet
from panelwright.layout.template.calibration import Correction
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import A3, A4, LETTER, Margins, Paper
from panelwright.layout.template.portions import Proposal, proposed
from panelwright.layout.template.wish import TemplateWish

VECTOR_ERROR = 0.001
RASTER_ERROR = 0.05


def _finish_lines(proposal: Proposal, scenes: tuple[Scene, ...]) -> dict[str, list[Drawn]]:
    """Return the finish lines of each tile as the written file has them, in template mm."""
    data = to_pdf(scenes, "template")
    found = {}
    for number, name in tile_scenes(scenes):
        shift = proposal.plan.shift(proposal.plan.tiles[int(name) - 1])
        drawn = [d for d in drawn_on(data, number) if d.layer == "Finish line"]
        moved = [replace(d, pieces=[p - tuple(shift) for p in d.pieces]) for d in drawn]
        found[name] = moved
    return found


def _stretched(box: Bounds, scene: Scene) -> Bounds:
    middle, (across, up) = scene.frame.middle, scene.stretch
    return Bounds(
        middle.x + (box.left - middle.x) * across,
        middle.y + (box.bottom - middle.y) * up,
        middle.x + (box.right - middle.x) * across,
        middle.y + (box.top - middle.y) * up,
    )


@given(contents(), papers, margins, overlaps, corrections)
@settings(max_examples=40)
def test_all_ink_lies_between_the_margins(
    content: TemplateContent, paper: Paper, white: Margins, overlap: float, correction: Correction
) -> None:
    """On every page, with every paper and margin, lines and words keep out of the margins."""
    assume(overlap <= min(paper.width, paper.length) / 4)
    proposal = proposed(content, TemplateWish(paper, white, overlap, correction=correction))
    assume(proposal.sheets <= 40)
    for scene in template_pages(content, proposal):
        turned = white.turned if scene.frame.width > scene.frame.height else white
        sheet = scene.frame
        if paper.roll and scene.title.startswith("Sheet") and not proposal.plan.sheet.landscape:
            turned = white
        room = Bounds(
            turned.left, turned.bottom, sheet.right - turned.right, sheet.top - turned.top
        )
        for group in scene.groups:
            for item in group.items:
                if isinstance(item, Text):
                    assert room.holds_box(_stretched(text_box(item), scene)), item
                else:
                    assert isinstance(item, Stroke | Mark)
                    for path in mark_lines(item) if isinstance(item, Mark) else (item.path,):
                        ink = path.bounds.grown(group.layer.line_width / 2)
                        assert room.grown(1e-6).holds_box(_stretched(ink, scene)), item


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_joined_sheets_show_the_whole_line(paper: Paper) -> None:
    """Over 2 m, the sheets show the finish line within 0.001 mm, and none of it is missing."""
    top = Oval(2000, 900)
    content = TemplateContent("Stage board oval", top.path())
    proposal = proposed(content, TemplateWish(paper, portion="whole"))
    lines = _finish_lines(proposal, template_pages(content, proposal))
    points = np.concatenate([d.points(65) for held in lines.values() for d in held])
    assert off_path(points, content.finish).max() < VECTOR_ERROR
    # nothing missing: in order round the middle, no gap is wider than between points of one piece
    around = np.sort(np.arctan2(points[:, 1] / 450, points[:, 0] / 1000))
    gaps = np.diff(np.append(around, around[0] + math.tau))
    assert gaps.max() * 1000 < 8.0


def test_lines_carry_on_across_every_seam() -> None:
    """Where the finish line crosses a seam, both sheets show it, at the same place."""
    content = bench_top()
    proposal = proposed(content, TemplateWish(A4, portion="whole"))
    lines = _finish_lines(proposal, template_pages(content, proposal))
    crossings = 0
    for tile in proposal.plan.tiles:
        for other_name, axis, level in (
            (tile.right, 0, tile.cell.right),
            (tile.below, 1, tile.cell.bottom),
        ):
            if not other_name:
                continue
            meets = [_meetings(lines[name], axis, level) for name in (tile.name, other_name)]
            assert len(meets[0]) == len(meets[1])
            crossings += len(meets[0])
            for one, other in zip(*meets, strict=True):
                assert one == pytest.approx(other, abs=VECTOR_ERROR)
    assert crossings >= 10


def _meetings(lines: list[Drawn], axis: int, level: float) -> list[float]:
    """Return where the read lines cross a seam, along the seam."""
    found = []
    for drawn in lines:
        for piece in drawn.pieces:
            points = Drawn("", 0, [piece]).points(201)
            before, after = points[:-1, axis] - level, points[1:, axis] - level
            for k in np.flatnonzero((before < 0) != (after < 0)):
                share = before[k] / (before[k] - after[k])
                found.append(
                    float(points[k, 1 - axis] * (1 - share) + points[k + 1, 1 - axis] * share)
                )
    return sorted(found)


def test_a_raster_of_all_sheets_is_true_over_two_metres() -> None:
    """At 600 dpi, over all sheets of a 2 m top, outline and marks lie within 0.05 mm."""
    top = Capsule(2000, 180)
    marks = tuple(TemplateMark(f"M{n}", Point(x, 20)) for n, x in enumerate((-900, -20, 880), 1))
    content = TemplateContent("Corridor door", top.path(), marks=marks)
    proposal = proposed(content, TemplateWish(A4, portion="whole"))
    scenes = template_pages(content, proposal)
    kept = tuple(
        replace(s, groups=tuple(g for g in s.groups if g.layer in (layers.FINISH, layers.MARKS)))
        for s in scenes
    )
    raster = Raster(to_pdf(kept, "template"))
    seen, measured = set(), 0
    for number, name in tile_scenes(scenes):
        tile = proposal.plan.tiles[int(name) - 1]
        shift = proposal.plan.shift(tile)
        for segment in content.finish.segments:
            for k in range(41):
                at, ahead = segment.at(k / 40), segment.at(k / 40 + 1e-5)
                room = tile.window.grown(-3.0)
                if not room.holds_box(Bounds.around([at])) or _near_a_joint(at, top):
                    continue
                normal = (ahead - at).angle - math.pi / 2
                place = at + shift
                assert abs(raster.line_offset(number, tuple(place), normal)) < RASTER_ERROR
                measured += 1
        for mark in marks:
            if tile.window.grown(-3.0).holds_box(Bounds.around([mark.at])):
                place = tuple(mark.at + shift)
                for beside, normal in (((1.5, 0), math.pi / 2), ((0, 1.5), 0.0)):
                    arm = (place[0] + beside[0], place[1] + beside[1])
                    assert abs(raster.line_offset(number, arm, normal, 0.8)) < RASTER_ERROR
                seen.add(mark.label)
    assert seen == {"M1", "M2", "M3"}
    assert measured > 100
    seams = 0
    for tile in proposal.plan.tiles:
        if not tile.right:
            continue
        for up in (90.0, -90.0):  # the long straights cross every upright seam
            at = Point(tile.cell.right, up)
            both = [
                raster.line_offset(
                    number,
                    tuple(at + proposal.plan.shift(proposal.plan.tiles[int(name) - 1])),
                    math.pi / 2,
                )
                for number, name in tile_scenes(scenes)
                if name in (tile.name, tile.right)
                and proposal.plan.tiles[int(name) - 1].window.holds(at)
            ]
            if len(both) == 2 and not _near_a_joint(at, top):
                assert abs(both[0] - both[1]) < RASTER_ERROR
                seams += 1
    assert seams >= 7


def _near_a_joint(at: Point, top: Capsule) -> bool:
    """Ticks across the outline where straight meets curve would be weighed too."""
    return abs(abs(at.x) - top.straight / 2) < 2.0


def test_check_bars_are_as_long_as_they_say() -> None:
    """On every sheet one bar lies each way, measures what its words say, and spans the sheet."""
    content = bench_top()
    for correction in (Correction(), Correction(1.006, 0.995)):
        proposal = proposed(content, TemplateWish(A4, correction=correction))
        scenes = template_pages(content, proposal)
        data = to_pdf(scenes, "template")
        across, up = proposal.plan.stretch
        for number, _ in tile_scenes(scenes):
            bars = [d for d in drawn_on(data, number) if d.layer == "Check bars"]
            runs = [p[1] - p[0] for d in bars for p in d.pieces]
            wide = max(abs(run[0]) for run in runs) / across
            high = max(abs(run[1]) for run in runs) / up
            words = {t.words for t in on(scenes[number], layers.CHECK_BARS) if isinstance(t, Text)}
            assert words == {f"check {wide:.0f} mm", f"check {high:.0f} mm"}
            assert wide == pytest.approx(round(wide), abs=VECTOR_ERROR)
            assert high == pytest.approx(round(high), abs=VECTOR_ERROR)
            printable = proposal.plan.sheet.printable
            assert wide > printable.width - 9
            assert high > printable.height - 9


@pytest.mark.parametrize("diameter", [845.0, 846.0, 900.0])
def test_no_cross_lies_at_a_check_bar(diameter: float) -> None:
    """A rule laid along a bar covers no register mark: its arms of 3 mm stand 1.7 mm off."""
    path, rough = Circle(diameter).path(), Circle(diameter + 6).path()
    top = tuple(
        TemplateMark(f"{x}{y}", Point(x, y) * (diameter / 2))
        for x, y in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1))
    )
    content = TemplateContent(
        "Top", path, rough=rough, marks=top, symmetric_x=True, symmetric_y=True, mirrored=True
    )
    proposal = proposed(content, TemplateWish(A3))
    plan = proposal.plan
    shown = Shown.of(content, proposal.portion)
    for tile in plan.tiles:
        scene, shift = template_sheet(shown, plan, tile), plan.shift(tile)
        marks = (mark.at for mark in plan.register_marks if tile.name in mark.tiles)
        crosses = [Bounds.about(at + shift, 4.7) for at in marks]
        for item in on(scene, layers.CHECK_BARS):
            if isinstance(item, Stroke):
                assert all(min(item.path.bounds.shared(cross)) < 0 for cross in crosses)


def test_pages_lie_as_their_sheets_do() -> None:
    """A written page has the paper's size, on its side where the plan lays it so."""
    content = bench_top()
    proposal = proposed(content, TemplateWish(A4))
    data = to_pdf(template_pages(content, proposal), "template")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        sizes = [[round(float(v) * 25.4 / 72, 2) for v in page.mediabox[2:]] for page in pdf.pages]
    assert sizes[0] == [210.0, 297.0]
    assert sizes[1] == ([297.0, 210.0] if proposal.plan.sheet.landscape else [210.0, 297.0])
