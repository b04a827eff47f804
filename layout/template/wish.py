"""What the maker wishes of the printed template, and how its paper and margins are written."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..errors import LengthError
from ..keys.figures import ABOVE_0, Length, Range
from ..keys.key import hold, key
from ..keys.kinds import Choice, Kind, Spelt, Text, YesNo, each, names
from ..keys.length import parse_length
from ..keys.place import Place, shown
from ..units import Units
from .calibration import TRUE, Correction
from .paper import A4, PAPERS, Margins, Paper, PaperError, Sheet
from .tiles import check_overlap, field_of

WHITE = Length(Range(0.0, 80.0), "a sheet must keep room for the drawing")
_ROLL = re.compile(r"roll\s*(?:of\s+)?(?P<width>.+)", re.IGNORECASE)
_SIZE = re.compile(r"(?P<one>.+?)\s*(?:[x×*]|\bby\b)\s*(?P<other>.+)", re.IGNORECASE)
_BARE = re.compile(r"[\d.\s/-]+")
_UNIT = re.compile(r"(?:[a-z]+|[\"'″′]+)\.?\s*$", re.IGNORECASE)
_INCHES = re.compile(r"[\"'″′]|in|f[eo]*t", re.IGNORECASE)


def asked_paper(text: str, units: Units = Units.MM) -> Paper:
    """Return the paper of a name, of a size such as "320 x 450", or a roll such as "roll 36 in".

    A unit may stand once, after the second side; a bare number counts in `units`. Paper whose size
    is given in inches is made to inches. A `PaperError` if there is no such paper.

    >>> asked_paper("letter").name, asked_paper("13 x 19 in").name, asked_paper("roll 24in").name
    ('Letter', '13 × 19 in', 'roll 24 in')
    """
    word = " ".join(text.split())
    for name, paper in PAPERS.items():
        if word.casefold() in (name.casefold(), paper.name.casefold()):
            return paper
    roll, size = _ROLL.fullmatch(word), _SIZE.fullmatch(word)
    try:
        if roll:
            width = roll["width"]
            return Paper.from_roll(parse_length(width, units), imperial=_is_in_inches(width, units))
        if size:
            one, other = size["one"], size["other"]
            unit = _UNIT.search(other)
            if unit and _BARE.fullmatch(one):
                one += f" {unit[0]}"
            sides = parse_length(one, units), parse_length(other, units)
            return Paper.custom(*sides, imperial=_is_in_inches(other, units))
    except LengthError as error:
        raise PaperError(f"paper {text!r}: {error}") from error
    raise PaperError(
        f"paper {text!r} is not known: use one of {', '.join(PAPERS)}, a size such as "
        "320 x 450 mm, or a roll such as roll 36 in"
    )


def _is_in_inches(text: str, units: Units) -> bool:
    return bool(_INCHES.search(text)) or (units.is_imperial and bool(_BARE.fullmatch(text)))


@dataclass(frozen=True, slots=True)
class PaperSize(Kind):
    """Paper by its name, or by its size."""

    def _parse(self, value: object, at: Place) -> Paper | None:
        if isinstance(value, Paper):
            return value
        try:
            if isinstance(value, str):
                return asked_paper(value, at.units)
            if isinstance(value, list) and len(value) == 2:
                sides = [ABOVE_0.read(side, at / i) for i, side in enumerate(value)]
                if None in sides:
                    return None
                return Paper.custom(*sides, imperial=at.units.is_imperial)
        except PaperError as error:
            at.wrong(str(error))
            return None
        at.wrong(f'{shown(value)} is no paper: write a name such as "A4", or "320 x 450"')
        return None

    def spelt(self, held: Paper, units: Units) -> Spelt:
        """Return its name."""
        return held.name


@dataclass(frozen=True, slots=True)
class White(Kind):
    """What stays white at the edges of a sheet: the same all round, or side by side."""

    def _parse(self, value: object, at: Place) -> Margins | None:
        if isinstance(value, Margins):
            return value
        if not isinstance(value, list):
            margin = WHITE.read(value, at)
            return None if margin is None else Margins.all(margin)
        sides = each(WHITE, value, at, "four margins: write [left, bottom, right, top]", 4)
        if sides is None:
            return None
        left, bottom, right, top = sides
        return Margins(left=left, bottom=bottom, right=right, top=top)

    def spelt(self, held: Margins, units: Units) -> Spelt:
        """Return one figure where they are equal."""
        sides = (held.left, held.bottom, held.right, held.top)
        told = [WHITE.spelt(side, units) for side in sides]
        return told[0] if held.are_equal else told


# How much of the outline is printed; the rest is had by flipping it on its centrelines
PORTIONS = ("auto", "whole", "half", "quarter", "end", "corner", "curves")
RELEASES = ("R2010", "R12")  # releases of DXF that the template is written in


@dataclass(frozen=True, slots=True)
class TemplateWish:
    """Paper and portion of the template, and how it is written.

    A `LayoutError` if a name is not known, a length is below 0, the margins leave too little of the
    paper, or the overlap suits no sheet.
    """

    paper: Paper = key(
        A4,
        PaperSize(),
        "The sheets in the printer",
        '"Letter"',
        usual='"A4"; "Letter" where units are inches or feet',
    )
    margins: Margins = key(
        Margins.all(10.0),
        White(),
        "What the printer leaves white, on a sheet held upright",
        "[6, 15, 6, 6]",
        usual="10 mm",
        name="margin",
    )
    overlap: float = key(12.0, WHITE, "What neighbouring sheets share", "15")
    portion: str = key(
        "auto",
        Choice(names(*PORTIONS)),
        "How much is printed; the rest is flipped on the centrelines. `auto` takes the one of "
        "whole, half and quarter with the fewest sheets; of a top with few curves only those, and "
        "no sheet for straight lines alone",
        '"quarter"',
    )
    mirrored: bool | None = key(
        None,
        YesNo(),
        "Whether it is drawn as seen from the underside",
        "false",
        usual="the face that the work is marked on",
    )
    ordinates: bool = key(True, YesNo(), "Whether the outline is given in figures as well", "false")
    dxf_release: str = key(
        "R2010",
        Choice(names(*RELEASES)),
        "Release of the DXF file: R12 for what reads nothing newer",
        '"R12"',
    )
    printer: str = key(
        "",
        Text(),
        "The printer, by the name under which it was measured with "
        "`panelwright template --calibrate`",
        '"hall"',
        usual="nothing is corrected",
    )
    correction: Correction = TRUE
    """That printer's: whoever reads the profile sets it."""

    def __post_init__(self) -> None:
        hold(self, "template")
        # on its side a sheet has no more room: there both margins of a pair are the larger one
        length = self.paper.width if self.paper.roll else 0.0
        sheet = Sheet.of(self.paper, self.margins, landscape=False, length=length)
        check_overlap(self.overlap, field_of(sheet, self.correction))
