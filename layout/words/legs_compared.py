"""A comparison of legs in words: one line a choice, for the terminal and for the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..legs.concern import GRAVE, LegMatter
from ..legs.proposal import Proposal
from ..legs.sag import Deflection
from ..plan.standing import Comparison
from ..units import Tape
from .leg_concerns import leg_words

CAUTION = (
    "Tipping forces and sag are estimates from geometry and usual figures, not tests. Try the "
    "finished table before it is used."
)


def held_words(found: Comparison, tape: Tape) -> str:
    """Return what the choices are compared for, and what load they are held against, and where."""
    legs = found.proposals[0].legs
    inside = f"{tape.measure(legs.tipping.edge)} inside the edge"
    where = "the very edge" if legs.at_edge else inside
    return f"{found.goal.value}; held against {tape.force(found.load)} pressed down at {where}"


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice of legs in words."""

    title: str
    """How many, and whether they are the job's own or the best."""
    proposal: Proposal
    figures: tuple[tuple[str, str], ...]
    """tuple of (str, str): what is told of it, with its unit, and how much."""
    warnings: tuple[str, ...]
    """What stands against it."""


def choices(found: Comparison, tape: Tape) -> tuple[Choice, ...]:
    """Return the job's own legs first, where it has them, then the others, best first."""
    own = [] if found.own is None else [_choice(found.own, tape, "as it is")]
    rest = [_choice(p, tape, "" if i else "best") for i, p in enumerate(found.proposals)]
    return (*own, *rest)


def as_table(held: tuple[Choice, ...]) -> Iterator[str]:
    """Yield the lines of a table: what is told down the left, the choices across."""
    names = [name for name, _ in held[0].figures]
    rows = [("Legs", *(choice.title for choice in held))]
    rows += [(name, *(choice.figures[i][1] for choice in held)) for i, name in enumerate(names)]
    widths = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    for row in rows:
        cells = [row[0].ljust(widths[0])]
        cells += [cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)]
        yield "  ".join(cells)


def _choice(proposal: Proposal, tape: Tape, about: str) -> Choice:
    title = f"{proposal.count}, {about}" if about else f"{proposal.count}"
    told = [p for p in proposal.legs.problems if p.matter in GRAVE or p.matter in _TOLD]
    return Choice(
        title,
        proposal,
        tuple(_figures(proposal, tape)),
        tuple(leg_words(problem, tape) for problem in told),
    )


_TOLD = (
    LegMatter.TIPS_UNDER_LOAD,
    LegMatter.ROCKS_AS_BLOCKS,
    LegMatter.STICKS_OUT,
    LegMatter.NEAR_EDGE,
)
"""What is told of a choice besides what is grave; the rest is alike for all."""


def _figures(proposal: Proposal, tape: Tape) -> Iterator[tuple[str, str]]:
    legs, sag, seating = proposal.legs, proposal.sag, proposal.seating
    over, tipping, unit = legs.overhang, legs.tipping, tape.unit
    yield f"Overhang at the sides, {unit}", tape.figure(over.side)
    yield f"Overhang at the ends, {unit}", tape.figure(over.end)
    yield f"Overhang at the corners, {unit}", tape.figure(over.corner)
    yield "Feet spread over, % of the top", f"{100 * proposal.spread:.0f}"
    force = legs.weakest.force
    yield "Does not tip under about", tape.force(force) if math.isfinite(force) else "any force"
    yield "Nor under a level push of", tape.force(tipping.push)
    yield "Sag when first loaded", _sag(sag.first_loaded if sag else None, tape)
    yield "Sag after years", _sag(sag.after_creep if sag else None, tape)
    if proposal.wish.seats:
        yield "Places to sit", f"{len(seating.seats)} of {seating.without_legs}"
    yield f"Least gap between legs, {unit}", tape.figure(proposal.least_gap)
    yield f"Widest gap between legs, {unit}", tape.figure(proposal.widest_gap)


def _sag(sag: Deflection | None, tape: Tape) -> str:
    return "not known" if sag is None else tape.small(sag.down).replace("less than", "<")
