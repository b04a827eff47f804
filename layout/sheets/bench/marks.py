"""All marks and check distances, before the first cut."""

from __future__ import annotations

from collections.abc import Iterator

from ...job.plan import Plan
from ...marking.mark import Mark
from .rows import BenchStep, Section, Table


def marks(plan: Plan) -> Section:
    """Return the steps that set the top out on the panel."""
    steps = [_table(plan), _checks(plan), *_curves(plan), _lines(plan)]
    return Section("All marks, before the first cut", tuple(steps))


def _table(plan: Plan) -> BenchStep:
    datum, tape = plan.datum, plan.job.tape
    headings = (
        "Mark",
        "What it is",
        f"Along {datum.name} from {datum.first.name}",
        f"Square from {datum.name}",
        "Or by two tapes",
    )
    rows = tuple(_row(plan, mark) for mark in plan.marks.marks)
    caption = (
        f"In {tape.unit}, to the nearest {'1/16' if tape.imperial else '1'}. "
        "A minus sign means the other side of the line."
    )
    notes = tuple(
        f"{mark.label}: {mark.advice.format(distance=tape.measure(mark.off_by))}."
        for mark in plan.marks.marks
        if mark.advice
    )
    return BenchStep("Marks", (), Table(headings, rows, caption), notes)


def _row(plan: Plan, mark: Mark) -> tuple[str, ...]:
    tape = plan.job.tape
    ties = ""
    if mark.cross is not None:
        ties = " and ".join(
            f"{tape.figure(tie.distance)} from {tie.name}"
            for tie in (mark.cross.first, mark.cross.second)
        )
    return (
        mark.label,
        mark.kind.value,
        tape.figure(mark.along),
        tape.figure(mark.square),
        ties,
    )


def _checks(plan: Plan) -> BenchStep:
    tape = plan.job.tape
    rows = tuple(
        (f"{check.start} to {check.end}", tape.figure(check.distance), check.why)
        for check in plan.marks.checks
    )
    words = ("Measure these before anything is drawn or cut. One that is out shows a slip.",)
    return BenchStep("Checks", words, Table(("From, to", tape.unit, "What it proves"), rows))


def _curves(plan: Plan) -> Iterator[BenchStep]:
    tape, lipped = plan.job.tape, plan.top.lipping > 0
    for compass in plan.marks.compasses:
        centres = ", ".join(compass.centres)
        words = [f"Swing {tape.measure(compass.radius)} about {centres}: the finish line."]
        if lipped:
            words.append(f"Swing {tape.measure(compass.core_radius)}: the core line.")
        yield BenchStep("String compass", tuple(words))
    if plan.marks.loop is not None:
        yield _loop(plan)


def _loop(plan: Plan) -> BenchStep:
    tape, loop = plan.job.tape, plan.marks.loop
    assert loop is not None
    slip = loop.slipped(tape.division)
    width = slip.width - loop.drawn.width
    words = [
        f"Nails {tape.measure(loop.nail_spacing)} apart, on the long centreline.",
        f"Tie a closed loop {tape.measure(loop.loop)} long, slack; it counts a nail of "
        f"{tape.exact(loop.nail, 1)} and a pencil notched to {tape.exact(loop.pencil, 1)} "
        f"{tape.unit}, and {loop.stretch:.1%} of stretch.",
        f"A loop {tape.measure(tape.division)} too long makes the top {tape.exact(width, 1)} "
        f"{tape.unit} too wide: check the width first.",
    ]
    if plan.marks.rod is not None:
        rod = plan.marks.rod
        words.append(
            f"Without nails: a rod with pins {tape.measure(rod.to_long_axis_pin)} and "
            f"{tape.measure(rod.to_short_axis_pin)} from the pencil, the first on the long "
            "centreline, the second on the short one."
        )
    rows = tuple((tape.figure(o.out), tape.figure(o.up)) for o in plan.marks.ordinates)
    table = Table(
        ("Out from O along the long axis", "Up from it"),
        rows,
        "Check the line in all four quarters before cutting.",
    )
    return BenchStep("Oval by string and nails", tuple(words), table)


def _lines(plan: Plan) -> BenchStep:
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
    return BenchStep("Lines", tuple(words))
