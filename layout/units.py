"""Units, and lengths as a maker reads them: mm inside, feet, inches and fractions at the edge."""

from __future__ import annotations

import math
import re
import string
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

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

MIXED = re.compile(r"(?<=\d)[ \u00a0](\d+/\d+)")
"""What stands between a whole number and its fraction, and that: no line ends within 31 3/8."""


@dataclass(frozen=True, slots=True)
class Tape:
    """What the maker measures with, and so how a sheet writes a length."""

    imperial: bool = False
    """Inches and fractions, or millimetres."""

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

    def fill(self, words: str, fact: object = None, /, **more: object) -> str:
        """Return words with figures in their places: those of a fact by its own names, and `more`.

        Of a fact that is a tuple they go by their numbers.

        A figure is told by the method that stands behind its colon.

        >>> Tape().fill("{real:measure} long, {wide:figure} wide", 700.2, wide=400.0)
        '700 mm long, 400 wide'
        """
        return _Filled(self).vformat(words, (fact,), more)

    def nearest(self, length: float) -> float:
        """Return the length, mm, of the division nearest to `length`, mm; halves away from 0."""
        return nearest_whole(length / self.division) * self.division

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

    def figure(self, length: float) -> str:
        """Return `length`, mm, to the nearest division and without its unit.

        >>> Tape(imperial=True).figure(796.925), Tape().figure(583.42)
        ('31 3/8', '583')
        """
        count = nearest_whole(length / self.division)
        sign = "−" if count < 0 else ""
        if not self.imperial:
            return f"{sign}{abs(count)}"
        whole, rest = divmod(abs(count), 16)
        fraction = str(Fraction(rest, 16)) if rest else ""
        return sign + (" ".join(part for part in (str(whole or ""), fraction) if part) or "0")

    def at_least(self, length: float) -> str:
        """Return the next division that is no less than `length`, mm, without its unit.

        >>> Tape().at_least(22 / 3)
        '8'
        """
        return self.figure(self.towards(length, 1.0))

    def measure(self, length: float) -> str:
        """Return `length`, mm, to the nearest division with its unit: ``31 3/8 in``."""
        return f"{self.figure(length)} {self.unit}"

    def exact(self, length: float, digits: int = 2) -> str:
        """Return `length`, mm, in decimals of the unit and without it: ``583.42``, ``22.969``."""
        places = digits + 1 if self.imperial else digits
        whole = nearest_whole(self._counted(length) * 10**places)
        return f"{whole / 10**places:.{places}f}".replace("-", "−")

    def fine(self, length: float) -> str:
        """Return a length to a tenth of a mm or a hundredth of an inch, with its unit."""
        return f"{self.exact(length, 1)} {self.unit}"

    def thin(self, length: float) -> str:
        """Return a thickness or a diameter: by the tape where that is true, else in decimals.

        >>> Tape().thin(3.5), Tape().thin(12.0), Tape(imperial=True).thin(3.175)
        ('3.5 mm', '12 mm', '1/8 in')
        """
        true = abs(self.nearest(length) - length) <= _TRUE
        return self.measure(length) if true else self.fine(length)

    def drill(self, diameter: float) -> str:
        """Return a diameter or a thickness that is bought, where half a millimetre counts."""
        return self.measure(diameter) if self.imperial else f"{diameter:.3g} mm"

    def joint(self, area: float) -> str:
        """Return an area that is glued, mm², in cm² or square inches.

        >>> Tape(imperial=True).joint(3600.0), Tape(imperial=True).joint(720000.0)
        ('5.58 sq in', '1116 sq in')
        """
        if not self.imperial:
            return f"{area / 100:.0f} cm²"
        inches = area / MM_PER_INCH**2
        return f"{inches:.3g} sq in" if inches < 999.5 else f"{inches:.0f} sq in"

    def small(self, length: float) -> str:
        """Return a length too small for the tape, to two figures and with its unit.

        >>> Tape().small(0.4631), Tape(imperial=True).small(0.4631), Tape().small(0.012)
        ('0.46 mm', '0.018 in', 'less than 0.05 mm')
        """
        if abs(length) < 0.05:
            return "less than 0.002 in" if self.imperial else "less than 0.05 mm"
        return f"{two_figures(self._counted(length)).replace('-', '−')} {self.unit}"

    def _counted(self, length: float) -> float:
        return length / MM_PER_INCH if self.imperial else length

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


class _Filled(string.Formatter):
    """Puts figures into words as a tape tells them."""

    def __init__(self, tape: Tape) -> None:
        self.tape = tape

    def get_value(self, key: int | str, args: Sequence[Any], kwargs: Mapping[str, Any]) -> Any:  # noqa: ANN401 - what a field holds
        if key in kwargs:
            return kwargs[str(key)]
        return args[0][key] if isinstance(key, int) else getattr(args[0], key)

    def format_field(self, value: Any, spec: str) -> Any:  # noqa: ANN401 - what a field holds
        told = getattr(self.tape, spec, None) if spec else None
        return told(value) if told else super().format_field(value, spec)


def nearest_whole(value: float) -> int:
    """Return the whole number nearest to a value; halves away from 0.

    What falls short of a half by rounding alone counts as the half.

    >>> nearest_whole(2.5), nearest_whole(-2.5), nearest_whole(8.2 - 5.7), nearest_whole(0.49)
    (3, -3, 3, 0)
    """
    return int(math.copysign(math.floor(abs(value) + 0.5 + _HALF), value))


_HALF = 1e-6
"""What a half may fall short by rounding, or a whole number be passed."""

_TRUE = 0.01
"""What a thickness may lie off a division and still be told by it, mm."""


def two_figures(value: float) -> str:
    """Return `value` rounded to two figures and without an exponent: ``820``, ``0.42``."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}"
    digits = 1 - int(f"{value:.1e}".partition("e")[2])  # of the rounded value: 0.0999 is 0.10
    return f"{round(value, digits):.{max(digits, 0)}f}"
