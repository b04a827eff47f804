"""What may have to be bought, by name, with its unit, and how it is reckoned.

What goes on an area, along an edge, into a joint, or is counted; grits, and how far a sheet goes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..cutting.tools import SPARE as TENTH
from ..legs.glue import SPARE, Bed
from ..panel import Coat, Kind, Panel

GRITS = (40, 60, 80, 100, 120, 150, 180, 220, 240, 320)
"""Grits that are sold (FEPA 43-1, P-grades, from memory)."""

STEP = 1.5
"""No grit is more than so many times the one before it, or its scratches stay (common practice)."""

AS_FLATTENED, AS_FOUND, VENEER = 60, 80, 150
"""The first grit on wood that was just flattened or stripped, on sound wood, and on veneer, which
nothing coarser may touch (common practice)."""

DISC_AREA = 0.5
"""What one sheet or disc of bare wood sands before it is dull, m² (common practice: between 0.3
and 0.8); coarse ones, that level, last half as long."""

COARSE = 80
"""Grits up to this count as coarse."""


def first_grit(panel: Panel, *, stripped: bool) -> int:
    """Return the grit that sanding starts with on a panel."""
    if panel.build.kind is Kind.VENEERED:
        return VENEER
    if Coat.LAMINATE in panel.finish:
        return 120
    return AS_FLATTENED if panel.flattened is not None or stripped else AS_FOUND


def grits_between(first: int, last: int) -> tuple[int, ...]:
    """Return the grits from the first to the last, as few as may be.

    >>> grits_between(80, 180), grits_between(60, 150), grits_between(150, 150)
    ((80, 120, 180), (60, 80, 120, 150), (150,))
    """
    grits = [first]
    while grits[-1] < last:
        near = (grit for grit in GRITS if grits[-1] < grit <= min(grits[-1] * STEP, last))
        grits.append(max(near, default=last))
    return tuple(grits)


def lasts(grit: int, disc_area: float = DISC_AREA) -> float:
    """Return what one sheet or disc of a grit sands, m²."""
    return disc_area / 2 if grit <= COARSE else disc_area


def discs(area: float, each: float) -> int:
    """Return how many sheets or discs an area takes of which each sands so much, m².

    >>> discs(1.6, lasts(120)), discs(1.6, lasts(60))
    (4, 7)
    """
    return math.ceil(area / each - 1e-9)


class Unit(Enum):
    """What a material is counted in."""

    LITRE = "l"
    MILLILITRE = "ml"
    METRE = "m"
    PIECE = ""


class Item(Enum):
    """A material; the value is the name that a job file uses. Abrasives have names by grit."""

    FINISH = "finish"
    STRIPPER = "stripper"
    WOOD_GLUE = "wood glue"
    FLEXIBLE = "flexible adhesive"
    FILLER = "filler"
    RESIN = "resin"
    LIPPING = "lipping"
    EDGING = "edging"
    BATTENS = "battens"
    BATTEN_SCREWS = "batten screws"
    LEGS = "legs"
    PLATES = "plates"
    SCREWS = "screws"
    BOLTS = "bolts"
    PADS = "pads"
    TAPE = "masking tape"
    PAPER = "template paper"


UNITS = {
    Item.FINISH: Unit.LITRE,
    Item.STRIPPER: Unit.LITRE,
    Item.WOOD_GLUE: Unit.MILLILITRE,
    Item.FILLER: Unit.MILLILITRE,
    Item.RESIN: Unit.MILLILITRE,
    Item.LIPPING: Unit.METRE,
    Item.EDGING: Unit.METRE,
    Item.TAPE: Unit.METRE,
}
"""Of all that is not counted in pieces; flexible adhesive comes in cartridges."""


def grit_name(grit: int) -> str:
    """Return the name of sheets or discs of a grit, as a job file uses it."""
    return f"grit {grit}"


ITEMS = (*(item.value for item in Item), *map(grit_name, GRITS))
"""Every name in the order of the list."""


COVER = 1
"""A cover with the map of the sheets is printed with them."""


@dataclass(frozen=True, slots=True)
class Spread:
    """A liquid laid on an area, some coats of it, and a tenth for tin and rag."""

    area: float
    """m²."""
    coats: int
    reach: float
    """m² a litre."""
    given: bool = False
    """Whether the maker says how far it goes; else labels do."""

    @property
    def need(self) -> float:
        """Litres."""
        return self.area * self.coats / self.reach * TENTH


@dataclass(frozen=True, slots=True)
class Sanded:
    """An area sanded with one grit."""

    area: float
    lasts: float
    """What one sheet or disc sands, m²."""

    @property
    def need(self) -> float:
        """Sheets or discs."""
        return discs(self.area, self.lasts)


@dataclass(frozen=True, slots=True)
class Run:
    """A strip along a length, and a tenth for joints and slips."""

    length: float
    """m."""
    strips: int = 1

    @property
    def need(self) -> float:
        """In metres."""
        return self.length * self.strips * TENTH


@dataclass(frozen=True, slots=True)
class Filled:
    """What fills hollows, with a fifth more."""

    volume: float
    """Of the hollows, ml."""

    @property
    def need(self) -> float:
        """In ml."""
        return self.volume * SPARE


@dataclass(frozen=True, slots=True)
class Counted:
    """Pieces: so many on each of some others."""

    each: int
    of: int

    @property
    def need(self) -> float:
        """Pieces."""
        return self.each * self.of


@dataclass(frozen=True, slots=True)
class Printed:
    """Sheets of a template with their cover."""

    sheets: int

    @property
    def need(self) -> float:
        """All of them."""
        return self.sheets + COVER


Reckoned = Spread | Sanded | Run | Bed | Filled | Counted | Printed
