"""Which way plus and minus go in a table of offsets from the middle of a top: by marks on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..geometry.alike import first_of_best
from ..geometry.point import Point
from ..geometry.tolerance import SAME_PLACE
from ..marking.mark import Kind, Mark
from ..panel.datum import Datum
from ..top import Top
from ..units import Tape

ALONG = "From O along the long centreline"
ACROSS = "From O across it"
"""How the offsets are headed."""


@dataclass(frozen=True, slots=True)
class Directions:
    """What back and ahead along a centreline go towards: its ends, or what lies farthest."""

    along: tuple[str, str]
    across: tuple[str, str]

    def told(self, place: Point, tape: Tape) -> tuple[str, str]:
        """Return a place from O without signs: how far along and across, and towards what."""
        return _told(place.x, self.along, tape), _told(place.y, self.across, tape)


def _told(offset: float, names: tuple[str, str], tape: Tape) -> str:
    figure = tape.figure(abs(offset))
    return figure if figure == "0" else f"{figure} towards {names[offset > 0]}"


def directions_of(top: Top, datum: Datum, marks: Sequence[Mark]) -> Directions:
    """Return the names for the offsets of a top, along its length and across it.

    The marks where a centreline meets its edge; on a top that has none, of all marks on it the one
    that lies farthest that way; without any the points and corners of the panel.
    """
    own = top.placement.inverse
    axis = {
        0: {m.label: own(m.point) for m in marks if m.kind is Kind.END},
        1: {m.label: own(m.point) for m in marks if m.kind is Kind.SIDE},
    }
    on_top = {m.label: own(m.point) for m in marks if m.kind in _ON_TOP}
    beside = {r.name: own(r.point) for r in datum.references}
    beside |= {f"corner {c.name}": own(c.point) for c in datum.corners}

    def pair(k: int) -> tuple[str, str]:
        named = next((n for n in (axis[k], on_top, beside) if _both_ways(n, k)), beside)
        return _farthest(named, k, -1), _farthest(named, k, 1)

    return Directions(pair(0), pair(1))


_ON_TOP = (Kind.CORNER, Kind.TANGENT, Kind.ARC_CENTRE, Kind.ON_CURVE, Kind.NAIL)


def _both_ways(named: dict[str, Point], axis: int) -> bool:
    reach = [tuple(place)[axis] for place in named.values()]
    return bool(reach) and min(reach) < -SAME_PLACE and max(reach) > SAME_PLACE


def _farthest(named: dict[str, Point], axis: int, sign: int) -> str:
    """Return the name of what lies farthest along an axis, of places alike the nearest to it."""
    return first_of_best(
        named,
        lambda name: (sign * tuple(named[name])[axis], -abs(tuple(named[name])[1 - axis])),
        tolerance=(SAME_PLACE, SAME_PLACE),
    )
