"""What is told of the ways to draw an outline: what each takes, how it goes, why it does not serve.

A way is known by what it sets, its figures: each kind of them has its own words. Quick answers
without a panel tell their figures first, then each way to draw, the best first.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields, is_dataclass

from ..marking.marks import MarkSet
from ..marking.method import Against, HandTool, Method, Pivot
from ..marking.methods import Ordinates
from ..marking.oval_methods import OvalOrdinates, SuperellipseOrdinates
from ..marking.quick import Division, MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..marking.string_loop import Ordinate, Swing
from ..units import Tape
from .marks import beyond_words, off_wood_words
from .say import Passage, Say, Table, listed, sentence, thin_words, unit_words
from .way_points import SOME_STRAIGHTS, points_in

Named = Callable[[Pivot], str]
"""How a pivot is called: the label of the mark that it stands in, or its own name."""


STRAIGHT_SIDES = Passage(
    "Straight sides",
    ("Join the corners X1 to X4 with a straightedge: this top has no curve.",),
)
"""What is told of a rectangle."""


def points_of(method: Method, tape: Tape, named: Named = lambda pivot: pivot.name) -> list[str]:
    """Return what is done to draw a line, one thing after the other."""
    points = list(points_in(method.figures, method, tape))
    if HandTool.SQUARE in method.tools:
        points.insert(
            0,
            "Square: lay it on the centrelines, one quarter after the other; pins inside it.",
        )
    if isinstance(method.figures, Swing):
        points = [f"{point.removesuffix('.')}{_about(method, named)}." for point in points]
    if method.joins:
        points.append(SOME_STRAIGHTS)
    return points


def ordinates_table(figures: object, tape: Tape) -> Table | None:
    """Return the points of a way that goes by ordinates, of a quarter; None for another way."""
    match figures:
        case OvalOrdinates() | SuperellipseOrdinates():
            return quarter_table(figures.ordinates, tape, "The same in all four quarters.")
        case Ordinates():
            rows = tuple((tape.figure(o.out), tape.figure(o.up)) for o in figures.ordinates)
            headings = ("Out from the middle of the chord", "Up from it")
            return Table(headings, rows, "The same to both sides.")
    return None


def quarter_table(ordinates: Sequence[Ordinate], tape: Tape, caption: str) -> Table:
    """Return points of a quarter of a top."""
    rows = tuple((tape.figure(o.out), tape.figure(o.up)) for o in ordinates)
    return Table(("Out from O along the long axis", "Up from it"), rows, caption)


def tools_words(method: Method) -> str:
    """Return what a way takes."""
    return listed(tool.value for tool in method.tools)


def against_words(method: Method, tape: Tape) -> str:
    """Return why a way does not serve here, as a clause; empty where it does."""
    against = method.against
    if against is None:
        return ""
    if against.matter is Against.NO_TOOL:
        return f"no {' and no '.join(against.who)} at hand"
    if against.matter is Against.NO_END:
        return "arcs that meet at 45° leave no end: it is too long for its width"
    assert against.found is not None
    assert against.limit is not None
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
    """Return how the curves of a top are drawn.

    Parameters
    ----------
    methods : sequence of Method
        Of one name: several where a top has several radii.
    held : MarkSet
        The marks that it is drawn from.
    lipping : float
        Thickness of the lipping, mm; 0 for none.
    turned_over : bool
        Whether the router is then swung about the same centres on both faces.
    """
    tape = say.tape
    best = methods[0]
    words = [
        f"With {tools_words(best)}. Drawn with care the line lies within "
        f"{within_words(best, tape)} of the true one; the rounded figures of this sheet add "
        f"{tape.exact(held.rounding_error(tape), 1)} {tape.unit} at most."
    ]
    words += _holes(best, say, turned_over=turned_over)
    if not best.serves:
        words.append(f"It does not serve as it is: {against_words(best, tape)}.")
    points = [point for method in methods for point in points_of(method, tape, named)]
    if lipping:
        points.append(_core(best, lipping, tape, named))
    tables = (
        ordinates_table(best.figures, tape),
        quarter_table(held.ordinates, tape, "The line must pass here in all four quarters."),
    )
    return Passage(
        f"Draw the curve: {best.name}",
        tuple(words),
        tuple(points),
        tuple(table for table in tables if table is not None and table.rows),
        tuple(_boards(methods, tape, named)),
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
    rows = []
    for method in methods:
        if not method.serves:
            rows.append((method.name, "–", "–", sentence(against_words(method, tape))))
            continue
        why = [] if method.draws_line else ["Cuts at once: there is no line to saw by."]
        why += _beyond(method, tape)
        hole = "yes" if method.leaves_hole else "no"
        rows.append((method.name, tape.exact(method.error, 1), hole, " ".join(why)))
    headings = ("Way", f"Within, {tape.unit}", "Leaves a hole", "What speaks against it")
    table = Table(headings, tuple(rows))
    return Passage("Other ways to draw it", ("In place of the step above.",), tables=(table,))


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


def _boards(methods: Sequence[Method], tape: Tape, named: Named) -> Iterator[str]:
    """Yield what to do about points that have no wood under them."""
    for method in methods:
        for pivot in method.pivots:
            if pivot.off is not None:
                yield sentence(f"{named(pivot)}: {off_wood_words(pivot.off, tape)}")


def _beyond(method: Method, tape: Tape) -> Iterator[str]:
    off = [beyond_words(pivot.off, tape) for pivot in method.pivots if pivot.off is not None]
    if off:
        yield f"Boards of the same thickness beside it: {', '.join(dict.fromkeys(off))}."


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
