"""The table as a whole: fixings, sag, seasons and people, for legs that are placed already."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby

from ..concern import Concern
from ..geometry import Region, array_of, at_least, at_most
from ..geometry.tolerance import SAME_PLACE
from ..panel.build import Kind
from ..panel.frame import frame_of
from ..panel.materials import lifters
from ..top import Top
from ..units import MM_PER_INCH as INCH
from .fixings import (
    LEFT_UNDER_TIP,
    RACKS_FROM,
    RAIL,
    USUAL,
    Glue,
    GlueJoint,
    Hole,
    Screw,
    ScrewPlan,
    glue_joint,
    holes_of,
    in_plate,
    screw_in,
    usual_screw,
)
from .foot import FootShape, is_wooden
from .movement import (
    GLUE_FIGHTS,
    METAL_LEFT,
    SIZE,
    Batten,
    Held,
    MovementPlan,
    battens_under,
    movement_of,
)
from .plan import LegMatter
from .room import TableTop
from .sag import Loads, Sag, sag_of
from .seating import Seating
from .stance import Stance
from .table_wish import TableWish
from .wish import Fixing, LegsWish

KNEE_HEIGHT = 24 * INCH
"""Free height under a table that knees want, mm: 24 in (from memory)."""


@dataclass(frozen=True, slots=True)
class UsualHeight:
    """How high a table of one use stands, mm to its upper face, and who says so."""

    use: str
    least: float
    most: float
    source: str
    seats: bool = False
    """Whether people sit at it with their knees under it."""


HEIGHTS = (
    UsualHeight("coffee", 15 * INCH, 18 * INCH, "from memory: 15 to 18 in"),
    UsualHeight("dining", 28 * INCH, 30 * INCH, "Time-Saver Standards: 28 to 30 in", seats=True),
    UsualHeight("bench", 430.0, 460.0, "from memory"),
    UsualHeight("bar", 1050.0, 1100.0, "from memory"),
)
"""Usual heights by use."""


def use_of(height: float) -> UsualHeight | None:
    """Return the first use for which a table so high, mm, is usual; None where there is none."""
    return next((u for u in HEIGHTS if at_least(height, u.least) and at_most(height, u.most)), None)


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What the table does on its legs; sag and movement are estimates, not a test."""

    height: float
    """Of its upper face above the floor, mm."""
    use: UsualHeight | None
    """For what a table so high is usual."""
    knees: float
    """Free between the floor and what hangs under the top, mm."""
    panel_lifters: int
    top_lifters: int
    leg_lifters: int
    table_lifters: int
    """How many people lift the old panel, the new top, one leg, and the finished table."""
    seating: Seating | None
    """None where nobody sits at it."""
    loads: Loads
    sag: Sag | None
    """None where the stiffness of the top is not known."""
    movement: MovementPlan
    battens: tuple[Batten, ...]
    batten_screw: ScrewPlan | None
    """How a screw through such a batten holds; None where there are none, or no screw bites."""
    holes: tuple[Hole, ...]
    """Screws of the legs."""
    screw: ScrewPlan | None
    """How such a screw holds; None where none is driven, or none would hold."""
    glue: GlueJoint | None
    notes: tuple[Concern, ...] = ()

    @property
    def screws_each(self) -> int:
        """How many screws hold one leg."""
        return len(self.holes) // max(1, len({hole.leg for hole in self.holes}))


def plan_table(asked: TableWish, stance: Stance, table: TableTop) -> TablePlan:
    """Return what the table does on legs that are placed and seated."""
    top, wish, legs = table.top, stance.wish, stance.legs
    middles, glued = [leg.middle for leg in legs.legs], wish.fixing is Fixing.GLUED
    holes = holes_of(wish, middles, top, asked.holes)
    from_edge = min((hole.from_edge for hole in holes), default=math.inf)
    # a leg without a plate is held by the batten along a slab's head, or the ledger of an apron
    railed = wish.foot.shape is FootShape.SLAB or asked.framed
    through = wish.plate.thickness if wish.plate else RAIL if railed else 0.0
    screw = _driven(asked.screw, through, top, from_edge) if holes else None
    diameter = screw.screw.diameter if screw else USUAL
    # an apron joins all fixings, else each leg its own
    joined = groupby(holes, lambda hole: 0 if asked.framed else hole.leg)
    groups = tuple(tuple(hole.place for hole in group) for _, group in joined)
    inside = in_plate(wish.plate, asked.holes) if wish.plate else None
    held = Held(groups, wish.foot, glued and asked.glue is Glue.RIGID, diameter, inside)
    movement = movement_of(top, held, quartered=asked.quartered, swing=asked.swing)
    heads = [wish.on_top.outside(middle) for middle in middles]
    apron = None
    if asked.framed:  # its rails go from leg to leg, flush with them outside and no thicker
        corners = (corner for m in middles for corner in wish.foot.outside(m).bounds.corners)
        apron = Region.hull(array_of(corners)).shrunk(wish.foot.thin)
    battens = battens_under(top, table.bearing, movement, heads, diameter, apron)
    loads = asked.loads(top.panel.substance.name)
    under = max((batten.thickness for batten in battens), default=0.0)
    plan = TablePlan(
        height=wish.height + top.thickness,
        use=use_of(wish.height + top.thickness),
        knees=wish.height - under,
        panel_lifters=lifters(top.panel.mass),
        top_lifters=lifters(legs.top_mass),
        leg_lifters=lifters(legs.leg_mass),
        table_lifters=lifters(legs.mass),
        seating=stance.seating if wish.seats else None,
        loads=loads,
        sag=sag_of(table, wish.foot, middles, loads),
        movement=movement,
        battens=battens,
        batten_screw=_driven(None, SIZE[1], top) if battens else None,
        holes=holes,
        screw=screw,
        glue=glue_joint(wish.foot, len(middles), asked.glue) if glued else None,
    )
    return replace(plan, notes=tuple(_notes(plan, asked, stance, top)))


