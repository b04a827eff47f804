"""SVG is read back by svgelements and an XML reader, and measured."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from io import StringIO

import numpy as np
import pytest
import strategies
import svgelements
from hypothesis import given, settings
from readers import off_path

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.scene import (
    CAP_HEIGHT,
    Area,
    Group,
    Mark,
    Scene,
    Sign,
    Stroke,
    Text,
)
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Outline, Oval

VECTOR_ERROR = 0.001
"""What a written line may be off, mm."""

SVG = "{http://www.w3.org/2000/svg}"


def _scene_of(*groups: Group, frame: Bounds | None = None) -> Scene:
    return Scene("A sheet", frame or Bounds(-150, -110, 150, 110), groups)


def _read_points(path: svgelements.Path, frame: Bounds) -> np.ndarray:
    """Return points along what a reader made of a path, y up again."""
    held = [
        segment.point(share)
        for segment in path
        if not isinstance(segment, svgelements.Move)
        for share in np.linspace(0, 1, 7)
    ]
    return np.array([(p.x + frame.left, frame.top - p.y) for p in held])


def _paths_in(text: str) -> list[svgelements.Path]:
    """Return a document's paths in its own units: the viewBox's mm."""
    return [
        svgelements.Path(element.attrib["d"]) for element in ET.fromstring(text).iter(f"{SVG}path")
    ]


@given(strategies.every_outline, strategies.placements)
@settings(max_examples=40)
def test_lines_lie_where_they_were_drawn(outline: Outline, placement: Placement) -> None:
    """Every point that a reader finds on a written outline is within 0.001 mm of the outline."""
    path = outline.path().placed(placement)
    scene = _scene_of(Group(layers.FINISH, (Stroke(path),)), frame=path.bounds.grown(20))
    (read,) = _paths_in(to_svg(scene))
    assert off_path(_read_points(read, scene.frame), path).max() < VECTOR_ERROR


def test_the_document_opens_at_true_size() -> None:
    """Width and height are the frame's in mm, and one unit of the viewBox is 1 mm."""
    root = ET.fromstring(to_svg(_scene_of(frame=Bounds(-5, -7.5, 1205, 692.25))))
    assert root.attrib["width"] == "1210mm"
    assert root.attrib["height"] == "699.75mm"
    assert root.attrib["viewBox"] == "0 0 1210 699.75"


def test_a_reader_of_physical_units_finds_true_lengths() -> None:
    """At 96 pixels to the inch, the way browsers count, a line of 100 mm is 100 mm."""
    bar = Path.through([Point(0, 0), Point(100, 0)])
    text = to_svg(_scene_of(Group(layers.CHECK_BARS, (Stroke(bar),))))
    document = svgelements.SVG.parse(StringIO(text), ppi=96)
    (path,) = [e for e in document.elements() if isinstance(e, svgelements.Path)]
    path.reify()
    assert path.length() * 25.4 / 96 == pytest.approx(100.0, abs=VECTOR_ERROR)


def test_curves_are_arcs() -> None:
    """Circles, capsules and ovals are written as arcs, never as chords or cubics."""
    scene = _scene_of(
        Group(
            layers.FINISH,
            (
                Stroke(circle(Point(0, 0), 40)),
                Stroke(Capsule(200, 90).path()),
                Stroke(Oval(200, 90).path()),
            ),
        )
    )
    for element in ET.fromstring(to_svg(scene)).iter(f"{SVG}path"):
        letters = set(re.findall("[A-Za-z]", element.attrib["d"]))
        assert "A" in letters
        assert letters <= {"M", "L", "A", "Z"}


def test_groups_have_one_readable_id_each_and_a_title() -> None:
    """Every group bears its layer's key and title, and no id comes twice."""
    stroke = Stroke(circle(Point(0, 0), 40))
    groups = [Group(layer, (stroke,)) for layer in (layers.WOOD, layers.FINISH, layers.WOOD)]
    root = ET.fromstring(to_svg(_scene_of(*groups)))
    found = root.findall(f"{SVG}g")
    assert [g.attrib["id"] for g in found] == ["panel-face", "finish-line", "panel-face-2"]
    assert [g.findtext(f"{SVG}title") for g in found] == [g.layer.title for g in groups]
    assert root.findtext(f"{SVG}title") == "A sheet"


@pytest.mark.parametrize("turn", [0.0, math.pi / 2, -0.4])
def test_words_stand_upright_at_their_height(turn: float) -> None:
    """A text's capitals have their height in mm, and a turn runs anticlockwise."""
    text = Text(Point(10, 20), "Finish & <line>", 3.5, "middle", turn)
    root = ET.fromstring(to_svg(_scene_of(Group(layers.LETTERING, (text,)))))
    (element,) = root.iter(f"{SVG}text")
    assert float(element.attrib["font-size"]) * CAP_HEIGHT == pytest.approx(3.5, abs=1e-5)
    assert element.text == "Finish & <line>"
    assert (float(element.attrib["x"]), float(element.attrib["y"])) == (160.0, 90.0)
    if turn:
        degrees = float(re.findall(r"rotate\((\S+)", element.attrib["transform"])[0])
        assert math.radians(-degrees) == pytest.approx(turn, abs=1e-6)


def test_a_mark_is_a_cross_with_its_ring() -> None:
    """A mark's arms and its ring are centred on it."""
    scene = _scene_of(Group(layers.MARKS, (Mark(Point(30, -40), 3.0, 22.0),)))
    (read,) = _paths_in(to_svg(scene))
    points = _read_points(read, scene.frame) - np.array([30, -40])
    reach = np.hypot(*points.T)
    assert reach.max() == pytest.approx(11.0, abs=VECTOR_ERROR)
    ring = points[reach > 10.0]
    assert np.abs(np.hypot(*ring.T) - 11.0).max() < VECTOR_ERROR
    arms = points[reach < 10.0]
    assert arms.min(axis=0) == pytest.approx([-3, -3], abs=VECTOR_ERROR)
    assert arms.max(axis=0) == pytest.approx([3, 3], abs=VECTOR_ERROR)


