"""Kinds of money and of lists: a sum, a share of one, a figure for each of some names."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from .figures import Range, finite
from .kinds import Held, Kind
from .place import Place, closest, shown

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
