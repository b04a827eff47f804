"""Legs in words: where they stand, whether the table stands, sags, and who sits at it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from ..geometry.point import Point
from ..legs.plan import LegsPlan
from ..legs.sag import CREEP_SOURCE, FINAL_LIMIT, FIRST_LIMIT
from ..legs.tipping import GRAVITY
from ..legs.whole import TablePlan
from ..legs.wish import Fixing, LegsWish
from ..plan.plan import Plan
from ..units import KG_PER_POUND, MM_PER_INCH, Tape, two_figures
from .datum import directions_of
from .leg_concerns import CAUTION, SAG, SEATED, STANDING, WHERE, told
from .say import Passage, Table, listed, passage, people, unit_words


def from_o(
    plan: Plan, name: str, places: Iterable[tuple[str, Point, str]], last: str, what: str
) -> Table:
    """Return a table of `what` by its places from the middle of the top, and one figure more."""
    ways = directions_of(plan.top, plan.datum, plan.marks.marks)
    rows = tuple((called, *ways.told(at, plan.job.tape), more) for called, at, more in places)
    headings = (name, "From O along the long centreline", "From O across it", last)
    unit = unit_words(plan.job.tape)
    return Table(headings, rows, f"{what}, in {unit}: the same whichever face lies up.")


def in_short(plan: Plan) -> Iterator[str]:
    """Yield what the terminal tells of legs and table, and what it warns of behind a ``!``."""
    if plan.legs is None or plan.table is None:
        return
    tape, legs, table = plan.job.tape, plan.legs, plan.table
    yield tape.fill(
        "{count}; overhang side {overhang.side:measure}, end {overhang.end:measure}; does not tip "
        "under {force} {where} (an estimate)",
        legs,
        count=len(legs.legs),
        force=_force(tape, legs.weakest.force),
        where="at its very edge"
        if legs.at_edge
        else f"{tape.measure(legs.tipping.edge)} inside it",
    )
    if table.sag is not None:
        sits = "" if table.seating is None else f"; {len(table.seating.seats)} places to sit"
        yield tape.fill(
            "sags {first_loaded.down:small} at first, {after_creep.down:small} after years (an "
            f"estimate){sits}",
            table.sag,
        )
    yield from (f"!{words}" for words in told((*legs.problems, *table.notes), tape))


def in_quarters(plan: Plan, legs: LegsPlan) -> str:
    """Return where legs that stand in all quarters alike stand; empty where they do not."""
    tape = plan.job.tape
    told = sorted({(abs(leg.middle.x), abs(leg.middle.y)) for leg in legs.legs})
    places = dict.fromkeys((tape.figure(x), tape.figure(y)) for x, y in told)
    along, across = (list(dict.fromkeys(f)) for f in zip(*places, strict=True))
    count = sum((1 if a == "0" else 2) * (1 if c == "0" else 2) for a in along for c in across)
    if count != len(legs.legs) or len(places) != len(along) * len(across):
        return ""
    return f"{listed(along)} along, {listed(across)} across"


def stands_in_short(plan: Plan) -> str:
    """Return in a line whether the table stands."""
    least = math.inf if plan.legs is None else plan.legs.weakest.force
    finite = math.isfinite(least)
    tips = f"tips at about {plan.job.tape.force(least)}" if finite else "nothing tips it"
    return f"Does it stand and sag, who sits: {tips}, an estimate"


def placed(plan: Plan, wish: LegsWish, legs: LegsPlan) -> Passage:
    """Return where the legs are set out."""
    tape, quarters = plan.job.tape, in_quarters(plan, legs)
    rows = ((f"{leg.number}", leg.middle, tape.figure(leg.overhang)) for leg in legs.legs)
    table = from_o(plan, "Leg", rows, "To the edge of the top", "Middles of the legs' heads")
    where = "by the figures of the first page" if quarters else "by the table"
    out = max(leg.middle.distance_to(leg.floor) for leg in legs.legs)
    return passage(
        "Set out the legs",
        "Draw both centrelines again through their pricks on the underside; they cross at O. Set "
        f"the middles out there {where}.",
        tape.fill(
            "Each leg {leg_length:measure} long, for {height:measure} under the top; about "
            "{leg_mass:mass} each. Overhang at the corner {overhang.corner:measure}.",
            legs,
        ),
        wish.splay > 0
        and f"They lean {math.degrees(wish.splay):.3g}° {wish.lean.value}: each foot lands "
        f"{tape.measure(out)} from under its head. Cut both ends of a leg level, to that angle.",
        tables=() if quarters else (table,),
        warnings=told(legs.problems, tape, WHERE),
    )


def chosen(plan: Plan) -> Passage | None:
    """Return what proposed places are good for; None where the job names them."""
    asked = plan.job.table
    if not asked.counts or plan.legs is None:
        return None
    among = listed(map(str, asked.counts)) if len(asked.counts) > 1 else ""
    return passage(
        "Why the legs stand there",
        f"Their places are proposed: what counts is {asked.goal.value}, once the load is held.",
        among and f"Compared were {among} legs; the command legs sets them side by side.",
    )


def standing(plan: Plan, legs: LegsPlan) -> Passage:
    """Return whether the table stands, and under what it does not."""
    tape, tipping, very_edge = plan.job.tape, legs.tipping, legs.tipping.at_edge.force
    inside, push = f"{tape.measure(tipping.edge)} inside", tape.force(tipping.push)
    least, end, side = (_force(tape, f) for f in (tipping.least.force, tipping.end, tipping.side))
    where = "at the very edge, where somebody may sit down" if legs.at_edge else inside
    tips = math.isfinite(very_edge)
    return passage(
        "Does it stand?",
        f"Table about {tape.mass(legs.mass)}: top {tape.mass(legs.top_mass)}.",
        f"By estimate it does not tip under {_force(tape, very_edge)} pressed down at its very "
        f"edge at its least stable point, nor under {least} pressed {inside} it; {inside} an end "
        f"{end}, inside a side {side}. The job asks for {tape.force(legs.load)}, {where}."
        if tips
        else "No weight set down on it tips it: the feet stand outside.",
        f"Pushed level its loose legs begin to lie down at about {push}."
        if tipping.rocks
        else f"Pushed level at the top's edge it begins to tip at about {push}, if its feet do not "
        "slide first.",
        CAUTION,
        warnings=told(legs.problems, tape, STANDING),
    )


def _force(tape: Tape, force: float) -> str:
    """Return a force with the mass that weighs as much."""
    if not math.isfinite(force):
        return "any force"
    kilograms = "" if tape.imperial else f" (about {two_figures(force / GRAVITY)} kg)"
    return f"{tape.force(force)}{kilograms}"


def sagging(plan: Plan, table: TablePlan) -> Passage:
    """Return how far the top sags, and how far it should at most."""
    tape, sag, loads = plan.job.tape, table.sag, table.loads
    warnings = told(table.notes, tape, SAG)
    if sag is None:
        return Passage("Does it sag?", warnings=warnings)
    ways = directions_of(plan.top, plan.datum, plan.marks.marks)
    off = [told for told in ways.told(sag.first_loaded.place, tape) if told != "0"]
    why = "the job" if plan.job.table.creep else CREEP_SOURCE
    spread = f"{two_figures(loads.long_term)} kg a square metre"
    if tape.imperial:
        pounds = loads.long_term / KG_PER_POUND * (12 * MM_PER_INCH / 1000) ** 2
        spread = f"{two_figures(pounds)} lb a square foot"
    words = (
        f"Under its own weight and {spread} spread over it, it sags by estimate "
        "{first_loaded.down:small} when first loaded, most "
        f"{f'{listed(off)} from O' if off else 'at O'}, and {{after_creep.down:small}} after years "
        f"({loads.creep:.3g} times as much: {why}).",
        "The widest gap between feet is {span:measure}. Limits (EN 1995-1-1, table 7.2): "
        f"{{first_limit:small}} at first, span/{FIRST_LIMIT:.0f}; {{final_limit:small}} after "
        f"years, span/{FINAL_LIMIT:.0f}.",
        f"{tape.force(loads.point)} pressed on its softest place adds {{under_force.down:small}} "
        "while it lasts.",
    )
    return passage("Does it sag?", *(tape.fill(told, sag) for told in words), warnings=warnings)


def seated(plan: Plan, wish: LegsWish, legs: LegsPlan, table: TablePlan) -> Passage:
    """Return how high it stands, who finds a place at it, and who lifts it."""
    tape, use, sits = plan.job.tape, table.use, ""
    usual = ": for none of coffee, dining, bench and bar is that usual."
    if use is not None:
        usual = f", as is usual for {'sitting on' if use.use == 'bench' else use.use}: "
        usual += tape.fill("{least:figure} to {most:measure} ({source}).", use)
    if table.seating is not None:
        seats = len(table.seating.seats)
        lost = table.seating.without_legs - seats
        sits = (
            f"{seats} {'person finds' if seats == 1 else 'people find'} a place "
            f"{tape.measure(plan.job.table.place)} wide with knees clear of the legs; "
            f"{f'legs take {lost} more' if lost else 'no place is lost to a leg'}. Free for "
            f"knees: {tape.measure(table.knees)}."
        )
    lifted = [("the old panel", plan.job.panel.mass, table.panel_lifters)]
    if wish.fixing is Fixing.LOOSE:
        lifted += [("the finished top", legs.top_mass, table.top_lifters)]
        lifted += [("each leg", legs.leg_mass, table.leg_lifters)]
    else:
        lifted += [("the finished table", legs.mass, table.table_lifters)]
    held = (f"{what}, about {tape.mass(mass)}: {people(count)}" for what, mass, count in lifted)
    return passage(
        "Who sits, who lifts",
        f"Its face stands {tape.measure(table.height)} above the floor{usual}",
        sits,
        f"Lifting: {'; '.join(held)}. Local rules decide.",
        warnings=told((*table.notes, *legs.problems), tape, SEATED),
    )
