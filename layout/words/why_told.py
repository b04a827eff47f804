"""What is told behind the work of why the top is not larger, of mending, and of other places."""

from __future__ import annotations

from ..plan.plan import Plan
from ..units import Tape
from ..work.cautions import OFF_GRAIN
from .outline import exact_words
from .passage import Passage, Table
from .say import sentence
from .why import (
    along_grain_words,
    gain_words,
    how_words,
    limit_words,
    not_worth_it,
    proof_words,
    turn_words,
    without_words,
)


def along_grain_told(plan: Plan) -> Passage:
    """Return the best top along the grain, where the best of all lies out of it."""
    assert plan.along_grain is not None
    told = along_grain_words(plan.along_grain, plan.fit, plan.job.wish.goal, plan.job.tape)
    how = f"Write most_turn = {OFF_GRAIN:g} under [top] for that one, and lay out anew."
    return Passage("Along the grain", (sentence(told), how))


def touches_words(plan: Plan) -> Passage:
    """Return what holds the top, each with its place, and how near to the best it is."""
    tape = plan.job.tape
    words = []
    if plan.contacts:
        error = ", the error of the tape counted in" if plan.job.tape_error else ""
        words.append(
            "The dots lie on the line that is cut, where it comes as near to something as may be: "
            f"so far it stays clear there{error}."
        )
    limits = [limit_words(limit, plan.job.wish.limits, tape) for limit in plan.limits_met]
    if limits:
        words.append(sentence("; ".join(limits)))
    if not words:
        words.append("Nothing holds it: it has the size that was wished for.")
    rows = []
    for number, contact in enumerate(plan.contacts, 1):
        offsets = [plan.datum.coordinates(point) for point in contact.points]
        along = _span([offset.along for offset in offsets], tape)
        square = _span([offset.square for offset in offsets], tape)
        clear = tape.measure(contact.clear) if contact.clear else "–"
        rows.append((f"{number}", contact.name, clear, along, square))
    headings = (
        "No.",
        "It is held by",
        "Stays clear by",
        f"Along {plan.datum.name}",
        "Square to it",
    )
    table = Table(headings, tuple(rows)) if rows else None
    proof = proof_words(plan.fit, plan.job.wish.goal, tape)
    words += [f"{sentence(proof).rstrip('.')}: proved."] if proof else []
    return Passage("What holds it", tuple(words), tables=() if table is None else (table,))


def _span(values: list[float], tape: Tape) -> str:
    """Return one figure, or two where they differ on the tape."""
    return " to ".join(dict.fromkeys(tape.figure(value) for value in values))


def mending_words(plan: Plan) -> Passage:
    """Return what the top would gain were a defect mended."""
    goal = plan.job.wish.goal
    worth = [cost for cost in plan.costs if cost.is_worth_it]
    words = ["What the top would gain were one of these mended or accepted, and nothing else."]
    words += [sentence(line) for line in not_worth_it(plan.costs)]
    rows = tuple(
        (
            without_words(cost),
            gain_words(cost, goal),
            "–" if cost.fit is None else exact_words(cost.fit.outline, plan.job.tape),
            how_words(cost),
        )
        for cost in worth
    )
    table = Table(("Without the", "The top is", "Size", "Provided"), rows) if rows else None
    return Passage(
        "What mending would gain", tuple(words), tables=() if table is None else (table,)
    )


def elsewhere_words(plan: Plan) -> Passage:
    """Return where else it could lie."""
    tape = plan.job.tape
    rows = []
    for rank, fit in enumerate(plan.others, 2):
        centre = plan.datum.coordinates(fit.placement.centre)
        turn = turn_words(fit, plan.fit).removeprefix("turned ")
        rows.append(
            (
                f"{rank}",
                exact_words(fit.outline, tape),
                tape.figure(centre.along),
                tape.figure(centre.square),
                turn or "–",
            )
        )
    headings = ("Place", "Size", "Along", "Square", "Turned")
    caption = f"Its centre, from {plan.datum.name}; its turn, against place 1."
    words = (
        "Place 1 is this plan; the others are the next in rank that are clearly different. Look at "
        "the grain in each before anything is marked.",
    )
    table = Table(headings, tuple(rows), caption)
    return Passage("Other places for it", words, tables=(table,))
