"""Hours as a range: the least and the most that a step takes."""

from __future__ import annotations

from dataclasses import dataclass

from ..keys.figures import Number, Range
from ..keys.kinds import Kind
from ..keys.place import Place, shown

_HOURS = Number("hours", Range(0.0, 1000.0))


@dataclass(frozen=True, slots=True)
class HourSpan(Kind):
    """Hours: one figure, or the least and the most."""

    @property
    def words(self) -> str:
        """As the documents say it."""
        return "hours, or `[least, most]`"

    def parse(self, value: object, at: Place) -> tuple[float, float] | None:
        """Return the least and the most, hours."""
        given = list(value) if isinstance(value, list | tuple) else [value, value]
        if len(given) != 2:
            at.wrong(f"{shown(value)} is neither hours nor a range: write [least, most]")
            return None
        least, most = (_HOURS.read(item, at) for item in given)
        if least is None or most is None:
            return None
        if least > most:
            at.wrong(f"{least:g} is above {most:g}: write the lower one first")
            return None
        return least, most
