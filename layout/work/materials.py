"""What it takes: each material reckoned from the piece, less what is in the house."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal

from ..legs.fixings import BED, CARTRIDGE, Bed, Glue
from ..legs.foot import FootShape
from ..legs.plan import LegsPlan
from ..legs.whole import TablePlan
from ..legs.wish import LegsWish
from ..panel import Coat, Mend
from .deeds import Deed
from .items import (
    Counted,
    Filled,
    Item,
    Printed,
    Reckoned,
    Run,
    Sanded,
    Spread,
    Unit,
    grit_name,
    lasts,
)
from .order import Task, WorkOrder
from .piece import FITTED, Piece
from .wish import STRIPS, MaterialsWish

ROUNDS = {Coat.PAINT: 2}
"""How often stripper is laid on; once for what is not named (common practice)."""


@dataclass(frozen=True, slots=True)
class Line:
    """One material."""

    name: str
    """As a job file calls it."""
    unit: Unit
    how: Reckoned
    need: float
    """What it takes, in its unit: as reckoned, or as the maker says."""
    given: bool
    have: float
    price: Decimal | None
    """Of one unit; None where it is not known."""
    kind: str = ""
    """Which finish, paper or glue."""
    size: tuple[float, ...] = ()
    """mm: of a screw its diameter and length; of other things length, width, thickness."""
    perhaps: bool = False
    """Whether nobody knows yet that it is needed."""

    @property
    def buy(self) -> float:
        """What is missing; pieces are bought whole."""
        missing = max(0.0, self.need - self.have)
        return float(math.ceil(missing - 1e-9)) if self.unit is Unit.PIECE else missing

    @property
    def cost(self) -> Decimal | None:
        """What that costs; None where the price is not known."""
        return None if self.price is None else self.price * Decimal(f"{self.buy:.3f}")


@dataclass(frozen=True, slots=True)
class Materials:
    """Everything to have before the work begins."""

    lines: tuple[Line, ...]
    unpriced: tuple[str, ...] = ()
    """Names of what is to be bought and has no price."""

    @property
    def cost(self) -> Decimal | None:
        """What is bought costs in all, as far as prices are known; None where none is."""
        known = [line.cost for line in self.lines if line.cost is not None]
        return sum(known, Decimal(0)) if known else None


def materials_of(piece: Piece, order: WorkOrder, wish: MaterialsWish | None = None) -> Materials:
    """Return what a piece takes; what the maker says of it goes before what is reckoned."""
    asked = wish or MaterialsWish()
    need, have, price = dict(asked.need), dict(asked.have), dict(asked.price)
    lines = tuple(
        replace(
            line,
            need=need.get(line.name, line.need),
            given=line.name in need,
            have=have.get(line.name, 0.0),
            price=price.get(line.name),
        )
        for line in _lines(piece, order, asked)
        if line.need > 0
    )
    return Materials(lines, tuple(line.name for line in lines if line.buy and line.price is None))


def _line(
    item: Item | str,
    how: Reckoned,
    size: tuple[float, ...] = (),
    kind: str = "",
    *,
    perhaps: bool = False,
) -> Line:
    """Return a material as it is reckoned."""
    name, unit = (item.value, item.unit) if isinstance(item, Item) else (item, Unit.PIECE)
    return Line(name, unit, how, how.need, False, 0.0, None, kind, size, perhaps)


def _lines(piece: Piece, order: WorkOrder, wish: MaterialsWish) -> Iterator[Line]:
    finish, old = piece.finish, piece.panel.finish
    if finish.coats:
        spread = Spread(piece.sanded, finish.coats, finish.coverage, given=bool(wish.coverage))
        yield _line(Item.FINISH, spread, kind=finish.coat.value)
    if piece.strips:
        rounds, reach = max((ROUNDS.get(coat, 1) for coat in old), default=1), wish.strip_coverage
        spread = Spread(piece.stripped, rounds, reach, given=reach != STRIPS)
        yield _line(Item.STRIPPER, spread, perhaps=not old)
    areas: dict[int, float] = {}
    for task in order.tasks:
        for grit in task.grits:
            areas[grit] = areas.get(grit, 0.0) + _sanded(piece, task)
    for grit, area in sorted(areas.items()):
        yield _line(grit_name(grit), Sanded(area, lasts(grit, wish.disc_area)))
    edging = piece.cuts.edging
    if edging is not None and edging.thickness:
        strips = Run(edging.around / 1000, edging.layers)
        yield _line(Item.LIPPING, strips, (edging.strip_width, edging.layer))
    elif edging is not None:
        yield _line(Item.EDGING, Run(edging.around / 1000), (edging.strip_width,))
    yield from _glued(piece)
    if piece.wish is not None and piece.table is not None and piece.legs is not None:
        yield from _under(piece, piece.wish, piece.legs, piece.table)
    if piece.sheets:
        yield _line(Item.PAPER, Printed(piece.sheets, piece.figures), kind=piece.paper)


def _sanded(piece: Piece, task: Task) -> float:
    """Return what is sanded at once, m²: of one side only, between its coats."""
    if task.deed is Deed.SAND or not piece.finish.faces:
        return piece.sanded
    edge = piece.edge * piece.top.thickness / 1000
    return piece.face + (edge if task.of is Deed.UNDERSIDE else 0.0)


def _glued(piece: Piece) -> Iterator[Line]:
    """Yield fillers, and glue for lipping, mends and wooden legs, or an adhesive that gives."""
    edging, glue = piece.cuts.edging, None if piece.table is None else piece.table.glue
    joints = 0.0 if glue is None else (glue.area + glue.block_area) * piece.leg_count
    flexible = glue is not None and glue.cartridges > 0
    rigid = 0.0 if flexible else joints
    if edging is not None and edging.thickness:
        rigid += edging.around * piece.top.thickness * edging.layers
    for mend in piece.cuts.mends:
        if mend.how in FITTED:
            sides = sum(path.length for path in mend.prints) * mend.depth
            rigid += sides + (0.0 if mend.through else mend.length * mend.width * len(mend.places))
    yield _line(Item.WOOD_GLUE, Bed(rigid / 100, BED[Glue.RIGID]))
    if flexible:
        yield _line(Item.FLEXIBLE, Bed(joints / 100, BED[Glue.FLEXIBLE], CARTRIDGE))
    for item, how in ((Item.FILLER, Mend.FILLER), (Item.RESIN, Mend.RESIN)):
        held = (mend for mend in piece.cuts.mends if mend.how is how)
        yield _line(item, Filled(sum(m.length * m.width * m.depth for m in held) / 1000))


def _under(piece: Piece, wish: LegsWish, legs: LegsPlan, table: TablePlan) -> Iterator[Line]:
    """Yield what stands under a top and holds there."""
    count, foot, plate, battens = piece.leg_count, wish.foot, wish.plate, table.battens
    if battens:
        longest = max(battens, key=lambda batten: batten.length)
        size = (longest.length, longest.width, longest.thickness)
        yield _line(Item.BATTENS, Counted(1, len(battens)), size)
        if table.batten_screw is not None:
            each = Counted(len(longest.screws), len(battens))
            yield _line(Item.BATTEN_SCREWS, each, table.batten_screw.screw.size)
    size = (foot.length, foot.width, legs.leg_length)
    yield _line(Item.LEGS, Counted(1, count), size, wish.material)
    if plate is not None:
        yield _line(Item.PLATES, Counted(1, count), (plate.length, plate.width, plate.thickness))
    if table.screw is not None:
        item = Item.SCREWS if table.screw.through else Item.BOLTS
        yield _line(item, Counted(table.screws_each, count), table.screw.screw.size)
    if piece.finish.masked:
        yield _line(Item.TAPE, Run(sum(leg.print.length for leg in legs.legs) / 1000))
    pads = 2 if foot.shape is FootShape.SLAB else 1
    yield _line(Item.PADS, Counted(pads, count), (foot.thin,))
