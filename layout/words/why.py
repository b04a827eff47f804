"""Why a top is not larger, in words: what it touches, which limits hold it, what mending gains.

For the terminal in lines, for the sheet behind the work in passages.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from ..fit.found import Fit
from ..fit.stand import period_of
from ..fit.why.contacts import Contact
from ..fit.why.costs import Cost, Lies
from ..fit.why.limits import End, Limited, LimitMet
from ..fit.wish import Goal, Limits
from ..geometry.point import Point
from ..units import MM_PER_INCH, Tape, two_figures
from ..work.cautions import OFF_GRAIN
from .say import Passage, exact_words, listed, outline_words, passage, ranged, table

if TYPE_CHECKING:
    from ..panel.edges import Offsets
    from ..plan.plan import Plan

Place = Callable[[Point], str]
"""Tells where a point of the panel lies."""

BETTER = {Goal.AREA: "larger", Goal.LENGTH: "longer", Goal.WIDTH: "wider", Goal.NEAREST: "nearer"}
"""What a top is that the goal prefers."""

_LESS = {
    Goal.AREA: "smaller",
    Goal.LENGTH: "shorter",
    Goal.WIDTH: "narrower",
    Goal.NEAREST: "farther off",
}

_AS_GOOD = 0.0005
"""A share below which two tops are equally good."""

_LIES = {
    Lies.INSIDE: "if it is mended, wholly inside the top",
    Lies.ACROSS: "if it is out or mended before the edge is cut through it",
    Lies.BESIDE: "if the top need not keep clear of it",
}


def proof_words(fit: Fit, goal: Goal, tape: Tape) -> str:
    """Return how far from the best a top can be, as a clause; empty where nothing is proved.

    What is left is never told as nothing: the least is a hundredth of a percent or of a mm.
    """
    if fit.clearance_gap is not None:
        least = 0.001 * MM_PER_INCH if tape.imperial else 0.01
        more = tape.exact(max(fit.clearance_gap, least), 2)
        return f"no place gives it over {more} {tape.unit} more clearance"
    if fit.gap is None:
        return ""
    share = math.ceil(1e4 * fit.gap / (1 - fit.gap) - 1e-3) / 1e4  # rounded up, as a bound must be
    return f"no {fit.outline.name} can be more than {max(share, 0.0001):.2%} {BETTER[goal]}"


def percent(share: float) -> str:
    """Return a share in per cent to two figures.

    >>> percent(0.1035), percent(0.0313), percent(1.204)
    ('10 %', '3.1 %', '120 %')
    """
    value = 100 * share
    return f"{value:.0f} %" if value >= 10 else f"{two_figures(value)} %"


def contact_words(contact: Contact, place: Place) -> str:
    """Return what is touched, and where."""
    where = " to ".join(place(point) for point in contact.points)
    return f"{contact.name} {'from' if len(contact.points) > 1 else 'at'} {where}"


def limit_words(limit: LimitMet, limits: Limits, tape: Tape) -> str:
    """Return which limit a top has come to."""
    if limit.what is Limited.TURN:
        if limits.most_turn == 0:
            return "it runs the way that was asked for"
        degrees = two_figures(math.degrees(limits.most_turn))
        return f"it is turned from the grain as far as allowed, {degrees}°"
    span = {
        Limited.LENGTH: limits.length,
        Limited.WIDTH: limits.width,
        Limited.RATIO: limits.ratio,
        Limited.CORNER_RADIUS: limits.corner_radius,
    }[limit.what]
    value = span.greatest if limit.end is End.GREATEST else span.least
    is_length = limit.what is not Limited.RATIO
    words = tape.measure(value) if is_length else f"{value:.4g}"
    return f"its {limit.what.value} is the {limit.end.value} allowed, {words}"


def without_words(cost: Cost) -> str:
    """Return what a gain is had without: ``screw hole 2 and screw hole 3 together``."""
    return listed(cost.names) + (" together" if len(cost.names) > 1 else "")


def gain_words(cost: Cost, goal: Goal) -> str:
    """Return how much better the top would be without a defect: ``10 % larger``."""
    more = BETTER[goal]
    if cost.is_settled:
        return f"{percent(cost.gain)} {more}"
    return f"at least {percent(cost.gain)} and at most {percent(cost.most)} {more}"


def how_words(cost: Cost) -> str:
    """Return on what that hangs."""
    if len(cost.names) > 1:
        return "if all of them are mended, or the top need not keep clear of them"
    return "" if cost.lies is None else _LIES[cost.lies]


def cost_lines(costs: Sequence[Cost], goal: Goal) -> Iterator[str]:
    """Yield what mending gains, a line for each defect that is worth it and one for the rest."""
    worth = [cost for cost in costs if cost.is_worth_it]
    for cost in worth:
        yield f"without the {without_words(cost)}: {gain_words(cost, goal)}, {how_words(cost)}"
    yield from not_worth_it(costs)


def not_worth_it(costs: Iterable[Cost]) -> Iterator[str]:
    """Yield in one line which defects are not worth mending."""
    rest = [cost for cost in costs if not cost.is_worth_it]
    if rest:
        names = ", ".join(without_words(cost) for cost in rest)
        most = percent(max(max(cost.most for cost in rest), _AS_GOOD))
        yield f"nothing worth it alone: {names} (at most {most})"


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
    period = period_of(fit.outline)
    if period == 0:
        return ""
    turn = math.degrees(math.remainder(fit.placement.turn - best.placement.turn, period))
    if abs(turn) < _LEAST_TURN:
        return ""
    return f"turned {abs(turn):.1f}° {'left' if turn > 0 else 'right'}"


_LEAST_TURN = 0.05
"""Degrees below which nobody sees a turn."""


def along_grain_words(fit: Fit, best: Fit, goal: Goal, tape: Tape) -> str:
    """Return the best top along the grain beside the best of all, which lies out of it."""
    size = exact_words(fit.outline, tape)
    return f"within {OFF_GRAIN:g}° of the grain: {size}, {loss_words(fit, best, goal, tape)}"


def other_words(fit: Fit, best: Fit, goal: Goal, tape: Tape, place: Place) -> str:
    """Return an alternative in a few words."""
    parts = [
        outline_words(fit.outline, tape),
        f"centre {place(fit.placement.centre)}",
        turn_words(fit, best),
        loss_words(fit, best, goal, tape),
    ]
    return ", ".join(part for part in parts if part)


def along_grain_told(plan: Plan) -> Passage:
    """Return the best top along the grain, where the best of all lies out of it."""
    assert plan.along_grain is not None
    told = along_grain_words(plan.along_grain, plan.fit, plan.job.wish.goal, plan.job.tape)
    how = f"Write most_turn = {OFF_GRAIN:g} under [top] for that one, and lay out anew."
    return passage("Along the grain", told, how)


def touches_words(plan: Plan) -> Passage:
    """Return what holds the top, each with its place, and how near to the best it is."""
    tape, datum = plan.job.tape, plan.datum
    error = ", the error of the tape counted in" if plan.job.tape_error else ""
    dots = (
        "The dots lie on the line that is cut, where it comes as near to something as may be: so "
        f"far it stays clear there{error}."
    )
    limits = "; ".join(limit_words(met, plan.job.wish.limits, tape) for met in plan.limits_met)
    free = "Nothing holds it: it has the size that was wished for."
    proof = proof_words(plan.fit, plan.job.wish.goal, tape)
    held = table(
        enumerate(plan.contacts, 1),
        {
            "No.": lambda row: f"{row[0]}",
            "It is held by": lambda row: row[1].name,
            "Stays clear by": lambda row: tape.measure(row[1].clear) if row[1].clear else "–",
            f"Along {datum.name}": lambda row: ranged(
                tape.figure(datum.coordinates(point).along) for point in row[1].points
            ),
            "Square to it": lambda row: ranged(
                tape.figure(datum.coordinates(point).square) for point in row[1].points
            ),
        },
    )
    return passage(
        "What holds it",
        dots if plan.contacts else "",
        limits or ("" if plan.contacts else free),
        f"{proof}: proved" if proof else "",
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
            "Provided": how_words,
        },
    )
    words = "What the top would gain were one of these mended or accepted, and nothing else."
    return passage("What mending would gain", words, *not_worth_it(plan.costs), tables=[gains])


def elsewhere_words(plan: Plan) -> Passage:
    """Return where else it could lie."""
    tape = plan.job.tape

    def centre(fit: Fit) -> Offsets:
        return plan.datum.coordinates(fit.placement.centre)

    places = table(
        enumerate(plan.others, 2),
        {
            "Place": lambda row: f"{row[0]}",
            "Size": lambda row: exact_words(row[1].outline, tape),
            "Along": lambda row: tape.figure(centre(row[1]).along),
            "Square": lambda row: tape.figure(centre(row[1]).square),
            "Turned": lambda row: turn_words(row[1], plan.fit).removeprefix("turned ") or "–",
        },
        f"Its centre, from {plan.datum.name}; its turn, against place 1.",
    )
    return passage(
        "Other places for it",
        "Place 1 is this plan; the others are the next in rank that are clearly different. Look at "
        "the grain in each before anything is marked.",
        tables=[places],
    )
