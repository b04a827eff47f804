"""What is told of marks and of the work between them: how they are set out, proved, seen right."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..geometry.alike import at_least
from ..marking.mark import Check, Mark, OffWood, Proves, Ties
from ..marking.marks import MarkSet
from ..marking.panel_check import PanelCheck
from ..units import Tape, nearest_whole
from .saw_lines import Round
from .say import Passage, Say, Table, listed, sentence, thin_words, unit_words

_NEARLY_SQUARE = math.radians(70)
"""Tapes that cross at this or more cross near a right angle: a slip then shows a fifteenth larger
than it is, at most (1 / sin 70° = 1.06)."""

_SLANTING = math.radians(45)
"""Tapes that cross at less than this make half as much again of a slip (1 / sin 45° = 1.41)."""

_PROVES = {
    Proves.PANEL: "the panel is as it was measured",
    Proves.SIDE: "side: all are alike",
    Proves.STRAIGHTS: "the straights are the width apart",
    Proves.NAIL_TO_SIDE: "nail to the end of the short axis: half the length exactly",
    Proves.NEXT_CORNER: "from corner to corner, straight",
}
"""What a check shows, where the value of its kind does not say it."""

_DIAGONALS = {
    Proves.TANGENTS: ("tangent points, diagonal: square", "tangent points, {}: the same"),
    Proves.CORNERS: ("corners, diagonal: square", "corners, {}: the same"),
    Proves.CORNER_CENTRES: ("centres of the corners, diagonal", "centres of the corners, {}"),
    Proves.ON_CURVE: (
        "points on the diagonals: the axes are square",
        "points on the diagonals, {}: the same",
    ),
    Proves.DIAGONAL: ("corners, diagonal", "corners, {}"),
}


def marks_advice(held: MarkSet, tape: Tape) -> Iterator[str]:
    """Yield what to do where a mark has no wood, or lies in a defect."""
    for mark in held.marks:
        if mark.off is not None and mark.kind.is_pinned:
            yield sentence(f"{mark.label}: {off_wood_words(mark.off, tape)}")
        elif mark.off is not None:
            away = tape.measure(mark.off.distance)
            yield sentence(f"{mark.label}: no wood here, the nearest is {away} away")
        elif mark.defect:
            yield sentence(f"{mark.label}: lies in {mark.defect}: bridge it with a thin board")


def off_wood_words(off: OffWood, tape: Tape) -> str:
    """Return what to do about a pin or nail that has no wood under it, as a clause."""
    return (
        f"{beyond_words(off, tape)}: clamp a board of the same thickness there and mark it on that"
    )


def beyond_words(off: OffWood, tape: Tape) -> str:
    """Return where a place without wood lies."""
    away = tape.measure(off.distance)
    return f"{away} beyond edge {off.edge}" if off.edge else f"{away} off the wood"


def ties_words(held: MarkSet, say: Say) -> Passage | None:
    """Return the tapes that prove marks, or find them where no square will do; None without any."""
    tied = [(mark, mark.ties) for mark in held.tied if mark.ties is not None]
    if not tied:
        return None
    words = [
        "From two points that can be touched, the pair that leaves the least error: to prove the "
        "marks above, or to find them without a square."
    ]
    angles = [_crossing(ties) for _, ties in tied]
    if at_least(min(angles), _NEARLY_SQUARE):
        words.append("The tapes cross near a right angle.")
    slanting = [mark.label for mark, ties in tied if not at_least(_crossing(ties), _SLANTING)]
    if slanting:
        words.append(f"At {listed(slanting)} they cross at a slant: prove by them, mark by square.")
    headings = ("Mark", "One tape", "The other", "They cross at", "Within")
    caption = (
        f"In {unit_words(say.tape)}. The last column is how far the mark may be out by what a "
        "careful tape and the rounding leave."
    )
    rows = tuple(_tie_row(mark, ties, say.tape) for mark, ties in tied)
    return Passage("The same by two tapes", tuple(words), tables=(Table(headings, rows, caption),))


def _crossing(ties: Ties) -> float:
    return min(ties.crossing, math.pi - ties.crossing)


def _tie_row(mark: Mark, ties: Ties, tape: Tape) -> tuple[str, ...]:
    tapes = (f"{tape.figure(tie.distance)} from {tie.name}" for tie in (ties.first, ties.second))
    angle = f"{nearest_whole(math.degrees(_crossing(ties)))}°"
    return (mark.label, *tapes, angle, tape.exact(ties.error + ties.rounding_error(tape), 1))


def checks_words(held: MarkSet, say: Say) -> Passage:
    """Return the distances that show a slip."""
    rows = tuple(
        (f"{check.start} to {check.end}", say.tape.figure(check.distance), proves_words(check))
        for check in held.checks
    )
    return Passage(
        "Checks",
        ("Measure these before anything is drawn or cut. One that is out shows a slip.",),
        tables=(Table(("From, to", say.tape.unit, "What it proves"), rows),),
    )


def proves_words(check: Check) -> str:
    """Return what a check shows to be right."""
    if check.proves in _DIAGONALS:
        return _DIAGONALS[check.proves][check.other].format("the other diagonal")
    alike = check.proves in (Proves.ACROSS_CORNERS, Proves.ACROSS_FLATS)
    both_axes = {check.start, check.end} in ({"E1", "E2"}, {"S1", "S2"})
    words = _PROVES.get(check.proves, check.proves.value)
    return f"{words}: all are alike" if alike and not both_axes else words


def left_words(check: PanelCheck, say: Say, *, lipped: bool) -> Passage:
    """Return how much wood stands between the line that is cut and everything else."""
    rows = tuple(
        (
            f"{clear.name} (inside the top)" if clear.inside else clear.name,
            say.tape.figure(clear.distance),
        )
        for clear in check.clearances
    )
    line = "core line" if lipped else "finish line"
    return Passage(
        "What is left beside the line",
        (f"From the {line}. Less than this on the wood: a mark is out, or the panel is.",),
        tables=(Table(("Clear of", say.tape.unit), rows),),
    )


def lines_words(allowance: float, lipping: float, say: Say) -> Passage:
    """Return which lines are drawn when the marks are right.

    Parameters
    ----------
    allowance : float
        From the line that is cut to the rough-cut line, mm.
    lipping : float
        Thickness of the lipping, mm; 0 for none.
    """
    tape = say.tape
    outside = f"{tape.figure(allowance, at_least=True)} {tape.unit}"
    words = (
        f"Draw the finish line. The rough-cut line runs {outside} outside "
        f"{'the core line' if lipping else 'it'}, dashed. Shade the waste.",
        "Carry both centrelines down the edges and onto the other face.",
    )
    core = (
        f"The saw follows the core line, {thin_words(lipping, tape)} inside the finish line: the "
        "lipping brings the top to size.",
    )
    return Passage("Lines", (*core, *words) if lipping else words)


def set_out_words(each: Round, held: MarkSet, say: Say) -> Passage:
    """Return how the marks of the first page are set out."""
    first = each.datum.first.name
    words = (
        f"Hook the tape at {first} and strike all ticks of one edge in one pass; then square them "
        f"up from {each.datum.name}. Figures from the first page.",
    )
    return Passage("Set out the marks", words, warnings=tuple(marks_advice(held, say.tape)))


CHECK = Passage(
    "Check before the first cut",
    ("Measure every check of the first page. One that is out shows a slip: find it now.",),
)

SAW_LINES = Passage(
    "Draw the saw lines and guides",
    (
        "All of them, by the first page, and carry their ends down the edges: the first cut takes "
        "the corners that they are measured from.",
    ),
)

KEEP_OFFCUTS = Passage(
    "Put by what is worth keeping",
    (
        "Number each piece that is kept. What each makes is told behind the steps, on the screen: "
        "opened there, it is printed too.",
    ),
)


def skipped_words(told: list[Passage]) -> Passage:
    """Return why some sides are not sawn, together."""
    return Passage("Sides that no saw takes", tuple(f"{p.title}: {p.words[0]}" for p in told))


def marks_behind(held: MarkSet, shown: set[str], say: Say) -> Passage:
    """Return the marks that the first page leaves out, and how far each may be out."""
    tape, datum = say.tape, say.datum
    rows = tuple(
        (
            mark.label,
            mark.kind.value,
            tape.figure(mark.along),
            tape.figure(mark.square),
            tape.exact(mark.rounding_error(tape), 1),
        )
        for mark in held.marks
        if mark.label not in shown
    )
    errors = [
        f"{mark.label} {tape.exact(mark.rounding_error(tape), 1)}"
        for mark in held.marks
        if mark.label in shown
    ]
    words = [
        f"They lie on the centrelines or the line itself and are checked, not set out. Rounded "
        f"figures move the marks of the first page by: {listed(errors)}."
    ]
    if not shown:
        words = ["The first setting out of a slab: to see that the top lies where it should."]
    headings = (
        "Mark",
        "What it is",
        f"Along {datum.name} from {datum.first.name}",
        f"Square from {datum.name}",
        "Rounded by",
    )
    first, last = datum.names
    caption = (
        f"A minus sign along is beyond {first}, away from {last}; square, on the side of "
        f"{datum.name} away from most of the wood."
    )
    return Passage(
        f"Marks from {datum.name}", tuple(words), tables=(Table(headings, rows, caption),)
    )
