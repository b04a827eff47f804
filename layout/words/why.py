"""Why a top is not larger, in words: what it touches, which limits hold it, what mending gains."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from ..fit.found import Fit
from ..fit.stand import period_of
from ..fit.why.contacts import Contact
from ..fit.why.costs import Cost, Lies
from ..fit.why.limits import End, Limited, LimitMet
from ..fit.wish import Goal, Limits, Span
from ..geometry.point import Point
from ..units import MM_PER_INCH, Tape, two_figures
from ..work.cautions import OFF_GRAIN
from .say import Passage, exact_words, listed, outline_words, passage, ranged, table

if TYPE_CHECKING:
    from ..plan.plan import Plan

Place = Callable[[Point], str]  # tells where a point of the panel lies
# What a top is that the goal prefers
BETTER = {Goal.AREA: "larger", Goal.LENGTH: "longer", Goal.WIDTH: "wider", Goal.NEAREST: "nearer"}

_LESS = {
    Goal.AREA: "smaller",
    Goal.LENGTH: "shorter",
    Goal.WIDTH: "narrower",
    Goal.NEAREST: "farther off",
}

_AS_GOOD = 0.0005  # a share below which two tops are equally good
_LEAST_TURN = 0.05  # degrees below which nobody sees a turn

_LIES = {
    Lies.INSIDE: "if it is mended, wholly inside the top",
    Lies.ACROSS: "if it is out or mended before the edge is cut through it",
    Lies.BESIDE: "if the top need not keep clear of it",
}


def proof_words(fit: Fit, goal: Goal, tape: Tape) -> str:
    """Return how far from the best a top is proved to be; empty where nothing is proved.

    What is left is never told as nothing: the least is a hundredth of a percent or of a mm.
    """
    if fit.clearance_gap is not None:
        least = 0.001 * MM_PER_INCH if tape.imperial else 0.01
        more = tape.exact(max(fit.clearance_gap, least), 2)
        return f"no place gives it over {more} {tape.unit} more clearance: proved"
    if fit.gap is None:
        return ""
    share = math.ceil(1e4 * fit.gap / (1 - fit.gap) - 1e-3) / 1e4  # rounded up, as a bound must be
    best = f"{max(share, 0.0001):.2%} {BETTER[goal]}"
    return f"no {fit.outline.name} can be more than {best}: proved"


def percent(share: float) -> str:
    """Return a share in per cent to two figures.

    >>> percent(0.1035), percent(0.0313), percent(1.204)
    ('10 %', '3.1 %', '120 %')
    """
    value = 100 * share
    return f"{value:.0f} %" if value >= 10 else f"{two_figures(value)} %"


def contact_words(contact: Contact, place: Place) -> str:
    """Return what is touched, and where."""
    where = " to ".join(map(place, contact.points))
    return f"{contact.name} {'from' if len(contact.points) > 1 else 'at'} {where}"


def limit_words(limit: LimitMet, limits: Limits, tape: Tape) -> str:
    """Return which limit a top has come to."""
    if limit.what is Limited.TURN:
        degrees = two_figures(math.degrees(limits.most_turn))
        turned = f"it is turned from the grain as far as allowed, {degrees}°"
        return turned if limits.most_turn else "it runs the way that was asked for"
    span: Span = getattr(limits, limit.what.name.lower())
    value = span.greatest if limit.end is End.GREATEST else span.least
    words = f"{value:.4g}" if limit.what is Limited.RATIO else tape.measure(value)
    return f"its {limit.what.value} is the {limit.end.value} allowed, {words}"


def without_words(cost: Cost) -> str:
    """Return what a gain is had without: ``screw hole 2 and screw hole 3 together``."""
    return listed(cost.names) + (" together" if len(cost.names) > 1 else "")


def gain_words(cost: Cost, goal: Goal) -> str:
    """Return how much better the top would be without a defect: ``10 % larger``."""
    gain = percent(cost.gain)
    more = gain if cost.is_settled else f"at least {gain} and at most {percent(cost.most)}"
    return f"{more} {BETTER[goal]}"


def _how(cost: Cost) -> str:
    if len(cost.names) > 1:
        return "if all of them are mended, or the top need not keep clear of them"
    return "" if cost.lies is None else _LIES[cost.lies]


def cost_lines(costs: Sequence[Cost], goal: Goal) -> Iterator[str]:
    """Yield what mending gains, a line for each defect that is worth it and one for the rest."""
    for cost in (cost for cost in costs if cost.is_worth_it):
        yield f"without the {without_words(cost)}: {gain_words(cost, goal)}, {_how(cost)}"
    yield from _not_worth_it(costs)


def _not_worth_it(costs: Iterable[Cost]) -> Iterator[str]:
    """Yield in one line which defects are not worth mending."""
    rest = [cost for cost in costs if not cost.is_worth_it]
    if rest:
        most = percent(max(_AS_GOOD, *(cost.most for cost in rest)))
        yield f"nothing worth it alone: {', '.join(map(without_words, rest))} (at most {most})"


def loss_words(fit: Fit, best: Fit, goal: Goal, tape: Tape) -> str:
    """Return how much less good a top is than the best: ``10 % smaller``.

    Of an outline that comes in one size the clearance is told.
    """
    if fit.clearance is not None:
        return f"{tape.measure(fit.clearance)} clear"
    share = 1 - fit.score / best.score
    if share < _AS_GOOD:
        return "as good"
    return _LESS[goal] if goal is Goal.NEAREST else f"{percent(share)} {_LESS[goal]}"


def turn_words(fit: Fit, best: Fit) -> str:
    """Return how a top is turned against the best one: ``turned 5.0° left``; or nothing."""
    period, off = period_of(fit.outline), fit.placement.turn - best.placement.turn
    turn = math.degrees(math.remainder(off, period)) if period else 0.0
    way = "left" if turn > 0 else "right"
    return "" if abs(turn) < _LEAST_TURN else f"turned {abs(turn):.1f}° {way}"


def along_grain_words(fit: Fit, best: Fit, goal: Goal, tape: Tape) -> str:
    """Return the best top along the grain beside the best of all, which lies out of it."""
    size = exact_words(fit.outline, tape)
    return f"within {OFF_GRAIN:g}° of the grain: {size}, {loss_words(fit, best, goal, tape)}"


def other_words(fit: Fit, best: Fit, goal: Goal, tape: Tape, place: Place) -> str:
    """Return an alternative in a few words."""
    centre = f"centre {place(fit.placement.centre)}"
    turn, loss = turn_words(fit, best), loss_words(fit, best, goal, tape)
    return ", ".join(filter(None, (outline_words(fit.outline, tape), centre, turn, loss)))


def along_grain_told(plan: Plan) -> Passage:
    """Return the best top along the grain, where the best of all lies out of it."""
    assert plan.along_grain is not None
    told = along_grain_words(plan.along_grain, plan.fit, plan.job.wish.goal, plan.job.tape)
    how = f"Write most_turn = {OFF_GRAIN:g} under [top] for that one, and lay out anew."
    return passage("Along the grain", told, how)


def touches_words(plan: Plan) -> Passage:
    """Return what holds the top, each with its place, and how near to the best it is."""
    tape, datum, contacts = plan.job.tape, plan.datum, plan.contacts
    error = ", the error of the tape counted in" if plan.job.tape_error else ""
    limits = "; ".join(limit_words(met, plan.job.wish.limits, tape) for met in plan.limits_met)

    def off(contact: Contact, axis: str) -> str:
        places = map(datum.coordinates, contact.points)
        return ranged(tape.figure(getattr(place, axis)) for place in places)

    held = table(
        contacts,
        {
            "No.": lambda contact: f"{contacts.index(contact) + 1}",
            "It is held by": "{name}",
            "Stays clear by": lambda c: tape.measure(c.clear) if c.clear else "–",
            f"Along {datum.name}": lambda contact: off(contact, "along"),
            "Square to it": lambda contact: off(contact, "square"),
        },
    )
    return passage(
        "What holds it",
        bool(contacts)
        and "The dots lie on the line that is cut, where it comes as near to something as may be: "
        f"so far it stays clear there{error}.",
        limits or (not contacts and "Nothing holds it: it has the size that was wished for."),
        proof_words(plan.fit, plan.job.wish.goal, tape),
        tables=[held],
    )


def mending_words(plan: Plan) -> Passage:
    """Return what the top would gain were a defect mended."""
    goal, tape = plan.job.wish.goal, plan.job.tape
    gains = table(
        (cost for cost in plan.costs if cost.is_worth_it),
        {
            "Without the": without_words,
            "The top is": lambda cost: gain_words(cost, goal),
            "Size": lambda c: "–" if c.fit is None else exact_words(c.fit.outline, tape),
            "Provided": _how,
        },
    )
    words = "What the top would gain were one of these mended or accepted, and nothing else."
    return passage("What mending would gain", words, *_not_worth_it(plan.costs), tables=[gains])


def elsewhere_words(plan: Plan) -> Passage:
    """Return where else it could lie."""
    tape, datum = plan.job.tape, plan.datum
    places = table(
        ((k, fit, datum.coordinates(fit.placement.centre)) for k, fit in enumerate(plan.others, 2)),
        {
            "Place": "{0}",
            "Size": lambda row: exact_words(row[1].outline, tape),
            "Along": "{2.along:figure}",
            "Square": "{2.square:figure}",
            "Turned": lambda row: turn_words(row[1], plan.fit).removeprefix("turned ") or "–",
        },
        f"Its centre, from {datum.name}; its turn, against place 1.",
        tape,
    )
    return passage(
        "Other places for it",
        "Place 1 is this plan; the others are the next in rank that are clearly different. Look at "
        "the grain in each before anything is marked.",
        tables=[places],
    )
