"""The circle."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Self

from ..geometry import ORIGIN, Path, Point, circle
from ..geometry.tolerance import CURVE
from .base import LEAST, Outline, require, require_figures


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
