"""Legs: where they stand, what holds them, whether the table stands, holds and stays flat."""

from __future__ import annotations

import math
from collections.abc import Iterator

from ...job.plan import Plan
from ...legs.notes import Matter
from ...legs.plan import LegsPlan
from ...legs.whole import TablePlan
from ...legs.wish import Fixing
from ...units import two_figures
from ..steps.legs import legs_scene
from .fixings import battens, fixed
from .rows import BenchStep, Table, unit_words

ESTIMATE = "An estimate from geometry and usual figures, not a test. Try it before use."


def legs(plan: Plan) -> Iterator[BenchStep]:
    """Yield the steps about the legs; none for a top alone."""
    if plan.legs is None or plan.table is None:
        return
    yield _placed(plan, plan.legs)
    yield fixed(plan, plan.table)
    yield from battens(plan, plan.table)
    yield _standing(plan, plan.legs)
    yield _sagging(plan, plan.table)
    yield _people(plan, plan.legs, plan.table)


def _placed(plan: Plan, legs: LegsPlan) -> BenchStep:
    tape, over = plan.job.tape, legs.overhang
    rows = tuple(
        (
            f"{leg.number}",
            tape.figure(leg.middle.x),
            tape.figure(leg.middle.y),
            tape.figure(leg.overhang),
        )
        for leg in legs.legs
    )
    headings = (
        "Leg",
        "From O along the long centreline",
        "From O across it",
        "To the edge of the top",
    )
    words = (
        f"Set out on the underside (MIRRORED: left and right swap). Overhang beyond the feet: "
        f"side {tape.measure(over.side)}, end {tape.measure(over.end)}, corner "
        f"{tape.measure(over.corner)}.",
        f"{len(legs.legs)} legs, each {tape.measure(legs.leg_length)} long, for "
        f"{tape.measure(legs.height)} under the top; about {tape.mass(legs.leg_mass)} each.",
        *_leaning(plan, legs),
        *_chosen(plan),
    )
    caption = (
        f"Middles of the legs' heads, in {unit_words(tape)}, show face up: minus is towards E1, "
        "and towards S1."
    )
    return BenchStep("Legs", words, Table(headings, rows, caption), drawing=legs_scene(plan, legs))


def _leaning(plan: Plan, legs: LegsPlan) -> Iterator[str]:
    wish, tape = plan.job.legs, plan.job.tape
    if wish is None or not wish.splay:
        return
    out = max(leg.middle.distance_to(leg.floor) for leg in legs.legs)
    yield (
        f"They lean {math.degrees(wish.splay):.3g}° {wish.lean.value}: each foot lands "
        f"{tape.measure(out)} from under its head. Cut both ends of a leg level, to that angle."
    )


def _chosen(plan: Plan) -> Iterator[str]:
    asked = plan.job.table
    if not asked.counts:
        return
    yield f"Their places are proposed: what counts is {asked.goal.value}, once the load is held."
    if len(asked.counts) > 1:
        counts = [str(count) for count in asked.counts]
        among = f"{', '.join(counts[:-1])} and {counts[-1]}"
        yield f"Compared were {among} legs; the command legs sets them side by side."


def _standing(plan: Plan, legs: LegsPlan) -> BenchStep:
    tape, tipping = plan.job.tape, legs.tipping
    words = [f"Table about {tape.mass(legs.mass)}: top {tape.mass(legs.top_mass)}."]
    if math.isfinite(tipping.least.force):
        words.append(
            f"By estimate it begins to tip at about {tape.force(tipping.least.force)}, pressed "
            f"down {tape.measure(tipping.edge)} inside the edge at its least firm place; "
            f"at an end {_force(plan, tipping.end)}, at a side {_force(plan, tipping.side)}. "
            f"The job asks for {tape.force(legs.load)}."
        )
    else:
        words.append("No weight set down near its edge tips it: the feet stand outside.")
    words.append(
        f"Pushed level at the top's edge it begins to tip at about {tape.force(tipping.push)}, "
        "if its feet do not slide first."
    )
    words.append(ESTIMATE)
    return BenchStep(
        "Does it stand?", tuple(words), warnings=tuple(p.words(tape) for p in legs.problems)
    )


