"""Pages of words and figures: the calibration sheet, the ordinates, and what flows over pages."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import drawn_on, on
from template_strategies import contents, margins, papers

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.kit.flow import Flow
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.scene import Scene, Stroke, Text, text_box
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule
from panelwright.layout.sheets.template_cover import ordinates_pages
from panelwright.layout.sheets.without_plan import calibration_page
from panelwright.layout.template.calibration import CalibrationBars
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.template.paper import A4, LETTER, Margins, Paper, Sheet


def _texts(scene: Scene) -> list[Text]:
    return [item for group in scene.groups for item in group.items if isinstance(item, Text)]


COMMAND = ("panelwright template --measured-x … --measured-y …", '  --paper "A4" --printer …')


@given(papers, margins)
@settings(max_examples=30)
def test_calibration_ink_lies_between_the_margins(paper: Paper, white: Margins) -> None:
    """The calibration sheet fits any paper with any margins, words and all."""
    scene = calibration_page(paper, white, COMMAND)
    frame = scene.frame
    room = Bounds(white.left, white.bottom, frame.right - white.right, frame.top - white.top)
    for text in _texts(scene):
        assert room.holds_box(text_box(text)), text
    for item in on(scene, layers.CHECK_BARS):
        assert isinstance(item, Stroke)
        assert room.holds_box(item.path.bounds.grown(0.2))


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_the_calibration_rectangle_is_true(paper: Paper) -> None:
    """In the written file the bars are as long as the program will be told they should be."""
    bars = CalibrationBars.on(paper, Margins.all(10))
    scene = calibration_page(paper, Margins.all(10), COMMAND)
    runs = [p[1] - p[0] for d in drawn_on(to_pdf([scene], "calibration"), 0) for p in d.pieces]
    wide = [abs(r[0]) for r in runs if abs(r[1]) < 1e-6 and abs(r[0]) > 50]
    high = [abs(r[1]) for r in runs if abs(r[0]) < 1e-6 and abs(r[1]) > 50]
    assert wide == pytest.approx([bars.across] * 2, abs=1e-3)
    assert high == pytest.approx([bars.along] * 2, abs=1e-3)
    words = " ".join(t.words for t in _texts(scene))
    assert f"should be {bars.words(bars.across)}" in words
    assert f"should be {bars.words(bars.along)}" in words
    assert f"{bars.across:.1f} mm" in words or f"{bars.across:.0f} mm" in words
    assert all(row.strip() in words for row in COMMAND)


@given(contents(), papers, margins)
@settings(max_examples=20)
def test_ordinates_lie_between_the_margins(
    content: TemplateContent, paper: Paper, white: Margins
) -> None:
    """The figures fit any paper, on as many pages as they need, and no row is lost."""
    pages = ordinates_pages(content, paper, white)
    room = Sheet.upright(paper, white).printable
    for page in pages:
        assert all(room.holds_box(text_box(text)) for text in _texts(page))
    words = [t.words for page in pages for t in _texts(page)]
    for mark in content.marks:
        assert mark.label in words


def test_ordinates_give_a_capsules_heights() -> None:
    """At 400 along, a capsule 1200 × 700 stands √(350² − 150²) = 316.2 up, on paper 316.0."""
    content = TemplateContent(
        "Top",
        Capsule(1200, 700).path(),
        marks=(TemplateMark("tap", Point(100, -90), 22.0),),
        symmetric_x=True,
        symmetric_y=True,
    )
    (page,) = ordinates_pages(content, A4, Margins.all(10))
    rows: dict[float, list[str]] = {}
    for text in sorted(_texts(page), key=lambda t: t.at.x):
        rows.setdefault(round(text.at.y, 3), []).append(text.words)
    assert ["400.0", "316.0"] in rows.values()
    assert ["600.0", "0.0"] in rows.values()
    assert ["tap", "100.0", "−90.0", "ø 22 mm"] in rows.values()
    assert math.hypot(150, 316) == pytest.approx(350, abs=0.25)


@given(st.lists(st.text(alphabet="abc de fgh", min_size=1, max_size=300), max_size=40))
def test_words_flow_over_pages(paragraphs: list[str]) -> None:
    """Whatever is set stays in the room, none of it is lost, and no two rows overlap."""
    room = Bounds(10, 10, 110, 90)
    flow = Flow(Bounds(0, 0, 120, 100), room, "Words")
    for paragraph in paragraphs:
        flow.check(paragraph)
    pages = flow.scenes()
    texts = [text for page in pages for text in _texts(page)]
    heads = [f"Words, page {number}" for number in range(2, len(pages) + 1)]
    assert [_texts(page)[0].words for page in pages[1:]] == heads  # each says what it belongs to
    told = " ".join(t.words for t in texts if t.words not in heads)
    assert told.split() == " ".join(paragraphs).split()
    for page in pages:
        rows = sorted(text.at.y for text in _texts(page))
        assert all(room.holds(text.at, by=-1e-6) for text in _texts(page))
        assert (np.diff(rows) > 4.0).all()


def test_columns_stand_clear_of_each_other() -> None:
    """A table's columns begin at the same place in every row, clear of the one before."""
    flow = Flow(Bounds(0, 0, 200, 100), Bounds(10, 10, 190, 90), "Table")
    flow.table([("a", "bb", "c"), ("a long first cell", "b", "the last one")])
    (page,) = flow.scenes()
    texts = _texts(page)
    firsts = [texts[k].at.x for k in (0, 3)]
    seconds = [texts[k].at.x for k in (1, 4)]
    assert firsts == [10.0, 10.0]
    assert seconds[0] == seconds[1] > text_box(texts[3]).right
