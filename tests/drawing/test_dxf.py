"""DXF is read back by ezdxf, audited and measured."""

from __future__ import annotations

import io
import math
from collections import Counter

import ezdxf
import numpy as np
import pytest
import strategies
from ezdxf.document import Drawing
from ezdxf.entities import DXFEntity
from ezdxf.math import BoundingBox
from hypothesis import given, settings
from readers import off_path

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.dxf import Release, to_dxf
from panelwright.layout.drawing.scene import Area, Group, Mark, Scene, Stroke, Text
from panelwright.layout.geometry.bounds import Bounds
from panelwright.layout.geometry.path import Path, circle
from panelwright.layout.geometry.placement import Placement
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.segments import Arc, EllipticArc, Line
from panelwright.layout.outlines import Capsule, Outline, Oval, RoundedRectangle

VECTOR_ERROR = 0.001
"""What a written line may be off, mm."""

RELEASES: list[Release] = ["R2010", "R12"]


def _scene_of(*groups: Group) -> Scene:
    return Scene("A drawing", Bounds(-700, -400, 700, 400), groups)


def _opened(scene: Scene, release: Release = "R2010") -> Drawing:
    document = ezdxf.read(io.StringIO(to_dxf(scene, release)))
    auditor = document.audit()
    assert not auditor.errors
    assert not auditor.fixes
    return document


def _points_on(entity: DXFEntity) -> np.ndarray:
    """Return points along an entity, as ezdxf's own geometry has them."""
    kind = entity.dxftype()
    if kind == "LINE":
        return np.array([tuple(entity.dxf.start)[:2], tuple(entity.dxf.end)[:2]])
    if kind == "CIRCLE":
        return np.array([tuple(v)[:2] for v in entity.vertices(np.linspace(0, 360, 37))])
    if kind == "ARC":
        return np.array([tuple(v)[:2] for v in entity.vertices(entity.angles(9))])
    if kind == "ELLIPSE":
        return np.array([tuple(v)[:2] for v in entity.vertices(entity.params(73))])
    return np.concatenate([_points_on(part) for part in entity.virtual_entities()])


@pytest.mark.parametrize("release", RELEASES)
@given(outline=strategies.every_outline, placement=strategies.placements)
@settings(max_examples=15)
def test_lines_lie_where_they_were_drawn(
    release: Release, outline: Outline, placement: Placement
) -> None:
    """Every point that a reader finds on a written outline is within 0.001 mm of the outline."""
    path = outline.path().placed(placement)
    document = _opened(_scene_of(Group(layers.FINISH, (Stroke(path),))), release)
    read = np.concatenate([_points_on(entity) for entity in document.modelspace()])
    assert off_path(read, path).max() < VECTOR_ERROR
    box, own = path.bounds, BoundingBox([(x, y, 0) for x, y in read])
    tight = 0.02 * max(box.width, box.height)
    assert own.extmax.x == pytest.approx(box.right, abs=tight)
    assert own.extmin.y == pytest.approx(box.bottom, abs=tight)


def test_outlines_are_the_entities_that_a_cutter_follows() -> None:
    """A circle is a CIRCLE, an oval an ELLIPSE, and lines with arcs one closed polyline."""
    scene = _scene_of(
        Group(
            layers.FINISH,
            (
                Stroke(circle(Point(0, 0), 40)),
                Stroke(Oval(200, 90).path()),
                Stroke(RoundedRectangle(300, 200, (20, 30, 40, 50)).path()),
                Stroke(Path((Line(Point(0, 0), Point(5, 5)),))),
                Stroke(Path((Arc(Point(9, 9), 30, 1.0, -2.0),))),
            ),
        )
    )
    space = _opened(scene).modelspace()
    kinds = Counter(entity.dxftype() for entity in space)
    assert kinds == {"CIRCLE": 1, "ELLIPSE": 1, "LWPOLYLINE": 1, "LINE": 1, "ARC": 1}
    (polyline,) = space.query("LWPOLYLINE")
    assert polyline.closed
    arc = next(iter(space.query("ARC")))
    assert (arc.dxf.start_angle, arc.dxf.end_angle) == pytest.approx(
        (math.degrees(-1.0) % 360, math.degrees(1.0))
    )
    old = _opened(scene, "R12").modelspace()
    assert {entity.dxftype() for entity in old} == {"CIRCLE", "POLYLINE", "LINE", "ARC"}


@given(
    long=strategies.sizes,
    ratio=strategies.st.floats(min_value=0.1, max_value=5.0),
    turn=strategies.angles,
    start=strategies.angles,
    sweep=strategies.st.floats(min_value=-6.0, max_value=6.0).filter(lambda s: abs(s) > 0.1),
)
@settings(max_examples=30)
def test_parts_of_ellipses_keep_their_ends(
    long: float, ratio: float, turn: float, start: float, sweep: float
) -> None:
    """An elliptic arc run either way, wide or high, comes back with its own ends and curve."""
    arc = EllipticArc(Point(12, -7), long, long * ratio, turn, start, sweep)
    (entity,) = _opened(_scene_of(Group(layers.FINISH, (Stroke(Path((arc,))),)))).modelspace()
    read = _points_on(entity)
    assert off_path(read, Path((arc,))).max() < VECTOR_ERROR
    ends = sorted([tuple(arc.start), tuple(arc.end)])
    assert sorted([tuple(read[0]), tuple(read[-1])]) == [
        pytest.approx(end, abs=VECTOR_ERROR) for end in ends
    ]


