"""The table as a whole: fixings, sag, seasons and people, for legs that are placed already."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..geometry.point import Point
from ..panel.build import Kind
from ..panel.lifting import lifters
from ..top import Top
from .battens import Batten, battens_under
from .fixings import Hole, holes_of
from .glue import GlueJoint, glue_joint
from .heights import KNEE_HEIGHT, UsualHeight, use_of
from .materials import is_wooden
from .movement import GLUE_FIGHTS, Held, MovementPlan, movement_of
from .notes import Matter, TableNote
from .people import Seating, seating_at
from .plan import LegsPlan
from .sag import Burden, Sag, sag_of
from .screws import LEFT_UNDER_TIP, USUAL, ScrewPlan, screw_in, usual_screw
from .table import TableTop
from .table_wish import Glue, TableWish
from .wish import Fixing, LegsWish


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
    seating: Seating
    burden: Burden
    """What it has to carry."""
    sag: Sag | None
    """None where the stiffness of the top is not known."""
    movement: MovementPlan
    battens: tuple[Batten, ...]
    """Under a solid top."""
    holes: tuple[Hole, ...]
    """Screws of the legs."""
    screw: ScrewPlan | None
    """How such a screw holds; None where none is driven, or none would hold."""
    glue: GlueJoint | None
    """Of legs that are glued."""
    flexible: bool
    """Whether that glue is flexible."""
    notes: tuple[TableNote, ...] = field(default=())


def plan_table(asked: TableWish, wish: LegsWish, legs: LegsPlan, table: TableTop) -> TablePlan:
    """Return what the table does on these legs.

    Parameters
    ----------
    wish : LegsWish
        That the legs were placed by.
    legs : LegsPlan
    """
    top, middles = table.top, [leg.middle for leg in legs.legs]
    holes = holes_of(wish, middles, top, asked.holes)
    screw = _screw(asked, wish, top, holes)
    diameter = screw.screw.diameter if screw else USUAL
    movement = movement_of(
        top,
        Held(
            _joined(holes, wish, asked),
            wish.foot,
            wish.fixing is Fixing.GLUED and asked.glue is Glue.RIGID,
            diameter,
        ),
        quartered=asked.quartered,
        swing=asked.swing,
    )
    heads = [wish.on_top.outside(middle) for middle in middles]
    battens = battens_under(top, table.bearing, movement, heads, diameter)
    burden = asked.burden(top.panel.build.kind)
    under = max((batten.thickness for batten in battens), default=0.0)
    plan = TablePlan(
        height=wish.height + top.thickness,
        use=use_of(wish.height + top.thickness),
        knees=wish.height - under,
        panel_lifters=lifters(top.panel.mass),
        top_lifters=lifters(legs.top_mass),
        leg_lifters=lifters(legs.leg_mass),
        table_lifters=lifters(legs.mass),
        seating=seating_at(top.outline, wish.foot, middles, asked.place),
        burden=burden,
        sag=sag_of(top, wish.foot, middles, burden, table.plate),
        movement=movement,
        battens=battens,
        holes=holes,
        screw=screw,
        glue=glue_joint(wish.foot) if wish.fixing is Fixing.GLUED else None,
        flexible=asked.glue is Glue.FLEXIBLE,
    )
    return replace(plan, notes=tuple(_notes(plan, asked, wish, top)))


def _screw(asked: TableWish, wish: LegsWish, top: Top, holes: tuple[Hole, ...]) -> ScrewPlan | None:
    """Return how the wished screw holds, or else the longest that is sold and holds."""
    if not holes:
        return None
    plate = wish.plate.thickness if wish.plate else 0.0
    screw = asked.screw or usual_screw(plate, top.thickness)
    if screw is None:
        return None
    return screw_in(
        screw, plate, top.thickness, top.panel.build.kind, min(hole.from_edge for hole in holes)
    )


def _joined(
    holes: tuple[Hole, ...], wish: LegsWish, asked: TableWish
) -> tuple[tuple[Point, ...], ...]:
    """Return the screws that something rigid joins: an apron all of them, else each leg its own."""
    if asked.framed:
        return (tuple(hole.place for hole in holes),)
    numbers = sorted({hole.leg for hole in holes})
    return tuple(tuple(hole.place for hole in holes if hole.leg == n) for n in numbers)


def _notes(plan: TablePlan, asked: TableWish, wish: LegsWish, top: Top) -> Iterator[TableNote]:
    """Yield what the maker should know, gravest first."""
    if top.panel.build.kind is Kind.HOLLOW:
        yield TableNote(Matter.HOLLOW)
    yield from _about_joints(plan, asked, wish, top)
    if plan.sag is None:
        yield TableNote(Matter.SAG_UNKNOWN)
    elif not plan.sag.holds:
        yield TableNote(Matter.SAGS, plan.sag.after_creep.down, plan.sag.seen)
    if plan.movement.solid and len(plan.battens) < 2:
        yield TableNote(Matter.BATTEN_MISSING if plan.battens else Matter.NO_BATTEN)
    dining = plan.use is not None and plan.use.seats
    if wish.seated and dining and plan.knees < KNEE_HEIGHT:
        yield TableNote(Matter.LOW, plan.knees, KNEE_HEIGHT)
    if wish.seated and plan.seating.without_legs and not plan.seating.seats:
        yield TableNote(Matter.NOBODY_SITS)


def _about_joints(
    plan: TablePlan, asked: TableWish, wish: LegsWish, top: Top
) -> Iterator[TableNote]:
    if plan.holes and plan.screw is None:
        yield TableNote(Matter.NO_SCREW, top.thickness, LEFT_UNDER_TIP)
    if plan.movement.glue_fights:
        yield TableNote(Matter.GLUE_FIGHTS, plan.movement.joint, GLUE_FIGHTS)
    glued = wish.fixing is Fixing.GLUED
    if glued and asked.glue is Glue.RIGID and not is_wooden(wish.material):
        yield TableNote(Matter.METAL_GLUED)
    if wish.is_masonry:
        yield TableNote(Matter.HARD_SEAT)
