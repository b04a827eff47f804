"""The oval: a true ellipse."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Self

from ..geometry.ellipse import ellipse_perimeter, parallel_of_ellipse
from ..geometry.path import Path
from ..geometry.point import ORIGIN, Point
from ..geometry.segments import EllipticArc
from ..geometry.tolerance import CURVE
from .base import Outline, require, require_figures, require_sizes


@dataclass(frozen=True, slots=True)
class Oval(Outline):
    """A top bounded by an ellipse.

    Raises
    ------
    OutlineError
        If the sizes are not in that order.
    """

    length: float
    width: float
    """The whole axes, mm, with ``0 < width <= length``."""

    def __post_init__(self) -> None:
        require_figures(self, "length", "width")
        require_sizes("an oval", self.length, self.width)

    name = "oval"
    bends_everywhere = True

    @property
    def foci(self) -> tuple[Point, ...]:
        """The points from which the ways to its line add up to its length."""
        half = math.sqrt((self.length / 2) ** 2 - (self.width / 2) ** 2)
        return (Point(-half, 0), Point(half, 0)) if self.length > self.width else ()

    def tightest(self, inside: float = 0.0) -> float:
        """Return the least radius of its line so far inside, mm."""
        return max(self.tightest_radius - inside, 0.0)

    @property
    def area(self) -> float:
        """π/4 of length times width, mm²."""
        return math.pi * self.length * self.width / 4

    @property
    def perimeter(self) -> float:
        """The way round, mm, by the complete elliptic integral."""
        return ellipse_perimeter(self.length / 2, self.width / 2)

    @property
    def tightest_radius(self) -> float:
        """The radius of curvature at the ends, W²/(2L), mm."""
        return self.width**2 / (2 * self.length)

    def path(self) -> Path:
        """Return two elliptic half turns, anticlockwise from the right end."""
        half = (self.length / 2, self.width / 2, 0.0)
        return Path(
            (EllipticArc(ORIGIN, *half, 0.0, math.pi), EllipticArc(ORIGIN, *half, math.pi, math.pi))
        )

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the true parallel curve as circular arcs within `tolerance`, mm.

        It is no ellipse. Farther inside than W²/(2L) the two sides meet in a point on the long
        axis; the loops beyond that point are trimmed off.
        """
        require(
            self.width / 2 + distance > 0,
            f"{-distance:g} mm inside an oval {self.width:g} mm wide is nothing",
        )
        if distance == 0:
            return self.path()
        return parallel_of_ellipse(self.length / 2, self.width / 2, distance, tolerance)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return math.hypot(self.length * math.cos(direction), self.width * math.sin(direction)) / 2

    def resized(self, length: float, width: float) -> Self:
        """Return an oval of another size."""
        return type(self)(length, width)
