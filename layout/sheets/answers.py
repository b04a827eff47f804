"""Quick answers without a panel as a drawing at full size."""

from __future__ import annotations

from typing import Any

from ..drawing import layers
from ..drawing.scene import Group, Mark, Scene, Stroke, Text, line
from ..geometry import Arc, Bounds, Path, Point
from ..marking.quick import Division, MarkedArc, MarkedSuperellipse
from ..template.content import TemplateContent, TemplateMark
from ..units import Tape
from ..words.ways import Answer
from .template_drawing import template_drawing

_ROUND = 25.0
"""White round the drawing of an arc, mm."""


def answer_scene(answer: Answer, tape: Tape) -> Scene:
    """Return an answer drawn at full size: the line, its centres and its centrelines."""
    if isinstance(answer, MarkedArc):
        return _arc_scene(answer, tape)
    if isinstance(answer, MarkedSuperellipse | Division):
        raise TypeError(f"{type(answer).__name__} is a table, not a drawing")
    outline = answer.outline
    best: Any = next((m for m in answer.methods if m.serves), answer.methods[0])
    content = TemplateContent(
        title=f"{outline.name} {tape.figure(outline.length)} × {tape.measure(outline.width)}",
        finish=outline.path(),
        marks=tuple(TemplateMark(pivot.name, pivot.at) for pivot in best.pivots),
        symmetric_x=True,
        symmetric_y=True,
        tape=tape,
    )
    return template_drawing(content)


def _arc_scene(answer: MarkedArc, tape: Tape) -> Scene:
    """Return the arc over its chord, with an upright at each station."""
    left, right = Point(-answer.chord / 2, 0.0), Point(answer.chord / 2, 0.0)
    arc = Path((Arc.from_chord_and_rise(right, left, answer.rise),))
    places = dict.fromkeys(Point(s * o.out, o.up) for o in answer.ordinates for s in (1, -1))
    uprights = (line(Point(place.x, 0.0), place) for place in places if place.y > 0)
    told = (
        f"chord {tape.measure(answer.chord)}, rise {tape.measure(answer.rise)}, "
        f"radius {tape.measure(answer.radius)}"
    )
    groups = (
        Group(layers.CENTRELINE, (line(left, right), *uprights)),
        Group(layers.FINISH, (Stroke(arc),)),
        Group(layers.MARKS, tuple(map(Mark, (left, right, Point(0.0, answer.rise))))),
        Group(layers.LETTERING, (Text(Point(0.0, -12.0), told, 5.0, "middle"),)),
    )
    extent = arc.bounds.joined(Bounds.around((left, right)))
    return Scene(told, extent.grown(_ROUND), groups)
