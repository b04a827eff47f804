"""How the curve is drawn: the method to use, step by step, and the others with why not."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields
from typing import Any

from ...job.plan import Plan
from ...marking.instruments import Ordinate
from ...marking.marks import MarkSet
from ...marking.method import Method
from ...marking.round_methods import Swing
from ..steps.methods import method_scene, pivot_name
from .rows import BenchStep, Table, sentence


def drawn(plan: Plan, held: MarkSet) -> list[BenchStep]:
    """Return the step that draws the curve; only its straight sides for a rectangle."""
    if not plan.methods:
        words = "Join the corners X1 to X4 with a straightedge: this top has no curve."
        return [BenchStep("Straight sides", (words,))]
    steps = [_best(plan, held)]
    others = [m for m in plan.methods if m.name != plan.methods[0].name]
    if others:
        steps.append(_others(plan, others))
    return steps


def _best(plan: Plan, held: MarkSet) -> BenchStep:
    best, tape = plan.methods[0], plan.job.tape
    same = [m for m in plan.methods if m.name == best.name and m.serves == best.serves]
    words = [
        f"With {_tools(best)}. Drawn with care the line lies within "
        f"{tape.exact(best.error, 1)} {tape.unit} of the true one; the rounded figures of this "
        f"sheet add {tape.exact(held.rounding_error(tape), 1)} {tape.unit} at most."
    ]
    if best.leaves_hole:
        down = plan.cuts.face.mirrored
        where = (
            "the underside, where none shows"
            if down
            else "the SHOW face: stick a scrap of thin board over each centre and pin into that"
        )
        words.append(f"It leaves holes in {where}.")
    if not best.serves:
        words.append(f"It does not serve as it is: {best.reason(tape)}.")
    points = [
        f"{step.title}: {step.text(tape)}{_about(plan, m)}." for m in same for step in _plain(m)
    ]
    if plan.top.lipping:
        points.append(_core(plan, best))
    return BenchStep(
        f"Draw the curve: {best.name}",
        tuple(words),
        _ordinates(plan, best),
        tuple(_boards(plan, same)),
        tuple(points),
        method_scene(plan, same),
        _proof(plan, held),
    )


def _core(plan: Plan, method: Method) -> str:
    """Return how the core line is drawn: by its own radius, or beside the finish line."""
    tape, lipping = plan.job.tape, plan.top.lipping
    if isinstance(method.figures, Swing) and method.figures.radius > lipping:
        radius = tape.measure(method.figures.radius - lipping)
        return f"Core line: the same with {radius}{_about(plan, method)}."
    inside = tape.measure(lipping)
    return f"Core line: {inside} inside the finish line all round, by a gauge: no oval of its own."


def _about(plan: Plan, method: Method) -> str:
    """Return which marks a radius is swung about."""
    if not isinstance(method.figures, Swing):
        return ""
    names = [pivot_name(plan, pivot) for pivot in method.pivots]
    return f", about {', '.join(names)}" if names else f", at {len(method.figures.centres)} corners"


def _tools(method: Method) -> str:
    return " and ".join(tool.value for tool in method.tools)


def _plain(method: Method) -> Iterator[Any]:
    """Yield the steps of a method that are no rows of a table."""
    for step in method.steps:
        if not step.title.startswith(("Point ", "Station")):
            yield step


def _ordinates(plan: Plan, method: Method) -> Table | None:
    """Return the points of a method that goes by ordinates."""
    held: Sequence[Ordinate] = ()
    if any(field.name == "ordinates" for field in fields(method.figures)):
        held = method.figures.ordinates
    tape = plan.job.tape
    rows = tuple((tape.figure(o.out), tape.figure(o.up)) for o in held)
    headings = ("Out from O along the long axis", "Up from it")
    return Table(headings, rows, "The same in all four quarters.") if rows else None


def _proof(plan: Plan, held: MarkSet) -> Table | None:
    """Return the points that prove an oval's line."""
    tape = plan.job.tape
    rows = tuple((tape.figure(o.out), tape.figure(o.up)) for o in held.ordinates)
    headings = ("Out from O along the long axis", "Up from it")
    return Table(headings, rows, "The line must pass here in all four quarters.") if rows else None


def _boards(plan: Plan, methods: Sequence[Method]) -> Iterator[str]:
    """Yield what to do about points that have no wood under them."""
    tape = plan.job.tape
    for method in methods:
        for pivot in method.pivots:
            if pivot.off is not None:
                advice = pivot.off.advice.format(distance=tape.measure(pivot.off.distance))
                yield sentence(f"{pivot_name(plan, pivot)}: {advice}")


def _beyond(plan: Plan, method: Method) -> Iterator[str]:
    """Yield where boards are wanted beside the panel, in a few words."""
    tape = plan.job.tape
    off = [pivot.off for pivot in method.pivots if pivot.off is not None]
    if off:
        places = (f"{tape.measure(o.distance)} beyond {o.edge or 'the wood'}" for o in off)
        yield f"Boards of the same thickness beside it: {', '.join(dict.fromkeys(places))}."


def _others(plan: Plan, others: Sequence[Method]) -> BenchStep:
    tape = plan.job.tape
    rows = []
    for method in others:
        if method.serves:
            hole = "yes" if method.leaves_hole else "no"
            why = list(_beyond(plan, method))
            if not method.draws_line:
                why.insert(0, "Cuts at once: there is no line to saw by.")
            rows.append((method.name, tape.exact(method.error, 1), hole, " ".join(why)))
        else:
            rows.append((method.name, "–", "–", sentence(method.reason(tape))))
    headings = ("Way", f"Within, {tape.unit}", "Leaves a hole", "What speaks against it")
    return BenchStep(
        "Other ways to draw it", ("In place of the step above.",), Table(headings, tuple(rows))
    )
