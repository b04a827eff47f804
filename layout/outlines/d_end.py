"""The D end: square at one end, half round at the other, as a table against a wall."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Self

from .base import require
from .rounded_rectangle import RoundedRectangle


@dataclass(frozen=True, slots=True)
class DEnd(RoundedRectangle):
    """A rectangle whose right end is a half circle.

    Raises
    ------
    OutlineError
        If its radii are others.
    """

    name = "D end"

    def __post_init__(self) -> None:
        RoundedRectangle.__post_init__(self)
        half = self.width / 2
        round_end = self.radii == (0.0, half, half, 0.0)
        require(round_end, "a D end is square at its left end and half round at its right")

    @classmethod
    def of_size(cls, length: float, width: float) -> Self:
        """Return the D end that long and wide, mm."""
        return cls(length, width, (0.0, width / 2, width / 2, 0.0))

    def resized(self, length: float, width: float) -> Self:
        """Return a D end of another size."""
        return self.of_size(length, width)
