"""What the maker cuts with, and the figures of those tools that the sheets need."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError

SAW_ALLOWANCE = 2.0
"""Left outside the finish line by a saw, mm: its kerf flares (common practice)."""

JIGSAW_ALLOWANCE = 3.0
"""Left outside the line by a jigsaw, mm: its blade leans in a curve (common practice)."""

THICK_ALLOWANCE = 5.0
"""Left outside the line in wood thicker than `THICK`, mm (common practice)."""

THICK = 38.0
"""A jigsaw is not trusted to the line in wood thicker than this, mm (common practice)."""

THINNEST_TRIM = 3.0
"""What a trim must be thicker than the kerf, mm, or the blade wanders (common practice)."""


@dataclass(frozen=True, slots=True)
class Tools:
    """The maker's tools.

    Attributes
    ----------
    kerf : float
        Width of the saw's cut, mm.
    guide_left, guide_right : float or None
        From the kept side of the kerf to the edge of the saw's base on its left and on its right,
        as a test cut measured it, mm. None where that side is not used: no figure is assumed.
    allowance : float or None
        Left outside the finish line by the first cuts, mm; None for what is usual for the tool and
        thickness.
    router : bool
        Whether there is a router to trim to the line.
    bit : float
        Diameter of the router's cutter, mm.
    nail, pencil : float
        Thickness of the nails and of the pencil that draw an oval, mm.
    string_stretch : float
        Share by which the string gives; 0.003 for braided line.
    """

    kerf: float = 2.4
    guide_left: float | None = None
    guide_right: float | None = None
    allowance: float | None = None
    router: bool = True
    bit: float = 12.0
    nail: float = 3.0
    pencil: float = 3.0
    string_stretch: float = 0.003

    def __post_init__(self) -> None:
        for name in ("kerf", "guide_left", "guide_right", "allowance", "bit", "nail", "pencil"):
            value = getattr(self, name)
            if value is not None and not 0 <= value < math.inf:
                raise LayoutError(f"tools: {name} of {value:g} mm is below 0")
        if not 0 <= self.string_stretch < 0.05:
            raise LayoutError(
                f"tools: a string that gives {self.string_stretch:.1%} draws no oval: "
                "use braided line or wire, below 5 %"
            )
