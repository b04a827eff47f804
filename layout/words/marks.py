"""What is told of marks and of the work between them: how they are set out, proved, seen right."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from ..geometry.alike import at_least
from ..marking.mark import Check, Mark, OffWood, Proves
from ..marking.marks import MarkSet
from ..marking.panel_check import Clearance, PanelCheck
from ..panel.datum import Datum
from ..units import Tape, nearest_whole
from .saw_lines import Round
from .say import Passage, Say, listed, passage, ranged, table, unit_words

_NEARLY_SQUARE, _SLANTING = math.radians(70), math.radians(45)
"""Tapes that cross at 70° or more show a slip at most a fifteenth larger than it is, near a right
angle (1 / sin 70° = 1.06); at less than 45° they make half as much again of it."""

_PROVES = {
    Proves.PANEL: "the panel is as it was measured",
    Proves.SIDE: "side: all are alike",
    Proves.STRAIGHTS: "the straights are the width apart",
    Proves.NAIL_TO_SIDE: "nail to the end of the short axis: half the length exactly",
    Proves.NEXT_CORNER: "from corner to corner, straight",
    Proves.TANGENTS: "tangent points, diagonal: square",
    Proves.CORNERS: "corners, diagonal: square",
    Proves.CORNER_CENTRES: "centres of the corners, diagonal",
    Proves.ON_CURVE: "points on the diagonals: the axes are square",
    Proves.DIAGONAL: "corners, diagonal",
}
"""What a check shows, where the value of its kind does not say it."""


def marks_advice(marks: Iterable[Mark], tape: Tape) -> Iterator[str]:
    """Yield what to do where a mark has no wood, or lies in a defect."""
    for mark in marks:
        if mark.off is not None and mark.kind.is_pinned:
            yield off_wood_words(mark.label, mark.off, tape)
        elif mark.off is not None:
            away = tape.measure(mark.off.distance)
            yield f"{mark.label}: no wood here, the nearest is {away} away."
        elif mark.defect:
            yield f"{mark.label}: lies in {mark.defect}: bridge it with a thin board."


def off_wood_words(name: str, off: OffWood, tape: Tape) -> str:
    """Return what to do about a pin or nail that has no wood under it."""
    how = "clamp a board of the same thickness there and mark it on that."
    return f"{name}: {beyond_words(off, tape)}: {how}"


def beyond_words(off: OffWood, tape: Tape) -> str:
    """Return where a place without wood lies."""
    where = f"beyond edge {off.edge}" if off.edge else "off the wood"
    return f"{tape.measure(off.distance)} {where}"


def ties_words(held: MarkSet, say: Say) -> Passage | None:
    """Return the tapes that prove marks, or find them where no square will do; None without any."""
    tape = say.tape
    tied = [
        (mark, mark.ties, min(mark.ties.crossing, math.pi - mark.ties.crossing))
        for mark in held.tied
        if mark.ties is not None
    ]
    if not tied:
        return None
    slanting = [mark.label for mark, _, angle in tied if not at_least(angle, _SLANTING)]
    proved = table(
        tied,
        {
            "Mark": "{0.label}",
            "One tape": "{1.first.distance:figure} from {1.first.name}",
            "The other": "{1.second.distance:figure} from {1.second.name}",
            "They cross at": lambda row: f"{nearest_whole(math.degrees(row[2]))}°",
            "Within": lambda row: tape.exact(row[1].error + row[1].rounding_error(tape), 1),
        },
        f"In {unit_words(tape)}. The last column is how far the mark may be out by what a careful "
        "tape and the rounding leave.",
        tape,
    )
    return passage(
        "The same by two tapes",
        "From two points that can be touched, the pair that leaves the least error: to prove the "
        "marks above, or to find them without a square.",
        at_least(min(angle for *_, angle in tied), _NEARLY_SQUARE)
        and "The tapes cross near a right angle.",
        bool(slanting)
        and f"At {listed(slanting)} they cross at a slant: prove by them, mark by square.",
        tables=[proved],
    )


def checks_words(held: MarkSet, say: Say) -> Passage:
    """Return the distances that show a slip."""
    checks = table(
        held.checks,
        {
            "From, to": "{start} to {end}",
            say.tape.unit: "{distance:figure}",
            "What it proves": proves_words,
        },
        tape=say.tape,
    )
    words = "Measure these before the outline is drawn. One that is out shows a slip."
    return passage("Checks", words, tables=[checks])


def proves_words(check: Check) -> str:
    """Return what a check shows to be right."""
    words = _PROVES.get(check.proves, check.proves.value)
    if check.other:
        what, square, _ = words.partition(":")
        return f"{what.partition(',')[0]}, the other diagonal{': the same' * bool(square)}"
    alike = check.proves in (Proves.ACROSS_CORNERS, Proves.ACROSS_FLATS)
    both_axes = {check.start, check.end} in ({"E1", "E2"}, {"S1", "S2"})
    return f"{words}: all are alike" if alike and not both_axes else words


def left_words(check: PanelCheck, say: Say, *, lipped: bool) -> Passage:
    """Return how much wood stands between the line that is cut and everything else."""

    def clear_of(clear: Clearance) -> str:
        return clear.name + " (inside the top)" * clear.inside

    left = table(
        check.clearances, {"Clear of": clear_of, say.tape.unit: "{distance:figure}"}, tape=say.tape
    )
    line = "core line" if lipped else "finish line"
    words = f"From the {line}. Less than this on the wood: a mark is out, or the panel is."
    return passage("What is left beside the line", words, tables=[left])


def lines_words(allowance: float, lipping: float, say: Say, *, legs: bool = False) -> Passage:
    """Return which lines are drawn, the rough-cut line by its `allowance` outside, mm.

    Where there are `legs` the centrelines are pricked, for what is pencilled is sanded off.
    """
    tape = say.tape
    return passage(
        "Lines",
        lipping > 0
        and f"The saw follows the core line, {tape.thin(lipping)} inside the finish line: the "
        "lipping brings the top to size.",
        f"Draw the finish line{', as far as there is wood' if lipping else ''}. The rough-cut "
        f"line runs {tape.at_least(allowance)} {tape.unit} outside"
        f" {'the core line' if lipping else 'it'}, dashed. Shade the waste.",
        "Carry both centrelines down the edges and onto the other face.",
        legs
        and "On the underside prick two places of each centreline with an awl, well apart inside "
        "the top: the legs are set out by them when the pencil is sanded off.",
    )


def set_out_words(shown: Sequence[Mark], held: MarkSet, say: Say) -> Passage:
    """Return how the marks that the first page shows, and both centrelines, are set out."""
    ends = [mark for mark in held.marks if mark.kind.is_on_panel_edge]
    lines = table(
        ends,
        {"Centreline": "{label}"} | _offsets(say.datum),
        tape=say.tape,
    )
    return passage(
        "Set out the marks",
        f"Hook the tape at {say.datum.first.name} and strike all ticks of one edge in one pass; "
        f"then square them up from {say.datum.name}. Figures from the first page.",
        "Draw both centrelines through O, by their ends here below or square to each other.",
        tables=[lines],
        warnings=marks_advice(shown, say.tape),
    )


def _offsets(datum: Datum) -> dict[str, str]:
    """Return the columns of a mark's offsets."""
    return {
        f"Along {datum.name} from {datum.first.name}": "{along:figure}",
        f"Square from {datum.name}": "{square:figure}",
    }


