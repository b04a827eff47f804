"""Which offcuts the maker wants to keep."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError


@dataclass(frozen=True, slots=True)
class OffcutWish:
    """The least clean rectangle that makes an offcut worth keeping.

    Raises
    ------
    LayoutError
        If not ``0 <= least_width <= least_length``.
    """

    least_length: float = 300.0
    least_width: float = 100.0
    """mm (common practice: 300 by 100 and up)."""

    def __post_init__(self) -> None:
        if not 0 <= self.least_width <= self.least_length < math.inf:
            raise LayoutError(
                f"offcuts worth keeping are at least {self.least_length:g} long and "
                f"{self.least_width:g} mm wide: the width is from 0 to the length"
            )
