"""The line that all is measured from, whether the panel is square, and which way offsets run."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry import Point, first_of_best
from ..geometry.tolerance import SAME_PLACE
from ..marking.mark import Kind, Mark
from ..marking.panel_check import PanelCheck, SquareCheck
from ..panel.datum import Datum, Reason
from ..panel.edges import Flaw, Found, Reference
from ..top import Top
from ..units import MM_PER_INCH, Tape
from .say import Passage, Say, Table, listed, passage, table, unit_words

# A gap under a string that shows, and by how much a diagonal is out when it is no slip of the
# tape, mm (common practice)
STRING_GAP, DIAGONAL = 1.0, 3.0
# How far apart offsets of a bowed edge are taken, on a tape in inches and in mm
_BOW_STATIONS = (6 * MM_PER_INCH, 150.0)

_WHY = {
    Reason.STRAIGHT: "it is straight",
    Reason.LONGEST: "the longest straight edge; A–B is not",
    Reason.GIVEN: "struck where the job says",
    Reason.INSIDE: "no edge is straight: struck inside a long one",
    Reason.ACROSS: "no edge is straight: struck across it",
    Reason.AGAIN: "struck again through its marks on the ends",
}

_FOUND = {
    Found.CORNER: "{name}: corner {name}.",
    Found.PROLONGED: "{name}: where edge {edge}, prolonged past its corner, meets the line of "
    "{line}: hold a straightedge along {edge}, and measure along {line} from that.",
    Found.ON_EDGE: "{name}: struck on the edge, {distance:measure} from {beside}.",
    Found.CARRIED: "{name}: where the line meets the end, carried down it.",
    Found.STRUCK: "{name}: struck on the face at edge {edge}, {distance:measure} from its end at "
    "{beside}.",
}
_BY_MEASURE = (
    "{name}: struck on the face, in the job's own measures at {point.x:figure} along and "
    "{point.y:figure} up."
)


def datum_words(datum: Datum, say: Say) -> Passage:
    """Return which line is measured from, how its ends are found, and how it is made true."""
    tape, told = say.tape, dict.fromkeys((datum.first, datum.held, datum.last))
    bad = [
        f"{c.name} ({f'spoilt by {c.spoilt_by}' if c.flaw is Flaw.SPOILT else c.flaw.value})"
        for c in datum.corners
        if c.flaw is not None
    ]
    gap = tape.measure(STRING_GAP)
    made = [f"Hold a string along {datum.name}: no gap above {gap}, else plane it true."]
    if datum.struck:
        made = [
            f"Stretch a string from {datum.first.name} to {datum.last.name} "
            f"({tape.measure(datum.length)} apart), chalk it, then knife it along a straightedge.",
            "It is struck on one face: draw it out to the edges and carry it down them before "
            "anything is measured on the other.",
        ]
    return passage(
        f"The line {datum.name}",
        f"Everything is measured from it: {_WHY[datum.why]}.",
        *(reference_words(r, datum, say) for r in told if r.found is not Found.CORNER),
        bool(bad) and f"No tape is held to corner {listed(bad, 'or')}.",
        *made,
        "Chalk the letters on both faces. Turned over, every figure stays the same; only left and "
        "right swap.",
    )


def reference_words(point: Reference, datum: Datum, say: Say) -> str:
    """Return how a point of the line is found on the panel."""
    struck_free = point.found is Found.STRUCK and not point.beside
    words = _BY_MEASURE if struck_free else _FOUND[point.found]
    beside = point.beside or "the end of its straight"
    return say.tape.fill(words, point, line=datum.name, beside=beside)


def square_words(check: PanelCheck, datum: Datum, say: Say) -> Passage:
    """Return how to see whether the panel is square, and what follows."""
    tape = say.tape
    words = [
        f"Measure both edges and the diagonal at each end of {datum.name}. Equal diagonals "
        "alone prove nothing: the sides must be as given too.",
        f"One that is out by more than {tape.measure(DIAGONAL)}: stop, give the corners as points "
        "in the job and print anew.",
    ]
    if not check.squares:
        three = (
            "By the tape: {along:measure} along {line} from {start}, {across:measure} up, and "
            "{diagonal:measure} between the two ends: then it is square."
        )
        words = [
            f"No two edges meet {datum.name} in corners to trust, so every square is raised on it.",
            tape.fill(three, check.triangle, line=datum.name) if check.triangle else "",
            "Checks must come out both ways: diagonals that differ show a square that is none.",
        ]
    leaning = (
        f"Corner {held.corner} is not square, and the plan knows: take every square from "
        f"{datum.name}, none from {held.corner}–{held.across_to}."
        for held in check.squares
        if not held.found.is_square
    )

    def leans(held: SquareCheck) -> str:
        way, out = "outwards" if held.found.out_by > 0 else "inwards", abs(held.found.out_by)
        return "square" if held.found.is_square else f"leaning {way} by {tape.figure(out)}"

    corners = table(
        check.squares,
        {
            "Corner": "{corner}",
            "One edge": "{corner}–{along_to} {along:figure}",
            "The other": "{corner}–{across_to} {across:figure}",
            "Diagonal, if square": "{along_to}–{across_to} {found.square_diagonal:figure}",
            "In the job it is": leans,
        },
        f"In {unit_words(tape)}.",
        tape,
    )
    return passage("Is it square?", *words, tables=(corners, _bows(check, tape)), warnings=leaning)


def _bows(check: PanelCheck, tape: Tape) -> Table:
    every = tape.measure(_BOW_STATIONS[not tape.imperial])
    return table(
        check.bows,
        {
            "Bowed edge": lambda bow: bow.edge or "bowed",
            "Chord": "{chord:figure}",
            "Rise": "{rise:figure}",
            "Radius": "{radius:figure}",
            "Stands off the chord at a quarter": "{quarter:figure} from each end: {stands:figure}",
        },
        f"Where it does not stand so, it is no arc: take offsets every {every}.",
        tape,
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

    Where its centrelines meet its edge; else the marks that lie farthest that way; else points
    and corners of the panel.
    """
    own, datum_points = top.placement.inverse, {r.name: r.point for r in datum.references}
    datum_points |= {f"corner {c.name}": c.point for c in datum.corners}
    on_curve = (Kind.CORNER, Kind.TANGENT, Kind.ARC_CENTRE, Kind.ON_CURVE, Kind.NAIL)

    def marked(*kinds: Kind) -> dict[str, Point]:
        return {m.label: m.point for m in marks if m.kind in kinds}

    def pair(axis: int, kind: Kind) -> tuple[str, str]:
        for held in (marked(kind), marked(*on_curve), datum_points):
            named = {name: tuple(own(place)) for name, place in held.items()}
            reach = [place[axis] for place in named.values()]
            if reach and min(reach) < -SAME_PLACE and max(reach) > SAME_PLACE:
                break

        def farthest(sign: int) -> str:
            """Return what lies farthest that way, of places alike the nearest to the axis."""
            return first_of_best(
                named,
                lambda name: (sign * named[name][axis], -abs(named[name][1 - axis])),
                tolerance=(SAME_PLACE, SAME_PLACE),
            )

        return farthest(-1), farthest(1)

    return Directions(pair(0, Kind.END), pair(1, Kind.SIDE))
