"""The least box round points, whichever way it lies: how long a thing is, how wide, which way."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from .placement import Placement, Points
from .point import Point
from .polygon import convex_hull


@dataclass(frozen=True, slots=True)
class LeastBox:
    """A box of the least area round some points.

    Attributes
    ----------
    centre : Point
    length, width : float
        mm, ``length >= width``.
    turn : float
        Of its length from x, radians, above −π/2 and up to π/2.
    """

    centre: Point
    length: float
    width: float
    turn: float = field(metadata={"unit": "rad"})

    @classmethod
    def around(cls, points: Points) -> LeastBox:
        """Return the least box round points, (n, 2) mm, that do not lie on one line.

        One side of it lies along a side of their convex hull (Freeman and Shapira, 1975), so each
        of those is tried.

        Raises
        ------
        GeometryError
            If the points lie on one line.

        Examples
        --------
        >>> box = LeastBox.around(np.array([(0, 0), (40, 30), (34, 38), (-6, 8)], dtype=float))
        >>> round(box.length, 6), round(box.width, 6)
        (50.0, 10.0)
        """
        hull = convex_hull(points)
        sides = np.roll(hull, -1, axis=0) - hull
        turns = np.arctan2(sides[:, 1], sides[:, 0])
        return min((cls.turned(hull, float(turn)) for turn in turns), key=_area)

    @classmethod
    def turned(cls, points: Points, turn: float) -> LeastBox:
        """Return the box round points whose sides lie along `turn` and square to it."""
        own = Placement(turn=-turn).of(points)
        low, high = own.min(axis=0), own.max(axis=0)
        middle = Placement(turn=turn)(Point(*(float(v) for v in (low + high) / 2)))
        length, width = (float(v) for v in high - low)
        if width > length:
            length, width, turn = width, length, turn + math.pi / 2
        half = math.pi / 2
        return cls(middle, length, width, half - (half - turn) % math.pi)

    @property
    def along(self) -> Point:
        """The unit vector along its length."""
        return Point.polar(1.0, self.turn)


def _area(box: LeastBox) -> float:
    return box.length * box.width
