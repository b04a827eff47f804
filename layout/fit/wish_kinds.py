"""What limits and outlines of a wish are taken from."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry import Line
from ..keys.figures import Length, Number
from ..keys.key import take
from ..keys.kinds import Held, Kind, Spelt
from ..keys.place import Place, shown
from ..keys.plane import Ring
from ..outlines import Freeform, Outline
from ..units import Units


@dataclass(frozen=True, slots=True)
class Span:
    """From `least` to `greatest`, both allowed.

    Raises
    ------
    LayoutError
        If least is above greatest.
    """

    least: float = 0.0
    greatest: float = math.inf

    def __post_init__(self) -> None:
        for name in ("least", "greatest"):
            end = getattr(self, name)
            if not isinstance(end, float) or math.isnan(end):  # which may be infinite
                object.__setattr__(self, name, take(Number(), end, "span", name))
        if not self.least <= self.greatest:
            raise LayoutError(f"a span from {self.least:g} to {self.greatest:g} holds nothing")

    def holds(self, value: float, slack: float = 0.0) -> bool:
        """Return whether the value lies within, give or take `slack`."""
        return self.least - slack <= value <= self.greatest + slack


ANY = Span()


@dataclass(frozen=True, slots=True)
class Spans(Kind):
    """Limits of a figure; a job file fixes it, or gives least and most by keys of their own."""

    kind: Length | Number

    def _parse(self, value: object, at: Place) -> Held:
        """Return the span of a program's number, pair or span; of a file, the number."""
        if not at.held:
            return self.kind.read(value, at)
        if isinstance(value, list):
            if len(value) != 2:
                at.wrong(f"{shown(value)} is no span: give (least, most), or one figure")
            return Span(self._edge(value[0], at / 0, 0.0), self._edge(value[1], at / 1, math.inf))
        if isinstance(value, Span):
            return Span(self._edge(value.least, at, 0.0), self._edge(value.greatest, at, math.inf))
        one = self.kind.read(value, at)
        return Span(one, one)

    def _edge(self, value: object, at: Place, free: float) -> float:
        """Return one end of a span, which may be left free."""
        is_free = value is None or (isinstance(value, int | float) and value == free)
        return free if is_free else float(self.kind.read(value, at))


@dataclass(frozen=True, slots=True)
class OwnOutline(Ring):
    """An outline of the maker's own: its corners, or of a program an outline too."""

    def _parse(self, value: object, at: Place) -> Held:
        if isinstance(value, Outline):
            return value
        ring = Ring._parse(self, value, at)
        return Freeform.through(ring) if at.held and ring is not None else ring

    def spelt(self, held: Held, units: Units) -> Spelt:
        """Return its corners."""
        segments = held.path().segments
        if not all(isinstance(segment, Line) for segment in segments):
            raise LayoutError("a job file takes an outline of one's own by its corners, not curves")
        return Ring.spelt(self, [segment.start for segment in segments], units)
