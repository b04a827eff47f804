"""What holds the legs, and the battens of a solid top."""

from __future__ import annotations

from collections.abc import Iterator

from ...job.plan import Plan
from ...legs.notes import Matter
from ...legs.screws import ScrewPlan
from ...legs.whole import TablePlan
from ...legs.wish import Fixing, LegsWish
from ..steps.legs import battens_scene
from .rows import BenchStep, Table, unit_words

_HERE = (
    Matter.HOLLOW,
    Matter.NO_SCREW,
    Matter.GLUE_FIGHTS,
    Matter.METAL_GLUED,
    Matter.HARD_SEAT,
)
"""What is told with the fixings."""


def fixed(plan: Plan, table: TablePlan) -> BenchStep:
    """Return how the legs are held to the top."""
    wish, tape = plan.job.legs, plan.job.tape
    assert wish is not None  # there are legs
    words = [*_held(plan, wish, table), *_slotted(plan, wish, table)]
    warnings = [n.words(tape) for n in table.notes if n.matter in _HERE]
    if table.screw is not None:
        warnings += [table.screw.words(fault, tape) for fault in table.screw.faults]
    if wish.fixing is Fixing.LOOSE:
        words.append(
            "Nothing but its own weight holds the top down, and it tips over the line on which it "
            "lies: pin it, or screw blocks under it beside the supports, so that it cannot slide."
        )
    title = {
        Fixing.SCREWED: "Screw the legs",
        Fixing.GLUED: "Glue the legs",
        Fixing.LOOSE: "Lay the top on",
    }[wish.fixing]
    return BenchStep(title, tuple(words), _slots(plan, table), tuple(warnings))


def _held(plan: Plan, wish: LegsWish, table: TablePlan) -> Iterator[str]:
    tape = plan.job.tape
    if wish.plate is not None:
        yield (
            f"Each leg has a plate {tape.figure(wish.plate.length)} × "
            f"{tape.figure(wish.plate.width)} and {_thin(plan, wish.plate.thickness)} thick."
        )
    if table.screw is not None:
        yield _screw(plan, table.screw, per_leg=len(table.holes) // len(_numbers(table)))
    if table.glue is not None:
        joint = table.glue
        yield f"Each joint has {joint.area / 100:.0f} cm² to glue: both faces flat, clean and bare."
        if joint.block:
            yield (
                f"A pipe offers only its wall: turn a block ø {tape.measure(joint.block)} into "
                f"it, flush, for another {joint.block_area / 100:.0f} cm²."
            )
        if table.flexible:
            yield (
                "A flexible adhesive cures 2 to 3 mm a day from its edge: leave the table alone "
                f"for {joint.least_days:.0f} to {joint.most_days:.0f} days, and do not lift it by "
                "its legs before."
            )
    if not table.movement.solid:
        yield (
            "A top of this build hardly moves; in damp it may swell by "
            f"{tape.small(table.movement.change)} across: leave fixings that much play."
        )


def _numbers(table: TablePlan) -> set[int]:
    return {hole.leg for hole in table.holes}


def _screw(plan: Plan, held: ScrewPlan, per_leg: int) -> str:
    """Return how far a screw goes in; a leg without a plate is held by what stands in its head."""
    tape, wish = plan.job.tape, plan.job.legs
    depth = f"{tape.measure(held.pilot_depth)} deep with a stop on the bit"
    edge = f"not nearer than {tape.measure(held.from_edge)} to the edge"
    pilot = f"Pilot {_thin(plan, held.pilot)}, {depth}, {edge}."
    if per_leg == 1 and wish is not None and wish.plate is None:
        return (
            "Each leg is held in the middle of its head, by a hanger bolt or a bolt in a threaded "
            f"insert: {_thin(plan, held.screw.diameter)} thick, {tape.measure(held.bite)} into the "
            f"top and no deeper than {tape.measure(held.longest)}, which leaves "
            f"{tape.measure(held.left)} under its tip. {pilot}"
        )
    size = f"{_thin(plan, held.screw.diameter)} × {tape.measure(held.screw.length)}"
    return (
        f"{per_leg} screws {size} in each leg: each bites {tape.measure(held.bite)} and leaves "
        f"{tape.measure(held.left)} under its tip; none longer than {tape.measure(held.longest)}. "
        f"{pilot}"
    )


def _thin(plan: Plan, diameter: float) -> str:
    return plan.job.tape.measure(diameter) if plan.job.tape.imperial else f"{diameter:.3g} mm"


def _slotted(plan: Plan, wish: LegsWish, table: TablePlan) -> Iterator[str]:
    """Yield which holes of each leg are slots, where no apron joins the legs."""
    slots = [slot.length for slot in table.movement.slots if not slot.fixed]
    if not slots or plan.job.table.framed:
        return
    which = (
        "the screws nearer to the middle of the top, across the grain, go in round holes, the "
        "others"
        if wish.plate is not None
        else "the screw in the middle goes in a round hole, the others"
    )
    longest = plan.job.tape.measure(max(slots))
    yield f"In each leg {which} in slots {longest} long across the grain, with washers."


def _slots(plan: Plan, table: TablePlan) -> Table | None:
    """Return how each hole of a solid top is made, where an apron joins the legs."""
    tape, slots = plan.job.tape, table.movement.slots
    if all(slot.fixed for slot in slots) or not plan.job.table.framed:
        return None
    rows = tuple(
        (
            f"leg {hole.leg}",
            tape.figure(slot.place.x),
            tape.figure(slot.place.y),
            "round" if slot.fixed else f"slot {tape.figure(slot.length)} long",
        )
        for hole, slot in zip(table.holes, slots, strict=True)
    )
    headings = ("Screw", "From O along", "From O across", "Hole in plate, rail or slab")
    caption = (
        f"In {unit_words(tape)}, show face up; slots run across the grain, washers under heads."
    )
    return Table(headings, rows, caption)


def battens(plan: Plan, table: TablePlan) -> Iterator[BenchStep]:
    """Yield the step about battens: for a solid top only."""
    move, tape = table.movement, plan.job.tape
    if not move.solid:
        return
    words = [
        f"Over the year the top moves about {tape.small(move.change)} across its grain "
        f"({move.coefficient:.5f} for each 1 % of moisture, {plan.job.table.swing:g} %; "
        f"{move.source})."
    ]
    if table.battens:
        one = table.battens[0]
        words.append(
            f"Battens {tape.figure(one.width)} × {tape.measure(one.thickness)} across the grain, "
            "screwed and never glued: the middle screw in a round hole, the outer ones in slots "
            f"{tape.measure(one.slot)} long across the grain, with washers."
        )
    rows = tuple(
        (
            f"{number}",
            tape.figure(batten.middle.x),
            tape.figure(batten.middle.y),
            tape.figure(batten.length),
        )
        for number, batten in enumerate(table.battens, start=1)
    )
    headings = ("Batten", "Middle from O along", "Middle from O across", "Length")
    caption = f"In {unit_words(tape)}, show face up."
    warnings = tuple(
        note.words(tape)
        for note in table.notes
        if note.matter in (Matter.NO_BATTEN, Matter.BATTEN_MISSING)
    )
    yield BenchStep(
        "Keep it flat",
        tuple(words),
        Table(headings, rows, caption) if rows else None,
        warnings,
        drawing=battens_scene(plan),
    )
