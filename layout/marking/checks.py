"""Distances between marks that show a slip before the first cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..geometry.point import Point
from ..outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    Rectangle,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from ..panel.datum import Datum
from .mark import Check


def checks_for(outline: Outline, datum: Datum, marks: Mapping[str, Point]) -> tuple[Check, ...]:
    """Return the check distances of a panel and of a top on it.

    Parameters
    ----------
    outline : Outline
        The finished top.
    datum : Datum
    marks : mapping of str to Point
        The marks by their labels.
    """
    pairs = (*_pairs(outline, marks), *_overall(outline))
    held = [
        Check(one, other, marks[one].distance_to(marks[other]), why)
        for one, other, why in pairs
        if one in marks and other in marks
    ]
    return (*_panel_checks(datum), *held)


def _panel_checks(datum: Datum) -> Iterator[Check]:
    """Yield both diagonals of a four-cornered panel, where a tape can be held to them."""
    corners = datum.corners
    if len(corners) != 4:
        return
    for i in (0, 1):
        one, other = corners[i], corners[i + 2]
        if one.usable and other.usable:
            distance = one.point.distance_to(other.point)
            yield Check(one.name, other.name, distance, "the panel is as it was measured")


def _pairs(outline: Outline, marks: Mapping[str, Point]) -> Iterator[tuple[str, str, str]]:
    """Yield which marks to measure between, and why."""
    if isinstance(outline, RegularPolygon):
        yield from _regular(outline, marks)
    elif isinstance(outline, Freeform):
        yield from _freeform(marks)
    elif isinstance(outline, Superellipse):
        yield ("D1", "D3", "points on the diagonals: the axes are square")
        yield ("D2", "D4", "points on the diagonals, the other one: the same")
    else:
        yield from _usual(outline)


def _overall(outline: Outline) -> Iterator[tuple[str, str, str]]:
    """Yield the two axes."""
    round_one, regular = isinstance(outline, Circle), isinstance(outline, RegularPolygon)
    long, short = ("overall length", "overall width")
    if round_one or regular:
        long = short = "diameter" if round_one else "across the flats"
    if regular and outline.length > outline.width:
        long = "across the corners"
    yield ("E1", "E2", long)
    yield ("S1", "S2", short)


def _regular(top: RegularPolygon, marks: Mapping[str, Point]) -> Iterator[tuple[str, str, str]]:
    """Yield all sides, all widths across corners, and one width across each pair of flats.

    Two corners that face each other over the top lie across the flats as its sides do.
    """
    names = ("X", "E") if top.sides == 6 else ("X",)
    corners = {name: at for name, at in marks.items() if name[0] in names}
    middle = marks["O"]
    ring = sorted(corners, key=lambda name: (corners[name] - middle).angle)
    first = ring.index("X1")
    ring = [*ring[first:], *ring[:first]]
    half = top.sides // 2
    for i in range(top.sides):
        yield (ring[i], ring[(i + 1) % top.sides], "side: all are alike")
    for i in range(half):
        if {ring[i], ring[i + half]} != {"E1", "E2"}:
            yield (ring[i], ring[i + half], "across the corners: all are alike")
    for i in range(0, 2 * half, 2) if top.sides == 6 else range(half):
        yield (ring[i], ring[(i + half - 1) % top.sides], "across the flats: all are alike")


def _freeform(marks: Mapping[str, Point]) -> Iterator[tuple[str, str, str]]:
    """Yield the way from each corner to the next, and diagonals that fix every corner.

    With all sides and the diagonals of one corner a polygon stands as stiff as a lattice girder.
    """
    count = sum(1 for name in marks if name[0] == "X" and name[1:].isdigit())
    for i in range(1, count + 1 if count > 2 else count):
        yield (f"X{i}", f"X{i % count + 1}", "from corner to corner, straight")
    if count == 4:
        yield ("X1", "X3", "corners, diagonal")
        yield ("X2", "X4", "corners, the other diagonal")
    else:
        for i in range(3, count):
            yield ("X1", f"X{i}", "corners, diagonal")


def _usual(outline: Outline) -> Iterator[tuple[str, str, str]]:
    if isinstance(outline, Capsule):
        yield ("C1", "C2", "centres of the ends")
        yield ("T1", "T4", "the straights are the width apart")
        yield ("T2", "T3", "the straights are the width apart")
        yield ("T1", "T3", "tangent points, diagonal: square")
        yield ("T2", "T4", "tangent points, the other diagonal: the same")
    elif isinstance(outline, Rectangle | RoundedRectangle):
        yield ("X1", "X3", "corners, diagonal: square")
        yield ("X2", "X4", "corners, the other diagonal: the same")
        yield ("X1", "X2", "long side")
        yield ("X4", "X3", "long side")
        yield ("X1", "X4", "end")
        yield ("X2", "X3", "end")
        if isinstance(outline, RoundedRectangle):
            yield ("K1", "K3", "centres of the corners, diagonal")
            yield ("K2", "K4", "centres of the corners, the other diagonal")
    elif isinstance(outline, Oval):
        yield ("N1", "N2", "nails")
        yield ("N1", "S1", "nail to the end of the short axis: half the length exactly")
        yield ("N2", "S2", "nail to the end of the short axis: half the length exactly")
