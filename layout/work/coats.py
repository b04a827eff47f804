"""Finishes for a new top: how far a litre goes, how long it dries, what it asks of the wood.

Labels differ, so each figure may be overridden in the job; what the tin says goes before it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

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
    """On each face."""
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
