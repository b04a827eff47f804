"""Quick answers without a panel: figures, and each way to draw, the best first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass

from ..marking.method import Method
from ..marking.quick import Division, MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..units import Tape
from .say import unit_words
from .ways import against_words, ordinates_table, points_of, within_words

Answer = MarkedOval | MarkedArcs | MarkedArc | MarkedSuperellipse | Division
"""What `mark` can answer."""


def answer_lines(answer: Answer, tape: Tape) -> Iterator[str]:
    """Yield an answer in words: the figures, then each way to draw it, the best first."""
    if isinstance(answer, Division):
        yield from _division(answer, tape)
        return
    yield f"{answer.shape.capitalize()}, all in {unit_words(tape)}"
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
