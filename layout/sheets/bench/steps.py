"""A step of the work, in words with its picture; the acts of cutting as steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import Any

from ...cutting.builds import Edging, FrameJoint, RimLoss
from ...cutting.cut import HandCut, RouterCut, SkippedTrim, StraightCut, Trim
from ...cutting.mending import Mended
from ...cutting.plan import Act, CornerCuts, Flatten, Rest
from ...drawing.scene import Scene
from ...panel.datum import Datum
from ...plan.plan import Plan
from ...words.cautions import concern_words
from ...words.cuts import sawn_words, words_of
from ...words.order import FITTED
from ...words.saw_lines import lying_of, numbers_of, rounds_of
from ...words.say import Passage, Say, passage
from ...work.deeds import Deed
from ...work.piece import FITTED as GLUED_IN
from ..pictures import curves, ground
from ..pictures.lying.scene import lying_scene


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do and tick off, or, behind the work, one thing to know."""

    told: Passage
    drawing: Scene | None = None
    wait: str = ""
    """What is waited for when it is done; a wait is no step."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the work, or one behind it, which is folded up on a screen."""

    title: str
    """Of one behind the work, its result."""
    steps: tuple[Step, ...]
    lies: str = ""
    before: int = 0
    """How the work lies meanwhile, and how many steps come before it."""


def first(plan: Plan) -> Iterator[Step]:
    """Return what is done to a slab before it is marked again."""
    return _steps(plan, plan.cuts.acts[: _rested(plan)], plan.datum)


def rest(plan: Plan) -> Iterator[Step]:
    """Return the cuts, of a slab those after it is marked again."""
    again = plan.cuts.again
    acts = [act for act in plan.cuts.acts[_rested(plan) :] if not isinstance(act, Edging)]
    return _steps(plan, acts, plan.datum if again is None else again.datum)


def lipped(plan: Plan) -> Iterator[Step]:
    """Return the lipping: it goes on when an old coat is off."""
    acts = [act for act in plan.cuts.acts if isinstance(act, Edging)]
    return _steps(plan, acts, plan.datum)


def _rested(plan: Plan) -> int:
    """Return how many acts a slab has behind it when it has rested."""
    acts = enumerate(plan.cuts.acts, start=1)
    return next((i for i, act in acts if isinstance(act, Rest)), 0)


def _steps(plan: Plan, acts: Sequence[Act], datum: Datum) -> Iterator[Step]:
    """Yield a step for each act, for all straight lines in a row, and for all sides left unsawn."""
    say, numbers = Say.of(plan, datum), numbers_of(plan)
    for kind, group in groupby(acts, key=type):
        held = list(group)
        if kind is Trim:
            trims = [act for act in held if isinstance(act, Trim)]
            step = Step(sawn_words(trims, numbers, say), _lines_scene(plan, trims))
            yield _warned(plan, step, [trim.label for trim in trims], say)
        elif kind is SkippedTrim:
            told = (words_of(act, say) for act in held)
            words = (f"{one.title}: {one.words[0]}" for one in told)
            yield Step(passage("Sides that no saw takes", *words))
        else:
            if any(isinstance(act, Mended) and act.how in GLUED_IN for act in held):
                yield Step(FITTED[Deed.MEND])
            for act in held:
                draw = _PICTURES.get(type(act))
                wait = f"Leave it for {act.days} days." if isinstance(act, Rest) else ""
                step = Step(words_of(act, say), draw(plan, act) if draw else None, wait)
                cuts = act.cuts if isinstance(act, CornerCuts) else (act,)
                yield _warned(plan, step, [getattr(cut, "label", "") for cut in cuts], say)


def _warned(plan: Plan, step: Step, labels: Sequence[str], say: Say) -> Step:
    """Return a step that warns first of what its cuts meet, each by the number of its line."""
    numbers = numbers_of(plan)
    met = (
        replace(c, who=(f"Line {numbers[c.who[0]]}", *c.who[1:])) if c.who[0] in numbers else c
        for c in plan.blades
        if c.who[0] in labels
    )
    warnings = (*(concern_words(concern, say) for concern in met), *step.told.warnings)
    return replace(step, told=replace(step.told, warnings=warnings))


def _lines_scene(plan: Plan, cuts: Sequence[StraightCut]) -> Scene | None:
    """Return the panel with the saw lines of some cuts; None where they are told by corners."""
    rounds = tuple(
        replace(each, lines=tuple(line for line in each.lines if line.cut in cuts))
        for each in rounds_of(plan)
    )
    if not any(each.lines for each in rounds):
        return None
    return lying_scene(plan, lying_of(plan), rounds, tallest=34.0, width=60.0, plain=True)


_PICTURES: dict[type, Callable[[Plan, Any], Scene | None]] = {
    Mended: ground.mend_scene,
    FrameJoint: ground.joint_scene,
    CornerCuts: lambda plan, act: _lines_scene(plan, act.cuts),
    RouterCut: curves.line_scene,
    HandCut: curves.line_scene,
    RimLoss: curves.rim_scene,
    Edging: curves.lipping_scene,
    Flatten: lambda plan, _: curves.flatten_scene(plan),
}
"""How an act is drawn; what is not here needs no drawing."""
