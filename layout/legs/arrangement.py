"""Where feet stand: as far out as their room allows, and off wood that does not bear.

Under an outline with centrelines they stand symmetrically about both. No centreline need be an axis
of an outline of any other form, so there nothing is mirrored: feet are put in those corners of
their room that lie farthest in even directions, or where even rays from the middle of its weight
last leave it, beyond any waist, or evenly along its edge; the most stable stance is taken.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from ..errors import LegsError
from ..geometry import ORIGIN, Path, Point, Region, array_of, at_most, first_of_best
from ..geometry.distance import nearest
from ..geometry.tolerance import ROUNDING, SAME_PLACE, SIZE_SLACK
from ..geometry.turned_box import narrowest_strip
from ..outlines import Outline
from .foot import Foot
from .room import FINE, no_room, reach, room_for
from .stability import IN_A_ROW, Stability
from .wish import LegsWish

LONG = 1.3
"""A top longer than this many widths is stood on in two rows, whatever the ring would hold: rows
take rails and leave the ends free for knees. Our choice."""


ALIKE_FORCE = 0.1
"""Stances whose tipping forces differ by less are as firm as each other, N."""


def middles_for(wish: LegsWish, outline: Outline, stability: Stability) -> tuple[Point, ...]:
    """Return where the middles of the wished feet stand, anticlockwise from the lower left.

    Two slabs stand on the long centreline, four feet on the corners of the largest rectangle; more
    on a long top in two rows, an odd one in the middle of the top. On a top hardly longer than
    wide, and for three feet, a ring and rows are held against each other: the firmer one is taken.

    Raises
    ------
    LegsError
        If no foot finds room at the insets.
    """
    if not outline.free_sizes:
        return _most_stable(_free(wish, outline), stability)
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
    spread = [s for s in held if narrowest_strip(array_of(s)) >= IN_A_ROW or len(s) < 3]
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


_PHASES = (0.5, 0.0, 0.25, 0.75)
"""By how much of a step the first direction is off the length of the top, tried in turn."""


def _free(wish: LegsWish, outline: Outline) -> Iterator[tuple[Point, ...]]:
    """Yield sets of places for the wished number of feet, each anticlockwise.

    Raises
    ------
    LegsError
        If no foot finds room, or not so many.
    """
    room = room_for(wish, outline, in_rows=False)
    if room.is_empty:
        raise no_room(wish, outline)
    found = 0
    middle = Region.from_rings(outline.inner(FINE)).centroid
    for places in _sets(wish.count, room, middle, outline):
        if apart(places, wish.foot):
            found += 1
            yield _in_order(places, middle)
    if not found:
        raise LegsError(
            f"{wish.count} feet {wish.foot.length:g} by {wish.foot.width:g} mm find no room beside "
            f"each other under the {outline.name}: take fewer, or smaller ones"
        )


def _sets(count: int, room: Region, middle: Point, outline: Outline) -> Iterator[tuple[Point, ...]]:
    """Yield places in corners of the room, where rays leave it, and along its edge."""
    corners = [Point.of(row) for piece in room.pieces for row in piece.exterior]
    if count == 2:
        reach = Point(outline.length, 0.0)
        spans = room.chord(middle - reach, middle + reach)
        yield from [(spans[0][0], spans[-1][1])] if spans else []
        return
    for phase in _PHASES:
        turns = [math.tau * (k + phase) / count for k in range(count)]
        ways = [Point(math.cos(t) / outline.length, math.sin(t) / outline.width) for t in turns]
        yield tuple(
            first_of_best(corners, way.dot, lambda p: (p.x, p.y), tolerance=ROUNDING)
            for way in ways
        )
        rays = [
            Point(math.cos(t) * outline.length, math.sin(t) * outline.width).unit() for t in turns
        ]
        if room.holds_point(middle):
            far = outline.length + outline.width
            yield tuple(room.chord(middle, middle + ray * far)[-1][1] for ray in rays)
        yield tuple(_along_edges(room, [(k + phase) / count for k in range(count)]))


def _along_edges(room: Region, shares: Sequence[float]) -> Iterator[Point]:
    """Yield the places at shares of the way along the edges of all pieces of the room."""
    edges = [Path.through_ring(piece.exterior) for piece in room.pieces]
    whole = math.fsum(edge.length for edge in edges)
    passed = 0.0
    for edge in edges:
        yield from (
            edge.at(share * whole - passed)
            for share in shares
            if passed <= share * whole < passed + edge.length
        )
        passed += edge.length


def apart(places: Sequence[Point], foot: Foot) -> bool:
    """Return whether no two feet overlap."""
    wide = math.hypot(foot.length, foot.width)
    return all(a.distance_to(b) > wide or foot.gap(a, b) > 0 for a, b in combinations(places, 2))


def _in_order(places: Sequence[Point], middle: Point) -> tuple[Point, ...]:
    """Return places anticlockwise round the middle, from the lower left one."""
    held = sorted(places, key=lambda p: (p - middle).angle)
    first = first_of_best(
        range(len(held)),
        lambda i: -(held[i].x + held[i].y),
        lambda i: (held[i].x, held[i].y),
        tolerance=SAME_PLACE,
    )
    return (*held[first:], *held[:first])


_CLEAR = 0.1
"""A foot is moved this much farther than it must, mm: no tape shows it, and rounding cannot put it
back on what it was moved off."""


def dodged(
    middles: Sequence[Point], foot: Foot, room: Region, bears: Callable[[Point], bool]
) -> tuple[tuple[Point, ...], tuple[float, ...]]:
    """Return the places of feet that bear, as near as can be to those wished, and how far moved.

    One that finds none in the room beside the others stays where it is.
    """
    held, moved = list(middles), [0.0] * len(middles)
    inner = room.shrunk(_CLEAR)
    for k, middle in enumerate(middles):
        if inner.is_empty or bears(middle):
            continue
        _, place = nearest(Region.at(middle), inner)
        if apart([place, *held[:k], *held[k + 1 :]], foot):
            held[k], moved[k] = place, middle.distance_to(place)
    return tuple(held), tuple(moved)
