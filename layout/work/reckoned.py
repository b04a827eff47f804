"""How a material is reckoned: what goes on an area, along an edge, into a joint, or is counted."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..cutting.edging import SPARE as TENTH
from ..legs.glue import SPARE
from .items import discs

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
class Bed:
    """Adhesive in its joints, with a fifth more for what is squeezed out."""

    area: float
    """cm²."""
    bed: float
    """mm."""
    pack: float = 0.0
    """What a cartridge holds, ml; 0 where it is counted in ml."""

    @property
    def volume(self) -> float:
        """In ml."""
        return self.area * self.bed / 10 * SPARE

    @property
    def need(self) -> float:
        """Cartridges, or ml."""
        return math.ceil(self.volume / self.pack - 1e-9) if self.pack else self.volume


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
