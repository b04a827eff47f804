"""Distances between marks that show a slip before the first cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..geometry.point import Point
from ..outlines import Outline
from ..panel.datum import Datum
from .mark import Check, Proves


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
        Check(one, end, marks[one].distance_to(marks[end]), *what)
        for one, end, *what in pairs
        if one in marks and end in marks
    ]
    return (*_panel_checks(datum), *held)


Pair = tuple[str, str, Proves] | tuple[str, str, Proves, bool]
"""Two labels, what is proved, and whether it is the second diagonal."""


def _panel_checks(datum: Datum) -> Iterator[Check]:
    """Yield both diagonals of a four-cornered panel, where a tape can be held to them."""
    corners = datum.corners
    if len(corners) != 4:
        return
    for i in (0, 1):
        one, other = corners[i], corners[i + 2]
        if one.usable and other.usable:
            distance = one.point.distance_to(other.point)
            yield Check(one.name, other.name, distance, Proves.PANEL)


def _pairs(outline: Outline, marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield which marks to measure between, and why."""
    if not outline.free_sizes:
        yield from _freeform(marks)
    elif outline.corners and not outline.is_boxed:
        yield from _regular(len(outline.corners), marks)
    elif outline.is_boxed:
        yield from _ROUND_END if "K" in marks else _BOXED
    else:
        yield from _CURVED


def _overall(outline: Outline) -> Iterator[Pair]:
    """Yield the two axes."""
    long, short = Proves.LENGTH, Proves.WIDTH
    if outline.free_sizes == 1:
        long = short = Proves.DIAMETER if outline.is_round else Proves.ACROSS_FLATS
    if outline.free_sizes == 1 and outline.length > outline.width:
        long = Proves.ACROSS_CORNERS
    yield ("E1", "E2", long)
    yield ("S1", "S2", short)


def _regular(sides: int, marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield all sides, all widths across corners, and one width across each pair of flats.

    Two corners that face each other over the top lie across the flats as its sides do.
    """
    names = ("X", "E") if sides == 6 else ("X",)
    corners = {name: at for name, at in marks.items() if name[0] in names}
    middle = marks["O"]
    ring = sorted(corners, key=lambda name: (corners[name] - middle).angle)
    first = ring.index("X1")
    ring = [*ring[first:], *ring[:first]]
    half = sides // 2
    for i in range(sides):
        yield (ring[i], ring[(i + 1) % sides], Proves.SIDE)
    for i in range(half):
        if {ring[i], ring[i + half]} != {"E1", "E2"}:
            yield (ring[i], ring[i + half], Proves.ACROSS_CORNERS)
    for i in range(0, 2 * half, 2) if sides == 6 else range(half):
        yield (ring[i], ring[(i + half - 1) % sides], Proves.ACROSS_FLATS)


def _freeform(marks: Mapping[str, Point]) -> Iterator[Pair]:
    """Yield the way from each corner to the next, and diagonals that fix every corner.

    With all sides and the diagonals of one corner a polygon stands as stiff as a lattice girder.
    """
    yield ("K1", "K2", Proves.CENTRES)
    count = sum(1 for name in marks if name[0] == "X" and name[1:].isdigit())
    for i in range(1, count + 1 if count > 2 else count):
        yield (f"X{i}", f"X{i % count + 1}", Proves.NEXT_CORNER)
    if count == 4:
        yield ("X1", "X3", Proves.DIAGONAL)
        yield ("X2", "X4", Proves.DIAGONAL, True)
    else:
        for i in range(3, count):
            yield ("X1", f"X{i}", Proves.DIAGONAL)


_BOXED: tuple[Pair, ...] = (
    ("X1", "X3", Proves.CORNERS),
    ("X2", "X4", Proves.CORNERS, True),
    ("X1", "X2", Proves.LONG_SIDE),
    ("X4", "X3", Proves.LONG_SIDE),
    ("X1", "X4", Proves.END),
    ("X2", "X3", Proves.END),
    ("K1", "K3", Proves.CORNER_CENTRES),
    ("K2", "K4", Proves.CORNER_CENTRES, True),
)
"""Of tops that are set out from a box, as far as they have these marks."""

_ROUND_END: tuple[Pair, ...] = (
    ("T1", "T2", Proves.STRAIGHTS),
    ("X1", "T2", Proves.TANGENTS),
    ("X2", "T1", Proves.TANGENTS, True),
    ("X1", "X2", Proves.END),
)
"""Where one end is a half circle and the other has corners."""

_CURVED: tuple[Pair, ...] = (
    ("C1", "C2", Proves.CENTRES),
    ("T1", "T4", Proves.STRAIGHTS),
    ("T2", "T3", Proves.STRAIGHTS),
    ("T1", "T3", Proves.TANGENTS),
    ("T2", "T4", Proves.TANGENTS, True),
    ("N1", "N2", Proves.NAILS),
    ("N1", "S1", Proves.NAIL_TO_SIDE),
    ("N2", "S2", Proves.NAIL_TO_SIDE),
    ("D1", "D3", Proves.ON_CURVE),
    ("D2", "D4", Proves.ON_CURVE, True),
)
"""Of the others."""
