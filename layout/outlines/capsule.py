"""The circle, and the capsule (racetrack, round-ended): two half circles joined by straights."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Self

from ..geometry import ORIGIN, Arc, Bounds, Line, Path, Point, circle
from ..geometry.tolerance import CURVE
from .base import LEAST, Outline, Sized, require, require_figures


@dataclass(frozen=True, slots=True)
class Circle(Outline):
    """A round top.

    Raises
    ------
    OutlineError
        If it is not.
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

    @property
    def is_round(self) -> bool:
        """It is."""
        return True

    @property
    def swung(self) -> tuple[tuple[float, tuple[Point, ...]], ...]:
        """All of it is swung about its centre."""
        return ((self.radius, (ORIGIN,)),)

    def tightest(self, inside: float = 0.0) -> float:
        """Return its radius so far inside, mm."""
        return self.radius - inside

    @property
    def length(self) -> float:
        """The diameter, mm."""
        return self.diameter

    @property
    def width(self) -> float:
        """The diameter, mm."""
        return self.diameter

    @property
    def radius(self) -> float:
        """Half the diameter, mm."""
        return self.diameter / 2

    @property
    def area(self) -> float:
        """The area, mm²."""
        return math.pi * self.radius**2

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return math.pi * self.diameter

    def path(self) -> Path:
        """Return two half circles, anticlockwise from the rightmost point."""
        return circle(ORIGIN, self.radius)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the circle `distance` outside, exact."""
        radius = self.radius + distance
        require(
            radius > 0, f"{-distance:g} mm inside a circle of radius {self.radius:g} mm is nothing"
        )
        return circle(ORIGIN, radius)

    def support(self, direction: float) -> float:
        """Return the radius: a circle reaches as far everywhere."""
        return self.radius

    def resized(self, length: float, width: float) -> Self:
        """Return a circle of another diameter; both sizes must be that diameter."""
        require(
            math.isclose(length, width, rel_tol=1e-9),
            f"a circle is as long as wide, not {length:g} by {width:g} mm",
        )
        return type(self)((length + width) / 2)


@dataclass(frozen=True, slots=True)
class Capsule(Sized):
    """A top with straight sides and half-round ends; one as long as wide is a circle."""

    name = "capsule"

    @property
    def swung(self) -> tuple[tuple[float, tuple[Point, ...]], ...]:
        """Its ends, about one centre where it is as long as wide."""
        return ((self.radius, self.arc_centres or (ORIGIN,)),)

    @property
    def arc_centres(self) -> tuple[Point, ...]:
        """The middles of its ends."""
        half = self.straight / 2
        return (Point(-half, 0), Point(half, 0)) if half else ()

    def tangents(self, inside: float = 0.0) -> tuple[Point, ...]:
        """Return where its ends begin."""
        half = self.straight / 2
        return Bounds.about(ORIGIN, half, self.radius - inside).corners if half else ()

    def tightest(self, inside: float = 0.0) -> float:
        """Return the radius of its ends so far inside, mm."""
        return self.radius - inside

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
        """Return straights and half circles, anticlockwise from the start of the lower straight."""
        return self._of_radius(self.radius)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line: a capsule with the same end centres."""
        self.require_left(distance)
        return self._of_radius(self.radius + distance)

    def _of_radius(self, radius: float) -> Path:
        if self.straight == 0:
            return Circle(2 * radius).path()
        x, quarter = self.straight / 2, math.pi / 2
        return Path(
            (
                Line(Point(-x, -radius), Point(x, -radius)),
                Arc(ORIGIN + Point(x, 0), radius, -quarter, math.pi),
                Line(Point(x, radius), Point(-x, radius)),
                Arc(ORIGIN + Point(-x, 0), radius, quarter, math.pi),
            )
        )

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return abs(math.cos(direction)) * self.straight / 2 + self.radius
