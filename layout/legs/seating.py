"""How many sit at a table: places at its edge, beside each other, with knees clear of the legs."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from itertools import takewhile

import numpy as np
from numpy.typing import NDArray

from ..geometry import Bounds, Path, Placement, Point, Region, array_of, at_most, first_of_best
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import ROUNDING, SAME_PLACE
from ..outlines import Outline
from ..units import MM_PER_INCH
from .foot import Foot

Array = NDArray[np.float64]

PLACE, PLACE_IMPERIAL = 600.0, 24 * MM_PER_INCH
"""Edge that a diner takes, mm, and where the maker counts in inches: 24 in at least, 30 at best
(Panero and Zelnik, *Human Dimension and Interior Space*)."""

DEPTH = 14 * MM_PER_INCH
"""Depth of a place, mm: 14 in (Panero and Zelnik); on a narrower top no farther than the centreline
that the diner faces, where plates meet."""

KNEES = (400.0, 300.0)
"""Width and depth from the edge that knees take, mm (our choice)."""

BULGE = 130.0
"""Most that the edge of a place may bulge, mm: a round end 720 wide will do (our choice)."""

SHARPEST, BLUNT = math.radians(30), math.radians(61)
"""Most that the edge of a place may turn within 100 mm, for nobody sits at a corner; one that turns
no farther than the second, like a hexagon's, may lie beside a diner; radians (our choice)."""

STRAIGHT_AHEAD = 360.0
"""How much of the edge has no corner before a diner, mm: about the shoulders (our choice)."""

_STEP, _CORNER = 20.0, 5
"""How finely the edge is walked, mm, and the steps within which it must not turn too far."""

_TOUCH, _EASINGS = 100.0, 3
"""Places that share less are beside each other, mm²; how often all are moved apart in turn."""


@dataclass(frozen=True, slots=True)
class Seat:
    """One place at the table."""

    place: Point
    """The middle of its stretch of the edge, mm from the centre of the top."""
    towards: float = field(metadata={"unit": "rad"})


@dataclass(frozen=True, slots=True)
class Seating:
    """How people sit at it."""

    seats: tuple[Seat, ...]
    """As many as find room with knees clear of the legs."""
    without_legs: int
    """How many there would be if no leg stood in the way."""


def seating_at(
    outline: Outline, foot: Foot, middles: Sequence[Point], place: float = PLACE
) -> Seating:
    """Return the places round a top.

    A place takes `place` of the edge and 14 in of the depth behind it, on a narrow top to its
    middle; two do not overlap, so that on a top with corners those at the ends take from the sides.
    """
    edge = _edge_of(outline, place)
    seats = tuple(edge.seat(i) for i in most_places(edge, edge.free_of(foot, middles)))
    return Seating(seats, len(most_places(edge, edge.usable)))


def knee_room(outline: Outline, foot: Foot, middles: Sequence[Point]) -> float:
    """Return the share of the edge at which somebody's knees would be clear of the legs."""
    edge = _edge_of(outline, PLACE)
    return len(edge.free_of(foot, middles)) / max(1, len(edge.usable))


@lru_cache(maxsize=8)
def _edge_of(outline: Outline, place: float) -> Edge:
    """Return the edge of a top, walked once for all arrangements of legs under it."""
    return Edge.walked(outline.path(), place)


