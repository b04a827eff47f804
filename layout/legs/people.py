"""People: who lifts it, how many sit at it, how high it stands."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region, convex_hull
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from .foot import Foot

Array = NDArray[np.float64]

ONE_LIFTS = 25.0
"""Two people lift from about this mass, kg (common practice; local rules decide)."""

PLACE = 600.0
"""Edge that a diner takes, mm: 24 in at least, 30 at best (Panero and Zelnik, *Human Dimension and
Interior Space*)."""

DEPTH = 14 * 25.4
"""Depth of a place, mm: 14 in (Panero and Zelnik)."""

KNEES = (400.0, 300.0)
"""Width and depth from the edge that knees take, mm (our choice)."""

BULGE = 130.0
"""Most that the edge of a place may bulge, mm: a round end 720 wide will do (our choice)."""

SHARPEST = math.radians(30)
"""Most that the edge of a place may turn within 100 mm, radians: nobody sits at a corner (our
choice)."""

_STEP = 20.0
"""How finely the edge is walked, mm."""

_TOUCH = 100.0
"""Places that share less than this are beside each other, mm²."""

_CORNER = 5
"""Steps within which the edge must not turn too far."""


@dataclass(frozen=True, slots=True)
class UsualHeight:
    """How high a table of one use stands, mm to its upper face, and who says so."""

    use: str
    least: float
    most: float
    source: str


HEIGHTS = (
    UsualHeight("coffee", 380.0, 460.0, "from memory: 15 to 18 in"),
    UsualHeight("dining", 710.0, 760.0, "Time-Saver Standards: 28 to 30 in"),
    UsualHeight("accessible", 710.0, 865.0, "ADA 2010 §902.3: 28 to 34 in"),
    UsualHeight("bench", 430.0, 460.0, "from memory"),
    UsualHeight("bar", 1050.0, 1100.0, "from memory"),
)
"""Usual heights by use."""


def lifters(mass: float) -> int:
    """Return how many people lift a mass, kg.

    >>> lifters(24.0), lifters(44.0), lifters(60.0)
    (1, 2, 3)
    """
    return 1 + math.floor(mass / ONE_LIFTS)


def use_of(height: float) -> UsualHeight | None:
    """Return the first use for which a table so high, mm, is usual; None where there is none."""
    return next((usual for usual in HEIGHTS if usual.least <= height <= usual.most), None)


@dataclass(frozen=True, slots=True)
class Seat:
    """One place at the table.

    Attributes
    ----------
    place : Point
        The middle of its stretch of the edge, mm from the centre of the top.
    towards : float
        Which way the diner faces, radians.
    """

    place: Point
    towards: float = field(metadata={"unit": "rad"})


@dataclass(frozen=True, slots=True)
class Seating:
    """How people sit at it.

    Attributes
    ----------
    seats : tuple of Seat
        As many as find room with knees clear of the legs.
    without_legs : int
        How many there would be if no leg stood in the way.
    """

    seats: tuple[Seat, ...]
    without_legs: int


def seating_at(
    outline: Outline, foot: Foot, middles: Sequence[Point], place: float = PLACE
) -> Seating:
    """Return the places round a top.

    A place takes `place` of the edge and 14 in of the depth behind it; two do not overlap, so that
    on a top with corners those at the ends take from the sides. Knees stay clear of the legs.

    Parameters
    ----------
    middles : sequence of Point
        Of the legs' heads, mm from the centre of the top.
    place : float
        mm of the edge.
    """
    edge = _edge_of(outline, place)
    prints = [Region.from_rings(foot.outside(m).points(CHORD, "outside")) for m in middles]
    with_legs = _most(edge, [i for i in edge.usable if not edge.knees_meet(i, prints)])
    return Seating(tuple(edge.seat(i) for i in with_legs), len(_most(edge, edge.usable)))


def knee_room(outline: Outline, foot: Foot, middles: Sequence[Point]) -> float:
    """Return the share of the edge at which somebody's knees would be clear of the legs."""
    edge = _edge_of(outline, PLACE)
    usable = edge.usable
    if not usable:
        return 0.0
    prints = [Region.from_rings(foot.outside(m).points(CHORD, "outside")) for m in middles]
    return sum(not edge.knees_meet(i, prints) for i in usable) / len(usable)


