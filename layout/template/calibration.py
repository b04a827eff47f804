"""The printer's error, by which each page is written larger or smaller, and how it is measured.

A printer's scale differs across and along the way it feeds, so there is one factor for each edge
of the paper: across is the short edge of a sheet, along the long one.
"""

from __future__ import annotations

import json
import math
from dataclasses import asdict, dataclass

from ..errors import LayoutError
from ..geometry import Bounds, Point
from ..units import MM_PER_INCH, Tape
from .paper import A3, A4, LETTER, TABLOID, Margins, Paper, Sheet

_USUAL = (A4, LETTER, A3, TABLOID)  # the sheets that a page is fitted to by mistake
_TELLING = (0.75, 1.1)  # a page that is shrunk or enlarged by more than this is seen without a rule
_USUAL_MARGIN = 4.23  # a sixth of an inch, the margin that many drivers fit a page into, mm
SCHEMA = 1  # version of the text that a profile is kept as
MOST = 0.03  # more than this is no printer's error but a page that was fitted to the wrong paper
READING = 0.25  # a bar is read to about a quarter of a millimetre; a difference below that is none


class CalibrationError(LayoutError):
    """A measured bar that cannot be a printer's error, or a profile that cannot be read."""


@dataclass(frozen=True, slots=True)
class Correction:
    """By what a page must be written larger along each edge of the paper to print true.

    A `CalibrationError` if a factor is off by more than 3 %.
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
    return tape.step * math.floor(room / tape.step + 1e-9)


TRUE = Correction()  # a printer that is right


@dataclass(frozen=True, slots=True)
class WrongPrint:
    """What a bar reads after a usual mistake."""

    sheet: str
    """The paper that the page was fitted to; empty where it was shrunk to the printable area."""
    scale: float
    """What is left of a length."""

    @property
    def done(self) -> str:
        """What was done to the page."""
        return f"fitted to {self.sheet}" if self.sheet else "shrunk to the printable area"


def wrong_prints(paper: Paper) -> tuple[WrongPrint, ...]:
    """Return what a page on `paper` shrinks or grows to in the usual wrong ways; none for a roll.

    A viewer that fits a page to another sheet takes the smaller ratio of the sides; one that fits
    it within the printer's own margins shrinks it by those.

    >>> [(wrong.sheet, round(100 * wrong.scale, 2)) for wrong in wrong_prints(A4)]
    [('Letter', 94.07), ('', 95.97)]
    """
    if paper.roll:
        return ()
    fitted = {other.name: _fit(paper, other) for other in _USUAL if other.name != paper.name}
    least, most = _TELLING
    found = [WrongPrint(name, scale) for name, scale in fitted.items() if least <= scale <= most]
    return (*found, WrongPrint("", _fit(paper, paper, _USUAL_MARGIN)))


def _fit(page: Paper, sheet: Paper, margin: float = 0.0) -> float:
    return min((sheet.width - 2 * margin) / page.width, (sheet.length - 2 * margin) / page.length)


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
        return 1.0 if abs(self.measured - self.true) < READING else self.true / self.measured


@dataclass(frozen=True, slots=True)
class PrinterProfile:
    """A printer as it was measured; a `CalibrationError` if a bar is off by more than 3 %."""

    name: str
    across: Reading
    along: Reading
    """The bars along the short and the long edge."""
    paper: str = ""
    """The paper that the bars were printed on."""

    def __post_init__(self) -> None:
        _ = self.correction  # refuses what is no printer's error

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
        """Return the profile that `to_json` wrote; a `CalibrationError` if the text is none."""
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


_BAR_ROOM = 4.0  # ticks and ink beside a calibration bar, mm

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

_DIGITS = 4  # decimals of a millimetre that a profile keeps


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

        Whole inches on paper made to inches: only paper and margins tell how long they should be.
        """
        room = calibration_sheet(paper, margins).printable.grown(-_BAR_ROOM)
        round_ones = [n * MM_PER_INCH for n in _LENGTHS_INCH] if paper.imperial else _LENGTHS_MM
        across, along = (
            max(length for length in round_ones if length <= side + 1e-9)
            for side in (room.width, room.height)
        )
        return cls(room.middle - Point(across / 2, along / 2), across, along, paper)

    @property
    def tape(self) -> Tape:
        """What the bars are divided by."""
        return Tape(imperial=self.paper.imperial)

    @property
    def box(self) -> Bounds:
        """The rectangle on the sheet."""
        return Bounds(0.0, 0.0, self.across, self.along).moved(self.corner)

    @property
    def diagonal(self) -> float:
        """What both diagonals must measure; where they differ the paper ran in askew."""
        return math.hypot(self.across, self.along)

    def measured(self, name: str, across: float, along: float) -> PrinterProfile:
        """Return the profile of a printer on which the sides came out as `across` and `along`.

        A `CalibrationError` if one is off by over 3 %, or both as on a page fitted elsewhere.
        """
        sides = ((self.across, across), (self.along, along))
        for wrong in wrong_prints(self.paper):
            if all(abs(read - true * wrong.scale) <= 4 * READING for true, read in sides):
                raise CalibrationError(
                    f"{self.words(across)} and {self.words(along)} are what this sheet reads when "
                    f"it was {wrong.done}: that is no printer's error; print it again at 100 %"
                )
        for edge, (true, read) in zip(("short", "long"), sides, strict=True):
            if not abs(read - true) <= MOST * true:
                raise CalibrationError(
                    f"the bar along the {edge} edge should be {self.words(true)} and read "
                    f"{self.words(read)}: more than {100 * MOST:.0f} % is no printer's error. Look "
                    "whether the sheet was printed at 100 %, and name the paper and the margins "
                    "that it was printed with"
                )
        one, other = (Reading(round(true, _DIGITS), round(read, _DIGITS)) for true, read in sides)
        return PrinterProfile(name, one, other, self.paper.name)

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


def calibration_sheet(paper: Paper, margins: Margins) -> Sheet:
    """Return the sheet that a printer is measured on: upright, and of a roll a square."""
    return Sheet.of(paper, margins, landscape=False, length=paper.width)
