"""A stance made firmer by small moves of its feet, until none helps.

Each foot is moved eight ways, and the feet that are its mirror images with it; one that would leave
its room slides along the edge of it. The steps are halved when no move helps.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence

import numpy as np

from ..geometry import Point, Points, Region, first_of_best
from ..geometry.tolerance import SAME_PLACE
from .arrangement import ALIKE_FORCE
from .foot import Foot
from .free_room import apart

_FIRST, _LAST = 1 / 16, 0.5
"""The first step as a share of the stance's extent, and the last one, mm."""

_WAYS = tuple(Point.polar(1.0, math.tau * k / 8) for k in range(8))

_MIRRORS = ((1, 1), (-1, 1), (1, -1), (-1, -1))

Stance = tuple[Point, ...]


def polished(middles: Stance, foot: Foot, room: Region, force: Callable[[Stance], float]) -> Stance:
    """Return a stance that is no less firm.

    Parameters
    ----------
    room : Region
        Where middles of feet may stand.
    force : callable
        What a stance takes at the edge, N.
    """
    if room.is_empty:
        return middles
    edges = room.edges
    best, found = middles, force(middles)
    images = _images(middles)
    step = max(_extent(middles), 2 * _LAST) * _FIRST
    while step >= _LAST:
        moved = [
            stance
            for group in images
            for stance in _moves(best, group, step, room, edges)
            if apart(stance, foot)
        ]
        tried = [(found, best), *((force(stance), stance) for stance in moved)]
        most, stance = first_of_best(tried, lambda t: t[0], tolerance=ALIKE_FORCE)
        if stance is best:
            step /= 2
        best, found = stance, most
    return best


def _extent(middles: Sequence[Point]) -> float:
    return max(one.distance_to(other) for one in middles for other in middles)


def _images(middles: Stance) -> list[dict[int, tuple[int, int]]]:
    """Return groups of feet that are mirror images: which ones, and how each is mirrored."""
    groups: list[dict[int, tuple[int, int]]] = []
    left = set(range(len(middles)))
    mirrors = [m for m in _MIRRORS if all(_at(middles, _flip(p, m)) is not None for p in middles)]
    for k, middle in enumerate(middles):
        if k in left:
            group: dict[int, tuple[int, int]] = {}
            for mirror in mirrors:
                image = _at(middles, _flip(middle, mirror))
                if image is not None:
                    group.setdefault(image, mirror)
            groups.append(group)
            left -= set(group)
    return groups


def _flip(point: Point, mirror: tuple[int, int]) -> Point:
    return Point(point.x * mirror[0], point.y * mirror[1])


def _at(middles: Stance, place: Point) -> int | None:
    near = (k for k, middle in enumerate(middles) if middle.distance_to(place) <= SAME_PLACE)
    return next(near, None)


def _moves(
    middles: Stance, group: dict[int, tuple[int, int]], step: float, room: Region, edges: Points
) -> Iterator[Stance]:
    """Yield the stance with a group of feet moved each way, as far as their room allows."""
    first, own = next(iter(group.items()))
    for way in _WAYS:
        place = _flip(_held(middles[first] + way * step, room, edges), own)
        stance = list(middles)
        for k, mirror in group.items():
            stance[k] = _held(_flip(place, mirror), room, edges)
        yield tuple(stance)


def _held(place: Point, room: Region, edges: Points) -> Point:
    """Return a place, or the nearest one in the room."""
    if room.holds_point(place):
        return place
    start, way = edges[:, 0], edges[:, 1] - edges[:, 0]
    share = (((np.array(tuple(place)) - start) * way).sum(axis=1)) / (way**2).sum(axis=1)
    on = start + np.clip(share, 0.0, 1.0)[:, None] * way
    return Point.of(on[np.hypot(*(on - np.array(tuple(place))).T).argmin()])
