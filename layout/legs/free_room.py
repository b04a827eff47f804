"""Where feet stand under an outline of any form, and where they dodge spoilt wood.

No centreline need be an axis of such a top, so nothing is mirrored. Feet are put in those corners
of their room that lie farthest in even directions, or where even rays from the middle of its weight
last leave it, beyond any waist, or evenly along its edge; the most stable stance is taken.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from ..errors import LegsError
from ..geometry import Path, Point, Region, first_of_best
from ..geometry.distance import nearest
from ..geometry.tolerance import ROUNDING, SAME_PLACE
from ..outlines import Outline
from .foot import Foot
from .room import no_room, room_for
from .wish import LegsWish

_PHASES = (0.5, 0.0, 0.25, 0.75)
"""By how much of a step the first direction is off the length of the top, tried in turn."""

_FINE = 0.05
"""How near the room of the middles is followed, mm: nobody sets a leg closer."""


def stances(wish: LegsWish, outline: Outline) -> Iterator[tuple[Point, ...]]:
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
    middle = Region.from_rings(outline.inner(_FINE)).centroid
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
            yield tuple(_leaves(room, middle, ray, outline) for ray in rays)
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


def _leaves(room: Region, middle: Point, ray: Point, outline: Outline) -> Point:
    """Return where a ray from within last leaves the room."""
    return room.chord(middle, middle + ray * (outline.length + outline.width))[-1][1]


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

    One that finds none beside the others stays where it is.

    Parameters
    ----------
    room : Region
        Where they may stand.
    bears : callable
        Whether a foot with its middle at a place stands on sound wood.
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
