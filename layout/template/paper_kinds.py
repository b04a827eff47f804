"""How paper and its margins are written: by its name, by its size, or as a roll of some width."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..errors import LengthError
from ..keys.figures import ABOVE_0, Length, Range
from ..keys.kinds import Kind
from ..keys.place import Place, shown
from ..units import Units, parse_length
from .paper import PAPERS, Margins, Paper, PaperError

_ROLL = re.compile(r"roll\s*(?:of\s+)?(?P<width>.+)", re.IGNORECASE)
_SIZE = re.compile(r"(?P<one>.+?)\s*(?:[x×*]|\bby\b)\s*(?P<other>.+)", re.IGNORECASE)
_BARE = re.compile(r"[\d.\s/-]+")
_UNIT = re.compile(r"(?:[a-z]+|[\"'″′]+)\.?\s*$", re.IGNORECASE)
_INCHES = re.compile(r"[\"'″′]|in|f[eo]*t", re.IGNORECASE)


def asked_paper(text: str, units: Units = Units.MM) -> Paper:
    """Return the paper of a name, of a size such as "320 x 450", or a roll such as "roll 36 in".

    A unit may stand once, after the second side. Paper whose size is given in inches is made to
    inches.

    Parameters
    ----------
    units : Units
        What a bare number counts in.

    Raises
    ------
    PaperError
        If there is no such paper.

    Examples
    --------
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


WHITE = Length(Range(0.0, 80.0), "a sheet must keep room for the drawing")


@dataclass(frozen=True, slots=True)
class PaperSize(Kind):
    """Paper by its name, or by its size."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        known = ", ".join(f'`"{name}"`' for name in PAPERS)
        return f'{known}; a size: `"320 x 450"` or `[320, 450]`; any roll: `"roll 36 in"`'

    def parse(self, value: object, at: Place) -> Paper | None:
        """Return the paper."""
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


@dataclass(frozen=True, slots=True)
class White(Kind):
    """What stays white at the edges of a sheet: the same all round, or side by side."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        return f"{WHITE.words}; or `[left, bottom, right, top]`"

    def parse(self, value: object, at: Place) -> Margins | None:
        """Return the margins of a sheet held upright, mm."""
        if isinstance(value, Margins):
            return value
        if not isinstance(value, list):
            margin = WHITE.read(value, at)
            return None if margin is None else Margins.all(margin)
        if len(value) != 4:
            at.wrong(f"{shown(value)} is not four margins: write [left, bottom, right, top]")
            return None
        sides = [WHITE.read(side, at / i) for i, side in enumerate(value)]
        if None in sides:
            return None
        left, bottom, right, top = sides
        return Margins(left=left, bottom=bottom, right=right, top=top)
