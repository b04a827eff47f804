"""A rectangle at a turn, and the least one round points: how long a thing is, which way it lies."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from .alike import first_of_best
from .bounds import Bounds
from .placement import Placement, Points, array_of
from .point import ORIGIN, Point
from .polygon import Region, convex_hull
from .tolerance import AREA_BALANCE


@dataclass(frozen=True, slots=True)
class TurnedBox:
    """A rectangle that lies at a place and a turn."""

    centre: Point
    length: float
    width: float
    """mm, ``length >= width``."""
    turn: float = field(metadata={"unit": "rad"})
    """Of its length from x, radians, above −π/2 and up to π/2."""

    @classmethod
    def around(cls, points: Points) -> TurnedBox:
        """Return the least box round points, (n, 2) mm, that do not lie on one line.

        One side of it lies along a side of their convex hull (Freeman and Shapira, 1975), so each
        of those is tried; of boxes alike the one least turned from x. Raises a GeometryError if the
        points lie on one line.

        >>> box = TurnedBox.around(np.array([(0, 0), (40, 30), (34, 38), (-6, 8)], dtype=float))
        >>> round(box.length, 6), round(box.width, 6)
        (50.0, 10.0)
        """
        hull = convex_hull(points)
        turns, along, across = _along_sides(hull)
        areas, lengths = along * across, np.maximum(along, across)
        lies = [
            half_turn(float(turn)) for turn in np.where(across > along, turns + math.pi / 2, turns)
        ]
        best = first_of_best(
            range(len(turns)),
            lambda i: -float(areas[i]),
            lambda i: (abs(lies[i]) * float(lengths[i]), lies[i] * float(lengths[i])),
            tolerance=AREA_BALANCE * float(areas[0]),
        )
        return cls.turned(hull, float(turns[best]))

    @classmethod
    def turned(cls, points: Points, turn: float) -> TurnedBox:
        """Return the box round points whose sides lie along `turn` and square to it."""
        own = Placement(turn=-turn).of(points)
        low, high = own.min(axis=0), own.max(axis=0)
        middle = Placement(turn=turn)(Point.of((low + high) / 2))
        length, width = (float(v) for v in high - low)
        if width > length:
            length, width, turn = width, length, turn + math.pi / 2
        return cls(middle, length, width, half_turn(turn))

    @property
    def area(self) -> float:
        """Length times width, mm²."""
        return self.length * self.width

    @property
    def corners(self) -> Points:
        """Its corners, anticlockwise, (4, 2) mm."""
        own = Bounds.about(ORIGIN, self.length / 2, self.width / 2)
        return Placement(self.centre, self.turn).of(array_of(own.corners))

    @property
    def along(self) -> Point:
        """The unit vector along its length."""
        return Point.polar(1.0, self.turn)


def narrowest_strip(points: Points) -> float:
    """Return how wide the narrowest strip is that holds points, (n, 2) mm; 0 of a line."""
    hull = Region.hull(points)
    return float(_along_sides(hull.exterior)[2].min()) if hull.area else 0.0


def _along_sides(hull: Points) -> NDArray[np.float64]:
    """Return the turn of each side of a hull, and how far the hull reaches along and across it."""
    sides = np.roll(hull, -1, axis=0) - hull
    turns = np.arctan2(sides[:, 1], sides[:, 0])
    way = np.stack([np.cos(turns), np.sin(turns)])
    across = way[::-1] * [[-1], [1]]
    return np.stack([turns, np.ptp(hull @ way, axis=0), np.ptp(hull @ across, axis=0)])


def half_turn(turn: float) -> float:
    """Return the turn of a line that has no direction: above −π/2 and up to π/2."""
    return math.pi / 2 - (math.pi / 2 - turn) % math.pi