def test_units_are_millimetres() -> None:
    """A reader is told millimetres and metric, in place of guessing inches."""
    header = _opened(_scene_of(Group(layers.FINISH, (Stroke(Capsule(200, 90).path()),)))).header
    assert header["$INSUNITS"] == 4
    assert header["$MEASUREMENT"] == 1
    assert tuple(header["$EXTMIN"])[:2] == (-700.0, -400.0)


def test_layers_keep_their_meaning() -> None:
    """A layer has its key, its ISO 128 line type and weight, its colour and its title."""
    stroke = Stroke(Capsule(200, 90).path())
    groups = [Group(layer, (stroke,)) for layer in (layers.FINISH, layers.ROUGH, layers.CENTRELINE)]
    document = _opened(_scene_of(*groups))
    rough, centre = document.layers.get("rough-cut-line"), document.layers.get("centreline")
    assert document.layers.get("finish-line").dxf.lineweight == 70
    assert rough.dxf.lineweight == 35
    assert rough.description == "Rough-cut line"
    assert rough.rgb == (0x1F, 0x5F, 0xA8)
    finish = document.layers.get("finish-line")
    assert (finish.dxf.color, finish.rgb) == (7, None)  # seen on a dark ground, too
    dashed = document.linetypes.get(rough.dxf.linetype)
    chain = document.linetypes.get(centre.dxf.linetype)
    # ISO 128-2: dash 12 d, gap 3 d; long dash 24 d, gap 3 d, dot half a d
    assert _lengths(dashed) == pytest.approx([12 * 0.35, -3 * 0.35])
    assert _lengths(chain) == pytest.approx([24 * 0.25, -0.75, 0.125, -0.75])


def _lengths(line_type: DXFEntity) -> list[float]:
    return [tag.value for tag in line_type.pattern_tags.tags if tag.code == 49]


@pytest.mark.parametrize("release", RELEASES)
def test_nothing_is_drawn_twice(release: Release) -> None:
    """What a layer holds already is not drawn on it again, run the other way or not."""
    line = Path((Line(Point(0, 0), Point(50, 10)),))
    arc = Path((Arc(Point(0, 0), 30, 0.5, 1.2),))
    items = (
        Stroke(line),
        Stroke(line.reversed()),
        Stroke(arc),
        Stroke(arc.reversed()),
        Stroke(circle(Point(5, 5), 9)),
        Mark(Point(5, 5), diameter=18),
        Mark(Point(5, 5), diameter=18),
        Area(Capsule(200, 90).path()),
        Stroke(Capsule(200, 90).path()),
    )
    space = _opened(_scene_of(Group(layers.MARKS, items)), release).modelspace()
    polyline = "POLYLINE" if release == "R12" else "LWPOLYLINE"
    assert Counter(e.dxftype() for e in space) == {
        "LINE": 1, "ARC": 1, "CIRCLE": 1, "POINT": 1, polyline: 1,
    }  # fmt: skip


def test_marks_are_points_and_drillings_circles() -> None:
    """A mark is a point at its place; with a diameter there is a circle of that size as well."""
    marks = (Mark(Point(-250, 0)), Mark(Point(250, 0), diameter=22))
    space = _opened(_scene_of(Group(layers.MARKS, marks))).modelspace()
    assert sorted(e.dxf.location.x for e in space.query("POINT")) == [-250, 250]
    (ring,) = space.query("CIRCLE")
    assert (ring.dxf.center.x, ring.dxf.radius) == (250, 11)


@pytest.mark.parametrize("release", RELEASES)
def test_words_come_back(release: Release) -> None:
    """Texts have their words and height in either release; an R12 file is plain ASCII."""
    text = Text(Point(3, 4), "ø 22 × 31 3/8", 3.5, "end", 0.5)
    scene = _scene_of(Group(layers.LETTERING, (text,)))
    (read,) = _opened(scene, release).modelspace()
    assert read.dxf.text == {"R2010": text.words, "R12": "%%c 22 x 31 3/8"}[release]
    assert read.dxf.height == 3.5
    assert read.dxf.rotation == pytest.approx(math.degrees(0.5))
    assert to_dxf(scene, "R12").isascii()


@pytest.mark.parametrize("release", RELEASES)
def test_the_same_scene_gives_the_same_text(release: Release) -> None:
    """A file bears no date, and the setting that this takes is put back."""
    scene = _scene_of(Group(layers.FINISH, (Stroke(Oval(200, 90).path()),)))
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert to_dxf(scene, release) == to_dxf(scene, release)
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_hatching_stays_on_paper() -> None:
    """A hatched area is its boundary and its holes only: a cutter would follow hatching."""
    ring = Area(circle(Point(0, 0), 40), (circle(Point(0, 0), 20),))
    space = _opened(_scene_of(Group(layers.WASTE, (ring,)))).modelspace()
    assert Counter(e.dxftype() for e in space) == {"CIRCLE": 2}
