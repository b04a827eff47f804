"""What is told of the ways to draw an outline: what each takes, how it goes, why it does not serve.

A way is known by what it sets, its figures: each kind of them has its own words. Quick answers
without a panel tell their figures first, then each way to draw, the best first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields, is_dataclass

from ..marking.instruments import Ordinate, Swing
from ..marking.marks import MarkSet
from ..marking.method import Against, HandTool, Method, Pivot
from ..marking.methods import Ordinates
from ..marking.oval_methods import OvalOrdinates, SuperellipseOrdinates
from ..marking.quick import Division, MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..units import Tape
from .marks import beyond_words, off_wood_words
from .say import Passage, Say, Table, listed, passage, sentence, table, thin_words, unit_words
from .way_points import SOME_STRAIGHTS, points_in

Named = Callable[[Pivot], str]
"""How a pivot is called: the label of the mark that it stands in, or its own name."""


STRAIGHT_SIDES = passage(
    "Straight sides", "Join the corners X1 to X4 with a straightedge: this top has no curve."
)
"""What is told of a rectangle."""


def points_of(method: Method, tape: Tape, named: Named = lambda pivot: pivot.name) -> list[str]:
    """Return what is done to draw a line, one thing after the other."""
    square = "Square: lay it on the centrelines, one quarter after the other; pins inside it."
    points = [square] if HandTool.SQUARE in method.tools else []
    points += points_in(method.figures, method, tape)
    if isinstance(method.figures, Swing):
        points = [f"{point.removesuffix('.')}{_about(method, named)}." for point in points]
    if method.joins:
        points.append(SOME_STRAIGHTS)
    return points


def ordinates_table(figures: object, tape: Tape) -> Table | None:
    """Return the points of a way that goes by ordinates, of a quarter; None for another way."""
    match figures:
        case OvalOrdinates() | SuperellipseOrdinates():
            return _ordinates(figures.ordinates, tape, "The same in all four quarters.")
        case Ordinates():
            about = "the middle of the chord"
            return _ordinates(figures.ordinates, tape, "The same to both sides.", about)
    return None


def _ordinates(
    points: Sequence[Ordinate], tape: Tape, caption: str, about: str = "O along the long axis"
) -> Table:
    out, up = f"Out from {about}", "Up from it"
    told = {out: lambda o: tape.figure(o.out), up: lambda o: tape.figure(o.up)}
    return table(points, told, caption)


def against_words(method: Method, tape: Tape) -> str:
    """Return why a way does not serve here, as a clause; empty where it does."""
    against = method.against
    if against is None:
        return ""
    if against.matter is Against.NO_TOOL:
        return f"no {' and no '.join(against.who)} at hand"
    if against.matter is Against.NO_END:
        return "arcs that meet at 45° leave no end: it is too long for its width"
    assert against.found is not None and against.limit is not None
    return (
        f"its tongue, {tape.figure(against.found)}, does not reach the "
        f"{tape.figure(against.limit)} that the pins run"
    )


def within_words(method: Method, tape: Tape) -> str:
    """Return how near to the true line a careful hand comes."""
    return f"{tape.exact(method.error, 1)} {tape.unit}"


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
    tape = say.tape
    best = methods[0]
    points = [point for method in methods for point in points_of(method, tape, named)]
    own = ordinates_table(best.figures, tape)
    proof = _ordinates(held.ordinates, tape, "The line must pass here in all four quarters.")
    return passage(
        f"Draw the curve: {best.name}",
        f"With {listed(tool.value for tool in best.tools)}. Drawn with care the line lies within "
        f"{within_words(best, tape)} of the true one; the rounded figures of this sheet add "
        f"{tape.exact(held.rounding_error(tape), 1)} {tape.unit} at most.",
        *_holes(best, say, turned_over=turned_over),
        "" if best.serves else f"It does not serve as it is: {against_words(best, tape)}",
        points=[*points, _core(best, lipping, tape, named) if lipping else ""],
        tables=[proof] if own is None else [own, proof],
        warnings=[
            off_wood_words(named(pivot), pivot.off, tape)
            for method in methods
            for pivot in method.pivots
            if pivot.off is not None
        ],
    )


def _holes(method: Method, say: Say, *, turned_over: bool) -> Iterator[str]:
    """Yield where pins leave holes: on each face that something is swung on, and on no other."""
    pad = "stick a scrap of thin board over each centre and pin into that"
    if method.leaves_hole and not say.mirrored:
        yield f"It leaves holes in the SHOW face: {pad}."
    elif method.leaves_hole:
        yield "It leaves holes in the underside, where none shows."
    if turned_over:
        yield (
            "The router turns about the same centres on both faces: bore none through. Carry the "
            f"centrelines round to the other face, set the centres out there too, and on the show "
            f"face {pad}."
        )


def others_words(methods: Sequence[Method], tape: Tape) -> Passage:
    """Return the ways that may be taken in place of the one that is told in full."""

    def against(method: Method) -> str:
        if not method.serves:
            return sentence(against_words(method, tape))
        why = [] if method.draws_line else ["Cuts at once: there is no line to saw by."]
        off = [beyond_words(pivot.off, tape) for pivot in method.pivots if pivot.off is not None]
        if off:
            why.append(f"Boards of the same thickness beside it: {', '.join(dict.fromkeys(off))}.")
        return " ".join(why)

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


def _about(method: Method, named: Named) -> str:
    """Return which marks a radius is swung about."""
    names = [named(pivot) for pivot in method.pivots]
    return f", about {', '.join(names)}" if names else f", at {len(method.figures.centres)} corners"


def _core(method: Method, lipping: float, tape: Tape, named: Named) -> str:
    """Return how the core line is drawn: by its own radius, or beside the finish line."""
    if isinstance(method.figures, Swing):
        radius = method.figures.core_radius(lipping)
        if radius > 0:
            return f"Core line: the same with {tape.measure(radius)}{_about(method, named)}."
    inside = thin_words(lipping, tape)
    return f"Core line: {inside} inside the finish line all round, by a gauge: no oval of its own."


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
