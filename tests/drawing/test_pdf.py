"""PDF pages are read back by pikepdf and pdfium, and measured."""

from __future__ import annotations

import io
import math
from pathlib import Path as FilePath

import numpy as np
import pikepdf
import pypdfium2
import pytest
import strategies
from hypothesis import given, settings
from readers import Raster, drawn_on, faults_in, off_path, shades

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.scene import Area, Group, Mark, Scene, Stroke, Text
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Outline, Oval

VECTOR_ERROR = 0.001
"""What a written line may be off, mm."""


def _sheet_of(*groups: Group, frame: Bounds | None = None) -> Scene:
    return Scene("A sheet", frame or Bounds(-150, -110, 150, 110), groups)


@given(strategies.every_outline, strategies.placements)
@settings(max_examples=25)
def test_lines_lie_where_they_were_drawn(outline: Outline, placement: Placement) -> None:
    """Every point of a written outline lies within 0.001 mm of the outline."""
    path = outline.path().placed(placement)
    scene = _sheet_of(Group(layers.FINISH, (Stroke(path),)), frame=path.bounds.grown(20))
    (drawn,) = drawn_on(to_pdf([scene], "outline"), 0)
    corner = np.array([scene.frame.left, scene.frame.bottom])
    read = drawn.points() + corner
    assert off_path(read, path).max() < VECTOR_ERROR
    assert drawn.layer == "Finish line"
    assert drawn.width == pytest.approx(0.7, abs=1e-4)
    assert np.hypot(*(read[0] - read[-1])) < VECTOR_ERROR


def test_a_page_has_the_size_of_its_frame() -> None:
    """Two scenes give two pages, each of its frame's size."""
    a4 = Scene("one", Bounds(0, 0, 210, 297), ())
    roll = Scene("two", Bounds(-5, -5, 2005, 909), ())
    with pikepdf.open(io.BytesIO(to_pdf([a4, roll], "two pages"))) as pdf:
        boxes = [[float(v) * 25.4 / 72 for v in page.mediabox] for page in pdf.pages]
    assert boxes[0] == pytest.approx([0, 0, 210, 297], abs=1e-3)
    assert boxes[1] == pytest.approx([0, 0, 2010, 914], abs=1e-3)


def test_the_file_asks_not_to_be_scaled() -> None:
    """A viewer finds PrintScaling None in a file of version 1.6 or later, with its title."""
    data = to_pdf([_sheet_of(Group(layers.LETTERING, (Text(Point(0, 0), "words"),)))], "Bench ½")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")
        assert tuple(int(n) for n in pdf.pdf_version.split(".")) >= (1, 6)
        assert str(pdf.docinfo["/Title"]) == "Bench ½"
        assert not {"/CreationDate", "/ModDate"} & set(pdf.docinfo.keys())


def test_layers_can_be_switched() -> None:
    """Each layer is optional content by its title, on from the start, and pages point at it."""
    mark = Group(layers.MARKS, (Mark(Point(0, 0)),))
    line = Group(layers.FINISH, (Stroke(circle(Point(0, 0), 40)),))
    data = to_pdf([_sheet_of(line, mark), _sheet_of(mark)], "layers")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        names = [str(group.Name) for group in pdf.Root.OCProperties.OCGs]
        assert names == ["Finish line", "Marks"]
        assert pdf.Root.OCProperties.D.BaseState == pikepdf.Name.ON
    assert [d.layer for d in drawn_on(data, 1)] == ["Marks"]


def test_the_file_is_sound(tmp_path: FilePath) -> None:
    """The checks of qpdf, as a library and where there is the program, find nothing wrong."""
    groups = (
        Group(layers.ROUGH, (Stroke(Oval(200, 90).path(), 7.0),)),
        Group(layers.WASTE, (Area(Capsule(200, 90).path()),)),
        Group(layers.MARKS, (Mark(Point(5, 5), 3.0, 22.0, "hole", "tap hole"),)),
        Group(layers.LETTERING, (Text(Point(0, 0), "ø 22 ≥ ½", turn=0.3),)),
    )
    data = to_pdf([_sheet_of(*groups), _sheet_of(*groups)], "sound")
    assert faults_in(data, tmp_path) == []


def test_a_line_that_carries_on_another_carries_on_its_dashes() -> None:
    """A stroke's phase is written beside its dashes, and the next one begins its own."""
    line = Path.through([Point(0, 0), Point(50, 0)])
    dashed = layers.Layer("dashed", "Dashed", "#123456", 0.35, (4.2, 1.05))
    group = Group(dashed, (Stroke(line, 100.0), Stroke(line)))
    one, other = drawn_on(to_pdf([_sheet_of(group)], "dashes"), 0)
    assert one.dashes == pytest.approx((4.2, 1.05), abs=1e-4)
    assert one.phase == pytest.approx(100 - 19 * 5.25, abs=1e-3)
    assert other.phase == 0.0


