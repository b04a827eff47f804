"""Values as a job file writes them: the way back of what the kinds of keys read.

A length in a job that counts in mm is a bare number; in any other it brings its unit, so that no
figure is rounded on the way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal
from typing import Any

from ..errors import LayoutError
from ..fit.wish_kinds import OwnOutline
from ..geometry.segments import Line
from ..keys.figures import Counts, Length, Number
from ..keys.key import keys_by_field
from ..keys.kinds import Choice, Kind, Text, YesNo
from ..keys.named import Named, Share, Sum
from ..keys.plane import At, Choices, Pair, Pairs, Points, Ring, Table
from ..legs.table_wish import ScrewPair
from ..outlines import Freeform
from ..panel.named_edges import EdgeName, EdgeNames
from ..template.paper import Margins
from ..template.wish import PaperSize, White
from ..units import Units
from ..work.wish import HourSpan

Spelt = Any
"""What TOML holds: texts, numbers, lists of them."""


def spelt(kind: Kind, held: Any, units: Units) -> Spelt:  # noqa: ANN401 - as the kind
    """Return a value as a key of this kind has it in a file whose lengths count in `units`."""
    return next(_WAYS[cls] for cls in type(kind).__mro__ if cls in _WAYS)(kind, held, units)


def keyed(value: Any, units: Units) -> dict[str, Spelt]:  # noqa: ANN401 - any dataclass
    """Return the keys of a job file, but for tables, that make a value other than usual."""
    return {
        own.name: spelt(own.kind, getattr(value, name), units)
        for name, own in keys_by_field(type(value)).items()
        if own.in_file
        and not isinstance(own.kind, Table)
        and (own.depends or getattr(value, name) != own.default)
    }


def _each(kind: Kind, held: Iterable[Any], units: Units) -> list[Spelt]:
    return [spelt(kind, one, units) for one in held]


def _name_of(kind: Choice, held: Any, units: Units) -> str:  # noqa: ANN401
    return next(name for name, option in kind.options.items() if option == held)


def _names(kind: Choices, held: Any, units: Units) -> list[str]:  # noqa: ANN401
    if isinstance(held, frozenset):
        return [name for name, option in kind.choice.options.items() if option in held]
    return _each(kind.choice, held, units)


def _number(kind: Number, held: float, units: Units) -> float:
    """Return the number that the file's unit makes of what is held, to the last digit."""
    if kind.whole:
        return held
    short = float(f"{held / kind.factor:.12g}")
    return short if short * kind.factor == held else held / kind.factor


def _length(kind: Length, held: float, units: Units) -> Spelt:
    return held if units is Units.MM else f"{Decimal(repr(float(held))):f} mm"


def _pair(kind: Pair, held: Iterable[float], units: Units) -> Spelt:
    sides = _each(kind.kind, held, units)
    return sides if len(sides) > 1 else sides[0]


def _own(kind: OwnOutline, held: Freeform, units: Units) -> Spelt:
    segments = held.path().segments
    if not all(isinstance(segment, Line) for segment in segments):
        raise LayoutError("a job file takes an outline of one's own by its corners, not curves")
    return _each(At(), [segment.start for segment in segments], units)


def _white(kind: White, held: Margins, units: Units) -> Spelt:
    sides = _each(Length(), (held.left, held.bottom, held.right, held.top), units)
    return sides[0] if held.are_equal else sides


_WAYS: Mapping[type, Callable[[Any, Any, Units], Spelt]] = {
    **dict.fromkeys((Text, YesNo, EdgeName), lambda kind, held, units: held),
    **dict.fromkeys((EdgeNames, HourSpan), lambda kind, held, units: list(held)),
    **dict.fromkeys((Points, Ring, Pairs), lambda kind, held, units: _each(At(), held, units)),
    Choice: _name_of,
    Choices: _names,
    Number: _number,
    Length: _length,
    Counts: lambda kind, held, units: _each(kind.kind, held, units),
    At: lambda kind, held, units: _each(Length(), held, units),
    Pair: _pair,
    ScrewPair: lambda kind, held, units: _each(kind.kind, (held.diameter, held.length), units),
    OwnOutline: _own,
    Sum: lambda kind, held, units: float(held),
    Share: lambda kind, held, units: float(held * 100),
    Named: lambda kind, held, units: {
        name: spelt(kind.kind, figure, units) for name, figure in held
    },
    PaperSize: lambda kind, held, units: held.name,
    White: _white,
}
"""How each kind is written; one that derives from another is written as that where it has no way
of its own."""
