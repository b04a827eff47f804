"""What every sentence about a cut shares: where its line meets the edges, and which way it runs.

A saw line and its guide are rounded away from the top, never towards it: the blade then leaves a
little more, not less.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import singledispatch

from ..cutting import EdgePoint, StraightCut
from ..geometry.point import Point
from ..geometry.tolerance import SAME_FIGURE
from ..units import nearest_whole
from .passage import Passage, Table
from .say import Say

_SLIGHT = 0.02
"""A coordinate that moves a line by no more than this share of itself is rounded to the nearest:
that is a fiftieth of a division at most."""

HEADINGS = ("From this place on the edge", "to this one")


@singledispatch
def words_of(act: object, say: Say) -> Passage:
    """Return what is told of an act, in the units of a tape and from a datum.

    Raises
    ------
    TypeError
        If nobody has found words for it.
    """
    raise TypeError(f"there are no words for {type(act).__name__}")


def face_words(say: Say) -> str:
    """Return how the show face lies."""
    return f"show face {'down' if say.mirrored else 'up'}"


def offsets_of(place: EdgePoint, waste: Point, say: Say) -> tuple[float, float]:
    """Return the offsets of a place on a line as they are told, mm: off the top."""
    way = waste.turned(-say.datum.frame.turn)
    return _off(place.along, way.x, say), _off(place.square, way.y, say)


def _off(length: float, way: float, say: Say) -> float:
    return say.tape.towards(length, way if abs(way) > _SLIGHT else 0.0)


def from_corner(place: EdgePoint, waste: Point, say: Say) -> float:
    """Return how far a place is told to lie from its corner, mm: off the top."""
    corners = (r.point for r in say.datum.references if r.name == place.corner)
    corner = next(corners, place.point)
    way = place.point - corner
    return _off(place.distance, way.dot(waste) / max(way.norm, 1.0), say)


def place_words(place: EdgePoint, waste: Point, say: Say) -> str:
    """Return where a line meets an edge: its two offsets, and from the nearer corner."""
    figure = say.tape.figure
    along, square = offsets_of(place, waste, say)
    words = f"{figure(along)} along {say.datum.name}, {figure(square)} square"
    if place.corner:
        words += f" ({figure(from_corner(place, waste, say))} from {place.corner})"
    return words


def line_words(start: EdgePoint, end: EdgePoint, waste: Point, say: Say) -> str:
    """Return how to find a line: one offset where it runs square to the datum, else both ends."""
    datum, figure = say.datum, say.tape.figure
    along, square = offsets_of(start, waste, say)
    if abs(start.along - end.along) <= SAME_FIGURE:
        return f"{figure(along)} along {datum.name} from {datum.first.name}, square across"
    if abs(start.square - end.square) <= SAME_FIGURE:
        return f"{figure(square)} square from {datum.name}"
    return f"from {_end_words(start, waste, say)} to {_end_words(end, waste, say)}"


def _end_words(place: EdgePoint, waste: Point, say: Say) -> str:
    figure = say.tape.figure
    if place.corner:
        return f"the edge point {figure(from_corner(place, waste, say))} from {place.corner}"
    along, square = offsets_of(place, waste, say)
    return f"the edge point {figure(along)} along, {figure(square)} square"


def line_rows(cut: StraightCut, say: Say, *, named: bool) -> Iterable[tuple[str, ...]]:
    """Yield the ends of a saw line and of its guide, as rows of a table."""
    names = (f"{cut.label}, saw", f"{cut.label}, guide") if named else ("Saw line", "Guide")
    lines = [(names[0], cut.start, cut.end)]
    if cut.guide is not None:
        lines.append((names[1], cut.guide.start, cut.guide.end))
    for name, *ends in lines:
        yield (name, *(place_words(end, cut.waste, say) for end in ends))


def line_table(cut: StraightCut, say: Say) -> Table:
    """Return the table of one cut."""
    seen = "MIRRORED, as drawn" if say.mirrored else "show face up, as drawn"
    caption = (
        f"Waste on the {_side(cut.waste, say)} side ({seen}). The saw is pushed from the first "
        f"place to the second. Kerf {say.tape.exact(cut.kerf, 1)} {say.tape.unit}, taken from the "
        "waste. Hold up both sides of the cut."
    )
    return Table(("", *HEADINGS), tuple(line_rows(cut, say, named=False)), caption)


def lines_table(cuts: Sequence[StraightCut], say: Say) -> Table:
    """Return the table of all saw lines and guides."""
    rows = (row for cut in cuts for row in line_rows(cut, say, named=True))
    return Table(("Line", *HEADINGS), tuple(rows), "Rounded away from the top, never towards it.")


def _side(waste: Point, say: Say) -> str:
    """Return the side of the panel, as drawn, to which a direction points."""
    across = -waste.x if say.mirrored else waste.x
    quarter = nearest_whole(math.atan2(waste.y, across) / (math.pi / 2)) % 4
    return ("right", "upper", "left", "lower")[quarter]
