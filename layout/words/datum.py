"""The line that all is measured from, whether the panel is square, and which way offsets run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..geometry import Point, first_of_best
from ..geometry.tolerance import SAME_PLACE
from ..marking.mark import Kind, Mark
from ..marking.panel_check import PanelCheck, RightTriangle, Squareness
from ..panel.datum import Datum, Reason
from ..panel.edges import Flaw, Found, Reference
from ..top import Top
from ..units import MM_PER_INCH, Tape
from .say import Passage, Say, Table, listed, passage, sentence, table, unit_words

STRING_GAP = 1.0
"""A gap under a string that shows, mm (common practice)."""

DIAGONAL = 3.0
"""A diagonal out by more than this is no slip of the tape, mm (common practice)."""

_BOW_STATIONS = (6 * MM_PER_INCH, 150.0)
"""How far apart offsets of a bowed edge are taken, on a tape in inches and in mm."""

_WHY = {
    Reason.STRAIGHT: "it is straight",
    Reason.LONGEST: "the longest straight edge; A–B is not",
    Reason.GIVEN: "struck where the job says",
    Reason.INSIDE: "no edge is straight: struck inside a long one",
    Reason.ACROSS: "no edge is straight: struck across it",
    Reason.AGAIN: "struck again through its marks on the ends",
}


def datum_words(datum: Datum, say: Say) -> Passage:
    """Return which line is measured from, how its ends are found, and how it is made true."""
    tape = say.tape
    words = [f"Everything is measured from it: {_WHY[datum.why]}."]
    told = dict.fromkeys((datum.first, datum.held, datum.last))
    words += [reference_words(r, datum, say) for r in told if r.found is not Found.CORNER]
    bad = [
        f"{c.name} ({f'spoilt by {c.spoilt_by}' if c.flaw is Flaw.SPOILT else c.flaw.value})"
        for c in datum.corners
        if c.flaw is not None
    ]
    if bad:
        words.append(f"No tape is held to corner {listed(bad, 'or')}.")
    if datum.struck:
        words += [
            f"Stretch a string from {datum.first.name} to {datum.last.name} "
            f"({tape.measure(datum.length)} apart), chalk it, then knife it along a straightedge.",
            "It is struck on one face: carry its ends down the edges with a square before anything "
            "is measured on the other.",
        ]
    else:
        words.append(
            f"Hold a string along {datum.name}: no gap above {tape.measure(STRING_GAP)}, "
            "else plane it true."
        )
    words.append(
        "Chalk the letters on both faces. Turned over, every figure stays the same; "
        "only left and right swap."
    )
    return passage(f"The line {datum.name}", *words)


def reference_words(point: Reference, datum: Datum, say: Say) -> str:
    """Return how a point of the line is found on the panel."""
    return sentence(f"{point.name}: {_found(point, datum, say)}")


def _found(point: Reference, datum: Datum, say: Say) -> str:
    away = f"{say.tape.measure(point.distance)} from"
    at_end = "the end of its straight"
    own = (say.tape.figure(point.point.x), say.tape.figure(point.point.y))
    return {
        Found.CORNER: f"corner {point.name}",
        Found.PROLONGED: (
            f"where edge {point.edge}, prolonged past its corner, meets the line of {datum.name}: "
            f"hold a straightedge along {point.edge}, and measure along {datum.name} from that"
        ),
        Found.ON_EDGE: f"struck on the edge, {away} {point.beside or at_end}",
        Found.CARRIED: "where the line meets the end, carried down it",
        Found.STRUCK: (
            f"struck on the face at edge {point.edge}, {away} its end at {point.beside}"
            if point.beside
            else f"struck on the face, in the job's own measures at {own[0]} along and {own[1]} up"
        ),
    }[point.found]


def square_words(check: PanelCheck, datum: Datum, say: Say) -> Passage:
    """Return how to see whether the panel is square, and what follows."""
    tape = say.tape
    if check.squares:
        words = [
            f"Measure both edges and the diagonal at each end of {datum.name}. Equal diagonals "
            "alone prove nothing: the sides must be as given too.",
            f"One that is out by more than {tape.measure(DIAGONAL)}: stop, give the corners as "
            "points in the job and print anew.",
        ]
    else:
        words = [*_by_triangle(check.triangle, datum, tape)]
    leaning = [
        f"Corner {held.corner} is not square, and the plan knows: take every square from "
        f"{datum.name}, none from {held.corner}–{held.across_to}."
        for held in check.squares
        if not held.found.is_square
    ]
    tables = (_corners(check, tape), _bows(check, tape))
    return passage("Is it square?", *words, tables=tables, warnings=leaning)


def _by_triangle(three: RightTriangle | None, datum: Datum, tape: Tape) -> Iterator[str]:
    yield f"No two edges meet {datum.name} in corners to trust, so every square is raised on it."
    if three is not None:
        yield (
            f"By the tape: {tape.measure(three.along)} along {datum.name} from {three.start}, "
            f"{tape.measure(three.across)} up, and {tape.measure(three.diagonal)} between the two "
            "ends: then it is square."
        )
    yield "Checks must come out both ways: diagonals that differ show a square that is none."


def _corners(check: PanelCheck, tape: Tape) -> Table:
    def leans(found: Squareness) -> str:
        way = "outwards" if found.out_by > 0 else "inwards"
        return "square" if found.is_square else f"leaning {way} by {tape.figure(abs(found.out_by))}"

    return table(
        check.squares,
        {
            "Corner": lambda c: c.corner,
            "One edge": lambda c: f"{c.corner}–{c.along_to} {tape.figure(c.along)}",
            "The other": lambda c: f"{c.corner}–{c.across_to} {tape.figure(c.across)}",
            "Diagonal, if square": lambda c: (
                f"{c.along_to}–{c.across_to} {tape.figure(c.found.square_diagonal)}"
            ),
            "In the job it is": lambda c: leans(c.found),
        },
        f"In {unit_words(tape)}.",
    )


def _bows(check: PanelCheck, tape: Tape) -> Table:
    every = tape.measure(_BOW_STATIONS[not tape.imperial])
    return table(
        check.bows,
        {
            "Bowed edge": lambda bow: bow.edge or "bowed",
            "Chord": lambda bow: tape.figure(bow.chord),
            "Rise": lambda bow: tape.figure(bow.rise),
            "Radius": lambda bow: tape.figure(bow.radius),
            "Stands off the chord at a quarter": lambda bow: (
                f"{tape.figure(bow.quarter)} from each end: {tape.figure(bow.stands)}"
            ),
        },
        f"Where it does not stand so, it is no arc: take offsets every {every}.",
    )


@dataclass(frozen=True, slots=True)
class Directions:
    """What back and ahead along a centreline go towards: its ends, or what lies farthest."""

    along: tuple[str, str]
    across: tuple[str, str]

    def told(self, place: Point, tape: Tape) -> tuple[str, ...]:
        """Return a place from O without signs: how far along and across, and towards what."""
        both = ((place.x, self.along), (place.y, self.across))
        figures = ((tape.figure(abs(off)), names[off > 0]) for off, names in both)
        return tuple(f if f == "0" else f"{f} towards {name}" for f, name in figures)


def directions_of(top: Top, datum: Datum, marks: Sequence[Mark]) -> Directions:
    """Return the names for the offsets of a top, along its length and across it.

    The marks where a centreline meets its edge; on a top that has none, of all marks on it the one
    that lies farthest that way; without any the points and corners of the panel.
    """
    own = top.placement.inverse
    axis = {
        0: {m.label: own(m.point) for m in marks if m.kind is Kind.END},
        1: {m.label: own(m.point) for m in marks if m.kind is Kind.SIDE},
    }
    on_curve = (Kind.CORNER, Kind.TANGENT, Kind.ARC_CENTRE, Kind.ON_CURVE, Kind.NAIL)
    on_top = {m.label: own(m.point) for m in marks if m.kind in on_curve}
    beside = {r.name: own(r.point) for r in datum.references}
    beside |= {f"corner {c.name}": own(c.point) for c in datum.corners}

    def pair(k: int) -> tuple[str, str]:
        for named in (axis[k], on_top, beside):
            reach = [tuple(place)[k] for place in named.values()]
            if reach and min(reach) < -SAME_PLACE and max(reach) > SAME_PLACE:
                break
        return _farthest(named, k, -1), _farthest(named, k, 1)

    return Directions(pair(0), pair(1))


def _farthest(named: dict[str, Point], axis: int, sign: int) -> str:
    """Return the name of what lies farthest along an axis, of places alike the nearest to it."""
    return first_of_best(
        named,
        lambda name: (sign * tuple(named[name])[axis], -abs(tuple(named[name])[1 - axis])),
        tolerance=(SAME_PLACE, SAME_PLACE),
    )
