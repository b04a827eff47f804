"""Places at the edge of a top: where one person can sit, and how many beside each other."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ..geometry import Bounds, Path, Placement, Point, Region, array_of, at_most, first_of_best
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import ROUNDING, SAME_PLACE
from ..units import MM_PER_INCH

Array = NDArray[np.float64]

DEPTH = 14 * MM_PER_INCH
"""Depth of a place, mm: 14 in (Panero and Zelnik); on a narrower top no farther than the centreline
that the diner faces, where plates meet."""

KNEES = (400.0, 300.0)
"""Width and depth from the edge that knees take, mm (our choice)."""

BULGE = 130.0
"""Most that the edge of a place may bulge, mm: a round end 720 wide will do (our choice)."""

SHARPEST = math.radians(30)
"""Most that the edge of a place may turn within 100 mm, radians: nobody sits at a corner (our
choice)."""

BLUNT = math.radians(61)
"""A corner that turns no farther, like a hexagon's, may lie beside a diner (our choice)."""

STRAIGHT_AHEAD = 360.0
"""How much of the edge has no corner before a diner, mm: about the shoulders (our choice)."""

_STEP = 20.0
"""How finely the edge is walked, mm."""

_TOUCH = 100.0
"""Places that share less than this are beside each other, mm²."""

_EASINGS = 3
"""How often the places are moved apart, each in its free run."""

_CORNER = 5
"""Steps within which the edge must not turn too far."""


@dataclass(frozen=True, slots=True)
class Seat:
    """One place at the table."""

    place: Point
    """The middle of its stretch of the edge, mm from the centre of the top."""
    towards: float = field(metadata={"unit": "rad"})
    """Which way the diner faces, radians."""


