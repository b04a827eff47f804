"""The printer's error, by which each page is written larger or smaller.

A printer's scale differs across and along the way it feeds, so there is one factor for each edge
of the paper. Across is the short edge of a sheet, along is the long edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..units import Tape

MOST = 0.03
"""More than this is no printer's error but a page that was fitted to the wrong paper."""

READING = 0.25
"""A bar is read to about a quarter of a millimetre; a difference below that is none."""


class CalibrationError(LayoutError):
    """A measured bar that cannot be a printer's error, or a profile that cannot be read."""


@dataclass(frozen=True, slots=True)
class Correction:
    """By what a page must be written larger along each edge of the paper to print true.

    Raises
    ------
    CalibrationError
        If a factor is off by more than 3 %.
    """

    across: float = 1.0
    along: float = 1.0
    """Factors for the short and the long edge, 1 for a true printer."""
    printer: str = ""
    """Whose error it is; empty where nobody said."""

    def __post_init__(self) -> None:
        for edge, factor in (("short", self.across), ("long", self.along)):
            if not 1 - MOST <= factor <= 1 + MOST:
                raise CalibrationError(
                    f"the correction along the {edge} edge is {100 * (factor - 1):+.2f} %, more "
                    f"than {100 * MOST:.0f} %: that is no printer's error. Look whether the page "
                    "was fitted to the paper or printed on another size; print at 100 % and "
                    "measure again"
                )

    @property
    def is_none(self) -> bool:
        """Whether nothing is corrected."""
        return self.across == 1.0 and self.along == 1.0

    def for_page(self, *, landscape: bool) -> tuple[float, float]:
        """Return the factors across and up a page; a landscape page lies along the long edge."""
        return (self.along, self.across) if landscape else (self.across, self.along)


def longest_bar(room: float, tape: Tape) -> float:
    """Return the longest check bar that `room` mm hold: whole 5 mm, or quarters of an inch.

    >>> longest_bar(188.9, Tape()), round(longest_bar(188.9, Tape(imperial=True)), 6)
    (185.0, 184.15)
    """
    step = tape.step
    return step * math.floor(room / step + 1e-9)


TRUE = Correction()
"""A printer that is right."""
