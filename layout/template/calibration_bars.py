"""The bars of the calibration sheet, and what is learnt from how long they came out."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Bounds, Point
from ..units import MM_PER_INCH, Tape
from .calibration import MOST, READING, CalibrationError, PrinterProfile, Reading, wrong_prints
from .paper import Margins, Paper, Sheet

_BAR_ROOM = 4.0
"""Ticks and ink beside a calibration bar, mm."""

_LENGTHS_MM: tuple[float, ...] = (
    *range(50, 160, 10), *range(160, 320, 20), 320, *range(350, 850, 50), 900, 1000,
)  # fmt: skip
_LENGTHS_INCH: tuple[float, ...] = (
    *(n / 2 for n in range(4, 16)), *range(8, 17), *range(18, 36, 2), 37, 40,
)  # fmt: skip
"""Round lengths of bars, each at least 6.25 % longer than the one before.

A printer is out by less than 3 %, so a bar that was printed with other margins or on other paper
than the program is told can never pass for this one.
"""


_DIGITS = 4
"""Decimals of a millimetre that a profile keeps."""


@dataclass(frozen=True, slots=True)
class CalibrationBars:
    """The rectangle that a calibration sheet shows, on the paper held upright."""

    corner: Point
    """Its lower left corner on the sheet, mm."""
    across: float
    along: float
    """Its sides along the short and the long edge of the paper, mm."""
    paper: Paper

    @classmethod
    def on(cls, paper: Paper, margins: Margins) -> CalibrationBars:
        """Return the largest of round sides that the paper holds; a roll gives a square.

        Its sides are whole inches on paper that is made to inches, so that only the paper and its
        margins, and nothing that may be forgotten, tell how long they should be.
        """
        room = calibration_sheet(paper, margins).printable.grown(-_BAR_ROOM)
        round_ones = [n * MM_PER_INCH for n in _LENGTHS_INCH] if paper.imperial else _LENGTHS_MM
        across, along = (
            max(length for length in round_ones if length <= side + 1e-9)
            for side in (room.width, room.height)
        )
        corner = room.middle - Point(across / 2, along / 2)
        return cls(corner, across, along, paper)

    @property
    def tape(self) -> Tape:
        """What the bars are divided by."""
        return Tape(imperial=self.paper.imperial)

    @property
    def box(self) -> Bounds:
        """The rectangle on the sheet."""
        left, bottom = self.corner
        return Bounds(left, bottom, left + self.across, bottom + self.along)

    @property
    def diagonal(self) -> float:
        """What both diagonals must measure; where they differ the paper ran in askew."""
        return math.hypot(self.across, self.along)

    def measured(self, name: str, across: float, along: float) -> PrinterProfile:
        """Return the profile of a printer on which the sides came out as `across` and `along`.

        Raises
        ------
        CalibrationError
            If a side is off by more than 3 %, or both are off just as a page is that was fitted to
            another sheet: Letter fitted to A4 shrinks by 2.7 %.
        """
        self._refuse_a_fitted_page(across, along)
        for edge, true, read in (("short", self.across, across), ("long", self.along, along)):
            if not abs(read - true) <= MOST * true:
                raise CalibrationError(
                    f"the bar along the {edge} edge should be {self.words(true)} and read "
                    f"{self.words(read)}: more than {100 * MOST:.0f} % is no printer's error. Look "
                    "whether the sheet was printed at 100 %, and name the paper and the margins "
                    "that it was printed with"
                )
        across_read, along_read = (
            Reading(round(true, _DIGITS), round(read, _DIGITS))
            for true, read in ((self.across, across), (self.along, along))
        )
        return PrinterProfile(name, across_read, along_read, self.paper.name)

    def words(self, length: float) -> str:
        """Return a length as the sheet says it, in the other unit as well.

        >>> from .paper import A4, LETTER
        >>> margins = Margins.all(10)
        >>> [CalibrationBars.on(paper, margins).words(177.8) for paper in (A4, LETTER)]
        ['177.8 mm (7.000 in)', '7 in (177.8 mm)']
        """
        if self.paper.imperial:
            return f"{length / MM_PER_INCH:.5g} in ({length:.1f} mm)"
        return f"{length:.5g} mm ({length / MM_PER_INCH:.3f} in)"

    def _refuse_a_fitted_page(self, across: float, along: float) -> None:
        for wrong in wrong_prints(self.paper):
            sides = ((across, self.across * wrong.scale), (along, self.along * wrong.scale))
            if all(abs(read - fitted) <= 4 * READING for read, fitted in sides):
                how = f"fitted to {wrong.sheet}" if wrong.sheet else "shrunk to the printable area"
                raise CalibrationError(
                    f"{self.words(across)} and {self.words(along)} are what this sheet reads when "
                    f"it was {how}: that is no printer's error; print it again at 100 %"
                )


def calibration_sheet(paper: Paper, margins: Margins) -> Sheet:
    """Return the sheet that a printer is measured on: upright, and of a roll a square."""
    return Sheet.of(paper, margins, landscape=False, length=paper.width)