def checked_words(each: Round, named: str, shown: Sequence[Mark]) -> Passage:
    """Return when the distances `named` on the first page are measured: before the next saw line.

    Those to marks that are not among the `shown` wait for the outline, which they lie on.
    """
    assert each.marks is not None
    ends, set_out = named.replace("–", " ").split(), {mark.label for mark in shown}
    waiting = [mark.label for mark in each.marks.marks if mark.label in ends]
    later = sorted({label.rstrip("0123456789") for label in waiting if label not in set_out})
    wait = f", those of {listed(later)} once the outline is drawn" if later else ""
    return passage(
        f"Check before {each.before}",
        f"Measure every check of the first page{wait}. One that is out shows a slip: find it now.",
    )


def saw_lines_words(each: Round) -> Passage:
    """Return how the saw lines of one setting out are drawn."""
    numbers = each.numbers
    which = ranged(map(str, (numbers[0], numbers[-1])))
    return passage(
        "Draw the saw lines and guides",
        f"Line{'s' * (len(numbers) > 1)} {which}, by the first page; carry both ends of each down "
        "the edges: a cut takes the corners that others are measured from.",
    )


STRAIGHT_SIDES = passage(
    "Straight sides", "Join the corners X1 to X4 with a straightedge: this top has no curve."
)

KEEP_OFFCUTS = passage(
    "Put by what is worth keeping",
    "Number each piece that is kept. What each makes is told behind the steps, on the screen: "
    "opened there, it is printed too.",
)


def marks_behind(held: MarkSet, shown: set[str], say: Say) -> Passage:
    """Return the marks that the first page leaves out, and how far each may be out."""
    tape, datum, first = say.tape, say.datum, say.datum.first.name

    def rounded(mark: Mark) -> str:
        return tape.exact(mark.rounding_error(tape), 1)

    errors = listed(f"{mark.label} {rounded(mark)}" for mark in held.marks if mark.label in shown)
    rest = table(
        (mark for mark in held.marks if mark.label not in shown),
        {
            "Mark": "{label}",
            "What it is": "{kind.value}",
            **_offsets(datum),
            "Rounded by": rounded,
        },
        f"A minus sign along is beyond {first}, away from {datum.last.name}; square, on the side "
        f"of {datum.name} away from most of the wood.",
        tape,
    )
    return passage(
        f"Marks from {datum.name}",
        "They lie on the centrelines or the line itself and are checked, not set out. Rounded "
        f"figures move the marks of the first page by: {errors}."
        if shown
        else "The first setting out of a slab: to see that the top lies where it should.",
        tables=[rest],
    )
