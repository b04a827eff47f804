"""A portion, flipped as it says, shows the whole top again."""

from __future__ import annotations

import math

import numpy as np
import pytest
import strategies
from hypothesis import given, settings
from readers import off_path
from template_strategies import contents

from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Line
from panelwright.layout.geometry.symmetry import is_symmetric
from panelwright.layout.outlines import (
    Capsule,
    DEnd,
    Outline,
    Oval,
    Rectangle,
    RoundedRectangle,
)
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import A4, PaperError
from panelwright.layout.template.portions import (
    BEYOND,
    FEW_CURVES,
    TAIL,
    Portion,
    curved_share,
    curves_of,
    portions,
    portions_named,
    proposals,
    proposed,
)
from panelwright.layout.template.wish import TemplateWish


def _points(paths: tuple[Path, ...], count: int = 25) -> np.ndarray:
    return np.array(
        [tuple(s.at(k / count)) for p in paths for s in p.segments for k in range(count + 1)]
    )


def _flipped(points: np.ndarray, portion: Portion) -> np.ndarray:
    held = [points]
    if portion.flip_x:
        held += [p * (-1, 1) for p in held]
    if portion.flip_y:
        held += [p * (1, -1) for p in held]
    return np.concatenate(held)


@given(contents())
@settings(max_examples=25)
def test_flips_give_the_whole_outline(content: TemplateContent) -> None:
    """A half or a quarter, laid down each way, covers the finish line, and covers nothing else."""
    for portion in portions(content):
        if portion.name not in ("whole", "half", "quarter"):
            continue
        shown = portion.outline(content.finish)
        assert off_path(_flipped(_points(shown), portion), content.finish).max() < 0.02
        every = _points((content.finish,))
        for sx in (1, -1) if portion.flip_x else (1,):
            for sy in (1, -1) if portion.flip_y else (1,):
                side = every[(every[:, 0] * sx >= 0) | (not portion.flip_x)]
                side = side[(side[:, 1] * sy >= 0) | (not portion.flip_y)]
                near = np.min([off_path(side * (sx, sy), piece) for piece in shown], axis=0)
                assert near.max() < 0.02


def test_a_capsule_has_every_portion_but_a_corner() -> None:
    """A capsule has straights along but none across its ends; an oval has no straights at all."""
    assert _names(Capsule(1200, 700).path()) == [
        "whole",
        "half",
        "half",
        "quarter",
        "end",
        "curves",
    ]
    assert _names(Oval(1200, 700).path()) == ["whole", "half", "half", "quarter"]
    rounded = RoundedRectangle(1200, 700, (80, 80, 80, 80)).path()
    assert _names(rounded) == ["whole", "half", "half", "quarter", "end", "corner", "curves"]
    assert _names(Rectangle(1200, 700).path()) == ["whole", "half", "half", "quarter", "none"]


def test_unlike_corners_cannot_be_flipped() -> None:
    """A top with one corner of its own is printed whole, or only its curves."""
    odd = RoundedRectangle(1200, 700, (80, 80, 80, 200)).path()
    assert not is_symmetric(odd, "x")
    assert _names(odd) == ["whole", "curves"]
    pair = RoundedRectangle(1200, 700, (80, 200, 200, 80)).path()
    assert (is_symmetric(pair, "x"), is_symmetric(pair, "y")) in ((True, False), (False, True))


def _names(path: Path) -> list[str]:
    content = TemplateContent(
        "Top", path, symmetric_x=is_symmetric(path, "x"), symmetric_y=is_symmetric(path, "y")
    )
    return [portion.name for portion in portions(content)]


def test_an_end_shows_a_tail_of_straight() -> None:
    """An end begins a tail before the curve, so that the paper can be laid along the straight."""
    path = Capsule(1200, 700).path()
    content = TemplateContent("Top", path, symmetric_x=True, symmetric_y=True)
    (end,) = portions_named(content, "end")
    (shown,) = end.outline(path)
    assert shown.bounds.left == pytest.approx(250 - TAIL)
    assert shown.bounds.bottom == pytest.approx(-BEYOND)
    assert end.uses == 4