def _driven(
    screw: Screw | None, through: float, top: Top, from_edge: float = math.inf
) -> ScrewPlan | None:
    """Return how a screw holds, or else the longest that is sold; None where none bites."""
    screw = screw or usual_screw(through, top.thickness)
    if screw is None:
        return None
    return screw_in(screw, through, top.thickness, top.panel.build.kind, from_edge)


def _notes(plan: TablePlan, asked: TableWish, stance: Stance, top: Top) -> Iterator[Concern]:
    """Yield what the maker should know, gravest first."""
    wish, kind = stance.wish, top.panel.build.kind
    if kind is Kind.HOLLOW:
        yield Concern(LegMatter.HOLLOW)
    if kind is Kind.FRAMED and frame_of(top.panel) is None:
        yield Concern(LegMatter.FRAME_UNKNOWN)
    yield from _about_joints(plan, asked, wish, top)
    if plan.movement.solid and len(plan.battens) < 2 and not asked.framed:
        yield Concern(LegMatter.BATTEN_MISSING if plan.battens else LegMatter.NO_BATTEN)
    yield from _about_sag(plan.sag)
    dining = plan.use is not None and plan.use.seats
    if wish.seats and dining and plan.knees < KNEE_HEIGHT:
        yield Concern(LegMatter.LOW, found=plan.knees, limit=KNEE_HEIGHT)
    if plan.seating is not None and plan.seating.without_legs and not plan.seating.seats:
        yield Concern(LegMatter.NOBODY_SITS)


def _about_sag(sag: Sag | None) -> Iterator[Concern]:
    if sag is None:
        yield Concern(LegMatter.SAG_UNKNOWN)
        return
    first, final = sag.first_loaded.down, sag.after_creep.down
    if first > sag.first_limit:
        yield Concern(LegMatter.SAGS, found=first, limit=sag.first_limit)
    elif final > sag.final_limit:
        yield Concern(LegMatter.SAGS_LATER, found=final, limit=sag.final_limit)
    if sag.waist is not None:
        yield Concern(LegMatter.WAIST, found=sag.waist)


def _about_joints(plan: TablePlan, asked: TableWish, wish: LegsWish, top: Top) -> Iterator[Concern]:
    screw, glued = plan.screw, wish.fixing is Fixing.GLUED
    if plan.holes and screw is None:
        yield Concern(LegMatter.NO_SCREW, found=top.thickness, limit=LEFT_UNDER_TIP)
    if screw is not None:
        told = {
            LegMatter.SCREW_COMES_THROUGH: (-screw.left, screw.longest),
            LegMatter.SCREW_TOO_DEEP: (screw.left, screw.longest),
            LegMatter.SCREW_HARDLY_BITES: (screw.bite, None),
            LegMatter.SCREW_NEAR_EDGE: (None, screw.from_edge),
        }
        yield from (Concern(fault, (), *told[fault]) for fault in screw.faults)
    slots = [slot for slot in plan.movement.slots if slot.left is not None and not slot.fixed]
    if screw is not None and slots:
        lacking = METAL_LEFT * screw.screw.diameter - min(slot.left or 0.0 for slot in slots)
        if lacking > SAME_PLACE:
            longest = max(slot.length for slot in slots)
            yield Concern(LegMatter.SLOT_RUNS_OUT, found=longest / 2, limit=lacking)
    alone = plan.screws_each == 1 and wish.plate is None and not asked.framed
    if alone and wish.leg_length > RACKS_FROM:
        yield Concern(LegMatter.ONE_BOLT, found=wish.leg_length, limit=RACKS_FROM)
    if plan.movement.glue_fights:
        yield Concern(LegMatter.GLUE_FIGHTS, found=plan.movement.joint, limit=GLUE_FIGHTS)
    if glued and asked.glue is Glue.RIGID and not is_wooden(wish.material):
        yield Concern(LegMatter.METAL_GLUED)
    if wish.is_masonry and wish.fixing is Fixing.LOOSE:
        yield Concern(LegMatter.HARD_SEAT)
