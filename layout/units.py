"""Lengths as people write and read them: mm inside, feet, inches and fractions at the edge."""

from __future__ import annotations

import math
import re
import unicodedata
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction

from .errors import LengthError

MM_PER_INCH = 25.4
"""Exact by definition since 1959."""

KG_PER_POUND = 0.45359237
"""Exact by definition since 1959."""

NEWTONS_PER_POUND_FORCE = KG_PER_POUND * 9.80665
"""By standard gravity."""


class Units(Enum):
    """The units of a job: the value is the name a job file uses."""

    MM = "mm"
    CM = "cm"
    M = "m"
    IN = "in"
    FT = "ft"

    @property
    def mm(self) -> float:
        """Millimetres in one of these."""
        return _MM_IN[self]

    @property
    def is_imperial(self) -> bool:
        """Whether the maker's tape is in inches."""
        return self in (Units.IN, Units.FT)


_MM_IN = {
    Units.MM: 1.0,
    Units.CM: 10.0,
    Units.M: 1000.0,
    Units.IN: MM_PER_INCH,
    Units.FT: 304.8,  # 12 × 25.4, which floating point misses by a hair
}

_UNIT_OF = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Units.MM),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Units.CM),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Units.M),
    **dict.fromkeys(("in", "inch", "inches", "ins", '"'), Units.IN),
    **dict.fromkeys(("ft", "foot", "feet", "'"), Units.FT),
}

MIXED = re.compile(r"(?<=\d)[ \u00a0](\d+/\d+)")
"""What stands between a whole number and its fraction, and that: no line ends within 31 3/8."""

_TYPOGRAPHY = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "−": "-", "–": "-", "⁄": "/"}
)
"""Signs that a phone or a word processor puts in place of the typed ones."""

_LONGEST = 60
"""Signs that a length may have; the longest that anybody writes has half as many."""

_NUMBER = r"(?:\d+(?:\.\d*)?|\.\d+)"
_QUANTITY = re.compile(
    rf"""\s*
    (?: (?P<whole>\d+) (?:\s+|-) (?P<num>\d+)\s*/\s*(?P<den>\d+)   # 31 3/8 or 31-3/8
      | (?P<num_only>\d+)\s*/\s*(?P<den_only>\d+)                  # 3/8
      | (?P<plain>{_NUMBER}) )                                     # 31.375
    \s* (?P<unit>[A-Za-z]+|"|'(?!')|'' )? (?:(?<=[A-Za-z])\.)? \s*""",
    re.VERBOSE,
)

_HOW = "write a number, or a length such as 80 cm, 31 3/8 in, 2ft 6in or 5' 3 1/2\""


def parse_length(text: str, units: Units) -> float:
    r"""Return the length that a maker wrote, mm.

    A number without a unit counts in `units`. Feet and inches may stand together, and any
    number may be a fraction, with a space or a hyphen before it.

    Parameters
    ----------
    text : str
        For example ``"80 cm"``, ``"31 3/8 in"``, ``"2ft 6in"``, ``"5' 3 1/2\""``, ``"-12"``.
    units : Units
        What a bare number counts in.

    Raises
    ------
    LengthError
        If the text is no length.

    Examples
    --------
    >>> parse_length("5' 3 1/2\"", Units.MM)
    1612.9
    >>> parse_length("31 3/8", Units.IN)
    796.925
    """
    if len(text) > _LONGEST:
        raise LengthError(f"{text[:_LONGEST]!r} and more is not a length: {_HOW}")
    plain = _plain(text)
    negative = plain.startswith("-")
    rest = plain[1:] if negative else plain
    parts: list[tuple[Fraction, Units | None]] = []
    while rest.strip():
        match = _QUANTITY.match(rest)
        if match is None:
            comma = " (write a decimal point, not a comma)" if "," in text else ""
            raise LengthError(f"{text!r} is not a length{comma}: {_HOW}")
        parts.append((_number(match, text), _unit(match["unit"], text)))
        rest = rest[match.end() :]
        if parts[-1][1] is Units.FT:
            rest = rest.removeprefix("-")  # 5'-3", as drawings write it
    if not parts:
        raise LengthError(f"{text!r} is not a length: {_HOW}")
    total = _total(parts, units, text)
    return -total if negative and total else total


def _plain(text: str) -> str:
    """Return a text in the signs of a typewriter: ``31½`` becomes ``31 1/2``."""
    signs = (
        f" {unicodedata.normalize('NFKC', sign)}"
        if unicodedata.decomposition(sign).startswith("<fraction>")
        else sign
        for sign in text
    )
    return "".join(signs).translate(_TYPOGRAPHY).strip()


def _number(match: re.Match[str], text: str) -> Fraction:
    num, den = match["num"] or match["num_only"], match["den"] or match["den_only"]
    if num is None:
        return Fraction(match["plain"])
    if int(den) == 0:
        raise LengthError(f"{text!r} divides by zero: {_HOW}")
    return int(match["whole"] or 0) + Fraction(int(num), int(den))


def _unit(name: str | None, text: str) -> Units | None:
    if name is None:
        return None
    unit = _UNIT_OF.get('"' if name == "''" else name.lower())
    if unit is None:
        raise LengthError(f"{text!r} has the unknown unit {name!r}: use mm, cm, m, in or ft")
    return unit


def _total(parts: list[tuple[Fraction, Units | None]], units: Units, text: str) -> float:
    """Add feet and inches; anything else may stand only alone."""
    if len(parts) == 1:
        number, unit = parts[0]
        return float(number * Fraction(str((unit or units).mm)))
    if len(parts) == 2 and parts[0][1] is Units.FT and parts[1][1] in (Units.IN, None):
        feet, inches = parts[0][0], parts[1][0]
        if inches >= 12:
            raise LengthError(f"{text!r} has {float(inches):g} inches after feet: less than 12 fit")
        return float((feet * 12 + inches) * Fraction(str(MM_PER_INCH)))
    raise LengthError(f"{text!r} mixes units: only feet and inches go together; {_HOW}")


