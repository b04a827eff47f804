"""Values as a job file writes them: the way back of what the kinds of keys read.

A length in a job that counts in mm is a bare number; in any other it brings its unit, so that no
figure is rounded on the way.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from functools import singledispatch
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
from ..panel.edge_kinds import EdgeName, EdgeNames
from ..template.paper_kinds import PaperSize, White
from ..units import Units
from ..work.wish import HourSpan

Spelt = Any
"""What TOML holds: texts, numbers, lists of them."""


@singledispatch
def spelt(kind: Kind, held: Any, units: Units) -> Spelt:  # noqa: ANN401 - as the kind
    """Return a value as a key of this kind has it in a file whose lengths count in `units`."""
    raise LayoutError(f"{held!r} cannot be written in a job file")


def keyed(value: Any, units: Units) -> dict[str, Spelt]:  # noqa: ANN401 - any dataclass
    """Return the keys of a job file that make a value what it is, where they are not as usual.

    What stands under a heading of its own is not among them.
    """
    return {
        own.name: spelt(own.kind, getattr(value, name), units)
        for name, own in keys_by_field(type(value)).items()
        if own.in_file
        and not isinstance(own.kind, Table)
        and (own.depends or getattr(value, name) != own.default)
    }


@spelt.register(Text)
@spelt.register(YesNo)
@spelt.register(EdgeName)
def _(kind: Kind, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return held


@spelt.register
def _(kind: Choice, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return _name_of(held, kind.options)


@spelt.register
def _(kind: Choices, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    names = [name for name, option in kind.choice.options.items() if option in held]
    return (
        names
        if isinstance(held, frozenset)
        else [_name_of(one, kind.choice.options) for one in held]
    )


def _name_of(held: Any, options: Mapping[str, Any]) -> str:  # noqa: ANN401
    return next(name for name, option in options.items() if option == held)


@spelt.register
def _(kind: EdgeNames, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return list(held)


@spelt.register
def _(kind: Number, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    """Return the number that the file's unit makes of what is held, to the last digit."""
    if kind.whole:
        return held
    short = float(f"{held / kind.factor:.12g}")
    return short if short * kind.factor == held else held / kind.factor


@spelt.register
def _(kind: Length, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return held if units is Units.MM else f"{Decimal(repr(float(held))):f} mm"


@spelt.register
def _(kind: Counts, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return [spelt(kind.kind, one, units) for one in held]


@spelt.register
def _(kind: At, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return [spelt(Length(), side, units) for side in held]


@spelt.register(Points)
@spelt.register(Ring)
@spelt.register(Pairs)
def _(kind: Kind, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return [spelt(At(), point, units) for point in held]


@spelt.register
def _(kind: Pair, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    sides = [spelt(kind.kind, side, units) for side in held]
    return sides if len(sides) > 1 else sides[0]


@spelt.register
def _(kind: ScrewPair, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return [spelt(kind.kind, side, units) for side in (held.diameter, held.length)]


@spelt.register
def _(kind: OwnOutline, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    segments = held.path().segments
    if not all(isinstance(segment, Line) for segment in segments):
        raise LayoutError("a job file takes an outline of one's own by its corners, not curves")
    return spelt(Ring(), [segment.start for segment in segments], units)


@spelt.register
def _(kind: Sum, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return float(held)


@spelt.register
def _(kind: Share, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return float(held * 100)


@spelt.register
def _(kind: HourSpan, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return list(held)


@spelt.register
def _(kind: Named, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return {name: spelt(kind.kind, figure, units) for name, figure in held}


@spelt.register
def _(kind: PaperSize, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    return held.name


@spelt.register
def _(kind: White, held: Any, units: Units) -> Spelt:  # noqa: ANN401
    sides = [held.left, held.bottom, held.right, held.top]
    told = [spelt(Length(), side, units) for side in sides]
    return told[0] if held.are_equal else told
