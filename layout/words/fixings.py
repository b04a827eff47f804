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
from .leg_concerns import FIXED, FLAT, told
from .legs import from_o
from .materials import ML_PER_FL_OZ
from .order import LEGS
from .say import Passage, Table, counted, passage

_BOLT = (
    "Each leg is held in the middle of its head, by a hanger bolt or a bolt in a threaded insert: "
    "{screw.diameter:drill} thick, {bite:measure} into the top and no deeper than "
    "{longest:measure}, which leaves {left:measure} under its tip."
)

_SCREW = (
    "{count} {screw.diameter:drill} × {screw.length:measure} in each leg: {through:drill} of each "
    "passes through {passed}, {bite:measure} bite in the top and {left:measure} of wood is left "
    "under the tip; none longer than {longest:measure}."
)

_PILOT = (
    " Pilot {pilot:drill}, {pilot_depth:measure} deep with a stop on the bit, not nearer than "
    "{from_edge:measure} to the edge."
)

_BATTEN_SCREW = (
    "Screws {screw.diameter:drill} × {screw.length:measure}: {through:measure} pass through the "
    "batten, {bite:measure} bite in the top and {left:measure} of wood is left under the tip. "
    "Pilot {pilot:drill}, {pilot_depth:measure} deep in the top, with a stop on the bit."
)


def fixed(plan: Plan, wish: LegsWish, table: TablePlan) -> Passage:
    """Return how the legs are held to the top."""
    tape, joint, screw, plate = plan.job.tape, table.glue, table.screw, wish.plate
    return passage(
        LEGS[wish.fixing],
        plate is not None
        and tape.fill(
            "Each leg has a plate {length:figure} × {width:figure} and {thickness:drill} thick.",
            plate,
        ),
        screw is not None and _screwed(tape, wish, screw, table.screws_each),
        not table.movement.solid
        and "A top of this build hardly moves; in damp it may swell by "
        f"{tape.small(table.movement.change)} across: leave fixings that much play.",
        *_slotted(plan, wish, table),
        joint is not None and f"Each joint has {tape.joint(joint.area)} to glue.",
        joint is not None
        and joint.block is not None
        and f"A hollow leg offers only its wall: fit a block "
        f"{' × '.join(map(tape.figure, joint.block))} {tape.unit} into its head, flush, for "
        f"another {tape.joint(joint.block_area)}.",
        wish.fixing is Fixing.LOOSE
        and "Nothing but its own weight holds the top down, and it tips over the line on which it "
        "lies: pin it, or screw blocks under it beside the supports, so that it cannot slide.",
        points=() if joint is None else _glued(plan, wish, joint),
        tables=_slots(plan, table),
        warnings=told(table.notes, tape, FIXED),
    )


def _screwed(tape: Tape, wish: LegsWish, held: ScrewPlan, per_leg: int) -> str:
    """Return how far a screw goes in; a leg with nothing to pass is held by what its head takes."""
    passed = "a ledger inside the apron"
    if wish.plate is not None:
        passed = "the plate"
    elif wish.foot.shape is FootShape.SLAB:
        passed = "a batten that is fixed along the slab's head"
    count = "One screw" if per_leg == 1 else f"{per_leg} screws"
    words = _SCREW if held.through else _BOLT
    return tape.fill(words + _PILOT, held, count=count, passed=passed)


def _glued(plan: Plan, wish: LegsWish, joint: GlueJoint) -> Iterator[str]:
    """Yield the steps of a glued joint, in order."""
    tape = plan.job.tape
    how = "The leg's head flat, freshly cut and dusted."
    if wish.is_masonry:
        how = "Brush and vacuum the masonry until no dust comes off, and prime it for the adhesive."
    elif wish.material in METALS:
        how = "Roughen the metal with abrasive and wipe it with spirit."
    yield f"Inside the pencil lines no finish and no wax: bare wood, dusted. {how}"
    if plan.job.table.glue is Glue.FLEXIBLE:
        yield (
            "Construction adhesive that stays flexible "
            f"({counted(joint.cartridges, 'cartridge')} of {CARTRIDGE:.0f} ml), in beads that "
            f"spread to a bed {tape.drill(joint.bed)} thick: three slips of that thickness keep it "
            "so. Air the room, and follow the maker's instructions."
        )
    else:
        ounces = f"{joint.volume / ML_PER_FL_OZ:.1f} fl oz"
        much = ounces if tape.imperial else f"{joint.volume:.0f} ml"
        yield f"Wood glue, about {much} in all, in a thin film on both faces."
    yield (
        "Set the legs, upside down as it lies, square to the underside and on their lines; weight "
        "or cramp each so that it cannot creep, and wipe off what comes out."
    )
    least, most = joint.least_days, joint.most_days
    days = f"{least:.0f} to {most:.0f} days" if most > least else "one day"
    yield f"Leave it for {days} before it is turned over, and never lift it by its legs before."


def _slotted(plan: Plan, wish: LegsWish, table: TablePlan) -> Iterator[str]:
    """Yield which holes of each leg are slots, where no apron joins the legs."""
    slots = [slot.length for slot in table.movement.slots if not slot.fixed]
    if slots and not plan.job.table.framed:
        hole = "the screw in the middle goes in a round hole"
        if wish.plate is not None:
            hole = "the screws nearer to the middle of the top, across the grain, go in round holes"
        yield (
            f"In each leg {hole}, the others in slots {plan.job.tape.measure(max(slots))} long "
            "across the grain, with washers."
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
    how = f"{held.caption} Slots run across the grain, washers under heads."
    yield replace(held, caption=how)


def kept_flat(plan: Plan, table: TablePlan) -> Passage | None:
    """Return what keeps a solid top flat; None of any other."""
    move, tape, battens = table.movement, plan.job.tape, table.battens
    if not move.solid:
        return None
    words = [
        "Over the year the top moves about {change:small} across its grain ({coefficient:.5f} for "
        "each 1 % of moisture, {swing:g} %; {source})."
    ]
    screw = ""
    if battens:
        words.append(
            "Battens {one.width:figure} × {one.thickness:measure} across the grain, screwed and "
            "never glued: the middle screw in a round hole, the outer ones in slots "
            "{one.slot:measure} long across the grain, with washers."
        )
        if table.batten_screw is not None:
            screw = tape.fill(_BATTEN_SCREW, table.batten_screw)
        else:
            words.append(
                "No screw that is sold passes {one.thickness:measure} of batten, bites and stays "
                "in this top: sink the heads into the batten, and try it on an offcut first."
            )
    elif plan.job.table.framed:
        words.append(
            "The apron keeps it flat and leaves no room for a batten: screw it as told below."
        )
    one, swing = next(iter(battens), None), plan.job.table.swing
    rows = ((f"{k}", b.middle, tape.figure(b.length)) for k, b in enumerate(battens, start=1))
    return passage(
        "Keep it flat",
        *(tape.fill(clause, move, one=one, swing=swing) for clause in words),
        screw,
        tables=[from_o(plan, "Batten", rows, "Length", "Middles of the battens and their lengths")],
        warnings=told(table.notes, tape, FLAT),
    )
