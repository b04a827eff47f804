"""The oval: a true ellipse."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import ORIGIN, EllipticArc, Path, Point
from ..geometry.ellipse import ellipse_perimeter, parallel_of_ellipse
from ..geometry.tolerance import CURVE
from .base import Sized


@dataclass(frozen=True, slots=True)
class Oval(Sized):
    """A top bounded by an ellipse: length and width are its whole axes."""

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
        self.require_left(distance)
        if distance == 0:
            return self.path()
        return parallel_of_ellipse(self.length / 2, self.width / 2, distance, tolerance)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return math.hypot(self.length * math.cos(direction), self.width * math.sin(direction)) / 2
