"""Which offcuts the maker wants to keep."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..keys.key import hold, key
from ..keys.kinds import Choice
from ..keys.plane import Choices
from .makes import Make

_MAKES = Choices(Choice({make.value: make for make in Make}))


@dataclass(frozen=True, slots=True)
class OffcutWish:
    """The least clean rectangles that make an offcut worth keeping.

    Raises
    ------
    LayoutError
        If not ``0 <= least_width <= least_length``.
    """

    makes: tuple[Make, ...] = key(
        tuple(Make),
        _MAKES,
        "What is made from offcuts: of each piece that is kept the sheet tells which of these it "
        "makes",
        '["battens", "shelf"]',
        usual="all of them",
    )
    least_length: float = 300.0
    least_width: float = 100.0
    """As a board, mm (common practice: 300 by 100 and up)."""
    leg_length: float = 400.0
    leg_side: float = 35.0
    """Solid wood that makes legs is so long, so wide and so thick, mm (common practice: the legs of
    a low table)."""
    batten_width: float = 40.0
    batten_thickness: float = 18.0
    """Solid wood that makes battens, as long as a board (common practice)."""

    def __post_init__(self) -> None:
        hold(self, "offcuts")
        if not 0 <= self.least_width <= self.least_length < math.inf:
            raise LayoutError(
                f"offcuts worth keeping are at least {self.least_length:g} long and "
                f"{self.least_width:g} mm wide: the width is from 0 to the length"
            )
