"""The full-size drawing holds the template itself, once, at true size."""

from __future__ import annotations

import io
from collections import Counter
from itertools import pairwise

import ezdxf
import pytest
import strategies
from hypothesis import given, settings
from readers import on
from template_strategies import contents

from panelwright.layout.drawing import layers
from panelwright.layout.drawing.dxf import to_dxf
from panelwright.layout.drawing.scene import Mark, Stroke, Text, text_box
from panelwright.layout.drawing.svg import to_svg
from panelwright.layout.geometry.path import circle
from panelwright.layout.geometry.point import Point
from panelwright.layout.outlines import Capsule, Oval
from panelwright.layout.sheets.template_drawing import (
    CheckBar,
    face_mark,
    joint_ticks,
    template_drawing,
)
from panelwright.layout.template.content import TemplateContent, TemplateMark
from panelwright.layout.units import Tape


@given(contents())
@settings(max_examples=30)
def test_everything_lies_on_the_sheet(content: TemplateContent) -> None:
    """Lines and words of any template lie within the drawing's frame."""
    scene = template_drawing(content)
    for group in scene.groups:
        for item in group.items:
            if isinstance(item, Text):
                assert scene.frame.holds_box(text_box(item)), item
            elif isinstance(item, Stroke):
                assert scene.frame.holds_box(item.path.bounds), item


@given(contents())
@settings(max_examples=20)
def test_no_line_is_drawn_twice_in_dxf(content: TemplateContent) -> None:
    """A cutter meets no line of a template twice, on whatever layer it lies."""
    document = ezdxf.read(io.StringIO(to_dxf(template_drawing(content))))
    assert not document.audit().errors
    keys = Counter(
        (e.dxftype(), *(tuple(round(v, 4) for v in point) for point in _ends(e)))
        for e in document.modelspace()
        if e.dxftype() not in ("TEXT", "POINT")
    )
    assert max(keys.values()) == 1


def _ends(entity: ezdxf.entities.DXFEntity) -> list[tuple[float, ...]]:
    kind = entity.dxftype()
    if kind == "LINE":
        return sorted([tuple(entity.dxf.start), tuple(entity.dxf.end)])
    if kind == "LWPOLYLINE":
        return [tuple(p) for p in entity.get_points("xyb")]
    if kind == "ELLIPSE":
        ends = (entity.dxf.start_param, entity.dxf.end_param)
        return [tuple(entity.dxf.center), tuple(entity.dxf.major_axis), (entity.dxf.ratio, *ends)]
    ends = (entity.start_angle, entity.end_angle) if kind == "ARC" else ()  # type: ignore[assignment]
    return [tuple(entity.dxf.center), (entity.dxf.radius, *ends)]


def test_the_finish_line_is_the_outline_itself() -> None:
    """The drawing's frame is that of the top: middle at the origin, nothing moved or scaled."""
    top = Oval(1200, 700)
    scene = template_drawing(TemplateContent("Top", top.path(), core=top.parallel(-6.0)))
    (finish,) = on(scene, layers.FINISH)
    assert isinstance(finish, Stroke)
    assert finish.path == top.path()
    assert scene.frame.middle.x == pytest.approx(0.0)


def test_marks_are_marks_and_each_has_its_name() -> None:
    """Each mark is drawn at its place with its hole, and named once."""
    marks = (TemplateMark("C1", Point(-250, 0), 3.0), TemplateMark("tap", Point(100, 90), 22.0))
    scene = template_drawing(TemplateContent("Top", Capsule(1200, 700).path(), marks=marks))
    drawn = [item for item in on(scene, layers.MARKS) if isinstance(item, Mark)]
    assert [(m.at, m.diameter) for m in drawn] == [(m.at, m.diameter) for m in marks]
    names = [item.words for item in on(scene, layers.MARK_NAMES) if isinstance(item, Text)]
    assert names == ["C1", "tap"]


def test_ticks_stand_where_straights_meet_arcs() -> None:
    """A capsule has four ticks, square across its straights' ends; an oval has none."""
    ticks = joint_ticks(Capsule(1200, 700).path())
    middles = sorted((round(t.bounds.middle.x), round(t.bounds.middle.y)) for t in ticks)
    assert middles == [(-250, -350), (-250, 350), (250, -350), (250, 350)]
    assert all(t.bounds.width < 1e-9 for t in ticks)
    assert joint_ticks(Oval(1200, 700).path()) == joint_ticks(circle(Point(0, 0), 9)) == ()


@given(strategies.sizes, strategies.st.booleans(), strategies.st.booleans())
def test_a_bar_is_as_long_as_its_words(room: float, upright: bool, imperial: bool) -> None:
    """A check bar's end ticks stand as far apart as it says, with a tick at every cm or inch."""
    tape = Tape(imperial=imperial)
    length = round(room / tape.division) * tape.division
    bar = CheckBar(Point(7, 8), length, upright, tape)
    boxes = [line.path.bounds for line in bar.lines()]
    along = [b.middle.y - 8 if upright else b.middle.x - 7 for b in boxes[1:]]
    assert along[0] == pytest.approx(0.0)
    assert along[-1] == pytest.approx(length)
    assert bar.text(0.5).words == f"check {tape.measure(length)}"
    steps = [b - a for a, b in pairwise(along[:-1])]
    assert all(step == pytest.approx(25.4 if imperial else 10.0) for step in steps)
    assert len(set(along)) == len(along)


def test_the_face_mark_differs_from_behind() -> None:
    """Mirrored, the flag flies to the left of its pole, in the same box."""
    for mirrored in (False, True):
        pole, flag, foot = (s.path for s in face_mark(Point(100, 50), mirrored=mirrored))
        assert (flag.bounds.middle.x < pole.bounds.middle.x) == mirrored
        assert foot.bounds.bottom == pytest.approx(50)
        assert min(p.bounds.left for p in (pole, flag, foot)) == pytest.approx(100)


def test_the_mirrored_drawing_says_so() -> None:
    """A template for the underside bears the word; one for the face does not."""
    content = TemplateContent("Top", Capsule(1200, 700).path())
    assert "MIRRORED" in to_svg(template_drawing(content.from_underside()))
    assert "MIRRORED" not in to_svg(template_drawing(content))