@dataclass(frozen=True)
class _Edge:
    """The edge in even steps; place i is the stretch of `width` steps from step i.

    Attributes
    ----------
    points, inwards : (n, 2) array
        Of each step, and the unit vector into the top.
    width : int
        Steps that a place takes.
    """

    points: Array
    inwards: Array
    width: int

    @classmethod
    def walked(cls, path: Path, place: float) -> _Edge:
        per_place = max(2, round(place / _STEP))
        count = max(8, math.floor(path.length / place * per_place + 1e-9))
        points, inwards = [], []
        step, walked, wanted = path.length / count, 0.0, 0
        for segment in path.segments:
            length = segment.length
            while wanted < count and wanted * step < walked + length - 1e-9:
                share = (wanted * step - walked) / length
                here, ahead = segment.at(share), segment.at(share + 1e-4)
                points.append(tuple(here))
                inwards.append(tuple((ahead - here).unit().left))
                wanted += 1
            walked += length
        width = math.ceil(place / step - 1e-6)
        return cls(np.array(points), np.array(inwards), width)

    @cached_property
    def usable(self) -> list[int]:
        """The places that do not reach round a corner."""
        if self.width >= len(self.points):
            return []
        sharp = self._sharp_steps()
        return [
            i
            for i in range(len(self.points))
            if not sharp[self._steps(i)[: -_CORNER - 1]].any() and self._bulge(i) <= BULGE
        ]

    def _steps(self, i: int) -> NDArray[np.intp]:
        return np.arange(i, i + self.width + 1) % len(self.points)

    def _sharp_steps(self) -> NDArray[np.bool_]:
        """Return at which steps the edge has turned too far a little farther on."""
        on = np.roll(self.inwards, -_CORNER, axis=0)
        turned = np.arccos(np.clip((self.inwards * on).sum(axis=1), -1.0, 1.0))
        sharp: NDArray[np.bool_] = turned > SHARPEST
        return sharp

    def _bulge(self, i: int) -> float:
        """Return how far the edge of place i stands off its chord, mm."""
        stretch = self.points[self._steps(i)]
        chord = stretch[-1] - stretch[0]
        off = stretch - stretch[0]
        across = off[:, 0] * chord[1] - off[:, 1] * chord[0]
        return float(np.abs(across).max() / np.hypot(*chord))

    def area(self, i: int) -> Region:
        """Return what a place covers: its edge, and as deep as a plate and hands reach."""
        steps = self._steps(i)
        outer = self.points[steps]
        inwards = self.inwards[steps]
        if inwards[-1] @ inwards[-2] < math.cos(SHARPEST):  # it ends at a corner
            inwards[-1] = inwards[-2]
        inner = outer[::-1] + inwards[::-1] * DEPTH
        return Region.from_rings(convex_hull(np.vstack([outer, inner])))

    def knees_meet(self, i: int, prints: Sequence[Region]) -> bool:
        """Return whether a leg stands where the knees of place i go."""
        seat = self.seat(i)
        ahead = Point.polar(1.0, seat.towards)
        beside = ahead.left * (KNEES[0] / 2)
        near, far = seat.place, seat.place + ahead * KNEES[1]
        ring = [near + -beside, near + beside, far + beside, far + -beside]
        knees = Region.from_rings(np.array([tuple(p) for p in ring]))
        return any(knees.meet(print_).area > 1.0 for print_ in prints)

    def seat(self, i: int) -> Seat:
        """Return where the diner of place i sits."""
        middle = (i + self.width // 2) % len(self.points)
        x, y = np.round(self.points[middle], 6) + 0.0
        inwards = self.inwards[self._steps(i)[:-1]].mean(axis=0)
        return Seat(Point(float(x), float(y)), math.atan2(inwards[1], inwards[0]))


@lru_cache(maxsize=8)
def _edge_of(outline: Outline, place: float) -> _Edge:
    """Return the edge of a top, walked once for all arrangements of legs under it."""
    return _Edge.walked(outline.path(), place)


def _most(edge: _Edge, usable: Sequence[int]) -> list[int]:
    """Return as many places as stand beside each other without overlap.

    After each place the next that fits is the best next, so a chain from every start finds the
    most. Of chains as long, the one that lies most evenly about the middle is taken.
    """
    if not usable:
        return []
    count = len(edge.points)
    areas = {i: edge.area(i) for i in usable}
    order = [*usable, *(i + count for i in usable)]

    def clear(i: int, j: int) -> bool:
        return areas[i % count].meet(areas[j % count]).area <= _TOUCH

    def next_after(i: int) -> int:
        first = bisect_left(order, i + edge.width)
        return next((j for j in order[first:] if clear(i, j)), 2 * count)

    following = {i: next_after(i) for i in usable}

    def chain_from(start: int) -> list[int]:
        chain = [start]
        while True:
            last = chain[-1]
            after = following[last % count] + (last - last % count)
            if after + edge.width > start + count or not clear(after, start):
                return [i % count for i in chain]
            chain.append(after)

    def uneven(chain: list[int]) -> float:
        middle = edge.points[[(i + edge.width // 2) % count for i in chain]].mean(axis=0)
        return round(float(np.hypot(*middle)), 3)

    return min((chain_from(start) for start in usable), key=lambda c: (-len(c), uneven(c), c[0]))
