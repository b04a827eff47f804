"""The work in order, in parts that give their steps, and what stands behind it, folded."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from ...cutting.cut import RouterCut
from ...plan.plan import Plan
from ...words import (
    datum,
    edge,
    first_page,
    fixings,
    legs,
    marks,
    materials,
    order,
    panel,
    ways,
    why,
)
from ...words.cautions import caution_words
from ...words.first_tables import shown_marks
from ...words.saw_lines import Round, rounds_of
from ...words.say import Say, found_words, sentence
from ...work.cautions import Risk
from ...work.deeds import Deed
from ...work.order import Task
from ..pictures.curves import method_scene, pivot_name, profile_scene
from ..pictures.ground import contacts_scene, offcuts_scene, others_scene, square_scene
from ..pictures.legs import battens_scene, legs_scene
from . import steps as cuts
from .steps import Part, Step


def _ready(plan: Plan) -> Iterator[Step]:
    """Yield what to have, how long it takes, and what to ask for it."""
    job = plan.job
    fixing = None if plan.legs is None or job.legs is None else job.legs.fixing
    yield Step(materials.materials_words(plan.materials, job.tape, job.money.currency))
    yield Step(order.order_words(plan.order, job.work.day, fixing))
    if plan.money is not None:
        yield Step(materials.money_words(plan.money))


def _done_in(plan: Plan, tasks: Sequence[Task], *deeds: Deed) -> Iterator[Step]:
    """Yield the steps of these deeds among some tasks, each with what is waited for after it."""
    for task in tasks:
        told = order.step_words(task, faces=plan.finish.faces) if task.deed in deeds else None
        if told is not None:
            yield Step(told, wait=order.wait_told(plan.order, task))


def _sawn_at(plan: Plan) -> int:
    """Return how many tasks come before the top is cut out."""
    return next(i for i, task in enumerate(plan.order.tasks) if task.deed is Deed.CUT)


def _look(plan: Plan) -> Iterator[Step]:
    asked = order.step_words(plan.order.tasks[0])
    told = panel.assess_words(plan.job.panel, plan.job.tape)
    assert asked is not None
    yield Step(replace(told, title=asked.title, words=(*asked.words, *told.words)))


def _clean(plan: Plan) -> Iterator[Step]:
    for task in plan.order.tasks[: _sawn_at(plan)]:
        metal = (c for c in plan.cautions if task.deed is Deed.METAL and c.matter is Risk.METAL)
        yield from (Step(caution_words(c, plan.top, plan.job.tape)) for c in metal)
        yield from _done_in(plan, [task], Deed.CLEAN, Deed.TEST, Deed.STRIP)
    later = plan.cuts.again is not None
    yield Step(panel.flatness_words(plan.job.panel, plan.job.tape, later=later))


def _datum(plan: Plan) -> Iterator[Step]:
    yield Step(datum.datum_words(plan.datum, Say.of(plan)))
    yield Step(datum.square_words(plan.check, plan.datum, Say.of(plan)), square_scene(plan))


def _short(plan: Plan) -> Iterator[Step]:
    """Yield what a slab goes through before it is marked in full."""
    if plan.cuts.again is None:
        return
    each = rounds_of(plan)[0]
    if not each.last:
        yield Step(marks.saw_lines_words(each))
    yield from cuts.first(plan)


def _mark(plan: Plan) -> Iterator[Step]:
    each = rounds_of(plan)[-1]
    held, say = each.marks, Say.of(plan, each.datum)
    assert held is not None
    shown = shown_marks(plan, held)
    yield Step(marks.set_out_words(shown, held, say))
    named = " ".join(what for what, _ in first_page.checks_words(plan, each)[0])
    yield Step(marks.checked_words(each, named, shown))
    yield _curve(plan, each)
    lines = plan.cuts.allowance, plan.top.lipping
    yield Step(marks.lines_words(*lines, say, legs=plan.legs is not None))
    if each.lines or each.corners:
        yield Step(marks.saw_lines_words(each))


def _curve(plan: Plan, each: Round) -> Step:
    """Return the step that draws the curve; only its straight sides for a rectangle."""
    if not plan.methods or each.marks is None:
        return Step(marks.STRAIGHT_SIDES)
    best = plan.methods[0]
    same = [m for m in plan.methods if m.name == best.name and m.serves == best.serves]
    routed = any(isinstance(cut, RouterCut) and cut.radii for cut in plan.cuts.curve_cuts)
    told = ways.drawn_words(
        same,
        each.marks,
        Say.of(plan, each.datum),
        partial(pivot_name, plan),
        lipping=plan.top.lipping,
        turned_over=routed and len({feed.show_face_up for feed in plan.cuts.feeds}) > 1,
    )
    points = tuple(point for point in told.points if not point.startswith(_ON_PAGE_ONE))
    return Step(replace(told, points=points), method_scene(plan, same))


_ON_PAGE_ONE = ("Swing:", "Rod:", "Core line: the same with")
"""What the first page has in figures is not told again."""


def _edge(plan: Plan) -> Iterator[Step]:
    tape, edging = plan.job.tape, plan.cuts.edging
    after = plan.order.tasks[_sawn_at(plan) :]
    yield from _done_in(plan, after, Deed.STRIP)
    if edging is not None and not edging.thickness:
        yield Step(edge.edging_words(edging, Say.of(plan)))
    elif edging is not None:
        yield Step(order.FITTED[Deed.LIP])
        yield from cuts.lipped(plan)
    for i, told in enumerate(edge.profile_words(plan.profile, tape)):
        yield Step(told, profile_scene(plan, plan.profile) if i == 0 else None)
    yield from _done_in(plan, after, Deed.SAND, Deed.RAISE)


def _underside(plan: Plan) -> Iterator[Step]:
    wish, held = plan.job.legs, plan.legs
    if wish is not None and held is not None:
        yield Step(legs.placed(plan, wish, held), legs_scene(plan, held))
    yield from _done_in(plan, plan.order.tasks, Deed.FIT, Deed.MASK)
    yield from _coats(plan, Deed.UNDERSIDE)


def _coats(plan: Plan, deed: Deed) -> Iterator[Step]:
    """Yield the coats of one side as one step: they differ in nothing but their day."""
    coats = [task for task in plan.order.tasks if task.deed is deed]
    if coats:
        told = edge.finish_words(plan.finish, plan.job.tape, top=deed is Deed.COAT)
        rags = " Lay the rags flat outdoors." if plan.finish.coating.drying_oil else ""
        yield Step(told, wait=f"{order.wait_told(plan.order, coats[-1])}{rags}")


def _legs(plan: Plan) -> Iterator[Step]:
    wish, table = plan.job.legs, plan.table
    if wish is None or plan.legs is None or table is None:
        return
    flat = fixings.kept_flat(plan, table)
    if flat is not None:
        yield Step(flat, battens_scene(plan))
    glued = next(task for task in plan.order.tasks if task.deed is Deed.LEGS)
    yield Step(fixings.fixed(plan, wish, table), wait=order.wait_told(plan.order, glued))


def _last(plan: Plan) -> Iterator[Step]:
    yield from _coats(plan, Deed.COAT)
    yield from _done_in(plan, plan.order.tasks, Deed.LEVEL, Deed.PHOTOGRAPH)
    if any(offcut.kept for offcut in plan.offcuts.pieces):
        yield Step(marks.KEEP_OFFCUTS)


STAGES: tuple[tuple[str, Callable[[Plan], Iterator[Step]], str], ...] = (
    ("Materials, time, money", _ready, ""),
    ("Look and buy", _look, ""),
    ("Clean, test, metal", _clean, ""),
    ("Line and square", _datum, ""),
    ("Flat before it is marked", _short, "{lying}"),
    ("Mark and check", _mark, "{lying}"),
    ("Cut", cuts.rest, "{lying}"),
    ("Edge and sand", _edge, ""),
    ("Dry fit and underside", _underside, "underside up, on a blanket"),
    ("Battens and legs", _legs, "the top on its show face, on a blanket"),
    ("Top coats and last", _last, ""),
)
"""Every part in the order of the work: its title, its steps, how the work lies meanwhile.

A part without steps is not told of. A new craft adds a row, or steps to one.
"""


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
        lambda plan: (Step(caution_words(c, plan.top, plan.job.tape)) for c in plan.cautions),
    ),
)
"""Each part by its summary and its steps."""
