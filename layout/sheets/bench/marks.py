"""All marks and check distances, before the first cut; of a slab once more when it is flat."""

from __future__ import annotations

from collections.abc import Sequence

from ...cutting.cut import StraightCut, Trim, TrimKind
from ...job.plan import Plan
from ...marking.marks import MarkSet
from ...panel.datum import Datum
from ...words.cuts import lines_table, words_of
from ...words.marks import checks_words, left_words, lines_words, marks_words, ties_words
from ..steps.ground import Wood
from ..steps.setting_out import (
    checks_scene,
    clear_scene,
    face_scene,
    lines_scene,
    marks_scene,
    ties_scene,
)
from ..steps.straight import saw_lines_scene
from .draw import drawn
from .rows import BenchStep, Section, say_of


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
    return BenchStep.of(marks_words(held, say_of(plan, wood.datum)), marks_scene(plan, wood, held))


def _ties(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep | None:
    told = ties_words(held, say_of(plan, wood.datum))
    return None if told is None else BenchStep.of(told, ties_scene(plan, wood, held))


def _checks(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep:
    return BenchStep.of(
        checks_words(held, say_of(plan, wood.datum)), checks_scene(plan, wood, held)
    )


def _left(plan: Plan, wood: Wood) -> BenchStep:
    told = left_words(plan.check, say_of(plan), lipped=plan.top.lipping > 0)
    return BenchStep.of(told, clear_scene(plan, wood))


def _lines(plan: Plan, wood: Wood, held: MarkSet) -> BenchStep:
    told = lines_words(plan.cuts.allowance, plan.top.lipping, say_of(plan, wood.datum))
    return BenchStep.of(told, lines_scene(plan, wood, held))


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
