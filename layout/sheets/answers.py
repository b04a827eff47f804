"""Quick answers without a panel as a drawing at full size."""

from __future__ import annotations

from typing import Any

from ..drawing import layers
from ..drawing.scene import Group, Mark, Scene, Stroke, Text
from ..geometry import Arc, Path, Point
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
    half = answer.chord / 2
    arc = Path((Arc.from_chord_and_rise(Point(half, 0.0), Point(-half, 0.0), answer.rise),))
    chord = Path.through((Point(-half, 0.0), Point(half, 0.0)))
    places = [Point(side * o.out, o.up) for o in answer.ordinates for side in (1, -1)]
    uprights = tuple(
        Stroke(Path.through((Point(p.x, 0.0), p))) for p in dict.fromkeys(places) if p.y > 0
    )
    words = Text(
        Point(0.0, -12.0),
        f"chord {tape.measure(answer.chord)}, rise {tape.measure(answer.rise)}, "
        f"radius {tape.measure(answer.radius)}",
        5.0,
        "middle",
    )
    ends = (Mark(Point(-half, 0.0)), Mark(Point(half, 0.0)), Mark(Point(0.0, answer.rise)))
    return Scene(
        words.words,
        arc.bounds.joined(chord.bounds).grown(_ROUND),
        (
            Group(layers.CENTRELINE, (Stroke(chord), *uprights)),
            Group(layers.FINISH, (Stroke(arc),)),
            Group(layers.MARKS, ends),
            Group(layers.LETTERING, (words,)),
        ),
    )
