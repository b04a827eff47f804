"""The circle, and the capsule (racetrack, round-ended): two half circles joined by straights."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Self

from ..geometry import ORIGIN, Arc, Line, Path, Point, circle
from ..geometry.tolerance import CURVE
from .base import LEAST, Outline, Sized, require, require_figures


class _RoundEnded(Outline):
    """What both have alike: a circle has no straights."""

    __slots__ = ()

    @property
    def radius(self) -> float:
        """The radius of its ends: half the width, mm."""
        return self.width / 2

    @property
    def straight(self) -> float:
        """The length of each straight side, mm: also the distance between the end centres."""
        return self.length - self.width

    @property
    def area(self) -> float:
        """A circle and a rectangle between its halves, mm²."""
        return math.pi * self.radius**2 + self.straight * self.width

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return math.pi * self.width + 2 * self.straight

    def path(self) -> Path:
        """Return straights and half circles, anticlockwise from the start of the lower straight.

        One without straights begins at its rightmost point.
        """
        return self.parallel(0.0)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line: one with the same end centres."""
        self.require_left(distance)
        radius = self.radius + distance
        if self.straight == 0:
            return circle(ORIGIN, radius)
        x, quarter = self.straight / 2, math.pi / 2
        return Path(
            (
                Line(Point(-x, -radius), Point(x, -radius)),
                Arc(Point(x, 0.0), radius, -quarter, math.pi),
                Line(Point(x, radius), Point(-x, radius)),
                Arc(Point(-x, 0.0), radius, quarter, math.pi),
            )
        )

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return abs(math.cos(direction)) * self.straight / 2 + self.radius


@dataclass(frozen=True, slots=True)
class Circle(_RoundEnded):
    """A round top.

    Raises an OutlineError if it is not.
    """

    diameter: float
    """Positive, mm."""

    def __post_init__(self) -> None:
        require_figures(self, "diameter")
        require(
            self.diameter >= LEAST, f"a circle needs a diameter above 0, not {self.diameter:g} mm"
        )

    name = "circle"
    free_sizes = 1
    is_round = True

    @property
    def length(self) -> float:
        """The diameter, mm."""
        return self.diameter

    @property
    def width(self) -> float:
        """The diameter, mm."""
        return self.diameter

    def resized(self, length: float, width: float) -> Self:
        """Return a circle of another diameter; both sizes must be that diameter."""
        require(
            math.isclose(length, width, rel_tol=1e-9),
            f"a circle is as long as wide, not {length:g} by {width:g} mm",
        )
        return type(self)((length + width) / 2)


@dataclass(frozen=True, slots=True)
class Capsule(_RoundEnded, Sized):
    """A top with straight sides and half-round ends; one as long as wide is a circle."""

    name = "capsule"
