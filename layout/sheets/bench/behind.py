"""What stands behind the work, folded: why, other ways, errors, stability, areas, cautions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from ...plan.plan import Plan
from ...words import legs, marks, panel, ways, why
from ...words.cautions import caution_words
from ...words.first_tables import shown_marks
from ...words.saw_lines import rounds_of
from ...words.say import Say, found_words, sentence
from ..pictures.ground import contacts_scene, offcuts_scene, others_scene
from .steps import Part, Step


def folds(plan: Plan) -> tuple[Part, ...]:
    """Return every part that has something to tell."""
    made = ((summary, tuple(steps(plan))) for summary, steps in FOLDS)
    return tuple(Part(summary(plan), steps) for summary, steps in made if steps)


def _why(plan: Plan) -> Iterator[Step]:
    yield Step(why.touches_words(plan), contacts_scene(plan))
    if plan.along_grain is not None:
        yield Step(why.along_grain_told(plan))
    if plan.costs:
        yield Step(why.mending_words(plan))
    if plan.others:
        yield Step(why.elsewhere_words(plan), others_scene(plan))


def _ways(plan: Plan) -> Iterator[Step]:
    others = [m for m in plan.methods if m.name != plan.methods[0].name]
    if others:
        yield Step(ways.others_words(others, plan.job.tape))


def _marks(plan: Plan) -> Iterator[Step]:
    each = rounds_of(plan)
    if len(each) > 1:
        yield Step(marks.marks_behind(plan.marks, set(), Say.of(plan)))
    held, say = each[-1].marks, Say.of(plan, each[-1].datum)
    assert held is not None
    yield Step(marks.marks_behind(held, {mark.label for mark in shown_marks(plan, held)}, say))
    ties = marks.ties_words(held, say)
    if ties is not None:
        yield Step(ties)
    yield Step(marks.checks_words(held, say))
    yield Step(marks.left_words(plan.check, Say.of(plan), lipped=plan.top.lipping > 0))


def _table(plan: Plan) -> Iterator[Step]:
    wish, held, table = plan.job.legs, plan.legs, plan.table
    if wish is None or held is None or table is None:
        return
    why, stands, sags = legs.chosen(plan), legs.standing(plan, held), legs.sagging(plan, table)
    told = (why, stands, sags, legs.seated(plan, wish, held, table))
    yield from (Step(words) for words in told if words is not None)


def _kept(plan: Plan) -> str:
    pieces = plan.offcuts.pieces
    return f"Areas and offcuts: {sum(o.kept for o in pieces)} of {len(pieces)} worth keeping"


FOLDS: tuple[tuple[Callable[[Plan], str], Callable[[Plan], Iterable[Step]]], ...] = (
    (lambda plan: sentence(f"Why not larger: {found_words(plan)}"), _why),
    (lambda _: "Other ways to draw it", _ways),
    (lambda _: "Marks and figures that are checked, not set out; errors", _marks),
    (legs.stands_in_short, _table),
    (
        _kept,
        lambda plan: [Step(panel.offcuts_words(plan.offcuts, plan.job.tape), offcuts_scene(plan))],
    ),
    (
        lambda plan: f"All {len(plan.cautions)} cautions in full, with their sources",
        lambda plan: [Step(caution_words(c, plan.top, plan.job.tape)) for c in plan.cautions],
    ),
)
"""Each part by its summary and its steps."""
