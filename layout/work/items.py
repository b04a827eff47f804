"""What may have to be bought: finishes and how they are worked with, materials, how all is counted.

Labels differ, so each figure of a finish may be overridden in the job; what the tin says goes
first.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from ..cutting.tools import SPARE as TENTH
from ..legs.fixings import SPARE, Bed
from ..panel import Coat, Kind, Panel


class NewCoat(Enum):
    """What a finished top may be given; the value is the name that a job file uses."""

    HARD_WAX_OIL = "hard-wax oil"
    OIL = "oil"
    VARNISH = "varnish"
    WATER_VARNISH = "water-based varnish"
    SHELLAC = "shellac"
    PAINT = "paint"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class Coating:
    """How a finish is worked with."""

    coats: int
    label: tuple[float, float]
    """What labels promise, m² a litre for one coat, least and most."""
    coverage: float
    """What is reckoned with, m² a litre for one coat."""
    recoat: float
    """Until the next coat, hours."""
    use: float
    """Until the top is used with care, hours after the last coat."""
    cure: int
    """Until it is as hard as it gets, days after the last coat."""
    grit: int
    """The wood is sanded to this grit: finer leaves it too closed to take the coat."""
    between: int
    """Grit between coats; 0 for none."""
    raises: bool = False
    """Whether its water raises the fibres, so that they are raised and sanded off first."""
    drying_oil: bool = False
    """Whether rags with it heat up."""


COATINGS = {
    NewCoat.HARD_WAX_OIL: Coating(2, (20, 28), 24, 12, 24, 14, 150, 0, drying_oil=True),
    NewCoat.OIL: Coating(3, (10, 20), 15, 24, 24, 7, 180, 0, drying_oil=True),
    NewCoat.VARNISH: Coating(3, (10, 16), 12, 24, 48, 7, 180, 240, drying_oil=True),
    NewCoat.WATER_VARNISH: Coating(3, (9, 14), 11, 4, 24, 7, 180, 240, raises=True),
    NewCoat.SHELLAC: Coating(4, (7, 10), 8, 2, 24, 3, 220, 320),
    NewCoat.PAINT: Coating(3, (10, 14), 11, 16, 24, 7, 150, 180),
    NewCoat.NONE: Coating(0, (0, 0), 1, 0, 0, 0, 180, 0),
}
"""Coats, coverage and drying as labels of such finishes give them (from memory, at 20 °C and good
air); grits: common practice. Paint counts its primer as the first coat."""

LABELS = "labels, from memory"
"""Where coverage and drying come from."""

_CLOSED = frozenset({Kind.MDF, Kind.PARTICLEBOARD, Kind.HOLLOW, Kind.FRAMED})
"""Builds that are mostly sealed or painted: oil has little to go into."""


def usual_coat(panel: Panel) -> NewCoat:
    """Return the finish that a panel is given where the maker names none (common practice)."""
    closed = panel.build.kind in _CLOSED or Coat.LAMINATE in panel.finish
    return NewCoat.VARNISH if closed else NewCoat.HARD_WAX_OIL


GRITS = (40, 60, 80, 100, 120, 150, 180, 220, 240, 320)
"""Grits that are sold (FEPA 43-1, P-grades, from memory)."""

STEP = 1.5
"""No grit is more than so many times the one before it, or its scratches stay (common practice)."""

AS_FLATTENED, AS_FOUND, VENEER = 60, 80, 150
"""The first grit on wood that was just flattened or stripped, on sound wood, and on veneer, which
nothing coarser may touch (common practice)."""

DISC_AREA, COARSE = 0.5, 80
"""What one sheet or disc of bare wood sands before it is dull, m² (common practice: between 0.3
and 0.8); up to the second grit it levels, and lasts half as long."""


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


class Unit(Enum):
    """What a material is counted in."""

    LITRE = "l"
    MILLILITRE = "ml"
    METRE = "m"
    PIECE = ""


class Item(Enum):
    """A material with what it is counted in; the value is the name that a job file uses."""

    FINISH = "finish", Unit.LITRE
    STRIPPER = "stripper", Unit.LITRE
    WOOD_GLUE = "wood glue", Unit.MILLILITRE
    FLEXIBLE = "flexible adhesive", Unit.PIECE
    FILLER = "filler", Unit.MILLILITRE
    RESIN = "resin", Unit.MILLILITRE
    LIPPING = "lipping", Unit.METRE
    EDGING = "edging", Unit.METRE
    BATTENS = "battens", Unit.PIECE
    BATTEN_SCREWS = "batten screws", Unit.PIECE
    LEGS = "legs", Unit.PIECE
    PLATES = "plates", Unit.PIECE
    SCREWS = "screws", Unit.PIECE
    BOLTS = "bolts", Unit.PIECE
    PADS = "pads", Unit.PIECE
    TAPE = "masking tape", Unit.METRE
    PAPER = "template paper", Unit.PIECE

    _value_: str
    unit: Unit

    def __new__(cls, name: str, unit: Unit) -> Item:
        """Return a material that is found again by its name."""
        item = object.__new__(cls)
        item._value_, item.unit = name, unit
        return item


def grit_name(grit: int) -> str:
    """Return the name of sheets or discs of a grit, as a job file uses it."""
    return f"grit {grit}"


ITEMS = (*(item.value for item in Item), *map(grit_name, GRITS))
"""Every name in the order of the list."""


@dataclass(frozen=True, slots=True)
class Spread:
    """A liquid laid on an area, m², some coats of it, and a tenth for tin and rag."""

    area: float
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
    """An area sanded with one grit, and what one sheet or disc of it sands, m²."""

    area: float
    lasts: float

    @property
    def need(self) -> float:
        """Sheets or discs.

        >>> Sanded(1.6, lasts(120)).need, Sanded(1.6, lasts(60)).need
        (4, 7)
        """
        return math.ceil(self.area / self.lasts - 1e-9)


@dataclass(frozen=True, slots=True)
class Run:
    """A strip, or several, along a length, m, and a tenth for joints and slips."""

    length: float
    strips: int = 1

    @property
    def need(self) -> float:
        """In metres."""
        return self.length * self.strips * TENTH


@dataclass(frozen=True, slots=True)
class Filled:
    """What fills hollows of a volume, ml, with a fifth more."""

    volume: float

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
    """Sheets of a template with a cover that has their map."""

    sheets: int
    figures: bool
    """Whether its line in figures is printed too, on a page behind them."""

    @property
    def need(self) -> float:
        """All of them."""
        return self.sheets + 1 + self.figures


Reckoned = Spread | Sanded | Run | Bed | Filled | Counted | Printed
