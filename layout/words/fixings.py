"""What holds the legs, and the battens of a solid top, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..legs.fixings import CARTRIDGE, Glue, GlueJoint, ScrewPlan
from ..legs.foot import METALS, FootShape
from ..legs.whole import TablePlan
from ..legs.wish import Fixing, LegsWish
from ..plan.plan import Plan
from ..units import Tape
from .amounts import ML_PER_FL_OZ
from .leg_concerns import FIXED, FLAT, told
from .legs import from_o
from .say import Passage, Table, passage

_TITLES = {
    Fixing.SCREWED: "Screw the legs",
    Fixing.GLUED: "Glue the legs",
    Fixing.LOOSE: "Lay the top on",
}


def fixed(plan: Plan, wish: LegsWish, table: TablePlan) -> Passage:
    """Return how the legs are held to the top."""
    tape = plan.job.tape
    words = [*_held(plan, wish, table), *_slotted(plan, wish, table)]
    if table.glue is not None:
        words += _joint(tape, table.glue)
    if wish.fixing is Fixing.LOOSE:
        words.append(
            "Nothing but its own weight holds the top down, and it tips over the line on which it "
            "lies: pin it, or screw blocks under it beside the supports, so that it cannot slide."
        )
    return passage(
        _TITLES[wish.fixing],
        *words,
        points=() if table.glue is None else _glued(plan, wish, table.glue),
        tables=_slots(plan, table),
        warnings=told(table.notes, tape, FIXED),
    )


def _held(plan: Plan, wish: LegsWish, table: TablePlan) -> Iterator[str]:
    tape = plan.job.tape
    if wish.plate is not None:
        yield (
            f"Each leg has a plate {tape.figure(wish.plate.length)} × "
            f"{tape.figure(wish.plate.width)} and {thin(tape, wish.plate.thickness)} thick."
        )
    if table.screw is not None:
        yield _screw(plan, wish, table.screw, table.screws_each)
    if not table.movement.solid:
        yield (
            "A top of this build hardly moves; in damp it may swell by "
            f"{tape.small(table.movement.change)} across: leave fixings that much play."
        )


def _screw(plan: Plan, wish: LegsWish, held: ScrewPlan, per_leg: int) -> str:
    """Return how far a screw goes in; a leg with nothing to pass is held by what its head takes."""
    tape = plan.job.tape
    pilot = (
        f"Pilot {thin(tape, held.pilot)}, {tape.measure(held.pilot_depth)} deep with a stop on the "
        f"bit, not nearer than {tape.measure(held.from_edge)} to the edge."
    )
    if not held.through:
        return (
            "Each leg is held in the middle of its head, by a hanger bolt or a bolt in a threaded "
            f"insert: {thin(tape, held.screw.diameter)} thick, {tape.measure(held.bite)} into the "
            f"top and no deeper than {tape.measure(held.longest)}, which leaves "
            f"{tape.measure(held.left)} under its tip. {pilot}"
        )
    count = "One screw" if per_leg == 1 else f"{per_leg} screws"
    passed = "a ledger inside the apron"
    if wish.plate is not None:
        passed = "the plate"
    elif wish.foot.shape is FootShape.SLAB:
        passed = "a batten that is fixed along the slab's head"
    return (
        f"{count} {_size(tape, held)} in each leg: {thin(tape, held.through)} of each passes "
        f"through {passed}, {tape.measure(held.bite)} bite in the top and "
        f"{tape.measure(held.left)} of wood is left under the tip; none longer than "
        f"{tape.measure(held.longest)}. {pilot}"
    )


def _size(tape: Tape, held: ScrewPlan) -> str:
    return f"{thin(tape, held.screw.diameter)} × {tape.measure(held.screw.length)}"


def thin(tape: Tape, diameter: float) -> str:
    """Return a thickness that half a millimetre counts in."""
    return tape.measure(diameter) if tape.imperial else f"{diameter:.3g} mm"


def _joint(tape: Tape, joint: GlueJoint) -> Iterator[str]:
    yield f"Each joint has {_area(tape, joint.area)} to glue."
    if joint.block is not None:
        size = " × ".join(tape.figure(side) for side in joint.block)
        yield (
            f"A hollow leg offers only its wall: fit a block {size} {tape.unit} into its head, "
            f"flush, for another {_area(tape, joint.block_area)}."
        )


def _area(tape: Tape, area: float) -> str:
    return f"{area / 25.4**2:.1f} sq in" if tape.imperial else f"{area / 100:.0f} cm²"


def _glued(plan: Plan, wish: LegsWish, joint: GlueJoint) -> Iterator[str]:
    """Yield the steps of a glued joint, in order."""
    tape, flexible = plan.job.tape, plan.job.table.glue is Glue.FLEXIBLE
    yield "Lay the top face down on a blanket, stand every leg dry on its marks, pencil round it."
    yield (
        "Dry fit: no leg rocks on the underside, or it is planed, ground or bedded until it sits."
    )
    yield f"Inside the pencil lines no finish and no wax: bare wood, dusted. {_prepared(wish)}"
    if flexible:
        count = joint.cartridges
        yield (
            f"Construction adhesive that stays flexible ({count} "
            f"cartridge{'' if count == 1 else 's'} of {CARTRIDGE:.0f} ml), in beads that spread to "
            f"a bed {thin(tape, joint.bed)} thick: three slips of that thickness keep it so. "
            "Air the room, and follow the maker's instructions."
        )
    else:
        much = (
            f"{joint.volume / ML_PER_FL_OZ:.1f} fl oz"
            if tape.imperial
            else f"{joint.volume:.0f} ml"
        )
        yield f"Wood glue, about {much} in all, in a thin film on both faces."
    yield (
        "Set the legs, upside down as it lies, square to the underside and on their lines; weight "
        "or cramp each so that it cannot creep, and wipe off what comes out."
    )
    least, most = joint.least_days, joint.most_days
    days = f"{least:.0f} to {most:.0f} days" if most > least else "one day"
    yield f"Leave it for {days} before it is turned over, and never lift it by its legs before."


def _prepared(wish: LegsWish) -> str:
    if wish.is_masonry:
        return (
            "Brush and vacuum the masonry until no dust comes off, and prime it for the adhesive."
        )
    if wish.material in METALS:
        return "Roughen the metal with abrasive and wipe it with spirit."
    return "The leg's head flat, freshly cut and dusted."


def _slotted(plan: Plan, wish: LegsWish, table: TablePlan) -> Iterator[str]:
    """Yield which holes of each leg are slots, where no apron joins the legs."""
    slots = [slot.length for slot in table.movement.slots if not slot.fixed]
    if slots and not plan.job.table.framed:
        which = "the screw in the middle goes in a round hole"
        if wish.plate is not None:
            which = (
                "the screws nearer to the middle of the top, across the grain, go in round holes"
            )
        longest = plan.job.tape.measure(max(slots))
        yield (
            f"In each leg {which}, the others in slots {longest} long across the grain, with "
            "washers."
        )


def _slots(plan: Plan, table: TablePlan) -> Iterator[Table]:
    """Yield how each hole of a solid top is made, where an apron joins the legs."""
    tape, slots = plan.job.tape, table.movement.slots
    if all(slot.fixed for slot in slots) or not plan.job.table.framed:
        return
    rows = (
        (f"leg {h.leg}", s.place, "round" if s.fixed else f"slot {tape.figure(s.length)} long")
        for h, s in zip(table.holes, slots, strict=True)
    )
    held = from_o(plan, "Screw", rows, "Hole in plate, rail or slab", "Middles of the holes")
    how = "Slots run across the grain, washers under heads."
    yield replace(held, caption=f"{held.caption} {how}")


def kept_flat(plan: Plan, table: TablePlan) -> Passage | None:
    """Return what keeps a solid top flat; None of any other."""
    move, tape = table.movement, plan.job.tape
    if not move.solid:
        return None
    rows = ((f"{k}", b.middle, tape.figure(b.length)) for k, b in enumerate(table.battens, start=1))
    return passage(
        "Keep it flat",
        f"Over the year the top moves about {tape.small(move.change)} across its grain "
        f"({move.coefficient:.5f} for each 1 % of moisture, {plan.job.table.swing:g} %; "
        f"{move.source}).",
        *_battens(tape, table),
        *_by_the_apron(plan, table),
        tables=[from_o(plan, "Batten", rows, "Length", "Middles of the battens and their lengths")],
        warnings=told(table.notes, tape, FLAT),
    )


def _by_the_apron(plan: Plan, table: TablePlan) -> Iterator[str]:
    if plan.job.table.framed and not table.battens:
        yield "The apron keeps it flat and leaves no room for a batten: screw it as told below."


def _battens(tape: Tape, table: TablePlan) -> Iterator[str]:
    if not table.battens:
        return
    one, screw = table.battens[0], table.batten_screw
    yield (
        f"Battens {tape.figure(one.width)} × {tape.measure(one.thickness)} across the grain, "
        "screwed and never glued: the middle screw in a round hole, the outer ones in slots "
        f"{tape.measure(one.slot)} long across the grain, with washers."
    )
    if screw is None:
        yield (
            f"No screw that is sold passes {tape.measure(one.thickness)} of batten, bites and "
            "stays in this top: sink the heads into the batten, and try it on an offcut first."
        )
    else:
        yield (
            f"Screws {_size(tape, screw)}: {tape.measure(screw.through)} pass through the batten, "
            f"{tape.measure(screw.bite)} bite in the top and {tape.measure(screw.left)} of wood is "
            f"left under the tip. Pilot {thin(tape, screw.pilot)}, "
            f"{tape.measure(screw.pilot_depth)} deep in the top, with a stop on the bit."
        )
