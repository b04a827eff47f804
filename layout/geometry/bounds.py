"""An upright box round something."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .placement import Points
from .point import Point
from .tolerance import ROUNDING


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

    @classmethod
    def about(cls, middle: Point, across: float, up: float | None = None) -> Bounds:
        """Return the box that reaches so far from its middle each way; square without `up`."""
        up = across if up is None else up
        return cls(middle.x - across, middle.y - up, middle.x + across, middle.y + up)

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

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its corners, anticlockwise from the lower left."""
        lower = Point(self.left, self.bottom), Point(self.right, self.bottom)
        return (*lower, Point(self.right, self.top), Point(self.left, self.top))

    def moved(self, by: Point) -> Bounds:
        """Return the box moved by a vector."""
        return Bounds(self.left + by.x, self.bottom + by.y, self.right + by.x, self.top + by.y)

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

    def shared(self, other: Bounds) -> tuple[float, float]:
        """Return how wide and how high what both hold is; below 0 where they lie apart."""
        return (
            min(self.right, other.right) - max(self.left, other.left),
            min(self.top, other.top) - max(self.bottom, other.bottom),
        )

    def holds(self, point: Point, by: float = 0.0) -> bool:
        """Return whether a point lies at least `by`, mm, inside."""
        by -= ROUNDING
        return (
            self.left + by <= point.x <= self.right - by
            and self.bottom + by <= point.y <= self.top - by
        )

    def holds_points(self, points: Points) -> NDArray[np.bool_]:
        """Return for each of the points, (n, 2) mm, whether it lies within, edges included."""
        x, y = points.T
        level = (x >= self.left - ROUNDING) & (x <= self.right + ROUNDING)
        held: NDArray[np.bool_] = level & (y >= self.bottom - ROUNDING) & (y <= self.top + ROUNDING)
        return held

    def holds_box(self, other: Bounds) -> bool:
        """Return whether a box lies within, edges included."""
        low, high = Point(other.left, other.bottom), Point(other.right, other.top)
        return self.holds(low) and self.holds(high)
