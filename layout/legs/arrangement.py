"""Where the feet stand: symmetrical about the centrelines, as far out as their room allows."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Point, Region, at_most, first_of_best
from ..geometry.tolerance import ROUNDING, SIZE_SLACK
from ..outlines import Outline
from .free_room import stances
from .room import no_room, reach, room_for
from .stability import IN_A_ROW, Stability, row_width
from .wish import LegsWish

LONG = 1.3
"""A top longer than this many widths is stood on in two rows, whatever the ring would hold: rows
take rails and leave the ends free for knees. Our choice."""


ALIKE_FORCE = 0.1
"""Stances whose tipping forces differ by less are as firm as each other, N."""


def middles_for(
    wish: LegsWish, outline: Outline, stability: Stability | None = None
) -> tuple[Point, ...]:
    """Return where the middles of the wished feet stand, anticlockwise from the lower left.

    Two slabs stand on the long centreline, four feet on the corners of the largest rectangle; more
    on a long top in two rows, an odd one in the middle of the top. On a top hardly longer than
    wide, and for three feet, a ring and rows are held against each other: the firmer one is taken.

    Parameters
    ----------
    stability : Stability, optional
        Of the top that they carry; else it weighs a hundred kilograms and they nothing.

    Raises
    ------
    LegsError
        If no foot finds room at the insets.
    """
    if stability is None:
        stability = Stability.under(replace(wish, mass=0.0), outline, 100.0, 0.0)
    if not outline.free_sizes:
        return _most_stable(stances(wish, outline), stability)
    count = wish.count
    in_rows = room_for(wish, outline)
    if in_rows.is_empty:
        raise no_room(wish, outline)
    if count == 2:
        return Point(reach(in_rows, math.pi).x, 0.0), Point(reach(in_rows, 0.0).x, 0.0)
    long = not at_most(outline.length, LONG * outline.width, 2 * SIZE_SLACK)
    rows = _tripods(in_rows) if count == 3 else [_rows(count, in_rows)]
    if count == 4 or (long and count > 3):
        return rows[0]
    ring = room_for(wish, outline, in_rows=False)
    choices = [_ring(count, ring, 0.5), _ring(count, ring, 0.0), *rows]
    return _most_stable(choices, stability)


def _most_stable(sets: Iterable[tuple[Point, ...]], stability: Stability) -> tuple[Point, ...]:
    """Return the most stable stance, of stances alike the first; of none that stands the first."""
    held = list(sets)
    spread = [s for s in held if row_width(s) >= IN_A_ROW or len(s) < 3]
    return first_of_best(spread or held[:1], stability.force, tolerance=ALIKE_FORCE)


def corner_of_largest(room: Region) -> Point:
    """Return the upper right corner of the largest rectangle, mm, in the middle of the room.

    Of a convex room x·y has one peak along the rim. It lies in a corner or on a long side; on a
    curve, which is followed by short sides, it is that of the parabola through three corners.
    """
    ring = room.exterior
    ends = [tuple(reach(room, 0.0)), tuple(reach(room, math.pi / 2))]
    rim = np.vstack([ends[:1], ring[(ring > ROUNDING).all(axis=1)], ends[1:]])
    rim = rim[np.argsort(np.arctan2(rim[:, 1], rim[:, 0]))]
    k = int(rim.prod(axis=1).argmax())
    near = rim[max(k - 1, 0) : k + 2]
    ways = np.diff(near, axis=0)
    lengths = np.hypot(*ways.T)
    if len(near) == 3 and lengths.max() < _FACET and _turn(*ways) < _BLUNT:
        so_far = np.array([0.0, lengths[0], lengths.sum()])
        a, b, _ = np.polyfit(so_far, near.prod(axis=1), 2)
        at = np.vander([-b / (2 * a)], 3) @ np.polyfit(so_far, near, 2)
        return Point.of(at[0])
    tried: list[NDArray[np.float64]] = [rim[k]]
    for start, way in zip(near[:-1], ways, strict=True):
        a, b = float(way[0] * way[1]), float(start[0] * way[1] + start[1] * way[0])
        tried.append(start + way * (min(max(-b / (2 * a), 0.0), 1.0) if a < 0 else 0.0))
    return Point.of(tried[int(np.prod(tried, axis=1).argmax())])


def _turn(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    return abs(math.atan2(one[0] * other[1] - one[1] * other[0], float(one @ other)))


_FACET, _BLUNT = 20.0, 0.05
"""Sides that are shorter, mm, and turn by less, radians, follow a curve."""


def _rows(count: int, room: Region) -> tuple[Point, ...]:
    corner = corner_of_largest(room)
    half = count // 2
    xs = [corner.x * (2 * i / (half - 1) - 1) for i in range(half)]
    below, above = [Point(x, -corner.y) for x in xs], [Point(x, corner.y) for x in reversed(xs)]
    return tuple([*below, *above] + [ORIGIN] * (count % 2))


def _ring(count: int, room: Region, phase: float) -> tuple[Point, ...]:
    """Return feet evenly round the rim, the first `phase` steps past the end of the centreline."""
    a, b = reach(room, 0.0).x, reach(room, math.pi / 2).y
    turns = [math.tau * (k + phase) / count for k in range(count)]
    ring = [reach(room, math.atan2(b * math.sin(t), a * math.cos(t))) for t in turns]
    return tuple(sorted(ring, key=lambda p: (p.angle + 3 * math.pi / 4 + 1e-9) % math.tau))


def _tripods(room: Region) -> list[tuple[Point, ...]]:
    """Return two feet on one side and one on the other, and two at one end."""
    corner = corner_of_largest(room)
    top, end = reach(room, math.pi / 2), reach(room, 0.0)
    return [
        (Point(-corner.x, -corner.y), Point(corner.x, -corner.y), top),
        (Point(-corner.x, -corner.y), end, Point(-corner.x, corner.y)),
    ]
