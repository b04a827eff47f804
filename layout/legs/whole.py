"""The table as a whole: fixings, sag, seasons and people, for legs that are placed already."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from ..geometry.point import Point
from ..panel.build import Kind
from ..panel.materials import Material
from .battens import Batten, battens_under
from .fixings import Hole, holes_of
from .glue import GlueJoint, glue_joint
from .heights import KNEE_HEIGHT, UsualHeight, use_of
from .materials import is_wooden
from .movement import GLUE_FIGHTS, Held, MovementPlan, Wood, movement_of
from .notes import Matter, TableNote
from .people import Seating, lifters, seating_at
from .plan import LegsPlan
from .sag import Burden, Sag, sag_of
from .screws import LEFT_UNDER_TIP, USUAL, ScrewPlan, screw_in, usual_screw
from .table import TableTop
from .table_wish import Glue, TableWish
from .wish import Fixing, LegsWish


@dataclass(frozen=True, slots=True)
class TablePlan:
    """What the table does on its legs; sag and movement are estimates, not a test.

    Attributes
    ----------
    height : float
        Of its upper face above the floor, mm.
    use : UsualHeight or None
        For what a table so high is usual.
    knees : float
        Free between the floor and what hangs under the top, mm.
    panel_lifters, top_lifters, leg_lifters, table_lifters : int
        How many people lift the old panel, the new top, one leg, and the finished table.
    seating : Seating
    burden : Burden
        What it has to carry.
    sag : Sag or None
        None where the stiffness of the top is not known.
    movement : MovementPlan
    battens : tuple of Batten
        Under a solid top.
    holes : tuple of Hole
        Screws of the legs.
    screw : ScrewPlan or None
        How such a screw holds; None where none is driven, or none would hold.
    glue : GlueJoint or None
        Of legs that are glued.
    flexible : bool
        Whether that glue is flexible.
    notes : tuple of TableNote
    """

    height: float
    use: UsualHeight | None
    knees: float
    panel_lifters: int
    top_lifters: int
    leg_lifters: int
    table_lifters: int
    seating: Seating
    burden: Burden
    sag: Sag | None
    movement: MovementPlan
    battens: tuple[Batten, ...]
    holes: tuple[Hole, ...]
    screw: ScrewPlan | None
    glue: GlueJoint | None
    flexible: bool
    notes: tuple[TableNote, ...] = field(default=())


@dataclass(frozen=True, slots=True)
class TopWood:
    """What the top is made of, as far as legs care.

    Attributes
    ----------
    kind : Kind
    material : Material
    grain : float
        Direction of its grain from the length of the top, radians.
    panel_mass : float
        Of the old panel, kg.
    """

    kind: Kind
    material: Material
    grain: float = field(metadata={"unit": "rad"})
    panel_mass: float = field(metadata={"unit": "kg"})


def plan_table(
    asked: TableWish, wish: LegsWish, legs: LegsPlan, table: TableTop, wood: TopWood
) -> TablePlan:
    """Return what the table does on these legs.

    Parameters
    ----------
    wish : LegsWish
        That the legs were placed by.
    legs : LegsPlan
    """
    outline, middles = table.outline, [leg.middle for leg in legs.legs]
    holes = holes_of(wish, middles, outline, table.placement, asked.holes)
    screw = _screw(asked, wish, table, wood.kind, holes)
    diameter = screw.screw.diameter if screw else USUAL
    movement = movement_of(
        outline,
        Wood(wood.kind, wood.material, wood.grain, asked.quartered, asked.swing),
        Held(
            _joined(holes, wish, asked),
            wish.foot,
            wish.fixing is Fixing.GLUED and asked.glue is Glue.RIGID,
            diameter,
        ),
    )
    heads = [wish.on_top.outside(middle) for middle in middles]
    battens = battens_under(outline, table.placement, table.bearing, movement, heads, diameter)
    burden = asked.burden(wood.kind)
    sag = None
    if table.board is not None:
        sag = sag_of(table.board, wish.foot, middles, burden, table.plate)
    under = max((batten.thickness for batten in battens), default=0.0)
    plan = TablePlan(
        height=wish.height + table.thickness,
        use=use_of(wish.height + table.thickness),
        knees=wish.height - under,
        panel_lifters=lifters(wood.panel_mass),
        top_lifters=lifters(legs.top_mass),
        leg_lifters=lifters(legs.leg_mass),
        table_lifters=lifters(legs.mass),
        seating=seating_at(outline, wish.foot, middles, asked.place),
        burden=burden,
        sag=sag,
        movement=movement,
        battens=battens,
        holes=holes,
        screw=screw,
        glue=glue_joint(wish.foot) if wish.fixing is Fixing.GLUED else None,
        flexible=asked.glue is Glue.FLEXIBLE,
    )
    return replace(plan, notes=tuple(_notes(plan, asked, wish, table, wood.kind)))


def _screw(
    asked: TableWish, wish: LegsWish, table: TableTop, kind: Kind, holes: tuple[Hole, ...]
) -> ScrewPlan | None:
    """Return how the wished screw holds, or else the longest that is sold and holds."""
    if not holes:
        return None
    plate = wish.plate.thickness if wish.plate else 0.0
    screw = asked.screw or usual_screw(plate, table.thickness)
    if screw is None:
        return None
    return screw_in(screw, plate, table.thickness, kind, min(hole.from_edge for hole in holes))


def _joined(
    holes: tuple[Hole, ...], wish: LegsWish, asked: TableWish
) -> tuple[tuple[Point, ...], ...]:
    """Return the screws that something rigid joins: an apron all of them, else each leg its own."""
    if asked.framed:
        return (tuple(hole.place for hole in holes),)
    numbers = sorted({hole.leg for hole in holes})
    return tuple(tuple(hole.place for hole in holes if hole.leg == n) for n in numbers)


def _notes(
    plan: TablePlan, asked: TableWish, wish: LegsWish, table: TableTop, kind: Kind
) -> Iterator[TableNote]:
    """Yield what the maker should know, gravest first."""
    if kind is Kind.HOLLOW:
        yield TableNote(Matter.HOLLOW)
    yield from _about_joints(plan, asked, wish, table)
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
    plan: TablePlan, asked: TableWish, wish: LegsWish, table: TableTop
) -> Iterator[TableNote]:
    if plan.holes and plan.screw is None:
        yield TableNote(Matter.NO_SCREW, table.thickness, LEFT_UNDER_TIP)
    if plan.movement.glue_fights:
        yield TableNote(Matter.GLUE_FIGHTS, plan.movement.joint, GLUE_FIGHTS)
    glued = wish.fixing is Fixing.GLUED
    if glued and asked.glue is Glue.RIGID and not is_wooden(wish.material):
        yield TableNote(Matter.METAL_GLUED)
    if wish.is_masonry:
        yield TableNote(Matter.HARD_SEAT)
