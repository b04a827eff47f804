"""Quick answers without a panel, as lines to read and as a drawing at full size."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from ..drawing import layers
from ..drawing.scene import Group, Mark, Scene, Stroke, Text
from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.segments import Arc
from ..marking.divide import Division
from ..marking.method import Method
from ..marking.quick import MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..outlines import Capsule, Circle, Outline, Oval, RoundedRectangle
from ..template.content import TemplateContent, TemplateMark
from ..units import Tape
from ..words.ways import against_words, ordinates_table, points_of, within_words
from .template_drawing import template_drawing

Answer = MarkedOval | MarkedArcs | MarkedArc | MarkedSuperellipse | Division
"""What `mark` can answer."""

_ROUND = 25.0
"""White round the drawing of an arc, mm."""


def answer_lines(answer: Answer, tape: Tape) -> Iterator[str]:
    """Yield an answer in words: the figures, then each way to draw it, the best first."""
    if isinstance(answer, Division):
        yield from _division(answer, tape)
        return
    yield f"{answer.shape.capitalize()}, all in {'inches' if tape.imperial else 'mm'}"
    yield from _figures(answer, tape, indent="  ")
    if isinstance(answer, MarkedSuperellipse):
        return
    for method in answer.methods:
        yield from _method(method, tape)


def _figures(value: object, tape: Tape, indent: str) -> Iterator[str]:
    """Yield the lengths that a value holds under its own names."""
    assert is_dataclass(value)
    for item in fields(value):
        held = getattr(value, item.name)
        name = item.name.replace("_", " ")
        unit = item.metadata.get("unit", "mm")
        if isinstance(held, float) and unit == "":
            yield f"{indent}{name:<22}{held:>10g}"
        elif isinstance(held, float) and unit == "mm":
            yield f"{indent}{name:<22}{tape.figure(held):>10}   ({tape.exact(held)})"
        elif item.name in ("ordinates", "checks") and held:
            pairs = "; ".join(f"{tape.figure(o.out)} out, {tape.figure(o.up)} up" for o in held)
            yield f"{indent}{name:<22}{pairs}"


def _method(method: Method, tape: Tape) -> Iterator[str]:
    yield ""
    if not method.serves:
        yield f"{method.name}: does not serve here, {against_words(method, tape)}"
        return
    yield (
        f"{method.name} ({', '.join(tool.value for tool in method.tools)}; "
        f"within {within_words(method, tape)}{'; leaves a hole' if method.leaves_hole else ''})"
    )
    table = ordinates_table(method.figures, tape)
    if table is not None:
        for out, up in (table.headings, *table.rows):
            yield f"     {out:>34}  {up:>12}"
    for number, point in enumerate(points_of(method, tape), start=1):
        yield f"  {number}. {point}"


def _division(answer: Division, tape: Tape) -> Iterator[str]:
    yield (
        f"{tape.measure(answer.total)} in {answer.parts}: {tape.exact(answer.spacing)} {tape.unit} "
        "each. Measure every mark from the same end:"
    )
    for number, mark in enumerate(answer.marks, start=1):
        yield f"  {number:>3}  {tape.figure(mark.rounded):>10}   ({tape.exact(mark.exact)})"


def answer_scene(answer: Answer, tape: Tape) -> Scene:
    """Return an answer drawn at full size: the line, its centres and its centrelines."""
    if isinstance(answer, MarkedArc):
        return _arc_scene(answer, tape)
    if isinstance(answer, MarkedSuperellipse | Division):
        raise TypeError(f"{type(answer).__name__} is a table, not a drawing")
    outline = _outline(answer)
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


def _outline(answer: MarkedOval | MarkedArcs) -> Outline:
    if isinstance(answer, MarkedOval):
        return Oval(answer.length, answer.width)
    if answer.shape == "circle":
        return Circle(answer.length)
    if answer.shape == "capsule":
        return Capsule(answer.length, answer.width)
    return RoundedRectangle.with_radius(answer.length, answer.width, answer.radius)


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
