"""Lengths as people write them: feet, inches and fractions, in any unit."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from ..errors import LengthError
from ..units import MM_PER_INCH, Units

_UNIT_OF = {
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Units.MM),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Units.CM),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Units.M),
    **dict.fromkeys(("in", "inch", "inches", "ins", '"'), Units.IN),
    **dict.fromkeys(("ft", "foot", "feet", "'"), Units.FT),
}

_TYPOGRAPHY = str.maketrans(
    {"′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "−": "-", "–": "-", "⁄": "/"}
)
"""Signs that a phone or a word processor puts in place of the typed ones."""

_LONGEST = 60
"""Signs that a length may have; the longest that anybody writes has half as many."""

_QUANTITY = re.compile(
    r"""\s* (?P<number> (?:\d+(?:\s+|-))? \d+/\d+ | \d+(?:\.\d*)? | \.\d+)  # 31 3/8 or 31.375
    \s* (?P<unit>[A-Za-z]+|"|'(?!')|'' )? (?:(?<=[A-Za-z])\.)? \s*""",
    re.VERBOSE,
)

_HOW = "write a number, or a length such as 80 cm, 31 3/8 in, 2ft 6in or 5' 3 1/2\""


def parse_length(text: str, units: Units) -> float:
    r"""Return the length that a maker wrote, mm.

    A number without a unit counts in `units`. Feet and inches may stand together, and any
    number may be a fraction, with a space or a hyphen before it. A `LengthError` of anything else.

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
        parts.append(_part(match, text))
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
    plain = "".join(signs).translate(_TYPOGRAPHY)
    return re.sub(r"(?<=\d)\s*/\s*(?=\d)", "/", plain).strip()


def _part(match: re.Match[str], text: str) -> tuple[Fraction, Units | None]:
    """Return the number that was written, and its unit where it has one."""
    try:
        parts = [Fraction(part) for part in re.split(r"\s+|-", match["number"])]
    except ZeroDivisionError:
        raise LengthError(f"{text!r} divides by zero: {_HOW}") from None
    name = match["unit"]
    unit = _UNIT_OF.get('"' if name == "''" else name.lower()) if name else None
    if name and unit is None:
        raise LengthError(f"{text!r} has the unknown unit {name!r}: use mm, cm, m, in or ft")
    return sum(parts, Fraction(0)), unit


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