def test_curves_come_with_their_tails() -> None:
    """The curves of a rounded rectangle are four runs: a tail, the arc, a tail."""
    path = RoundedRectangle(1200, 700, (80, 60, 40, 20)).path()
    content = TemplateContent("Top", path)
    (curves,) = portions_named(content, "curves")
    shown = curves.outline(path)
    assert len(shown) == 4
    for run in shown:
        first, last = run.segments[0], run.segments[-1]
        assert isinstance(first, Line)
        assert isinstance(last, Line)
        assert first.length == pytest.approx(TAIL)
        assert last.length == pytest.approx(TAIL)
    capsule = Capsule(1200, 700).path()
    (ends,) = portions_named(TemplateContent("Top", capsule), "curves")
    assert [len(run.segments) for run in ends.outline(capsule)] == [3, 3]


def test_marks_without_a_twin_are_left_out_and_named() -> None:
    """A quarter bears marks that have their twins, under all their names; others are told."""
    feet = [Point(sx * 400, sy * 200) for sx in (1, -1) for sy in (1, -1)]
    marks = [TemplateMark(f"F{n}", at, 5.0) for n, at in enumerate(feet, 1)]
    marks += [TemplateMark("C1", Point(-250, 0)), TemplateMark("C2", Point(250, 0))]
    marks += [TemplateMark("tap", Point(100, 90), 22.0), TemplateMark("O", Point(0, 0))]
    content = TemplateContent(
        "Top", Capsule(1200, 700).path(), marks=tuple(marks), symmetric_x=True, symmetric_y=True
    )
    (quarter,) = portions_named(content, "quarter")
    shown = {mark.label: mark.at for mark in quarter.marks(content)}
    assert set(shown) == {"F1/F2/F3/F4", "C2/C1", "O"}
    assert shown["F1/F2/F3/F4"] == Point(400, 200)
    (on_paper,) = proposals(content, TemplateWish(A4), among=[quarter])
    assert [mark.label for mark in on_paper.marks_left_out(content)] == ["tap"]
    (whole,) = portions_named(content, "whole")
    assert whole.marks(content) == content.marks
    (on_paper,) = proposals(content, TemplateWish(A4), among=[whole])
    assert on_paper.marks_left_out(content) == ()


def test_feet_without_a_twin_are_left_out() -> None:
    """A foot on one side only is not on a half that is flipped."""
    feet = tuple(circle(Point(x, y), 30) for x, y in ((400, 200), (-400, 200), (0, -200)))
    content = TemplateContent("Top", Oval(1200, 700).path(), feet=feet, symmetric_x=True)
    (half,) = portions_named(content, "half")
    assert [foot.bounds.middle.x for foot in half.feet(content)] == pytest.approx(
        [400, 15 - BEYOND / 2]
    )


def test_feet_that_turn_the_other_way_are_left_out() -> None:
    """A foot is flipped onto one that is its own mirror image, not onto one of the same middle."""
    foot = Rectangle(90, 40).path()
    for turns, shown in (((0.4, -0.4), 1), ((0.4, 0.4), 0)):
        feet = tuple(
            foot.placed(Placement(Point(x, 100), turn))
            for x, turn in zip((400, -400), turns, strict=True)
        )
        content = TemplateContent("Top", Oval(1200, 700).path(), feet=feet, symmetric_x=True)
        (half,) = portions_named(content, "half")
        assert len(half.feet(content)) == shown


def test_what_a_top_lacks_is_refused_by_name() -> None:
    """Asking for the corner of an oval tells what an oval has."""
    content = TemplateContent("Top", Oval(1200, 700).path(), symmetric_x=True, symmetric_y=True)
    with pytest.raises(PaperError, match="no 'corner' to print: choose from whole, half, quarter"):
        proposed(content, TemplateWish(A4, portion="corner"))


def test_the_proposal_takes_the_fewest_sheets() -> None:
    """Proposals come fewest sheets first, and "auto" is the first that shows every mark."""
    path = RoundedRectangle(1700, 700, (80, 80, 80, 80)).path()
    content = TemplateContent("Top", path, symmetric_x=True, symmetric_y=True)
    sheets = [proposal.sheets for proposal in proposals(content, TemplateWish(A4))]
    assert sheets == sorted(sheets)
    assert proposals(content, TemplateWish(A4))[0].portion.name == "corner"
    assert proposed(content, TemplateWish(A4, portion="half")).portion.name == "half"
    round_ends = TemplateContent(
        "Top", Capsule(1700, 700).path(), symmetric_x=True, symmetric_y=True
    )
    assert proposed(round_ends, TemplateWish(A4)).portion.name == "quarter"


