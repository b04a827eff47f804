"""Kinds of figures: numbers, angles, shares, lengths and sums, each within its limits."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ..errors import LengthError
from ..geometry.tolerance import SAME_POINT
from ..units import Units
from .kinds import Held, Kind, Spelt, each
from .length import parse_length
from .place import Place, closest, shown

FARTHEST = 100_000.0
"""No length or place in a job is larger, mm: 100 m is many times the longest slab sold, and more is
a slip of the unit. It also keeps all figures well within the digits that geometry counts on."""


Form = Callable[[float], str]
"""How a limit is written."""


@dataclass(frozen=True, slots=True)
class Range:
    """From `least` to `most`; with `above`, `least` itself is not allowed."""

    least: float = -math.inf
    most: float = math.inf
    above: bool = False

    def keeps(self, value: float, at: Place, written: str, form: Form, advice: str = "") -> bool:
        """Return whether a value is within them; note how it breaks a limit, and what to do."""
        if value < self.least or (self.above and value == self.least):
            broken = f"is {'not above' if self.above else 'below'} {form(self.least)}"
        elif value > self.most:
            broken = f"is above {form(self.most)}"
        else:
            return True
        at.wrong(f"{written} {broken}{advice and f': {advice}'}")
        return False


@dataclass(frozen=True, slots=True)
class Number(Kind):
    """A number, with its unit and limits as a file writes them."""

    unit: str = ""
    limits: Range = Range()
    factor: float = 1.0
    """What the library holds for 1."""
    whole: bool = False
    """Whether it counts things."""
    advice: str = ""
    """What to do where it is out of its limits."""

    def _parse(self, value: object, at: Place) -> Held:
        """Return the number in the library's unit; an int where it counts."""
        number = finite(value, at, f"a number of {self.unit}" if self.unit else "a number")
        if number is None:
            return None
        if self.whole and number != int(number):
            at.wrong(f"{shown(value)} is not a whole number")
            return None
        limits, factor, unit = self.limits, self.factor, f" {self.unit}" if self.unit else ""
        if at.held and factor != 1:  # it comes in the library's unit, and its limits too
            limits, unit = Range(limits.least * factor, limits.most * factor, limits.above), ""
            factor = 1.0
        written = f"{shown(value)}{unit}"
        if not limits.keeps(number, at, written, lambda limit: f"{limit:g}{unit}", self.advice):
            return None
        return int(number) if self.whole else number * factor

    def spelt(self, held: float, units: Units) -> Spelt:
        """Return the number that the file's unit makes of what is held, to the last digit."""
        if self.whole:
            return held
        short = float(f"{held / self.factor:.12g}")
        return short if short * self.factor == held else held / self.factor


def degrees(least: float, most: float, advice: str = "") -> Number:
    """Return the kind of an angle; it is held in degrees, by a field that says so in its name."""
    return Number("degrees", Range(least, most), advice=advice)


def percent(limits: Range, advice: str = "") -> Number:
    """Return the kind of a share in percent, held as a share."""
    return Number("percent", limits, 0.01, advice=advice)


def count(least: int, most: int, advice: str = "") -> Number:
    """Return the kind of a number of things."""
    return Number(limits=Range(least, most), whole=True, advice=advice)


@dataclass(frozen=True, slots=True)
class Length(Kind):
    """A length: a number in the file's units, or a text with its own."""

    limits: Range = Range()
    """mm; never beyond `FARTHEST`."""
    advice: str = ""
    """What to do where it is out of its limits."""

    def _parse(self, value: object, at: Place) -> float | None:
        mm = _millimetres(value, at)
        if mm is None:
            return None
        written = shown(value) if isinstance(value, str) else f"{shown(value)} {at.units.value}"
        if abs(mm) > FARTHEST:
            at.wrong(f"{written} is more than 100 m: look at the unit")
            return None
        nothing = self.limits.above and abs(mm) < SAME_POINT
        figure = 0.0 if nothing else mm
        return mm if self.limits.keeps(figure, at, written, at.length, self.advice) else None

    def spelt(self, held: float, units: Units) -> Spelt:
        """Return a bare number of mm, or it with its unit, so that no figure is rounded."""
        return held if units is Units.MM else f"{Decimal(repr(float(held))):f} mm"


