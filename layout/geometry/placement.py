"""Where a shape lies: a turn about its own origin, then a move."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .point import ORIGIN, Point

Points = NDArray[np.float64]
"""An (n, 2) array of points, mm; `Point.of` makes a point of a row."""


def array_of(points: Iterable[Point]) -> Points:
    """Return points as an array."""
    return np.array([(p.x, p.y) for p in points], dtype=np.float64).reshape(-1, 2)


@dataclass(frozen=True, slots=True)
class Placement:
    """A rigid motion that turns by `turn` about the origin and moves the origin to `centre`."""

    centre: Point = ORIGIN
    """Where the shape's own origin comes to lie, mm."""
    turn: float = 0.0
    """Radians anticlockwise."""

    def __call__(self, point: Point) -> Point:
        """Return where a point of the shape comes to lie."""
        return point.turned(self.turn) + self.centre

    def of(self, points: Points) -> Points:
        """Return where the points, (n, 2) mm, come to lie."""
        cos, sin = math.cos(self.turn), math.sin(self.turn)
        rotation = np.array([[cos, sin], [-sin, cos]])
        moved: Points = points @ rotation + np.array([self.centre.x, self.centre.y])
        return moved

    def into(self, point: Point) -> Point:
        """Return, in the shape's own frame, a point given outside it."""
        return (point - self.centre).turned(-self.turn)

    @property
    def inverse(self) -> Placement:
        """The motion that takes every placed point back into the shape's own frame."""
        return Placement(self.into(ORIGIN), -self.turn)

    def then(self, other: Placement) -> Placement:
        """Return the motion that does this one first and `other` after it."""
        return Placement(other(self.centre), self.turn + other.turn)
