"""Distances between marks that show a slip before the first cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from ..geometry.point import Point
from ..outlines import Capsule, Circle, Outline, Oval, Rectangle, RoundedRectangle
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
    pairs = _pairs(outline)
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


def _pairs(outline: Outline) -> Iterator[tuple[str, str, str]]:
    """Yield which marks to measure between, and why."""
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
    round_one = isinstance(outline, Circle)
    yield ("E1", "E2", "diameter" if round_one else "overall length")
    yield ("S1", "S2", "diameter" if round_one else "overall width")
