"""The printer's error, by which each page is written larger or smaller, and what is no such error.

A printer's scale differs across and along the way it feeds, so there is one factor for each edge
of the paper. Across is the short edge of a sheet, along is the long edge. A page that was printed
in one of the usual wrong ways is known by what its bars read. A printer as it was measured is kept
as a text that a person can read.
"""

from __future__ import annotations

import json
import math
from dataclasses import asdict, dataclass

from ..errors import LayoutError
from ..units import Tape
from .paper import A3, A4, LETTER, TABLOID, Paper

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


_USUAL = (A4, LETTER, A3, TABLOID)
"""The sheets that a page is fitted to by mistake."""

_TELLING = (0.75, 1.1)
"""A page that is shrunk or enlarged by more than this is seen without a rule."""

_USUAL_MARGIN = 4.23
"""A sixth of an inch, the margin that many drivers fit a page into, mm."""


@dataclass(frozen=True, slots=True)
class WrongPrint:
    """What a bar reads after a usual mistake."""

    sheet: str
    """The paper that the page was fitted to; empty where it was shrunk to the printable area."""
    scale: float
    """What is left of a length."""


def wrong_prints(paper: Paper) -> tuple[WrongPrint, ...]:
    """Return what a page on `paper` shrinks or grows to in the usual wrong ways; none for a roll.

    A viewer that fits a page to another sheet takes the smaller ratio of the sides; one that fits
    it within the printer's own margins shrinks it by those.

    >>> [(wrong.sheet, round(100 * wrong.scale, 2)) for wrong in wrong_prints(A4)]
    [('Letter', 94.07), ('', 95.97)]
    """
    if paper.roll:
        return ()
    fitted = [
        WrongPrint(other.name, _fit(paper, other, 0.0))
        for other in _USUAL
        if other.name != paper.name
    ]
    found = [wrong for wrong in fitted if _TELLING[0] <= wrong.scale <= _TELLING[1]]
    shrunk = WrongPrint("", _fit(paper, paper, _USUAL_MARGIN))
    return (*found, shrunk)


def _fit(page: Paper, sheet: Paper, margin: float) -> float:
    return min((sheet.width - 2 * margin) / page.width, (sheet.length - 2 * margin) / page.length)


SCHEMA = 1
"""Version of the text that a profile is kept as."""


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

    Raises
    ------
    CalibrationError
        If a bar is off by more than 3 %.
    """

    name: str
    """The maker's word for it."""
    across: Reading
    along: Reading
    """The bars along the short and the long edge."""
    paper: str = ""
    """The paper that the bars were printed on."""

    def __post_init__(self) -> None:
        Correction(self.across.factor, self.along.factor)  # refuses what is no printer's error

    @property
    def correction(self) -> Correction:
        """What takes the error out of a page."""
        return Correction(self.across.factor, self.along.factor, self.name)

    def to_json(self) -> str:
        """Return the profile as a text for a file; lengths in mm."""
        bars = {"across": asdict(self.across), "along": asdict(self.along)}
        held = {"schema": SCHEMA, "printer": self.name, "paper": self.paper, **bars}
        return json.dumps(held, indent=2, ensure_ascii=False) + "\n"

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
            across, along = (
                Reading(float(held[edge]["true"]), float(held[edge]["measured"]))
                for edge in ("across", "along")
            )
            return cls(str(held["printer"]), across, along, str(held.get("paper", "")))
        except CalibrationError:
            raise
        except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
            raise CalibrationError(
                "this is no printer profile: measure the calibration sheet again"
            ) from error
