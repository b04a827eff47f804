"""The ways to draw an outline: on the bench sheet, and as quick answers without a panel."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from ..marking.arcs import ArchTrammel, EightCentreOval, FourCentreOval, LargeArc, SprungLath
from ..marking.instruments import Ordinate, StringLoop, Swing, TrammelRod
from ..marking.marks import MarkSet
from ..marking.method import Against, FullSize, HandTool, JoinedCorners, Method, Pivot
from ..marking.methods import Ordinates, SquareAndHalfDiagonal, SteppedCircle
from ..marking.oval_methods import OvalOrdinates, SuperellipseOrdinates
from ..marking.quick import Division, MarkedArc, MarkedArcs, MarkedOval, MarkedSuperellipse
from ..units import MM_PER_INCH, Tape
from .marks import beyond_words, off_wood_words
from .say import Passage, Say, Table, listed, passage, sentence, table, unit_words

Answer = MarkedOval | MarkedArcs | MarkedArc | MarkedSuperellipse | Division  # what `mark` answers
Named = Callable[[Pivot], str]  # how a pivot is called: by the mark it stands in, or its own name
PRICKED_EVERY = 20.0  # how far apart a printed line is pricked through, mm (our choice)
_ALL_ROUND = "Join: the corners as marked, one after the other, with a straightedge."
_SOME_STRAIGHTS = (
    "Join: each straight side that is cut from mark to mark, with a straightedge; an edge of the "
    "panel that stays needs no line."
)
_ENDS = (
    "Ends: centres on the long centreline, {end_centre:figure} from O; radius {end_radius:figure}."
)
_SIDES = (
    "Sides: centres on the short centreline, {side_centre:figure} from O, on the far side; radius "
    "{side_radius:figure}."
)
_TABLE = "Draw: the points of the table, the same in all four quarters; a lath through them."

_POINTS: dict[type, str] = {
    StringLoop: "Nails: on the long centreline, {half:figure} each side of O, "
    "{nail_spacing:figure} apart; from each to the end of the short axis {to_side:figure} "
    "exactly.\n"
    "Loop: tie a closed loop {loop:figure} long, slack: that counts nails of {nail:thin}, a "
    "pencil of {pencil:thin} where the string runs, and {stretch:.1%} of stretch.\n"
    "If it slips: a loop {slip:figure} too long makes the top {longer:figure} longer but "
    "{wider:figure} wider: tie it again until the width is right.\n"
    "Draw: pencil notched to the nail, string taut and low; try the width, {drawn.width:figure}, "
    "before the whole line is drawn.",
    TrammelRod: "Rod: from the pencil one pin at {to_long_axis_pin:figure}, the other at "
    "{to_short_axis_pin:figure}.\n"
    "Draw: the near pin on the long centreline, the far one on the short; mark many points, or "
    "slide the pins along straightedges.",
    FourCentreOval: f"{_ENDS}\n{_SIDES}",
    EightCentreOval: f"{_ENDS}\n"
    "Between: centres {along:figure} along and {across:figure} across from O, beyond the long "
    "centreline; radius {middle_radius:figure}.\n"
    f"{_SIDES}",
    OvalOrdinates: _TABLE,
    SuperellipseOrdinates: _TABLE,
    Ordinates: "Draw: the points of the table, the same to both sides; a lath through them.",
    LargeArc: "Swing: centre {below:figure} from the middle of the chord, {way} the arc; radius "
    "{radius:figure}.",
    ArchTrammel: "Nails: at both ends of the chord, {chord:figure} apart, and at the crown, "
    "{rise:figure} up.\n"
    "Laths: each at least {least_lath:figure} long, laid from an end to the crown and past it; "
    "screw them together at the crown, stiffened by a third across.\n"
    "Draw: crown nail out, pencil in the joint, laths kept on both end nails.",
    SprungLath: "Lath: bent along nails at {at}, from the middle of the chord to both sides; a "
    "line drawn along it.",
    SteppedCircle: "Circle: about O, radius {radius:figure}: it must pass both ends of the long "
    "axis, E1 and E2.\n"
    "Step: the same {radius:figure} from E1 to both sides on the circle, and from E2; the two "
    "gaps that are left over must be {radius:figure} too.\n"
    "Join: the six marks, one after the other, with a straightedge.",
    SquareAndHalfDiagonal: "Square: {square:figure} each way round O, its sides through E1, E2, "
    "S1 and S2; both diagonals {diagonal:figure}.\n"
    "Strike: from each corner of the square half the diagonal, {half_diagonal:figure}, onto both "
    "of its sides; each mark then stands {cut_off:figure} from the next corner.\n"
    "Join: the two marks beside each corner of the square.",
    FullSize: "Sheets: print the template at 100 % and prove both bars on it; joined, it is "
    "{length:figure} long and {width:figure} wide.\n"
    "Lay: its centrelines on those of the panel, and tape it down; look at the marks that both "
    "have.\n"
    "Prick: through the line every {pricked:measure}, closer where it bends; join with a lath.",
}
"""What is done with the figures of a way, by their kind, each in a line."""

_SWUNG = {
    HandTool.STRING: "Swing: string from the centre to the pencil {radius:figure}, {about}.",
    HandTool.BAR: "Swing: point to pencil {radius:figure}, {about}.",
    HandTool.ROUTER: "Swing: pin to the near edge of the bit {radius:figure}, {about}.",
    HandTool.TEMPLATE: "Template: a corner of radius {radius:figure} cut once in thin board, laid "
    "to both straights, {about}.",
}


def points_of(method: Method, tape: Tape, named: Named = lambda pivot: pivot.name) -> list[str]:
    """Return what is done to draw a line, one thing after the other."""
    figures = method.figures
    if isinstance(figures, Swing):
        points = [_SWUNG[method.tools[0]]]
    elif isinstance(figures, JoinedCorners):
        points = [_ALL_ROUND if figures.all_round else _SOME_STRAIGHTS]
    else:
        points = _POINTS[type(figures)].splitlines()
    square = "Square: lay it on the centrelines, one quarter after the other; pins inside it."
    points = [square] * (HandTool.SQUARE in method.tools) + points
    points += [_SOME_STRAIGHTS] * bool(method.joins)
    return [tape.fill(words, figures, **_more(method, tape, named)) for words in points]


def _more(method: Method, tape: Tape, named: Named) -> dict[str, Any]:
    """Return what the words of a way need besides its figures."""
    more: dict[str, Any] = {}
    match method.figures:
        case StringLoop() as loop:
            half, slip = loop.nail_spacing / 2, MM_PER_INCH / 8 if tape.imperial else 3.0
            slipped, drawn = loop.slipped(slip), loop.drawn
            more = {"half": half, "to_side": math.hypot(half, drawn.width / 2), "slip": slip}
            more["longer"] = slipped.length - drawn.length
            more["wider"] = slipped.width - drawn.width
        case EightCentreOval(middle_centre=at):
            more = {"along": abs(at.x), "across": abs(at.y)}
        case Swing():
            more = {"about": about_words(method, named)}
        case LargeArc() as arc:
            way = "away from" if arc.is_flat else "towards"
            more = {"below": abs(arc.centre_below), "way": way}
        case SprungLath() as lath:
            nails = (tape.fill("{out:figure} out {up:figure} up", each) for each in lath.ordinates)
            more = {"at": ", ".join(nails)}
        case SquareAndHalfDiagonal() as top:
            more = {"diagonal": 2 * top.half_diagonal}
        case FullSize():
            more = {"pricked": PRICKED_EVERY}
    return more


def about_words(method: Method, named: Named) -> str:
    """Return which marks a radius is swung about."""
    names = [named(pivot) for pivot in method.pivots]
    return f"about {', '.join(names)}" if names else f"at {len(method.figures.centres)} corners"


def ordinates_table(figures: object, tape: Tape) -> Table | None:
    """Return the points of a way that goes by ordinates, of a quarter; None for another way."""
    match figures:
        case OvalOrdinates() | SuperellipseOrdinates():
            return ordinates_in(figures.ordinates, tape, "The same in all four quarters.")
        case Ordinates():
            about = "the middle of the chord"
            return ordinates_in(figures.ordinates, tape, "The same to both sides.", about)
    return None


def ordinates_in(
    points: Sequence[Ordinate], tape: Tape, caption: str, about: str = "O along the long axis"
) -> Table:
    """Return points of a line, each by two lengths."""
    columns = {f"Out from {about}": "{out:figure}", "Up from it": "{up:figure}"}
    return table(points, columns, caption, tape)


_AGAINST = {
    Against.NO_TOOL: "no {who} at hand",
    Against.NO_END: "arcs that meet at 45° leave no end: it is too long for its width",
    Against.SHORT_TONGUE: "its tongue, {found:figure}, does not reach the {limit:figure} that the "
    "pins run",
}


def against_words(method: Method, tape: Tape) -> str:
    """Return why a way does not serve here, as a clause; empty where it does."""
    against = method.against
    if against is None:
        return ""
    return tape.fill(_AGAINST[Against(against.matter)], against, who=" and no ".join(against.who))


def drawn_words(
    methods: Sequence[Method],
    held: MarkSet,
    say: Say,
    named: Named,
    *,
    lipping: float,
    turned_over: bool = False,
) -> Passage:
    """Return how the curves of a top are drawn from the marks, the core of a `lipping`, mm, too.

    The methods are of one name, several where a top has several radii; `turned_over` the router is
    swung about the same centres on both faces.
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
    figures = method.figures
    radius = figures.core_radius(lipping) if isinstance(figures, Swing) else 0.0
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
        yield ""
        if not method.serves:
            yield f"{method.name}: does not serve here, {against_words(method, tape)}"
            continue
        tools = ", ".join(tool.value for tool in method.tools)
        hole = "; leaves a hole" if method.leaves_hole else ""
        yield f"{method.name} ({tools}; within {tape.fine(method.error)}{hole})"
        told = ordinates_table(method.figures, tape)
        for out, up in () if told is None else (told.headings, *told.rows):
            yield f"     {out:>34}  {up:>12}"
        for number, point in enumerate(points_of(method, tape), start=1):
            yield f"  {number}. {point}"


def _figures(value: object, tape: Tape) -> Iterator[str]:
    """Yield the lengths that a value holds under its own names."""
    assert is_dataclass(value)
    for item in fields(value):
        held, name = getattr(value, item.name), item.name.replace("_", " ")
        unit = item.metadata.get("unit", "mm")
        if isinstance(held, float) and unit == "":
            yield f"  {name:<22}{held:>10g}"
        elif isinstance(held, float) and unit == "mm":
            yield f"  {name:<22}{tape.figure(held):>10}   ({tape.exact(held)})"
        elif item.name in ("ordinates", "checks") and held:
            pairs = "; ".join(f"{tape.figure(o.out)} out, {tape.figure(o.up)} up" for o in held)
            yield f"  {name:<22}{pairs}"