@dataclass(frozen=True, slots=True)
class Counts(Kind):
    """A list of numbers of one kind, each held once, or a pair of them."""

    kind: Number
    """Of each."""
    rising: bool = False
    """Whether they are two, the lower one first."""

    def _parse(self, value: object, at: Place) -> tuple[Held, ...] | None:
        if not self.rising:
            count = None if value else 1  # an empty list is none
            listed = each(self.kind, value, at, "a list of numbers: write [4, 6]", count)
            return None if listed is None else tuple(dict.fromkeys(listed))
        span = "a list of numbers: write [least, most]"
        held: tuple[Held, ...] | None = each(self.kind, value, at, span, 2)
        if held is not None and held[0] > held[1]:
            at.wrong(f"{held[0]:g} is above {held[1]:g}: write the lower one first")
            return None
        return held


ABOVE_0 = Length(Range(0.0, above=True), "give what the tape reads")
FROM_0 = Length(Range(0.0), "give 0 or more")
ANY_LENGTH = Length()


def finite(value: object, at: Place, wanted: str) -> float | None:
    """Return a number that is one, or note that it is not `wanted`."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        at.wrong(f"{shown(value)} is not {wanted}")
    elif isinstance(value, float) and not math.isfinite(value):
        at.wrong(f"{shown(value)} is not a number that can be measured")
    elif abs(value) > 1e12:
        at.wrong(f"{shown(value)} is beyond everything that can be measured")
    else:
        return float(value)
    return None


def _millimetres(value: object, at: Place) -> float | None:
    if isinstance(value, str):
        try:
            return parse_length(value, at.units)
        except LengthError as error:
            at.wrong(str(error))
            return None
    number = finite(value, at, 'a length: write a number, or a text such as "31 3/8 in"')
    if number is None:
        return None
    return float(Fraction(repr(number)) * Fraction(repr(at.units.mm)))  # 78 in is 1981.2 mm exactly


_SUM = Range(0.0, 1e9)
"""No sum is larger: more is a slip of the keys."""


@dataclass(frozen=True, slots=True)
class Sum(Kind):
    """A sum of money, held as the decimal that was written."""

    def _parse(self, value: object, at: Place) -> Decimal | None:
        held = value if isinstance(value, Decimal) and at.held and value.is_finite() else None
        wanted = "a sum of money: write a number, without its currency"
        number = finite(value if held is None else float(held), at, wanted)
        owed = "what is owed to you is no cost"
        if number is None or not _SUM.keeps(number, at, shown(number), "{:.0f}".format, owed):
            return None
        return Decimal(repr(value)) if held is None else held

    def spelt(self, held: Decimal, units: Units) -> Spelt:
        """Return a bare number."""
        return float(held)


@dataclass(frozen=True, slots=True)
class Share(Kind):
    """A share in percent, held as the exact decimal share; a program gives it as a share."""

    limits: Range
    """Percent."""

    def _parse(self, value: object, at: Place) -> Decimal | None:
        if at.held and isinstance(value, Decimal):
            percent = value * 100
        else:
            number = finite(value, at, "a number of percent")
            if number is None:
                return None
            percent = Decimal(repr(value)) * (100 if at.held else 1)
        kept = self.limits.keeps(float(percent), at, f"{percent:f} %", "{:g} %".format)
        return percent / 100 if kept else None

    def spelt(self, held: Decimal, units: Units) -> Spelt:
        """Return percent."""
        return float(held * 100)


@dataclass(frozen=True, slots=True)
class Named(Kind):
    """A figure for each of some names, the names that are left out having none."""

    names: tuple[str, ...]
    kind: Kind
    """Of each figure."""

    def _parse(self, value: object, at: Place) -> tuple[tuple[str, Held], ...] | None:
        """Return the names that were given, in the order of the list, each with its figure."""
        if at.held and isinstance(value, list):  # as it is held already
            value = dict(value)
        if not isinstance(value, dict):
            at.wrong(f'{shown(value)} is not a table: write {{ "{self.names[0]}" = … }}')
            return None
        known = {name.casefold(): name for name in self.names}
        held: dict[str, Held] = {}
        for given, figure in value.items():
            name = known.get(" ".join(str(given).casefold().split()))
            if name is None:
                near = closest(str(given), self.names)
                hint = f"; did you mean {near}?" if near else ":"
                (at / str(given)).wrong(
                    f"the name is not known{hint} known are {', '.join(self.names)}"
                )
                continue
            held[name] = self.kind.read(figure, at / str(given))
        if len(held) < len(value) or None in held.values():
            return None
        return tuple((name, held[name]) for name in self.names if name in held)

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return a table."""
        return {name: self.kind.spelt(figure, units) for name, figure in held}
