"""The ways to draw an outline: on the bench sheet, and as quick answers without a panel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass

from ..marking.instruments import Swing
from ..marking.marks import MarkSet
from ..marking.method import Method
from ..marking.quick import Division, MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..units import Tape
from .marks import beyond_words, off_wood_words
from .say import Passage, Say, listed, passage, sentence, table, unit_words
from .way_points import Named, about_words, against_words, ordinates_in, ordinates_table, points_of

STRAIGHT_SIDES = passage(
    "Straight sides", "Join the corners X1 to X4 with a straightedge: this top has no curve."
)
"""What is told of a rectangle."""


def drawn_words(
    methods: Sequence[Method],
    held: MarkSet,
    say: Say,
    named: Named,
    *,
    lipping: float,
    turned_over: bool = False,
) -> Passage:
    """Return how the curves of a top are drawn from the marks `held`, the core of a lipping too.

    The methods are of one name, several where a top has several radii; `lipping` is its thickness,
    mm, or 0; `turned_over` the router is swung about the same centres on both faces.
    """
    tape, best = say.tape, methods[0]
    points = [point for method in methods for point in points_of(method, tape, named)]
    own = ordinates_table(best.figures, tape)
    proof = ordinates_in(held.ordinates, tape, "The line must pass here in all four quarters.")
    pad = "stick a scrap of thin board over each centre and pin into that"
    hole = "underside, where none shows" if say.mirrored else f"SHOW face: {pad}"
    return passage(
        f"Draw the curve: {best.name}",
        f"With {listed(tool.value for tool in best.tools)}. Drawn with care the line lies within "
        f"{tape.fine(best.error)} of the true one; the rounded figures of this sheet add "
        f"{tape.fine(held.rounding_error(tape))} at most.",
        best.leaves_hole and f"It leaves holes in the {hole}.",
        turned_over
        and "The router turns about the same centres on both faces: bore none through. Carry the "
        "centrelines round to the other face, set the centres out there too, and on the show face "
        f"{pad}.",
        not best.serves and f"It does not serve as it is: {against_words(best, tape)}",
        points=[*points, lipping > 0 and _core(best, lipping, tape, named)],
        tables=[proof] if own is None else [own, proof],
        warnings=[
            off_wood_words(named(pivot), pivot.off, tape)
            for method in methods
            for pivot in method.pivots
            if pivot.off is not None
        ],
    )


def _core(method: Method, lipping: float, tape: Tape, named: Named) -> str:
    """Return how the core line is drawn: by its own radius, or beside the finish line."""
    if isinstance(method.figures, Swing):
        radius = method.figures.core_radius(lipping)
        if radius > 0:
            return f"Core line: the same with {tape.measure(radius)}, {about_words(method, named)}."
    inside = f"{tape.thin(lipping)} inside the finish line all round"
    return f"Core line: {inside}, by a gauge: no oval of its own."


def others_words(methods: Sequence[Method], tape: Tape) -> Passage:
    """Return the ways that may be taken in place of the one that is told in full."""

    def against(method: Method) -> str:
        if not method.serves:
            return sentence(against_words(method, tape))
        off = {beyond_words(pivot.off, tape): "" for pivot in method.pivots if pivot.off}
        why = "" if method.draws_line else "Cuts at once: there is no line to saw by. "
        why += f"Boards of the same thickness beside it: {', '.join(off)}." if off else ""
        return why.rstrip()

    def serving(method: Method, words: str) -> str:
        return words if method.serves else "–"

    ways = table(
        methods,
        {
            "Way": lambda m: m.name,
            f"Within, {tape.unit}": lambda m: serving(m, tape.exact(m.error, 1)),
            "Leaves a hole": lambda m: serving(m, "yes" if m.leaves_hole else "no"),
            "What speaks against it": against,
        },
    )
    return passage("Other ways to draw it", "In place of the step above.", tables=[ways])


Answer = MarkedOval | MarkedArcs | MarkedArc | MarkedSuperellipse | Division
"""What `mark` can answer."""


def answer_lines(answer: Answer, tape: Tape) -> Iterator[str]:
    """Yield an answer in words: the figures, then each way to draw it, the best first."""
    if isinstance(answer, Division):
        total, each = tape.measure(answer.total), f"{tape.exact(answer.spacing)} {tape.unit}"
        yield f"{total} in {answer.parts}: {each} each. Measure every mark from the same end:"
        for number, mark in enumerate(answer.marks, start=1):
            yield f"  {number:>3}  {tape.figure(mark.rounded):>10}   ({tape.exact(mark.exact)})"
        return
    yield f"{answer.shape.capitalize()}, all in {unit_words(tape)}"
    yield from _figures(answer, tape)
    for method in () if isinstance(answer, MarkedSuperellipse) else answer.methods:
        yield from _method(method, tape)


def _figures(value: object, tape: Tape) -> Iterator[str]:
    """Yield the lengths that a value holds under its own names."""
    assert is_dataclass(value)
    for item in fields(value):
        held = getattr(value, item.name)
        name = item.name.replace("_", " ")
        unit = item.metadata.get("unit", "mm")
        if isinstance(held, float) and unit == "":
            yield f"  {name:<22}{held:>10g}"
        elif isinstance(held, float) and unit == "mm":
            yield f"  {name:<22}{tape.figure(held):>10}   ({tape.exact(held)})"
        elif item.name in ("ordinates", "checks") and held:
            pairs = "; ".join(f"{tape.figure(o.out)} out, {tape.figure(o.up)} up" for o in held)
            yield f"  {name:<22}{pairs}"


def _method(method: Method, tape: Tape) -> Iterator[str]:
    yield ""
    if not method.serves:
        yield f"{method.name}: does not serve here, {against_words(method, tape)}"
        return
    tools = ", ".join(tool.value for tool in method.tools)
    hole = "; leaves a hole" if method.leaves_hole else ""
    yield f"{method.name} ({tools}; within {tape.fine(method.error)}{hole})"
    table = ordinates_table(method.figures, tape)
    if table is not None:
        for out, up in (table.headings, *table.rows):
            yield f"     {out:>34}  {up:>12}"
    for number, point in enumerate(points_of(method, tape), start=1):
        yield f"  {number}. {point}"
