"""What stands against legs and the table on them, and choices of legs beside each other."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass

from ..concern import Concern
from ..legs.plan import GRAVE, LegMatter
from ..legs.stance import Stance
from ..legs.tipping import GRAVITY
from ..plan.standing import Comparison
from ..units import Tape
from .say import listed

M = LegMatter

WHERE = {
    M.BEYOND_EDGE: "{who} would stand past the edge of the top by {found:measure}: move it "
    "inwards.",
    M.POOR_BEARING: "{who} would bear on {cause}: move it, or mend the place first.",
    M.OVERLAP: "{who} would stand in one another: move them apart.",
    M.MOVED: "{who} {stand} up to {found:measure} off the usual place, moved by the least that "
    "frees them of wood that does not bear: set each out by its figures.",
    M.NEAR_EDGE: "{who} {stand} {found:measure} from the edge, less than {limit:measure}: toes and "
    "break-out.",
    M.STICKS_OUT: "On the floor {whose} {stand} up to {found:measure} past the edge: people trip.",
}
"""What is told where the legs are set out, before anything is fixed."""

STANDING = {
    M.TIPS_BY_ITSELF: "The weight lies outside the feet, so it tips by itself: move the legs "
    "outwards.",
    M.TIPS_UNDER_LOAD: "By estimate {found:force} at the edge tips it, below the {limit:force} "
    "asked for: move the legs outwards, or add weight.",
    M.CLIMBED_ON: "By estimate it tips under about {weight:mass} at its very edge: a child who "
    "climbs on it is enough. Keep children off, or fix it to wall or floor.",
    M.ROCKS_AS_BLOCKS: "The top lies loose on loose legs: a level push of about {found:force} lays "
    "them all down together. Join them by an apron or a stretcher, or fix each to the top.",
    M.ROCKS: "More than three legs rock on an uneven floor: fit adjusters, or level them.",
    M.LOOSE: "The top lies loose on its legs, so their weight does not hold it down.",
}
"""Whether the table stands."""

FIXED = {
    M.HOLLOW: "A hollow door has nothing for a screw or a leg to bear on but its rim: screw a "
    "board from rim to rim under each pair of legs, or fill the hollow there with blocks.",
    M.FRAME_UNKNOWN: "Nothing is fixed into the thin panels of a framed door: find its stiles and "
    "rails, write their widths under stile, rail and between in the job, and print anew.",
    M.NO_SCREW: "No screw both bites and leaves {limit:measure} under its tip in a top "
    "{found:measure} thick: glue the legs, or screw them to battens or a board that is glued under "
    "it.",
    M.SCREW_COMES_THROUGH: "The screw comes through by {found:measure}: at most {limit:measure} "
    "long.",
    M.SCREW_TOO_DEEP: "Only {found:measure} is left under its tip: at most {limit:measure} long.",
    M.SCREW_HARDLY_BITES: "It bites only {found:measure} deep: take a longer one.",
    M.SCREW_NEAR_EDGE: "It sits nearer to the edge than {limit:measure}: it splits the wood.",
    M.SLOT_RUNS_OUT: "A slot reaches {found:measure} outwards from the middle of its hole and "
    "leaves less metal at the plate's edge than the screw is thick, so it tears out: drill such "
    "holes {limit:at_least} {unit} farther in, take a plate that much wider all round with the "
    "holes where they are, or hold the top there by wooden buttons that slide in a groove of the "
    "apron or of a rail.",
    M.ONE_BOLT: "A leg {found:measure} long on a single bolt works loose when the table is pushed: "
    "give it a plate or a rail to its neighbours.",
    M.GLUE_FIGHTS: "Rigid glue fights the wood: under one leg it moves {found:small} over the "
    "year, and {limit:small} breaks a joint. Screw it through slots, or use a flexible adhesive.",
    M.METAL_GLUED: "Wood glue does not hold metal, brick, fired clay or concrete: use a "
    "construction adhesive.",
    M.HARD_SEAT: "Masonry is hard and uneven: three pads of cork or rubber on each leg, and the "
    "top held against sliding by a block screwed under it inside each leg. Do not drill near an "
    "edge of the masonry; ask somebody qualified where it carries more than a table.",
}
"""What is told with the fixings."""

FLAT = {
    M.NO_BATTEN: "No batten finds room across the grain, clear of the legs and the edge: keep the "
    "top flat by an apron with slotted fixings.",
    M.BATTEN_MISSING: "One batten finds no room beside the legs: place it by hand, or let an apron "
    "do its work.",
}
"""With the battens."""

_RAIL = (
    "put a rail between the legs or under the top, move the legs nearer together, or take more of "
    "them."
)

SAG = {
    M.SAGS: f"By estimate it sags {{found:small}} at first, more than {{limit:small}}: {_RAIL}",
    M.SAGS_LATER: "By estimate it sags {found:small} after years, more than {limit:small}: "
    f"{_RAIL}",
    M.SAG_UNKNOWN: "How far it sags is not told: a hollow or framed door has no single stiffness. "
    "Put rails under it from leg to leg.",
    M.WAIST: "Its waist, {found:measure} wide, governs: sag says how far it bends there, not what "
    "it carries. Put a rail under it along the waist, and no leg beyond it alone.",
}
"""Whether it sags."""

SEATED = {
    M.HEAVY_LEGS: "Each leg weighs about {found:mass} and falls hard: two people set it, on a soft "
    "mat, and nobody reaches under it; children kept away until the top is on.",
    M.LOW: "Only {found:measure} is free for knees, and {limit:measure} is usual: make the legs "
    "longer.",
    M.NOBODY_SITS: "With knees clear of these legs nobody finds a place: move the legs, or take "
    "fewer.",
}
"""With who sits and who lifts."""

_WORDS = {**WHERE, **STANDING, **FIXED, **FLAT, **SAG, **SEATED}


def told(held: Iterable[Concern], tape: Tape, about: Container[object] = _WORDS) -> tuple[str, ...]:
    """Return what is told of those concerns that are about some matters, or about any."""
    return tuple(leg_words(concern, tape) for concern in held if concern.matter in about)


def leg_words(concern: Concern, tape: Tape) -> str:
    """Return one sentence or two in the units of the tape: what, how much, and what to do."""
    # the defects that are to blame for a poor bearing stand behind the leg
    first = 1 if concern.matter is M.POOR_BEARING else len(concern.who)
    legs, blame = concern.who[:first], concern.who[first:]
    who = f"Leg{'s' * (len(legs) > 1)} {listed(legs)}"
    return tape.fill(
        _WORDS[LegMatter(concern.matter)],
        concern,
        who=who,
        whose=who.lower(),
        cause=" and ".join(blame) or "wood that does not bear: an edge, or a door's thin panel",
        unit=tape.unit,
        weight=(concern.found or 0.0) / GRAVITY,
        stand="stands" if len(legs) == 1 else "stand",
    )


CAUTION = (
    "Tipping forces and sag are estimates from geometry and usual figures, not tests. Try the "
    "finished table before it is used."
)


def held_words(found: Comparison, tape: Tape) -> str:
    """Return what the choices are compared for, and what load they are held against, and where."""
    legs, where = found.proposals[0].legs, "the very edge"
    if not legs.at_edge:
        where = f"{tape.measure(legs.tipping.edge)} inside the edge"
    return f"{found.goal.value}; held against {tape.force(found.load)} pressed down at {where}"


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice of legs in words."""

    title: str
    heading: str
    """How many, and whether they are the job's own or the best; the same over a card of its own."""
    proposal: Stance
    figures: tuple[tuple[str, str], ...]
    """What is told of it, with its unit, and how much."""
    warnings: tuple[str, ...]
    """What stands against it."""


