"""An upright box round something."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from .point import Point


@dataclass(frozen=True, slots=True)
class Bounds:
    """The least upright rectangle round something, mm."""

    left: float
    bottom: float
    right: float
    top: float

    @classmethod
    def around(cls, points: Iterable[Point]) -> Bounds:
        """Return the bounds of at least one point."""
        held = list(points)
        xs, ys = [p.x for p in held], [p.y for p in held]
        return cls(min(xs), min(ys), max(xs), max(ys))

    @property
    def width(self) -> float:
        """The extent along x."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """The extent along y."""
        return self.top - self.bottom

    @property
    def middle(self) -> Point:
        """The point in the middle."""
        return Point((self.left + self.right) / 2, (self.bottom + self.top) / 2)

    def grown(self, by: float) -> Bounds:
        """Return the box with every side moved outwards by `by`."""
        return Bounds(self.left - by, self.bottom - by, self.right + by, self.top + by)

    def joined(self, other: Bounds) -> Bounds:
        """Return the least box that holds both."""
        return Bounds(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )
