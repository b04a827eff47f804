"""Paper: sheets, rolls, and the margins that a printer keeps white."""

from __future__ import annotations

from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry.bounds import Bounds
from ..units import MM_PER_INCH

LONGEST_PAGE = 5000.0  # a PDF page may be 14 400 points long, 5080 mm (ISO 32000-1, annex C)
_SMALLEST_FIELD = 60.0  # less than this between the margins holds no check bar worth reading, mm


class PaperError(LayoutError):
    """Paper, margins or an overlap that no template can be printed with."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright; a roll has its width and the longest piece that is torn off."""

    name: str
    width: float
    length: float
    """The short and the long side of a sheet, mm."""
    roll: bool = False
    imperial: bool = False
    """Whether the length is cut as needed; whether it is made to inches, as its bars are then."""

    def __post_init__(self) -> None:
        if not 0 < self.width <= self.length <= LONGEST_PAGE:
            raise PaperError(
                f"paper {self.name} must have 0 < width <= length <= {LONGEST_PAGE:g} mm, "
                f"not {self.width:g} by {self.length:g}"
            )

    @classmethod
    def custom(cls, width: float, length: float, *, imperial: bool = False) -> Paper:
        """Return a sheet of any size, mm; which side is named first does not matter.

        >>> Paper.custom(450, 320).name, Paper.custom(330.2, 482.6, imperial=True).name
        ('320 × 450 mm', '13 × 19 in')
        """
        short, long = sorted((width, length))
        unit, size = ("in", MM_PER_INCH) if imperial else ("mm", 1.0)
        name = f"{short / size:.6g} × {long / size:.6g} {unit}"
        return cls(name, short, long, imperial=imperial)

    @classmethod
    def from_roll(
        cls, width: float, longest: float = LONGEST_PAGE, *, imperial: bool = False
    ) -> Paper:
        """Return a roll of this width, mm."""
        size = f"{width / MM_PER_INCH:.6g} in" if imperial else f"{width:.6g} mm"
        return cls(f"roll {size}", width, longest, roll=True, imperial=imperial)


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 297.0, 420.0)
LETTER = Paper("Letter", 8.5 * MM_PER_INCH, 11 * MM_PER_INCH, imperial=True)
LEGAL = Paper("Legal", 8.5 * MM_PER_INCH, 14 * MM_PER_INCH, imperial=True)
TABLOID = Paper("Tabloid", 11 * MM_PER_INCH, 17 * MM_PER_INCH, imperial=True)
ROLL_610 = Paper.from_roll(610.0)
ROLL_914 = Paper.from_roll(914.0)
PAPERS = {paper.name: paper for paper in (A4, A3, LETTER, LEGAL, TABLOID)}
PAPERS |= {"roll 610": ROLL_610, "roll 914": ROLL_914}
"""The papers by the name that a job file uses."""


@dataclass(frozen=True, slots=True)
class Margins:
    """What a printer leaves white, mm, on a sheet held upright."""

    left: float
    right: float
    bottom: float
    top: float

    def __post_init__(self) -> None:
        for side in ("left", "right", "bottom", "top"):
            value = getattr(self, side)
            if not 0 <= value < LONGEST_PAGE:
                raise PaperError(f"a margin must not be negative: {side} is {value:g} mm")

    @classmethod
    def all(cls, margin: float) -> Margins:
        """Return the same margin on every side."""
        return cls(margin, margin, margin, margin)

    @property
    def are_equal(self) -> bool:
        """Whether all four are the same."""
        return self.left == self.right == self.bottom == self.top

    @property
    def turned(self) -> Margins:
        """The margins of the sheet laid on its side, either way: both of a pair get the larger."""
        across, along = max(self.left, self.right), max(self.bottom, self.top)
        return Margins(along, along, across, across)


@dataclass(frozen=True, slots=True)
class Sheet:
    """A piece of paper as a page lies; a `PaperError` if its margins leave less than 60 mm."""

    width: float
    height: float
    margins: Margins
    landscape: bool

    def __post_init__(self) -> None:
        field = self.printable
        if min(field.width, field.height) < _SMALLEST_FIELD:
            raise PaperError(
                f"margins leave {field.width:g} by {field.height:g} mm of a sheet "
                f"{self.width:g} by {self.height:g}: at least {_SMALLEST_FIELD:g} are needed"
            )

    @classmethod
    def of(cls, paper: Paper, margins: Margins, *, landscape: bool, length: float = 0) -> Sheet:
        """Return a sheet of the paper, upright or on its side; a roll is cut at `length`, mm."""
        long = length if paper.roll else paper.length
        if landscape:
            return cls(long, paper.width, margins.turned, landscape=True)
        return cls(paper.width, long, margins, landscape=False)

    @classmethod
    def upright(cls, paper: Paper, margins: Margins) -> Sheet:
        """Return the sheet on which words go: the paper upright, and for a roll an A4 page."""
        return cls.of(A4 if paper.roll else paper, margins, landscape=False)

    @property
    def frame(self) -> Bounds:
        """The whole sheet, its lower left corner at the origin."""
        return Bounds(0.0, 0.0, self.width, self.height)

    @property
    def printable(self) -> Bounds:
        """What lies between the margins."""
        m = self.margins
        return Bounds(m.left, m.bottom, self.width - m.right, self.height - m.top)