def choices(found: Comparison, tape: Tape) -> tuple[Choice, ...]:
    """Return the job's own legs first, where it has them, then the others, best first."""
    best, *others = found.proposals
    own = [] if found.own is None else [(found.own, ", as it is", ": as the job has them")]
    held = [*own, (best, ", best", ": the best of those compared"), *((p, "", "") for p in others)]
    return tuple(
        Choice(
            f"{proposal.count}{about}",
            f"{proposal.count} legs{told_of}",
            proposal,
            tuple(_figures(proposal, tape)),
            told(proposal.legs.problems, tape, _TOLD),
        )
        for proposal, about, told_of in held
    )


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


_TOLD = {*GRAVE, M.TIPS_UNDER_LOAD, M.ROCKS_AS_BLOCKS, M.STICKS_OUT, M.NEAR_EDGE}
"""What is told of a choice: what is grave, and what is not alike for all."""


def _figures(proposal: Stance, tape: Tape) -> Iterator[tuple[str, str]]:
    legs, seating, unit = proposal.legs, proposal.seating, tape.unit
    force, sags = legs.weakest.force, ["not known", "not known"]
    if proposal.sag is not None:
        both = (proposal.sag.first_loaded.down, proposal.sag.after_creep.down)
        sags = [tape.small(down).replace("less than", "<") for down in both]
    yield f"Overhang at the sides, {unit}", tape.figure(legs.overhang.side)
    yield f"Overhang at the ends, {unit}", tape.figure(legs.overhang.end)
    yield f"Overhang at the corners, {unit}", tape.figure(legs.overhang.corner)
    yield "Feet spread over, % of the top", f"{100 * proposal.spread:.0f}"
    yield "Does not tip under about", tape.force(force) if math.isfinite(force) else "any force"
    yield "Nor under a level push of", tape.force(legs.tipping.push)
    yield from zip(("Sag when first loaded", "Sag after years"), sags, strict=True)
    if proposal.wish.seats:
        yield "Places to sit", f"{len(seating.seats)} of {seating.without_legs}"
    yield f"Least gap between legs, {unit}", tape.figure(proposal.least_gap)
    yield f"Widest gap between legs, {unit}", tape.figure(proposal.widest_gap)
