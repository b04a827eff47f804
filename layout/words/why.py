"""Why a top is not larger, in words: what it touches, which limits hold it, what mending gains."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence

from ..fit.found import Fit
from ..fit.stand import period_of
from ..fit.why import Contact, Cost, Lies, LimitMet
from ..fit.why.limits import End, Limited
from ..fit.wish import Goal, Limits
from ..geometry.point import Point
from ..units import MM_PER_INCH, Tape, two_figures
from ..work.cautions import OFF_GRAIN
from .outline import exact_words, outline_words
from .say import listed

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