def test_the_same_scenes_give_the_same_bytes() -> None:
    """Nothing in a file depends on when or how often it was written."""
    scene = _sheet_of(Group(layers.FINISH, (Stroke(Capsule(200, 90).path()),)))
    assert to_pdf([scene], "same") == to_pdf([scene], "same")
    assert to_pdf([scene], "same") != to_pdf([scene], "other")


def test_fonts_are_built_in_or_embedded() -> None:
    """A file needs no font that a viewer may lack."""
    words = "31 3/8 in × 7° ø − ′ ≥ ½ ⅜ řezač → ▲"
    data = to_pdf([_sheet_of(Group(layers.LETTERING, (Text(Point(-140, 0), words),)))], "fonts")
    built_in = {"Helvetica", "Helvetica-Bold", "Symbol", "ZapfDingbats"}
    with pikepdf.open(io.BytesIO(data)) as pdf:
        for page in pdf.pages:
            for font in dict(page.Resources.Font).values():
                assert str(font.BaseFont).lstrip("/") in built_in


def test_words_can_be_read_again() -> None:
    """Words come back as they were set, signs of other fonts among them, and no black boxes."""
    words = "Turn 7° × 31⅜ in, ø 22, −5, ≥ 10"
    data = to_pdf([_sheet_of(Group(layers.LETTERING, (Text(Point(-140, 0), words),)))], "words")
    page = pypdfium2.PdfDocument(data)[0]
    read = page.get_textpage().get_text_bounded()
    assert "Turn 7° × 31 3/8 in, ø 22," in read
    assert "≥" in read
    assert "■" not in read


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("turn", [0.0, math.pi / 2, 0.3])
def test_words_stand_where_they_are_held(anchor: str, turn: float) -> None:
    """Ink of words lies in the box that composers keep free for them."""
    from panelwright.layout.drawing.scene import text_box

    text = Text(Point(3, -4), "Hxgy 583 mm", 5.0, anchor, turn)  # type: ignore[arg-type]
    scene = _sheet_of(Group(layers.LETTERING, (text,)))
    scale = 4.0
    dark = shades(to_pdf([scene], "anchor"), 0, scale) < 128
    rows, columns = np.nonzero(dark)
    mm = 25.4 / 72 / scale
    xs, ys = columns * mm + scene.frame.left, scene.frame.top - rows * mm
    box = text_box(text).grown(0.4)
    assert xs.min() >= box.left
    assert xs.max() <= box.right
    assert ys.min() >= box.bottom
    assert ys.max() <= box.top
    if turn == 0:
        assert xs.max() - xs.min() > 0.95 * text_box(text).width


def test_a_printer_that_shrinks_is_met() -> None:
    """With a stretch, lines are written larger about the middle of the sheet, each way its own."""
    bar = Path.through([Point(10, 20), Point(110, 20), Point(110, 70)])
    frame = Bounds(0, 0, 200, 100)
    scene = Scene("stretched", frame, (Group(layers.FINISH, (Stroke(bar),)),), (1.01, 0.98))
    (drawn,) = drawn_on(to_pdf([scene], "stretched"), 0)
    across, up = drawn.pieces
    assert np.hypot(*(across[1] - across[0])) == pytest.approx(101.0, abs=VECTOR_ERROR)
    assert np.hypot(*(up[1] - up[0])) == pytest.approx(49.0, abs=VECTOR_ERROR)
    assert across[0] == pytest.approx([100 - 90 * 1.01, 50 - 30 * 0.98], abs=VECTOR_ERROR)


def test_areas_leave_their_holes_out() -> None:
    """A solid area with a hole is dark between boundary and hole only; a hatched one is in part."""
    ring = Area(circle(Point(0, 0), 40), (circle(Point(0, 0), 20),))
    black = layers.Layer("solid", "Solid", "#000000", 0.18, hatching="solid")
    data = to_pdf([_sheet_of(Group(black, (ring,)))], "ring")
    seen = shades(data, 0, 2)
    pixel = 2 * 72 / 25.4
    middle = (int(110 * pixel), int(150 * pixel))
    assert seen[middle] > 250
    assert seen[middle[0], int(180 * pixel)] < 5
    hatched = to_pdf([_sheet_of(Group(layers.WASTE, (ring,)))], "hatched")
    lines = drawn_on(hatched, 0)[0].points()
    reach = np.hypot(*(lines - np.array([150, 110])).T)
    assert reach.min() > 19.9
    assert reach.max() < 40.1


def test_a_raster_shows_lines_where_they_belong() -> None:
    """At 600 dpi the ink of an oval's line is centred within 0.02 mm of the oval."""
    oval = Oval(260, 180).path()
    scene = _sheet_of(Group(layers.FINISH, (Stroke(oval),)))
    raster = Raster(to_pdf([scene], "oval"))
    arc = oval.segments[0]
    for share in (0.03, 0.2, 0.37, 0.5, 0.71, 0.9):
        at, ahead = arc.at(share), arc.at(share + 1e-4)
        normal = (ahead - at).angle - math.pi / 2
        offset = raster.line_offset(0, (at.x + 150, at.y + 110), normal)
        assert abs(offset) < 0.02
