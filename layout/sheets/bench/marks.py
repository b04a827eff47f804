"""All marks and check distances, before the first cut; of a slab once more when it is flat."""

from __future__ import annotations

from collections.abc import Sequence

from ...cutting.cut import StraightCut, Trim, TrimKind
from ...job.plan import Plan
from ...marking.mark import Mark
from ...marking.marks import MarkSet
from ...panel.datum import Datum
from ...words.cuts import lines_table, words_of
from ..steps.ground import Wood
from ..steps.setting_out import (
    checks_scene,
    clear_scene,
    face_scene,
    lines_scene,
    marks_scene,
    tied_marks,
    ties_scene,
)
from ..steps.straight import saw_lines_scene
from .draw import drawn
from .rows import BenchStep, Section, Table, say_of, sentence, unit_words


def marks(plan: Plan) -> Section:
    """Return the steps that set the top out on the panel, before the first cut."""
    wood, rough = Wood.found(plan), _rough(plan)
    steps: list[BenchStep | None] = [_face(plan), _table(plan, wood, plan.marks), _left(plan, wood)]
    if plan.cuts.again is None:
        steps += [*_set_out(plan, wood, plan.marks), _saw_lines(plan, _sawn(plan), plan.datum)]
        return Section("All marks, before the first cut", _held(steps))
    steps += [_ties(plan, wood, plan.marks), _checks(plan, wood, plan.marks)]
    if rough:
        steps.append(_saw_lines(plan, rough, plan.datum))
    return Section("First marks: does it fit, and where is it cut short?", _held(steps))


def marks_again(plan: Plan) -> Section | None:
    """Return the second setting out of a slab; None where there is none."""
    again = plan.cuts.again
    if again is None:
        return None
    wood = Wood.marked(plan)
    steps = [
        _table(plan, wood, again.marks),
        *_set_out(plan, wood, again.marks),
        _saw_lines(plan, [c for c in _sawn(plan) if c not in _rough(plan)], again.datum),
    ]
    return Section("All marks again, before the next cut", _held(steps))


def _held(steps: Sequence[BenchStep | None]) -> tuple[BenchStep, ...]:
    return tuple(step for step in steps if step is not None)


def _rough(plan: Plan) -> list[Trim]:
    return [trim for trim in plan.cuts.trims if trim.kind is TrimKind.ROUGH]


def _sawn(plan: Plan) -> list[StraightCut]:
    return [*plan.cuts.trims, *plan.cuts.corner_cuts]


def _set_out(plan: Plan, wood: Wood, held: MarkSet) -> list[BenchStep | None]:
    return [
        _ties(plan, wood, held),
        _checks(plan, wood, held),
        *drawn(plan, held),
        _lines(plan, wood, held),
    ]


def _face(plan: Plan) -> BenchStep:
    return BenchStep.of(words_of(plan.cuts.face, say_of(plan)), face_scene(plan))


def _table(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep:
    datum, tape = wood.datum, plan.job.tape
    headings = (
        "Mark",
        "What it is",
        f"Along {datum.name} from {datum.first.name}",
        f"Square from {datum.name}",
        "Rounded by",
    )
    rows = tuple(
        (
            mark.label,
            mark.kind.value,
            tape.figure(mark.along),
            tape.figure(mark.square),
            tape.exact(mark.rounding_error(tape), 1),
        )
        for mark in held.marks
    )
    caption = (
        f"In {unit_words(tape)}, to the nearest {'1/16' if tape.imperial else '1'}; the last "
        "column is how far that moves the mark. A minus sign means the other side of the line."
    )
    notes = [
        sentence(f"{mark.label}: {mark.advice.format(distance=tape.measure(mark.off_by))}")
        for mark in held.marks
        if mark.advice
    ]
    return BenchStep(
        "Marks",
        (f"Two measures each, from named edges: they hold on either face. {_why(datum)}",),
        Table(headings, rows, caption),
        tuple(notes),
        drawing=marks_scene(plan, wood, held),
    )


def _why(datum: Datum) -> str:
    """Return where lengths along the datum start."""
    how = datum.first.how
    return "" if how.startswith("corner") or "{" in how else f"{datum.first.name} is {how}."


def _ties(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep | None:
    """Return the tapes that prove the marks, or find them where no square will do."""
    tape = plan.job.tape
    tied = tied_marks(held)
    if not tied:
        return None
    rows = tuple(_tie_row(plan, mark) for mark in tied)
    headings = ("Mark", "One tape", "The other", "Within")
    caption = (
        f"In {unit_words(tape)}. The last column is how far the mark may be out by what a careful "
        "tape and the rounding leave."
    )
    words = (
        "From two points that can be touched, chosen so that the tapes cross near a right angle: "
        "to prove the marks above, or to find them without a square.",
    )
    return BenchStep(
        "The same by two tapes",
        words,
        Table(headings, rows, caption),
        drawing=ties_scene(plan, wood, held),
    )


def _tie_row(plan: Plan, mark: Mark) -> tuple[str, ...]:
    tape, cross = plan.job.tape, mark.cross
    assert cross is not None  # only such marks are tied
    tapes = (f"{tape.figure(tie.distance)} from {tie.name}" for tie in (cross.first, cross.second))
    return (mark.label, *tapes, tape.exact(cross.error + cross.rounding_error(tape), 1))


def _checks(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep:
    tape = plan.job.tape
    rows = tuple(
        (f"{check.start} to {check.end}", tape.figure(check.distance), check.why)
        for check in held.checks
    )
    return BenchStep(
        "Checks",
        ("Measure these before anything is drawn or cut. One that is out shows a slip.",),
        Table(("From, to", tape.unit, "What it proves"), rows),
        drawing=checks_scene(plan, wood, held),
    )


def _left(plan: Plan, wood: Wood) -> BenchStep:
    """Return how much wood stands between the line that is cut and everything else."""
    tape = plan.job.tape
    rows = tuple(
        (
            f"{clear.name} (inside the top)" if clear.inside else clear.name,
            tape.figure(clear.distance),
        )
        for clear in plan.check.clearances
    )
    line = "core line" if plan.top.lipping else "finish line"
    return BenchStep(
        "What is left beside the line",
        (f"From the {line}. Less than this on the wood: a mark is out, or the panel is.",),
        Table(("Clear of", tape.unit), rows),
        drawing=clear_scene(plan, wood),
    )


def _lines(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep:
    tape, cuts = plan.job.tape, plan.cuts
    words = [
        f"Draw the finish line. The rough-cut line runs {tape.measure(cuts.allowance)} outside "
        f"{'the core line' if plan.top.lipping else 'it'}, dashed. Shade the waste.",
        "Carry both centrelines down the edges and onto the other face.",
    ]
    if plan.top.lipping:
        words.insert(
            0,
            f"The saw follows the core line, {tape.measure(plan.top.lipping)} inside the finish "
            "line: the lipping brings the top to size.",
        )
    return BenchStep("Lines", tuple(words), drawing=lines_scene(plan, wood, held))


def _saw_lines(plan: Plan, cuts: Sequence[StraightCut], datum: Datum) -> BenchStep | None:
    """Return every saw line and guide: the first cut takes the corners they are measured from."""
    if not cuts:
        return None
    words = (
        "Draw all of them now, and carry their ends down the edges: the first cut takes the "
        "corners that they are measured from.",
    )
    table = lines_table(cuts, say_of(plan, datum))
    return BenchStep(
        "Saw lines and guides", words, table, drawing=saw_lines_scene(plan, list(cuts))
    )
