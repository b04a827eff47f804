"""Where a ring of straight edges meets itself, told by the numbers of its points."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...errors import GeometryError
from ...geometry.placement import Points, array_of
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import SAME_POINT
from ..text.notes import Place


@dataclass(frozen=True, slots=True)
class Crossing:
    """Two edges of a ring that meet where they should not.

    Attributes
    ----------
    one, other : int
        Numbers, from 1, of the points at which they start.
    at : Point
        Where, mm.
    """

    one: int
    other: int
    at: Point


def first_crossing(points: Sequence[Point]) -> Crossing | None:
    """Return the first crossing round a ring of at least three points; None where it is simple.

    Most rings are simple, and that is quickly seen. Otherwise every edge is held against all that
    follow it at once. Neighbours share a point: they clash only where one runs back on the other.
    """
    if _holds_an_area(points):
        return None
    start = array_of(points)
    along = np.roll(start, -1, axis=0) - start
    count = len(start)
    for i in range(count):
        after = (i + 1) % count
        if _runs_back(along[i], along[after]):
            return Crossing(i + 1, after + 1, points[after])
        first, end = i + 2, count - (i == 0)  # the last edge is a neighbour of the first
        if first >= end:
            continue
        shares = _shares(start[i], along[i], start[first:end], along[first:end])
        if np.isfinite(shares).any():
            other = int(np.nanargmin(shares))
            at = Point.of(start[i] + shares[other] * along[i])
            return Crossing(i + 1, first + other + 1, at)
    return None


def is_simple(points: Sequence[Point], place: Place) -> bool:
    """Return whether a ring does not meet itself; note the place where it does."""
    crossing = first_crossing(points)
    if crossing is None:
        return True
    x, y = (place.length(figure) for figure in crossing.at)
    place.wrong(
        f"the edge from point {crossing.one} meets the edge from point {crossing.other} at "
        f"x {x}, y {y}: give the points in order, all the way round"
    )
    return False


def _holds_an_area(points: Sequence[Point]) -> bool:
    try:
        Region.from_rings(array_of(points))
    except GeometryError:
        return False
    return True


def _cross(one: Points, other: Points) -> Points:
    product: Points = one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0]
    return product


def _runs_back(one: Points, other: Points) -> bool:
    """Return whether the second of two neighbours lies on the first."""
    off_line = abs(float(_cross(one, other))) / max(float(np.hypot(*one)), SAME_POINT)
    return off_line <= SAME_POINT and float(one @ other) < 0


def _shares(start: Points, along: Points, starts: Points, alongs: Points) -> Points:
    """Return at which share of one edge each of some others meets it; nan where one does not.

    p + s·r = q + t·u gives s = (q − p) × u / (r × u) and t = (q − p) × r / (r × u), both from 0 to
    1 where the edges meet. Of edges on one line the share is that of the nearer end.
    """
    length, lengths = float(np.hypot(*along)), np.hypot(alongs[:, 0], alongs[:, 1])
    slack, slacks = SAME_POINT / length, SAME_POINT / lengths
    gap, turn = starts - start, _cross(along, alongs)
    with np.errstate(divide="ignore", invalid="ignore"):
        share, other = _cross(gap, alongs) / turn, _cross(gap, along) / turn
    meets = (share >= -slack) & (share <= 1 + slack) & (other >= -slacks) & (other <= 1 + slacks)
    near = np.where(meets & (turn != 0), share, np.nan)
    on_line = (abs(turn) <= SAME_POINT * length) & (abs(_cross(gap, along)) <= SAME_POINT * length)
    one_end, other_end = gap @ along / length**2, (gap + alongs) @ along / length**2
    low, high = np.minimum(one_end, other_end), np.maximum(one_end, other_end)
    overlaps = on_line & (high >= -slack) & (low <= 1 + slack)
    result: Points = np.where(overlaps, np.clip(low, 0.0, 1.0), near)
    return result
