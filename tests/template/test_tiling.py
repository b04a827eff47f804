"""A tile plan shows everything, on sheets that hang together, and wastes none."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from template_strategies import contents, corrections, margins, overlaps, papers

from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.window import clipped
from panelwright.layout.outlines import Capsule, Rectangle
from panelwright.layout.template.calibration import Correction
from panelwright.layout.template.content import TemplateContent
from panelwright.layout.template.paper import (
    A3,
    A4,
    LETTER,
    PAPERS,
    ROLL_914,
    Margins,
    Paper,
    PaperError,
)
from panelwright.layout.template.portions import proposals, proposed
from panelwright.layout.template.tiles import LEAST_OVERLAP, TilePlan
from panelwright.layout.template.tiling import tiles_for
from panelwright.layout.template.wish import TemplateWish

MARK_ARM = 3.0


def _planned(
    content: TemplateContent, paper: Paper, white: Margins, overlap: float, correction: Correction
) -> TilePlan:
    assume(overlap <= min(paper.width, paper.length) / 4)
    assume(min(paper.width, paper.length) - max(white.left + white.right, 50) > 80)
    return tiles_for(content.paths, TemplateWish(paper, white, overlap, correction=correction))


plans = st.builds(_planned, contents(), papers, margins, overlaps, corrections)


def _shown_by(plan: TilePlan, point: Point) -> bool:
    return any(tile.window.holds(point, by=-1e-6) for tile in plan.tiles)


@given(contents(), papers, margins, overlaps, corrections)
@settings(max_examples=25)
def test_every_line_is_on_some_sheet(
    content: TemplateContent, paper: Paper, white: Margins, overlap: float, correction: Correction
) -> None:
    """Every point of every line that must be on paper lies in the window of a sheet."""
    plan = _planned(content, paper, white, overlap, correction)
    for path in content.paths:
        for segment in path.segments:
            assert all(_shown_by(plan, segment.at(k / 40)) for k in range(41))


@given(plans)
@settings(max_examples=25)
def test_windows_lie_between_the_margins(plan: TilePlan) -> None:
    """What a sheet shows lies in its printable area, even as it is stretched for the printer."""
    middle, (across, up) = plan.sheet.frame.middle, plan.stretch
    for tile in plan.tiles:
        shift = plan.shift(tile)
        w = tile.window
        stretched = Bounds(
            middle.x + (w.left + shift.x - middle.x) * across,
            middle.y + (w.bottom + shift.y - middle.y) * up,
            middle.x + (w.right + shift.x - middle.x) * across,
            middle.y + (w.top + shift.y - middle.y) * up,
        )
        assert plan.sheet.printable.holds_box(stretched)


@given(plans)
@settings(max_examples=25)
def test_register_marks_are_on_both_sheets(plan: TilePlan) -> None:
    """A register mark lies whole in both windows, on their seam, and has its own number."""
    numbers = [mark.number for mark in plan.register_marks]
    assert len(set(numbers)) == len(numbers)
    for mark in plan.register_marks:
        one, other = (plan.tiles[int(name) - 1] for name in mark.tiles)
        assert one.window.holds(mark.at, by=MARK_ARM)
        assert other.window.holds(mark.at, by=MARK_ARM)
        on_side = abs(one.cell.right - mark.at.x) < 1e-9 and abs(other.cell.left - mark.at.x) < 1e-9
        on_foot = abs(one.cell.bottom - mark.at.y) < 1e-9 and abs(other.cell.top - mark.at.y) < 1e-9
        assert on_side or on_foot
    seams = sum(bool(tile.right) + bool(tile.below) for tile in plan.tiles)
    assert len(plan.register_marks) == 2 * seams


@given(plans)
@settings(max_examples=25)
def test_sheets_hang_together(plan: TilePlan) -> None:
    """From any sheet every other is reached across seams, and names never come twice."""
    names = {tile.name for tile in plan.tiles}
    assert len(names) == len(plan.tiles)
    reached, edge = set(), {plan.tiles[0].name}
    while edge:
        reached |= edge
        tiles = [plan.tiles[int(name) - 1] for name in edge]
        beside = {n for t in tiles for n in (t.left, t.right, t.above, t.below) if n}
        edge = beside - reached
    assert reached == names


@given(contents(), papers)
@settings(max_examples=25)
def test_no_more_sheets_than_a_plain_grid(content: TemplateContent, paper: Paper) -> None:
    """A plan never takes more sheets than the better of the two plain grids over the whole box."""
    assume(not paper.roll)
    plan = tiles_for(content.paths, TemplateWish(paper))
    box = content.bounds
    counts = []
    for wide, high in ((paper.width, paper.length), (paper.length, paper.width)):
        window = (wide - 21.0, high - 21.0)
        each = [
            max(1, math.ceil((extent - 12.0) / (side - 12.0) - 1e-9))
            for extent, side in zip((box.width, box.height), window, strict=True)
        ]
        counts.append(each[0] * each[1])
    assert len(plan.tiles) <= min(counts)


@given(contents(), papers)
@settings(max_examples=30)
def test_no_sheet_is_idle(content: TemplateContent, paper: Paper) -> None:
    """Each sheet shows ink that no other does, or else the others would fall apart without it."""
    plan = tiles_for(content.paths, TemplateWish(paper))
    for tile in plan.tiles:
        others = [t for t in plan.tiles if t is not tile]
        if not others or _falls_apart({t.name: t for t in others}):
            continue
        ink = [piece for path in content.paths for piece in clipped(path, tile.window)]
        points = [s.at(k / 30) for piece in ink for s in piece.segments for k in range(31)]
        assert any(not any(t.window.holds(p) for t in others) for p in points)


def _falls_apart(tiles: dict[str, object]) -> bool:
    reached, edge = set(), {next(iter(tiles))}
    while edge:
        reached |= edge
        around = (tiles[name] for name in edge)
        beside = {n for t in around for n in (t.left, t.right, t.above, t.below)}  # type: ignore[attr-defined]
        edge = (beside & set(tiles)) - reached
    return len(reached) < len(tiles)


def test_a_full_board_needs_at_least_its_area() -> None:
    """Where lines lie everywhere the count is near the area's lower bound, and never below."""
    lines = [
        Path.through([Point(0, y), Point(1200, y)]) for y in np.linspace(0, 700, 71)
    ]  # a line every 10 mm: no sheet can be left out
    for paper, most in ((A4, 1.35), (A3, 1.55), (LETTER, 1.45)):
        plan = tiles_for(lines, TemplateWish(paper))
        window = plan.tiles[0].window
        bound = math.ceil(1200 * 700 / (window.width * window.height))
        assert bound <= len(plan.tiles) <= math.ceil(most * bound)