def test_a_rough_line_round_a_square_corner_is_no_curve_to_print() -> None:
    """Of a D end and its rough line only what stands at the round end is on paper."""
    top = DEnd.of_size(1880, 690)
    content = TemplateContent("Top", top.path(), rough=top.parallel(3.0))
    (curves,) = portions_named(content, "curves")
    shown = curves.paths(content)
    assert len(shown) == 2
    assert all(piece.bounds.left > 1880 / 2 - 690 / 2 - TAIL - 1 for piece in shown)


def test_a_top_with_few_curves_prints_only_those() -> None:
    """Four corners of 80 need one sheet, straight sides none, and kept edges are not printed."""
    few = RoundedRectangle(1700, 700, (80, 80, 80, 80)).path()
    content = TemplateContent("Top", few, symmetric_x=True, symmetric_y=True)
    assert curved_share(content) < FEW_CURVES
    corner = proposed(content, TemplateWish(A4))
    assert (corner.portion.name, corner.sheets) == ("corner", 1)
    odd = RoundedRectangle(1700, 700, (80, 80, 80, 200)).path()
    assert (proposed(TemplateContent("Top", odd), TemplateWish(A4)).portion.name) == "curves"
    desk = Path.through(
        [Point(*p) for p in [(0, 0), (1500, 0), (1500, 600), (700, 600), (700, 1300), (0, 1300)]],
        closed=True,
    )
    straight = proposed(TemplateContent("Desk", desk), TemplateWish(A4))
    assert (straight.portion.name, straight.sheets) == ("none", 0)
    live = Path.through([Point(x, 300 + 20 * (x % 3)) for x in range(900, -901, -100)])
    far, near = live.segments[-1].end, live.segments[0].start
    ends = Line(far, Point(-900, -300)), Line(Point(900, -300), near)
    lower = Line(ends[0].end, ends[1].start)
    piece = Path((*live.segments, ends[0], lower, ends[1]))
    kept = TemplateContent("Piece", piece, kept=(live,), unlined=(live,))
    assert proposed(kept, TemplateWish(A4)).sheets == 0
    assert proposed(TemplateContent("Piece", piece), TemplateWish(A4, portion="whole")).sheets > 5


@given(strategies.every_outline)
@settings(max_examples=60)
def test_curves_and_straights_make_the_whole(outline: Outline) -> None:
    """What "curves" shows is all that is no straight line, with tails that belong to straights."""
    path = outline.path()
    shown = curves_of(path)
    straight = [s for s in path.segments if isinstance(s, Line)]
    bent = [s for s in path.segments if not isinstance(s, Line)]
    every = [s for run in shown for s in run.segments]
    if not straight:
        assert shown == (path,)
        return
    assert sorted(str(s) for s in every if not isinstance(s, Line)) == sorted(map(str, bent))
    for tail in (s for s in every if isinstance(s, Line)):
        assert tail.length <= TAIL + 1e-9
        middle = np.array([tuple(tail.at(0.5))])
        assert min(off_path(middle, Path((s,))).max() for s in straight) < 1e-6


def test_a_curve_drawn_by_points_is_printed() -> None:
    """A ring of sixty short sides is a curve: its template is the whole or a part of it."""
    ring = Path.through(
        [Point.polar(500 + 30 * math.cos(5 * t), t) for t in np.arange(60) / 60 * math.tau],
        closed=True,
    )
    content = TemplateContent("Top", ring)
    assert curved_share(content) == 1.0
    assert proposed(content, TemplateWish(A4)).sheets > 1


def test_the_underside_is_the_mirror_image() -> None:
    """Left and right are swapped, twice swapped is the same, and the drawing knows which it is."""
    path = RoundedRectangle(1200, 700, (80, 60, 40, 20)).path()
    content = TemplateContent("Top", path, marks=(TemplateMark("A", Point(100, 50)),))
    under = content.from_underside()
    assert under.mirrored
    assert under.marks[0].at == Point(-100, 50)
    assert off_path(_points((under.finish,)) * (-1, 1), path).max() < 1e-9
    assert under.finish.area == pytest.approx(path.area)
    again = under.from_underside()
    assert not again.mirrored
    assert again.marks == content.marks