def _force(plan: Plan, force: float) -> str:
    return plan.job.tape.force(force) if math.isfinite(force) else "none does"


def _sagging(plan: Plan, table: TablePlan) -> BenchStep:
    tape, sag, burden = plan.job.tape, table.sag, table.burden
    warnings = _warned(plan, table, Matter.SAGS, Matter.SAG_UNKNOWN)
    if sag is None:
        return BenchStep("Does it sag?", (), warnings=warnings)
    place = sag.first_loaded.place
    words = (
        f"Under its own weight and {_spread(plan, burden.spread)} spread over it, it sags by "
        f"estimate {tape.small(sag.first_loaded.down)} when first loaded, most at "
        f"{tape.figure(place.x)} along and {tape.figure(place.y)} across from O, and "
        f"{tape.small(sag.after_creep.down)} after years.",
        f"The widest gap between feet is {tape.measure(sag.span)}: aim at "
        f"{tape.small(sag.aim)} at first; the eye sees {tape.small(sag.seen)}.",
        f"{tape.force(burden.force)} pressed on its softest place adds "
        f"{tape.small(sag.under_force.down)} while it lasts.",
        ESTIMATE,
    )
    return BenchStep("Does it sag?", words, warnings=warnings)


def _spread(plan: Plan, spread: float) -> str:
    if plan.job.tape.imperial:
        return f"{two_figures(spread / 0.45359237 * 0.09290304)} lb a square foot"
    return f"{two_figures(spread)} kg a square metre"


def _people(plan: Plan, legs: LegsPlan, table: TablePlan) -> BenchStep:
    tape, seats = plan.job.tape, len(table.seating.seats)
    high = f"Its face stands {tape.measure(table.height)} above the floor"
    if table.use is not None:
        usual = f"{tape.figure(table.use.least)} to {tape.measure(table.use.most)}"
        high += f", as is usual for {_as_use(table.use.use)}: {usual} ({table.use.source})."
    else:
        high += ": for none of coffee, dining, bench and bar is that usual."
    lost = table.seating.without_legs - seats
    places = (
        f"{seats} {'person finds' if seats == 1 else 'people find'} a place "
        f"{tape.measure(plan.job.table.place)} wide with knees clear of the legs; "
        f"{f'legs take {lost} more' if lost else 'no place is lost to a leg'}. Free for knees: "
        f"{tape.measure(table.knees)}."
    )
    words = [high, _lifting(plan, legs, table)]
    if plan.job.legs and plan.job.legs.seated:
        words.insert(1, places)
    warnings = _warned(plan, table, Matter.LOW, Matter.NOBODY_SITS)
    return BenchStep("Who sits, who lifts", tuple(words), warnings=warnings)


def _lifting(plan: Plan, legs: LegsPlan, table: TablePlan) -> str:
    tape = plan.job.tape
    panel = f"the old panel, about {tape.mass(plan.job.panel.mass)}: {_hands(table.panel_lifters)}"
    if plan.job.legs and plan.job.legs.fixing is Fixing.LOOSE:
        whole = (
            f"the finished top, about {tape.mass(legs.top_mass)}: {_hands(table.top_lifters)}; "
            f"each leg, about {tape.mass(legs.leg_mass)}: {_hands(table.leg_lifters)}"
        )
    else:
        whole = f"the finished table, about {tape.mass(legs.mass)}: {_hands(table.table_lifters)}"
    return f"Lifting: {panel}; {whole}. Local rules decide."


def _as_use(use: str) -> str:
    return {"bench": "sitting on", "accessible": "a wheelchair to roll under"}.get(use, use)


def _hands(count: int) -> str:
    return "one person" if count == 1 else f"{count} people"


def _warned(plan: Plan, table: TablePlan, *matters: Matter) -> tuple[str, ...]:
    return tuple(note.words(plan.job.tape) for note in table.notes if note.matter in matters)