@dataclass(frozen=True, slots=True)
class Tape:
    """What the maker measures with, and so how a sheet writes a length."""

    imperial: bool = False
    """Inches and fractions, or millimetres."""

    @classmethod
    def for_units(cls, units: Units) -> Tape:
        """Return the tape of a job in `units`."""
        return cls(imperial=units.is_imperial)

    @property
    def division(self) -> float:
        """The finest division that is read, mm: 1 mm or 1/16 in."""
        return MM_PER_INCH / 16 if self.imperial else 1.0

    @property
    def step(self) -> float:
        """What sizes are whole steps of where nobody says, mm: 5 mm or 1/4 in (common practice)."""
        return MM_PER_INCH / 4 if self.imperial else 5.0

    @property
    def unit(self) -> str:
        """The name of the unit on the sheets."""
        return "in" if self.imperial else "mm"

    def nearest(self, length: float) -> float:
        """Return the length, mm, of the division nearest to `length`, mm; halves away from 0."""
        return math.copysign(self._count(length) * self.division, length)

    def towards(self, length: float, way: float) -> float:
        """Return the division, mm, that `length`, mm, comes to first by growing, or by falling.

        It grows where `way` is above 0 and falls where it is below; where it is 0 the nearest
        division is taken.

        >>> Tape().towards(93.2, 1), Tape().towards(93.8, -1), Tape().towards(-6.2, -1)
        (94.0, 93.0, -7.0)
        """
        if abs(way) <= _HALF:
            return self.nearest(length)
        counted = length / self.division
        count = math.ceil(counted - _HALF) if way > 0 else math.floor(counted + _HALF)
        return count * self.division

    def _count(self, length: float, *, at_least: bool = False) -> int:
        counted = abs(length) / self.division
        return math.ceil(counted - _HALF) if at_least else nearest_whole(counted)

    def figure(self, length: float, *, at_least: bool = False) -> str:
        """Return `length`, mm, to the nearest division and without its unit.

        With `at_least` it is the next division that is no less.

        >>> Tape(imperial=True).figure(796.925), Tape().figure(583.42)
        ('31 3/8', '583')
        >>> Tape().figure(22 / 3, at_least=True)
        '8'
        """
        count = self._count(length, at_least=at_least)
        sign = "−" if length < 0 and count else ""
        if not self.imperial:
            return f"{sign}{count}"
        whole, rest = divmod(count, 16)
        fraction = str(Fraction(rest, 16)) if rest else ""
        return sign + (" ".join(part for part in (str(whole or ""), fraction) if part) or "0")

    def measure(self, length: float) -> str:
        """Return `length`, mm, to the nearest division with its unit: ``31 3/8 in``."""
        return f"{self.figure(length)} {self.unit}"

    def exact(self, length: float, digits: int = 2) -> str:
        """Return `length`, mm, in decimals of the unit and without it: ``583.42``, ``22.9693``."""
        value = length / MM_PER_INCH if self.imperial else length
        places = digits + 1 if self.imperial else digits
        whole = nearest_whole(value * 10**places)
        return f"{whole / 10**places:.{places}f}".replace("-", "−")

    def small(self, length: float) -> str:
        """Return a length too small for the tape, to two figures and with its unit.

        >>> Tape().small(0.4631), Tape(imperial=True).small(0.4631), Tape().small(0.012)
        ('0.46 mm', '0.018 in', 'less than 0.05 mm')
        """
        if abs(length) < 0.05:
            return "less than 0.002 in" if self.imperial else "less than 0.05 mm"
        value = length / MM_PER_INCH if self.imperial else length
        return f"{two_figures(value).replace('-', '−')} {self.unit}"

    def area(self, area: float) -> str:
        """Return an area, mm², in m² or square feet."""
        if self.imperial:
            return f"{area / (12 * MM_PER_INCH) ** 2:.2f} sq ft"
        return f"{area / 1e6:.3f} m²"

    def mass(self, mass: float) -> str:
        """Return a mass, kg, in kg or lb: to a whole one, below ten to two figures."""
        value, unit = (mass / KG_PER_POUND, "lb") if self.imperial else (mass, "kg")
        return f"{value:.0f} {unit}" if value >= 10 else f"{two_figures(value)} {unit}"

    def force(self, force: float) -> str:
        """Return a force, N, to two figures; with pounds-force where the tape is in inches."""
        newtons = f"{two_figures(force)} N"
        pounds = two_figures(force / NEWTONS_PER_POUND_FORCE)
        return f"{newtons} ({pounds} lbf)" if self.imperial else newtons


def nearest_whole(value: float) -> int:
    """Return the whole number nearest to a value; halves away from 0.

    What falls short of a half by rounding alone counts as the half.

    >>> nearest_whole(2.5), nearest_whole(-2.5), nearest_whole(8.2 - 5.7), nearest_whole(0.49)
    (3, -3, 3, 0)
    """
    return int(math.copysign(math.floor(abs(value) + 0.5 + _HALF), value))


_HALF = 1e-6
"""What a half may fall short by rounding, or a whole number be passed."""


def two_figures(value: float) -> str:
    """Return `value` rounded to two figures and without an exponent: ``820``, ``0.42``."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    digits = 1 - int(f"{value:.1e}".partition("e")[2])  # of the rounded value: 0.0999 is 0.10
    return f"{round(value, digits):.{max(digits, 0)}f}"
