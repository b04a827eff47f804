"""The rectangle: straight edges and square corners."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Self

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.tolerance import CURVE
from .base import Outline, require, require_figures, require_sizes
from .round_corners import round_cornered


@dataclass(frozen=True, slots=True)
class Rectangle(Outline):
    """A top with four square corners.

    Raises
    ------
    OutlineError
        If the sizes are not in that order.
    """

    length: float
    width: float
    """Overall, mm, with ``0 < width <= length``."""

    def __post_init__(self) -> None:
        require_figures(self, "length", "width")
        require_sizes("a rectangle", self.length, self.width)

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
        require(width > 0, f"{-distance:g} mm inside a rectangle {self.width:g} mm wide is nothing")
        return round_cornered(length, width, (max(distance, 0.0),) * 4)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        reach = Point.polar(1.0, direction)
        return (abs(reach.x) * self.length + abs(reach.y) * self.width) / 2

    def resized(self, length: float, width: float) -> Self:
        """Return a rectangle of another size."""
        return type(self)(length, width)
