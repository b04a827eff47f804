"""The printer's error: measured on a calibration sheet, kept as a profile, taken out of each page.

A printer's scale differs across and along the way it feeds, so there is one factor for each edge
of the paper. Across is the short edge of a sheet, along is the long edge.
"""

from __future__ import annotations

import json
import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry.bounds import Bounds
from ..geometry.point import Point
from ..units import MM_PER_INCH, Tape
from .paper import A4, LETTER, Margins, Paper, Sheet

MOST = 0.03
"""More than this is no printer's error but a page that was fitted to the wrong paper."""

READING = 0.25
"""A bar is read to about a quarter of a millimetre; a difference below that is none."""


class CalibrationError(LayoutError):
    """A measured bar that cannot be a printer's error, or a profile that cannot be read."""


@dataclass(frozen=True, slots=True)
class Correction:
    """By what a page must be written larger along each edge of the paper to print true.

    Attributes
    ----------
    across, along : float
        Factors for the short and the long edge, 1 for a true printer.

    Raises
    ------
    CalibrationError
        If a factor is off by more than 3 %.
    """

    across: float = 1.0
    along: float = 1.0

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
    step = MM_PER_INCH / 4 if tape.imperial else 5.0
    return step * math.floor(room / step + 1e-9)


TRUE = Correction()
"""A printer that is right."""


@dataclass(frozen=True, slots=True)
class Reading:
    """What one bar of a calibration sheet should measure, and what the maker measured, mm."""

    true: float
    measured: float

    def __post_init__(self) -> None:
        if not (self.true > 0 and self.measured > 0):
            raise CalibrationError(f"a bar of {self.true:g} mm cannot measure {self.measured:g} mm")

    @property
    def factor(self) -> float:
        """By what a page must be written larger; 1 where the difference can't be read."""
        off = abs(self.measured - self.true) < READING
        return 1.0 if off else self.true / self.measured


@dataclass(frozen=True, slots=True)
class PrinterProfile:
    """A printer as it was measured.

    Attributes
    ----------
    name : str
        The maker's word for it.
    across, along : Reading
        The bars along the short and the long edge.

    Raises
    ------
    CalibrationError
        If a bar is off by more than 3 %.
    """

    name: str
    across: Reading
    along: Reading

    def __post_init__(self) -> None:
        Correction(self.across.factor, self.along.factor)  # refuses what is no printer's error

    @property
    def correction(self) -> Correction:
        """What takes the error out of a page."""
        return Correction(self.across.factor, self.along.factor)

    def to_json(self) -> str:
        """Return the profile as a text for a file."""
        bars = {
            edge: {"true": reading.true, "measured": reading.measured}
            for edge, reading in (("across", self.across), ("along", self.along))
        }
        return json.dumps({"schema": 1, "printer": self.name, **bars}, indent=2) + "\n"

    @classmethod
    def from_json(cls, text: str) -> PrinterProfile:
        """Return the profile that `to_json` wrote.

        Raises
        ------
        CalibrationError
            If the text is no profile.
        """
        try:
            held = json.loads(text)
            readings = [
                Reading(float(held[edge]["true"]), float(held[edge]["measured"]))
                for edge in ("across", "along")
            ]
            return cls(str(held["printer"]), *readings)
        except (json.JSONDecodeError, KeyError, TypeError) as error:
            raise CalibrationError(
                f"this is no printer profile ({error}): measure the calibration sheet again"
            ) from error


@dataclass(frozen=True, slots=True)
class CalibrationBars:
    """The rectangle that a calibration sheet shows, on the paper held upright.

    Attributes
    ----------
    corner : Point
        Its lower left corner on the sheet, mm.
    across, along : float
        Its sides along the short and the long edge of the paper, mm.
    paper : Paper
    """

    corner: Point
    across: float
    along: float
    paper: Paper

    @classmethod
    def on(cls, paper: Paper, margins: Margins, tape: Tape) -> CalibrationBars:
        """Return the largest that the paper holds with its ticks; a roll gives a square."""
        sheet = calibration_sheet(paper, margins)
        room = sheet.printable.grown(-_BAR_ROOM)
        across, along = longest_bar(room.width, tape), longest_bar(room.height, tape)
        corner = room.middle - Point(across / 2, along / 2)
        return cls(corner, across, along, paper)

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
        for wrong in wrong_prints(self.paper, USUAL):
            sides = ((across, self.across * wrong.scale), (along, self.along * wrong.scale))
            if all(abs(read - fitted) <= 4 * READING for read, fitted in sides):
                raise CalibrationError(
                    f"{across:g} and {along:g} mm are what this sheet reads when it was "
                    f"{wrong.mistake}: that is no printer's error; print it again at 100 %"
                )
        return PrinterProfile(name, Reading(self.across, across), Reading(self.along, along))


USUAL = (A4, LETTER)
"""The sheets that a page is fitted to by mistake."""

_BAR_ROOM = 4.0
"""Ticks and ink beside a calibration bar, mm."""


def calibration_sheet(paper: Paper, margins: Margins) -> Sheet:
    """Return the sheet that a printer is measured on: upright, and of a roll a square."""
    return Sheet.of(paper, margins, landscape=False, length=paper.width)


@dataclass(frozen=True, slots=True)
class WrongPrint:
    """What a bar reads after a usual mistake.

    Attributes
    ----------
    mistake : str
        How the page was printed.
    scale : float
        What is left of a length.
    """

    mistake: str
    scale: float


def wrong_prints(paper: Paper, others: tuple[Paper, ...]) -> tuple[WrongPrint, ...]:
    """Return what a template on `paper` shrinks or grows to when it is fitted to other sheets.

    A viewer that fits a page takes the smaller ratio of the sides; one that fits it within the
    printer's own margins, 4.23 mm on many, shrinks it by those too.
    """
    found = [
        WrongPrint(f"fitted to {other.name}", _fit(paper, other, 0.0))
        for other in others
        if other.name != paper.name and not other.roll and not paper.roll
    ]
    if not paper.roll:
        found.append(WrongPrint("shrunk to the printable area", _fit(paper, paper, _USUAL_MARGIN)))
    return tuple(found)


_USUAL_MARGIN = 4.23
"""A sixth of an inch, the margin that many drivers fit a page into, mm."""


def _fit(page: Paper, sheet: Paper, margin: float) -> float:
    return min((sheet.width - 2 * margin) / page.width, (sheet.length - 2 * margin) / page.length)
