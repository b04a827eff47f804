"""No file holds a number with an exponent: PDF forbids them, and not every cutter reads them."""

from __future__ import annotations

import io
import math
import re

import pikepdf
from hypothesis import given, settings
from hypothesis import strategies as st

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.dxf import to_dxf
from panelwright.layout.drawing.pdf import to_pdf
from panelwright.layout.drawing.scene import Group, Item, Mark, Scene, Stroke, Text
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Oval, Rectangle

EXPONENT = re.compile(r"\d[eE][-+]\d+")

tiny = st.sampled_from([0.0, 1e-13, -1e-13, 3e-7, -4e-5, 1e-300])
lengths = st.one_of(tiny, st.floats(-400.0, 400.0))
angles = st.one_of(tiny, st.sampled_from([math.pi / 2, math.pi]), st.floats(-4.0, 4.0))
places = st.builds(Placement, st.builds(Point, lengths, lengths), angles)
outlines = st.sampled_from([Capsule(200, 90), Oval(200, 90), Rectangle(200, 90)])
lines = st.builds(
    lambda outline, place, phase: Stroke(outline.path().placed(place), phase),
    outlines, places, lengths,
)  # fmt: skip
short = st.builds(
    lambda a, way, reach: Stroke(Path.through([a, a + Point.polar(reach, way)])),
    st.builds(Point, lengths, lengths), angles, st.floats(1e-3, 300.0),
)  # fmt: skip
marks = st.builds(lambda x, y: Mark(Point(x, y), diameter=6.0), lengths, lengths)
words = st.builds(lambda x, y, turn: Text(Point(x, y), "A 12", turn=turn), lengths, lengths, angles)
items = st.one_of(lines, short, marks, words)
kinds = st.sampled_from([layers.FINISH, layers.CORE, layers.CENTRELINE, layers.MARKS])
scenes = st.lists(st.tuples(kinds, items), min_size=1, max_size=4).map(
    lambda held: _sheet([(kind, item) for kind, item in held])
)


def _sheet(held: list[tuple[layers.Layer, Item]]) -> Scene:
    groups = tuple(Group(kind, (item,)) for kind, item in held)
    return Scene("A sheet", Bounds(-500, -500, 500, 500), groups)


@given(scenes)
@settings(max_examples=25)
def test_no_number_of_a_pdf_has_an_exponent(scene: Scene) -> None:
    """What a page draws is written in plain decimals (ISO 32000-1, 7.3.3)."""
    with pikepdf.open(io.BytesIO(to_pdf([scene], "sheet"))) as pdf:
        content = pdf.pages[0].Contents.read_bytes().decode("latin-1")
    assert EXPONENT.findall(content) == []


@given(scenes)
@settings(max_examples=25)
def test_no_number_of_an_svg_has_an_exponent(scene: Scene) -> None:
    """Every coordinate, dash and turn is written in plain decimals."""
    assert EXPONENT.findall(to_svg(scene)) == []


@given(scenes, st.sampled_from(["R2010", "R12"]))
@settings(max_examples=25)
def test_no_number_of_a_dxf_has_an_exponent(scene: Scene, release: str) -> None:
    """Every value of a real group code is written in plain decimals."""
    text = to_dxf(scene, "R12" if release == "R12" else "R2010")
    assert EXPONENT.findall(text) == []