def test_a_mark_bears_its_name_and_its_sign() -> None:
    """A named mark has its name as its title, and each sign has lines of its own."""
    signs: list[Sign] = ["point", "middle", "centre", "nail", "hole"]
    marks = tuple(Mark(Point(10, 5), 3.0, 2.0, sign, f"mark {sign}") for sign in signs)
    root = ET.fromstring(to_svg(_scene_of(Group(layers.MARKS, marks))))
    (group,) = root.findall(f"{SVG}g")
    drawn = group.findall(f"{SVG}path")
    assert [path.findtext(f"{SVG}title") for path in drawn] == [mark.name for mark in marks]
    assert len({path.attrib["d"] for path in drawn}) == len(signs) - 1  # a nail is a ring alone
    (bare,) = ET.fromstring(to_svg(_scene_of(Group(layers.MARKS, (Mark(Point(0, 0)),))))).iter(
        f"{SVG}path"
    )
    assert bare.find(f"{SVG}title") is None


def test_a_line_that_carries_on_another_carries_on_its_dashes() -> None:
    """A phase is written within one repeat of the dashes, on dashed layers only."""
    line = Path.through([Point(0, 0), Point(50, 0)])
    dashed = layers.Layer("dashed", "Dashed", "#123456", 0.35, (4.2, 1.05))
    solid = layers.Layer("solid", "Solid", "#123456", 0.35)
    groups = [Group(layer, (Stroke(line, 100.0), Stroke(line))) for layer in (dashed, solid)]
    root = ET.fromstring(to_svg(_scene_of(*groups)))
    offsets = [path.attrib.get("stroke-dashoffset") for path in root.iter(f"{SVG}path")]
    assert offsets[1:] == [None, None, None]
    assert float(str(offsets[0])) == pytest.approx(100 - 19 * 5.25)


KNOWN = {
    "svg": {"width", "height", "viewBox", "version", "baseProfile"},
    "defs": set(),
    "title": set(),
    "g": {"id", "fill", "stroke", "stroke-width", "stroke-linejoin", "stroke-dasharray"},
    "path": {"d", "fill", "fill-rule", "stroke", "stroke-width", "stroke-dasharray",
             "stroke-dashoffset"},
    "text": {"x", "y", "fill", "stroke", "font-family", "font-size", "font-weight", "text-anchor",
             "transform"},
}  # fmt: skip
"""Elements and attributes of SVG 1.1 that the sheets use."""

NUMBER = r"-?\d+(\.\d+)?"
PATH_DATA = re.compile(
    rf"M {NUMBER} {NUMBER}( L {NUMBER} {NUMBER}| A( {NUMBER}){{3}} [01] [01] {NUMBER} {NUMBER}| Z"
    rf"| M {NUMBER} {NUMBER})*"
)


@given(outline=strategies.every_outline, placement=strategies.placements)
@settings(max_examples=15)
def test_a_document_is_svg_and_nothing_else(outline: Outline, placement: Placement) -> None:
    """Every element and attribute is one of SVG 1.1, every path reads, and no id comes twice."""
    path = outline.path().placed(placement)
    groups = [
        Group(layers.ROUGH, (Stroke(path, 3.3), Area(path, (circle(Point(0, 0), 3),)))),
        Group(layers.WASTE, (Area(path),)),
        Group(layers.MARKS, (Mark(Point(3, 4), 3.0, 22.0, "hole", "tap <&> hole"),)),
        Group(layers.LETTERING, (Text(Point(0, 0), "ø 22 × ½ & <>", turn=0.3, bold=True),)),
    ]
    text = to_svg(_scene_of(*groups, *groups, frame=path.bounds.grown(20)))
    root = ET.fromstring(text)
    ids = []
    for element in root.iter():
        name = element.tag.removeprefix(SVG)
        plain = {key for key in element.attrib if not key.startswith("{")}
        assert plain <= KNOWN[name], (name, plain)
        ids += [element.attrib["id"]] if "id" in element.attrib else []
        if name == "path":
            assert PATH_DATA.fullmatch(element.attrib["d"]), element.attrib["d"]
    assert len(set(ids)) == len(ids)
    assert all(re.fullmatch(r"[a-z][a-z0-9-]*", key) for key in ids)


def test_dashes_come_from_the_layer() -> None:
    """A dashed layer's lengths are written in mm; its marks and hatching are not dashed."""
    ring = Area(circle(Point(0, 0), 20))
    dashed = layers.Layer("dashed", "Dashed", "#123456", 0.35, (4.2, 1.05), "diagonal")
    root = ET.fromstring(to_svg(_scene_of(Group(dashed, (ring, Mark(Point(50, 0)))))))
    (group,) = root.findall(f"{SVG}g")
    assert group.attrib["stroke-dasharray"] == "4.2 1.05"
    hatch, edge, mark = group.findall(f"{SVG}path")
    assert hatch.attrib["stroke-dasharray"] == mark.attrib["stroke-dasharray"] == "none"
    assert "stroke-dasharray" not in edge.attrib


def test_the_same_scene_gives_the_same_text() -> None:
    """Nothing in a document depends on when it was written."""
    scene = _scene_of(Group(layers.FINISH, (Stroke(Capsule(200, 90).path()),)))
    assert to_svg(scene) == to_svg(scene)
