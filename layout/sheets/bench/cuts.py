"""The cuts in order, with where each line meets the panel and where the guide goes."""

from __future__ import annotations

import math

from ...cutting.cut import EdgePoint, Trim
from ...geometry.point import Point
from ...job.plan import Plan
from .rows import BenchStep, Section, Table


def cuts(plan: Plan) -> Section:
    """Return the steps of cutting."""
    steps: list[BenchStep] = []
    tape = plan.job.tape
    trims = {trim.label: trim for trim in plan.cuts.trims}
    for step in plan.cuts.steps:
        text = step.text(tape)
        trim = trims.get(step.title.split(":")[0])
        table = None if trim is None else _trim_table(plan, trim)
        sentences = (_capital(text),)
        steps.append(BenchStep(step.title, sentences, table))
    return Section("Cuts, in this order", tuple(steps))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def _trim_table(plan: Plan, trim: Trim) -> Table:
    rows = [("Saw line", _at(plan, trim.start), _at(plan, trim.end))]
    if trim.guide is not None:
        guide = trim.guide
        rows.append(("Guide", _at(plan, guide.start), _at(plan, guide.end)))
    tape = plan.job.tape
    caption = (
        f"Waste on the {_side(trim.waste)} side (show face up). Kerf {tape.exact(trim.kerf, 1)} "
        f"{tape.unit}, taken from the waste. Hold up both sides of the cut."
    )
    return Table(("", "From this place on the edge", "to this one"), tuple(rows), caption)


def _at(plan: Plan, place: EdgePoint) -> str:
    tape, datum = plan.job.tape, plan.datum
    words = f"{tape.figure(place.along)} along {datum.name}, {tape.figure(place.square)} square"
    if place.corner:
        words += f" ({tape.figure(place.distance)} from {place.corner})"
    return words


def _side(waste: Point) -> str:
    """Return the side of the panel, as drawn, to which a direction points."""
    quarter = round(math.atan2(waste.y, waste.x) / (math.pi / 2)) % 4
    return ("right", "upper", "left", "lower")[quarter]