def test_the_bench_top_as_a_quarter_takes_six_sheets() -> None:
    """A capsule 1200 × 700 with its rough-cut line and marks is a quarter on at most 6 A4."""
    top = Capsule(1200, 700)
    content = TemplateContent(
        "Lab bench top", top.path(), rough=top.parallel(3.0), symmetric_x=True, symmetric_y=True
    )
    found = proposed(content, TemplateWish(A4))
    assert found.portion.name == "quarter"
    assert found.sheets <= 6
    assert {p.portion.name: p.sheets for p in proposals(content, TemplateWish(A4))}["whole"] <= 15


def test_what_fits_one_sheet_is_on_one() -> None:
    """A small top takes one sheet, without seams, and a roll takes a big one whole."""
    small = tiles_for([circle(Point(0, 0), 90)], TemplateWish(A4))
    assert [tile.name for tile in small.tiles] == ["1"]
    assert small.register_marks == ()
    assert len(tiles_for([Capsule(2400, 800).path()], TemplateWish(ROLL_914)).tiles) == 1


def test_an_empty_middle_takes_no_paper() -> None:
    """The sheets within a large ring are left out; the ones that show it stay."""
    plan = tiles_for([Rectangle(1400, 900).path()], TemplateWish(A4))
    assert len(plan.tiles) < plan.rows * plan.columns
    middle = Point(0, 0)
    assert not any(tile.window.holds(middle) for tile in plan.tiles)


def test_curves_alone_need_not_hang_together() -> None:
    """Where only curves are printed the sheets between them may be missing."""
    ends = [circle(Point(x, 0), 60) for x in (-600, 600)]
    apart, joined = tiles_for(ends, TemplateWish(A4), tied=False), tiles_for(ends, TemplateWish(A4))
    assert len(apart.tiles) == 2
    assert not apart.is_joined
    assert apart.check_lengths == apart.corner_crosses == apart.register_marks == ()
    assert len(joined.tiles) > 2
    assert joined.is_joined


def test_check_lengths_measure_the_whole() -> None:
    """Check lengths are those of the template, and the diagonals of a full grid are equal."""
    plan = tiles_for([Capsule(1200, 700).path()], TemplateWish(A3))
    crosses = {cross.name: cross for cross in plan.corner_crosses}
    for check in plan.check_lengths:
        ends = crosses[check.start].at, crosses[check.end].at
        assert check.length == pytest.approx(ends[0].distance_to(ends[1]))
    diagonals = [check.length for check in plan.check_lengths[-2:]]
    assert diagonals[0] == pytest.approx(diagonals[1])
    assert all(plan.tiles[int(c.tile) - 1].window.holds(c.at, by=4.0) for c in crosses.values())


@pytest.mark.parametrize(
    ("white", "overlap", "says"),
    [
        (Margins.all(80), 12.0, "margins leave"),
        (Margins.all(10), 5.0, "overlap of 5 mm"),
        (Margins.all(10), 70.0, "overlap of 70 mm"),
    ],
)
def test_what_cannot_be_printed_is_refused(white: Margins, overlap: float, says: str) -> None:
    """Margins that leave nothing, and overlaps that hold no mark or no drawing, are refused."""
    with pytest.raises(PaperError, match=says):
        tiles_for([circle(Point(0, 0), 300)], TemplateWish(A4, white, overlap))


def test_sheets_are_not_called_like_paper_or_marks() -> None:
    """Sheets are numbered row by row without gaps, corner crosses have Roman numerals."""
    plan = tiles_for([Rectangle(1400, 900).path()], TemplateWish(A4))
    assert [tile.name for tile in plan.tiles] == [str(n) for n in range(1, len(plan.tiles) + 1)]
    assert [cross.name for cross in plan.corner_crosses] == ["I", "II", "III", "IV"]
    by_name = {tile.name: tile for tile in plan.tiles}
    for tile in plan.tiles:
        assert not tile.right or by_name[tile.right].left == tile.name
        assert not tile.below or by_name[tile.below].above == tile.name


def test_no_lines_take_no_sheets() -> None:
    """Without anything to show there is no sheet, no mark and no length to check."""
    plan = tiles_for([], TemplateWish(ROLL_914))
    assert plan.tiles == plan.register_marks == plan.check_lengths == ()
    assert (plan.rows, plan.columns) == (0, 0)


def test_papers_and_the_least_overlap() -> None:
    """The papers go by the names that a job uses."""
    assert LEAST_OVERLAP == 8.0
    assert set(PAPERS) >= {"A4", "A3", "Letter", "Legal", "Tabloid", "roll 610", "roll 914"}