@dataclass(frozen=True)
class Edge:
    """The edge in even steps; place i is the stretch of `width` steps from step i."""

    points: Array
    inwards: Array
    """(n, 2) array: of each step, and the unit vector into the top."""
    width: int
    """Steps that a place takes."""

    @classmethod
    def walked(cls, path: Path, place: float) -> Edge:
        """Return the edge of a closed path, for places that take `place` mm of it."""
        per_place = max(2, round(place / _STEP))
        count = max(8, math.floor(path.length / place * per_place + 1e-9))
        points, inwards = [], []
        for segment, share in path.stations(count):
            here, ahead = segment.at(share), segment.at(share + 1e-4)
            points.append(here)
            inwards.append((ahead - here).unit().left)
        width = math.ceil(place * count / path.length - 1e-6)
        return cls(array_of(points), array_of(inwards), width)

    @cached_property
    def usable(self) -> list[int]:
        """The places that do not reach round a corner."""
        if self.width >= len(self.points):
            return []
        sharp, blunt = self._sharp_steps(), self._blunt_steps()
        beside = (self.width - STRAIGHT_AHEAD / self._step) / 2
        ahead = slice(math.ceil(beside - 1e-9), math.floor(self.width - beside + 1e-9))
        return [
            i
            for i in range(len(self.points))
            if not sharp[self._steps(i)[: -_CORNER - 1]].any()
            and not blunt[self._steps(i)[ahead]].any()
            and at_most(self._bulge(i), BULGE)
        ]

    @property
    def _step(self) -> float:
        """The way from one point to the next, mm; less where a corner lies between them."""
        return float(np.hypot(*(np.roll(self.points, -1, axis=0) - self.points).T).max())

    def _steps(self, i: int) -> NDArray[np.intp]:
        return np.arange(i, i + self.width + 1) % len(self.points)

    def _sharp_steps(self) -> NDArray[np.bool_]:
        """Return at which steps the edge has turned too far a little farther on.

        A blunt corner alone is not too far.
        """
        sharp: NDArray[np.bool_] = self._turned(_CORNER) > SHARPEST + ROUNDING
        blunt = self._blunt_steps()
        near = np.any([np.roll(blunt, -k) for k in range(_CORNER)], axis=0)
        far: NDArray[np.bool_] = sharp & ~near
        return far

    def _blunt_steps(self) -> NDArray[np.bool_]:
        """Return after which steps the edge has a corner that turns from 30° to 61°."""
        turned = self._turned(1)
        blunt: NDArray[np.bool_] = (turned > SHARPEST + ROUNDING) & (turned <= BLUNT)
        return blunt

    def _turned(self, steps: int) -> Array:
        """Return how far the edge has turned so many steps on, radians."""
        on = np.roll(self.inwards, -steps, axis=0)
        turned: Array = np.arccos(np.clip((self.inwards * on).sum(axis=1), -1.0, 1.0))
        return turned

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
        mean = np.abs(inwards.mean(axis=0))
        faced = first_of_best((0, 1), lambda k: float(mean[k]), tolerance=ROUNDING)
        to_middle = np.abs(outer[:, faced]) / np.maximum(np.abs(inwards[:, faced]), 1e-9)
        # the edge of a hollow top may lie on its centreline, or have that behind it
        to_middle[outer[:, faced] * inwards[:, faced] > -1.0] = DEPTH
        inner = outer + inwards * np.minimum(DEPTH, to_middle)[:, None]
        return Region.from_rings(convex_hull(np.vstack([outer, inner])))

    def clear(self, i: int, j: int) -> bool:
        """Return whether two places do not overlap; each pair is worked out once."""
        known = self._clear.get((i, j))
        if known is None:
            (one, reach), (other, farther) = self._covered(i), self._covered(j)
            apart = one.centroid.distance_to(other.centroid) > reach + farther
            known = self._clear[i, j] = apart or one.meet(other).area <= _TOUCH
        return known

    @cached_property
    def _clear(self) -> dict[tuple[int, int], bool]:
        return {}

    def _covered(self, i: int) -> tuple[Region, float]:
        """Return what a place covers, and how far that reaches from its centroid, mm."""
        if i not in self._areas:
            area = self.area(i)
            off = area.exterior - np.array(tuple(area.centroid))
            self._areas[i] = area, float(np.hypot(*off.T).max())
        return self._areas[i]

    @cached_property
    def _areas(self) -> dict[int, tuple[Region, float]]:
        return {}

    def knees_meet(self, i: int, prints: Sequence[Region]) -> bool:
        """Return whether a leg stands where the knees of place i go."""
        seat = self.seat(i)
        wide, deep = KNEES
        middle = Region.at(seat.place + Point.polar(deep / 2, seat.towards))
        near = [one for one in prints if one.distance_to(middle) < math.hypot(wide, deep) / 2]
        if not near:
            return False
        room = Path.round_box(Bounds(0.0, -wide / 2, deep, wide / 2))
        knees = Region.of(room.placed(Placement(seat.place, seat.towards)))
        return any(knees.meet(one).area > 1.0 for one in near)

    def seat(self, i: int) -> Seat:
        """Return where the diner of place i sits."""
        middle = (i + self.width // 2) % len(self.points)
        place = Point.of(np.round(self.points[middle], 6) + 0.0)
        inwards = self.inwards[self._steps(i)[:-1]].mean(axis=0)
        return Seat(place, math.atan2(inwards[1], inwards[0]))


def most_places(edge: Edge, usable: Sequence[int]) -> list[int]:
    """Return as many places as stand beside each other without overlap.

    After each place the next that fits is the best next, so a chain from every start finds the
    most. Of chains as long, the one that lies most evenly about the middle is taken, and each place
    then moved to the middle of the room it has.
    """
    if not usable:
        return []
    search = _Chains(edge, usable)
    chains = (search.chain_from(start) for start in usable)
    best = first_of_best(
        chains,
        lambda c: (float(len(c)), -search.uneven(c)),
        lambda c: (float(c[0]),),
        tolerance=(0.0, SAME_PLACE),
    )
    return search.eased(best)


class _Chains:
    """Rows of places round an edge, each the first that fits after the one before."""

    def __init__(self, edge: Edge, usable: Sequence[int]) -> None:
        self.edge, self.usable = edge, set(usable)
        self.count = len(edge.points)
        self.order = [*usable, *(i + self.count for i in usable)]
        self.following = {i: self._next_after(i) for i in usable}

    def _clear(self, i: int, j: int) -> bool:
        return self.edge.clear(*sorted((i % self.count, j % self.count)))

    def _next_after(self, i: int) -> int:
        first = bisect_left(self.order, i + self.edge.width)
        return next((j for j in self.order[first:] if self._clear(i, j)), 2 * self.count)

    def chain_from(self, start: int) -> list[int]:
        """Return the places from this one on, once round."""
        count, chain = self.count, [start]
        while True:
            last = chain[-1]
            after = self.following[last % count] + (last - last % count)
            if after + self.edge.width > start + count or not self._clear(after, start):
                return [i % count for i in chain]
            chain.append(after)

    def uneven(self, chain: list[int]) -> float:
        """Return how far the middle of the places lies from that of the top, mm."""
        middles = [(i + self.edge.width // 2) % self.count for i in chain]
        return float(np.hypot(*self.edge.points[middles].mean(axis=0)))

    def eased(self, chain: list[int]) -> list[int]:
        """Return the chain with each place in the middle of its room between its neighbours."""
        held = list(chain)
        for _ in range(_EASINGS):
            for k, place in enumerate(held):
                beside = {held[k - 1], held[(k + 1) % len(held)]} - {place}
                ahead, back = (self._room(place, way, beside) for way in (1, -1))
                held[k] = (place + (ahead - back) // 2) % self.count
        return held

    def _room(self, place: int, way: int, beside: set[int]) -> int:
        """Return how many steps a place may be moved until it meets something."""
        for steps in range(self.count // 2):
            at = (place + (steps + 1) * way) % self.count
            if at not in self.usable or not all(self._clear(at, other) for other in beside):
                return steps
        return self.count // 2
