"""The work in order: parts, each giving its steps. What the job does not need yields none."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial

from ...cutting import RouterCut
from ...job.plan import Plan
from ...words import fixings
from ...words.datum import datum_words, square_words
from ...words.edge import done_words, edging_words, finish_words, profile_words
from ...words.first_page import lies_words
from ...words.legs import placed
from ...words.lying import lying_of
from ...words.marks import lines_words
from ...words.panel import METAL, assess_words, flatness_words
from ...words.saw_lines import Round, rounds_of
from ...words.ways import STRAIGHT_SIDES, drawn_words
from ...words.work import CHECK, KEEP_OFFCUTS, SAW_LINES, set_out_words
from ..pictures.legs import battens_scene, legs_scene
from ..pictures.methods import method_scene, pivot_name
from ..pictures.sections import profile_scene
from ..pictures.setting_out import square_scene
from . import cuts
from .step import Stage, Step, say_of


def _look(plan: Plan) -> Iterator[Step]:
    panel, tape = plan.job.panel, plan.job.tape
    yield Step(assess_words(panel, tape))
    yield Step(METAL)
    later = plan.cuts.again is not None
    yield Step(flatness_words(panel, tape, later=later))


def _datum(plan: Plan) -> Iterator[Step]:
    yield Step(datum_words(plan.datum, say_of(plan)))
    yield Step(square_words(plan.check, plan.datum, say_of(plan)), square_scene(plan))


def _short(plan: Plan) -> Iterator[Step]:
    """Yield what a slab goes through before it is marked in full."""
    first = rounds_of(plan)[0]
    if first.last:
        return
    if first.lines:
        yield Step(SAW_LINES)
    yield from cuts.first(plan)


def _mark(plan: Plan) -> Iterator[Step]:
    each = rounds_of(plan)[-1]
    held, say = each.marks, say_of(plan, each.datum)
    assert held is not None
    yield Step(set_out_words(each, held, say))
    yield Step(CHECK)
    yield _curve(plan, each)
    yield Step(lines_words(plan.cuts.allowance, plan.top.lipping, say))
    if each.lines or each.corners:
        yield Step(SAW_LINES)


def _curve(plan: Plan, each: Round) -> Step:
    """Return the step that draws the curve; only its straight sides for a rectangle."""
    if not plan.methods or each.marks is None:
        return Step(STRAIGHT_SIDES)
    best = plan.methods[0]
    same = [m for m in plan.methods if m.name == best.name and m.serves == best.serves]
    routed = any(isinstance(cut, RouterCut) and cut.radii for cut in plan.cuts.curve_cuts)
    told = drawn_words(
        same,
        each.marks,
        say_of(plan, each.datum),
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
    if edging is not None and not edging.thickness:
        yield Step(edging_words(edging, tape))
    for i, told in enumerate(profile_words(plan.profile, tape)):
        yield Step(told, profile_scene(plan, plan.profile) if i == 0 else None)
    yield Step(finish_words(plan.finish, tape), wait="Until it is dry: lay the rags flat outdoors.")


def _legs(plan: Plan) -> Iterator[Step]:
    wish, held, table = plan.job.legs, plan.legs, plan.table
    if wish is None or held is None or table is None:
        return
    flat = fixings.kept_flat(plan, table)
    if flat is not None:
        yield Step(flat, battens_scene(plan))
    yield Step(placed(plan, wish, held), legs_scene(plan, held))
    yield Step(fixings.fixed(plan, wish, table))


def _done(plan: Plan) -> Iterator[Step]:
    yield Step(done_words(stands=plan.legs is not None))
    if any(offcut.kept for offcut in plan.offcuts.pieces):
        yield Step(KEEP_OFFCUTS)


def _lies(plan: Plan) -> str:
    return lies_words(lying_of(plan))


def _below(words: str) -> Callable[[Plan], str]:
    return lambda _: words


STAGES = (
    Stage("Look at the panel", _look),
    Stage("Line and square", _datum),
    Stage("Cut short and flatten", _short, _lies),
    Stage("Mark and check", _mark, _lies),
    Stage("Cut", cuts.rest, _lies),
    Stage("Edge and finish", _edge),
    Stage("Battens and legs", _legs, _below("the top on its show face, on a blanket")),
    Stage("Last", _done),
)
"""Every part in the order of the work. A new craft adds a row, or steps to one."""
