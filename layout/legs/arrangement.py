"""Where feet stand: as far out as their room allows, and off wood that does not bear.

Under an outline with centrelines they stand symmetrically about both. Under one of any other form
they stand in those corners of their room that lie farthest in even directions, or where even rays
from the middle of its weight last leave it, or evenly along its edge: the most stable stance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from ..errors import LegsError
from ..geometry import ORIGIN, Path, Point, Region, array_of, at_most, first_of_best
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SIZE_SLACK
from ..geometry.turned_box import narrowest_strip
from ..outlines import Outline
from .foot import Foot
from .room import FINE, insets_for, reach, room_for
from .tipping import IN_A_ROW, Stability
from .wish import LegsWish

LONG = 1.3
"""A top longer than this many widths is stood on in two rows, whatever the ring would hold: rows
take rails and leave the ends free for knees. Our choice."""

ALIKE_FORCE = 0.1
"""Stances whose tipping forces differ by less are as firm as each other, N."""


def middles_for(wish: LegsWish, outline: Outline, stability: Stability) -> tuple[Point, ...]:
    """Return where the middles of the wished feet stand, anticlockwise from the lower left.

    Two slabs stand on the long centreline, four feet on the corners of the largest rectangle; more
    on a long top in two rows, an odd one in the middle. On a top hardly longer than wide, and for
    three feet, the firmer of ring and rows is taken. A `LegsError` tells that no foot finds room.
    """
    count, foot, rows_apply = wish.count, wish.foot, bool(outline.free_sizes)
    room, size = (
        room_for(wish, outline, in_rows=rows_apply),
        f"{foot.length:g} by {foot.width:g} mm",
    )
    if room.is_empty:
        insets = insets_for(wish, outline)
        raise LegsError(
            f"a foot {size}, {insets.side:g} mm in from the sides and {insets.end:g} mm from the "
            f"ends, finds no room under the {outline.name} {outline.length:g} by "
            f"{outline.width:g} mm: make the insets or the foot smaller"
        )
    if not rows_apply:
        sets = [places for places in _free(count, room, outline) if apart(places, foot)]
        if not sets:
            raise LegsError(
                f"{count} feet {size} find no room beside each other under the {outline.name}: "
                "take fewer, or smaller ones"
            )
    elif count == 2:
        return Point(reach(room, math.pi).x, 0.0), Point(reach(room, 0.0).x, 0.0)
    else:
        sets = _tripods(room) if count == 3 else [_rows(count, room)]
        long = not at_most(outline.length, LONG * outline.width, 2 * SIZE_SLACK)
        if count == 4 or (long and count > 3):
            return sets[0]
        around = room_for(wish, outline, in_rows=False)
        sets = [_ring(count, around, 0.5), _ring(count, around, 0.0), *sets]
    spread = [places for places in sets if len(places) < 3 or not in_a_row(places)]
    return first_of_best(spread or sets[:1], stability.force, tolerance=ALIKE_FORCE)


def in_a_row(places: Sequence[Point]) -> bool:
    """Return whether legs at these places stand in a row."""
    return narrowest_strip(array_of(places)) < IN_A_ROW


def apart(places: Sequence[Point], foot: Foot) -> bool:
    """Return whether no two feet overlap."""
    wide = math.hypot(foot.length, foot.width)
    return all(a.distance_to(b) > wide or foot.gap(a, b) > 0 for a, b in combinations(places, 2))


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
    turn = np.ptp(np.unwrap(np.arctan2(ways[:, 1], ways[:, 0])))
    if len(near) == 3 and lengths.max() < _FACET and turn < _BLUNT:
        so_far = np.array([0.0, lengths[0], lengths.sum()])
        a, b, _ = np.polyfit(so_far, near.prod(axis=1), 2)
        at = np.vander([-b / (2 * a)], 3) @ np.polyfit(so_far, near, 2)
        return Point.of(at[0])
    tried: list[NDArray[np.float64]] = [rim[k]]
    for start, way in zip(near[:-1], ways, strict=True):
        a, b = float(way[0] * way[1]), float(start[0] * way[1] + start[1] * way[0])
        tried.append(start + way * (min(max(-b / (2 * a), 0.0), 1.0) if a < 0 else 0.0))
    return Point.of(tried[int(np.prod(tried, axis=1).argmax())])


_FACET, _BLUNT = 20.0, 0.05
"""Sides that are shorter, mm, and turn by less, radians, follow a curve."""


def _rows(count: int, room: Region) -> tuple[Point, ...]:
    corner, half = corner_of_largest(room), count // 2
    xs = [corner.x * (2 * i / (half - 1) - 1) for i in range(half)]
    below, above = [Point(x, -corner.y) for x in xs], [Point(x, corner.y) for x in reversed(xs)]
    return (*below, *above, *[ORIGIN] * (count % 2))


def _ring(count: int, room: Region, phase: float) -> tuple[Point, ...]:
    """Return feet evenly round the rim, the first `phase` steps past the end of the centreline."""
    a, b = reach(room, 0.0).x, reach(room, math.pi / 2).y
    turns = _turns(count, phase)
    ring = [reach(room, math.atan2(b * math.sin(t), a * math.cos(t))) for t in turns]
    return tuple(sorted(ring, key=lambda p: (p.angle + 3 * math.pi / 4 + 1e-9) % math.tau))


def _turns(count: int, phase: float) -> list[float]:
    return [math.tau * (k + phase) / count for k in range(count)]


def _tripods(room: Region) -> list[tuple[Point, ...]]:
    """Return two feet on one side and one on the other, and two at one end."""
    corner = corner_of_largest(room)
    left, below = Point(-corner.x, corner.y), Point(corner.x, -corner.y)
    return [(-corner, below, reach(room, math.pi / 2)), (-corner, reach(room, 0.0), left)]


_PHASES = (0.5, 0.0, 0.25, 0.75)
"""By how much of a step the first direction is off the length of the top, tried in turn."""


def _free(count: int, room: Region, outline: Outline) -> Iterator[tuple[Point, ...]]:
    """Yield places in corners of the room, where rays leave it, and along its edge."""
    middle = Region.from_rings(outline.inner(FINE)).centroid
    for places in _sets(count, room, middle, outline):
        held = sorted(places, key=lambda p: (p - middle).angle)
        first = first_of_best(held, lambda p: -(p.x + p.y), tuple, tolerance=SAME_PLACE)
        k = held.index(first)
        yield (*held[k:], *held[:k])


def _sets(count: int, room: Region, middle: Point, outline: Outline) -> Iterator[list[Point]]:
    length, width = outline.length, outline.width
    if count == 2:
        far = Point(length, 0.0)
        spans = room.chord(middle - far, middle + far)
        yield from [[spans[0][0], spans[-1][1]]] if spans else []
        return
    corners = [Point.of(row) for piece in room.pieces for row in piece.exterior]
    edges = [Path.through_ring(piece.exterior) for piece in room.pieces]
    whole = math.fsum(edge.length for edge in edges)
    for phase in _PHASES:
        ways = [(math.cos(t), math.sin(t)) for t in _turns(count, phase)]
        yield [
            first_of_best(corners, Point(x / length, y / width).dot, tuple, tolerance=ROUNDING)
            for x, y in ways
        ]
        if room.holds_point(middle):
            rays = [Point(x * length, y * width).unit() * (length + width) for x, y in ways]
            yield [room.chord(middle, middle + ray)[-1][1] for ray in rays]
        yield [_along(edges, whole * (k + phase) / count) for k in range(count)]


def _along(edges: Sequence[Path], way: float) -> Point:
    """Return the place so far along the edges of all pieces of the room, one after the other."""
    for edge in edges[:-1]:
        if way < edge.length:
            return edge.at(way)
        way -= edge.length
    return edges[-1].at(way)