@dataclass(frozen=True)
class Edge:
    """The edge in even steps; place i is the stretch of `width` steps from step i."""

    points: Array
    inwards: Array
    """(n, 2) array: of each step, and the unit vector into the top."""
    step: float
    """From one point to the next along the edge, mm."""
    width: int
    _clear: dict[tuple[int, int], bool] = field(default_factory=dict)

    @classmethod
    def walked(cls, path: Path, place: float) -> Edge:
        """Return the edge of a closed path, for places that take `place` mm of it."""
        per_place = max(2, round(place / _STEP))
        count = max(8, math.floor(path.length / place * per_place + 1e-9))
        held = [(s.at(share), s.at(share + 1e-4)) for s, share in path.stations(count)]
        points = array_of(here for here, _ in held)
        inwards = array_of((ahead - here).unit().left for here, ahead in held)
        step = path.length / count
        return cls(points, inwards, step, math.ceil(place / step - 1e-6))

    @cached_property
    def usable(self) -> list[int]:
        """The places that do not reach round a corner; a blunt one may lie beside the diner."""
        if self.width >= len(self.points):
            return []
        turned = self._turned(1)
        blunt = (turned > SHARPEST + ROUNDING) & (turned <= BLUNT)
        near = np.any([np.roll(blunt, -k) for k in range(_CORNER)], axis=0)
        sharp = (self._turned(_CORNER) > SHARPEST + ROUNDING) & ~near
        beside = (self.width - STRAIGHT_AHEAD / self.step) / 2
        ahead = slice(math.ceil(beside - 1e-9), math.floor(self.width - beside + 1e-9))
        return [
            i
            for i in range(len(self.points))
            if not sharp[self._steps(i)[: -_CORNER - 1]].any()
            and not blunt[self._steps(i)[ahead]].any()
            and at_most(self._bulge(i), BULGE)
        ]

    def free_of(self, foot: Foot, middles: Sequence[Point]) -> list[int]:
        """Return the usable places at which knees meet no leg with such a head."""
        prints = [Region.of(foot.outside(middle), "outside") for middle in middles]
        wide, deep = KNEES
        room = Path.round_box(Bounds(0.0, -wide / 2, deep, wide / 2))

        def in_the_way(seat: Seat) -> bool:
            middle = Region.at(seat.place + Point.polar(deep / 2, seat.towards))
            near = [p for p in prints if p.distance_to(middle) < math.hypot(wide, deep) / 2]
            if not near:
                return False
            knees = Region.of(room.placed(Placement(seat.place, seat.towards)))
            return any(knees.meet(one).area > 1.0 for one in near)

        return [i for i in self.usable if not in_the_way(self.seat(i))]

    def _steps(self, i: int) -> NDArray[np.intp]:
        return np.arange(i, i + self.width + 1) % len(self.points)

    def _turned(self, steps: int) -> Array:
        """Return how far the edge has turned so many steps on, radians."""
        on = np.roll(self.inwards, -steps, axis=0)
        turned: Array = np.arccos(np.clip((self.inwards * on).sum(axis=1), -1.0, 1.0))
        return turned

    def _bulge(self, i: int) -> float:
        """Return how far the edge of place i stands off its chord, mm."""
        off = self.points[self._steps(i)] - self.points[i]
        chord = off[-1]
        across = off[:, 0] * chord[1] - off[:, 1] * chord[0]
        return float(np.abs(across).max() / np.hypot(*chord))

    def _area(self, i: int) -> Region:
        """Return what a place covers: its edge, and as deep as a plate and hands reach."""
        steps = self._steps(i)
        outer, inwards = self.points[steps], self.inwards[steps]
        if inwards[-1] @ inwards[-2] < math.cos(SHARPEST):  # it ends at a corner
            inwards[-1] = inwards[-2]
        mean = np.abs(inwards.mean(axis=0))
        faced = first_of_best((0, 1), lambda k: float(mean[k]), tolerance=ROUNDING)
        to_middle = np.abs(outer[:, faced]) / np.maximum(np.abs(inwards[:, faced]), 1e-9)
        # the edge of a hollow top may lie on its centreline, or have that behind it
        to_middle[outer[:, faced] * inwards[:, faced] > -1.0] = DEPTH
        inner = outer + inwards * np.minimum(DEPTH, to_middle)[:, None]
        return Region.from_rings(convex_hull(np.vstack([outer, inner])))

    @cached_property
    def _areas(self) -> dict[int, Region]:
        return {i: self._area(i) for i in self.usable}

    def clear(self, i: int, j: int) -> bool:
        """Return whether two places do not overlap; each pair is worked out once."""
        pair = min(i, j), max(i, j)
        if pair not in self._clear:
            self._clear[pair] = self._areas[i].meet(self._areas[j]).area <= _TOUCH
        return self._clear[pair]

    def seat(self, i: int) -> Seat:
        """Return where the diner of place i sits, square to the edge before the shoulders."""
        middle, half = i + self.width // 2, min(int(STRAIGHT_AHEAD / self.step), self.width) // 2
        place = np.round(self.points[middle % len(self.points)], 6) + 0.0
        before = np.arange(middle - half, middle + half + 1) % len(self.points)
        inwards = self.inwards[before].mean(axis=0)
        return Seat(Point.of(place), math.atan2(inwards[1], inwards[0]))


def most_places(edge: Edge, usable: Sequence[int]) -> list[int]:
    """Return as many places as stand beside each other without overlap.

    After each place the next that fits is the best next, so a chain from every start finds the
    most. Of chains as long, the one that lies most evenly about the middle is taken, and each place
    then moved to the middle of the room it has.
    """

    def uneven(chain: list[int]) -> float:
        """Return how far the middle of the places lies from that of the top, mm."""
        middles = [(i + edge.width // 2) % len(edge.points) for i in chain]
        return float(np.hypot(*edge.points[middles].mean(axis=0)))

    if not usable:
        return []
    best = first_of_best(
        _chains(edge, usable),
        lambda chain: (float(len(chain)), -uneven(chain)),
        lambda chain: (float(chain[0]),),
        tolerance=(0.0, SAME_PLACE),
    )
    for _ in range(_EASINGS):
        for k, place in enumerate(best):
            beside = {best[k - 1], best[(k + 1) % len(best)]} - {place}
            ahead, back = (_run(edge, usable, place, way, beside) for way in (1, -1))
            best[k] = (place + (ahead - back) // 2) % len(edge.points)
    return best


def _chains(edge: Edge, usable: Sequence[int]) -> Iterator[list[int]]:
    """Yield the places from each start once round, each the first that fits after the last."""
    count = len(edge.points)
    order = [*usable, *(i + count for i in usable)]

    def after(i: int) -> int:
        first = bisect_left(order, i + edge.width)
        return next((j for j in order[first:] if edge.clear(i, j % count)), 2 * count)

    following = {i: after(i) for i in usable}
    for start in usable:
        chain = [start]
        while True:
            round_on, last = divmod(chain[-1], count)
            place = following[last] + round_on * count
            if place + edge.width > start + count or not edge.clear(place % count, start):
                break
            chain.append(place)
        yield [i % count for i in chain]


def _run(edge: Edge, usable: Sequence[int], place: int, way: int, beside: set[int]) -> int:
    """Return how many steps a place may be moved until it meets something."""
    count, may = len(edge.points), set(usable)
    steps = range(count // 2)
    ahead = ((place + (step + 1) * way) % count for step in steps)
    free = takewhile(lambda at: at in may and all(edge.clear(at, k) for k in beside), ahead)
    return sum(1 for _ in free)
