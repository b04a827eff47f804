"""The rectangle: straight edges and square corners."""

from __future__ import annotations

from dataclasses import dataclass

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.tolerance import CURVE
from .base import Sized
from .round_corners import round_cornered


@dataclass(frozen=True, slots=True)
class Rectangle(Sized):
    """A top with four square corners."""

    name = "rectangle"
    is_boxed = True

    @property
    def corners(self) -> tuple[Point, ...]:
        """Those of its box."""
        return self.bounds.corners

    @property
    def area(self) -> float:
        """Length times width, mm²."""
        return self.length * self.width

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return 2 * (self.length + self.width)

    def path(self) -> Path:
        """Return its four edges, anticlockwise from the corner at the lower left."""
        return round_cornered(self.length, self.width, (0.0, 0.0, 0.0, 0.0))

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line: outside, its corners are arcs of radius `distance`."""
        length, width = self.length + 2 * distance, self.width + 2 * distance
        self.require_left(distance)
        return round_cornered(length, width, (max(distance, 0.0),) * 4)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        reach = Point.polar(1.0, direction)
        return (abs(reach.x) * self.length + abs(reach.y) * self.width) / 2
