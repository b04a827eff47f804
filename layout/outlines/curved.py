"""Tops with round ends: circle and capsule, oval (a true ellipse) and superellipse."""

from __future__ import annotations

import math
from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from ..geometry import ORIGIN, Arc, Bounds, EllipticArc, Line, Path, Point, Points, circle
from ..geometry.oval_parallels import (
    ellipse_perimeter,
    parallel_of_ellipse,
    parallel_of_superellipse,
)
from ..geometry.superellipse import Quadrant, superellipse_polygon
from ..geometry.tolerance import CHORD, CURVE
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
        """Return straights and half circles, anticlockwise from the start of the lower one."""
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
    """A round top."""

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


class _Bent(Sized):
    """What both have alike: no arc and no straight."""

    __slots__ = ()
    bends_everywhere = True

    @property
    @abstractmethod
    def tightest_radius(self) -> float:
        """The least radius of curvature, mm."""

    def tightest(self, inside: float = 0.0) -> float:
        """Return the least radius of its line so far inside, mm."""
        return max(self.tightest_radius - inside, 0.0)


@dataclass(frozen=True, slots=True)
class Oval(_Bent):
    """A top bounded by an ellipse: length and width are its whole axes."""

    name = "oval"

    @property
    def foci(self) -> tuple[Point, ...]:
        """The points from which the ways to its line add up to its length."""
        half = math.sqrt((self.length / 2) ** 2 - (self.width / 2) ** 2)
        return (Point(-half, 0), Point(half, 0)) if self.length > self.width else ()

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


LEAST_EXPONENT, GREATEST_EXPONENT = 2.0, 20.0
"""From the ellipse to what the eye takes for a rectangle: at 20 a top of 2 m by 1 keeps 96.6 % of
each half-axis where its corner turns."""


@dataclass(frozen=True, slots=True)
class Superellipse(_Bent):
    """A top bounded by |2x/L|ⁿ + |2y/W|ⁿ = 1."""

    exponent: float
    """n, from 2 (an oval) to 20 (nearly a rectangle)."""

    def __post_init__(self) -> None:
        Sized.__post_init__(self)
        require_figures(self, "exponent")
        require(
            LEAST_EXPONENT <= self.exponent <= GREATEST_EXPONENT,
            f"a superellipse needs an exponent from {LEAST_EXPONENT:g} (an oval) to "
            f"{GREATEST_EXPONENT:g} (nearly a rectangle), not {self.exponent:g}",
        )

    name = "superellipse"

    @property
    def figures(self) -> Mapping[str, float]:
        """Its exponent."""
        return {"exponent": self.exponent}

    @property
    def on_diagonals(self) -> tuple[Point, ...]:
        """Its points on the diagonals of its box."""
        share = 0.5 ** (1 / self.exponent)
        return Bounds.about(ORIGIN, self.length / 2 * share, self.width / 2 * share).corners

    @property
    def curve(self) -> Quadrant:
        """Its quarter between the positive half-axes."""
        return Quadrant(self.length / 2, self.width / 2, self.exponent)

    @property
    def area(self) -> float:
        """Length times width times Γ(1 + 1/n)² / Γ(1 + 2/n), mm² (Dirichlet's integral)."""
        n = self.exponent
        return self.length * self.width * math.gamma(1 + 1 / n) ** 2 / math.gamma(1 + 2 / n)

    @property
    def perimeter(self) -> float:
        """The way round, mm, to 1e-10 of it."""
        return 4 * self.curve.length

    @property
    def tightest_radius(self) -> float:
        """The least radius of curvature, mm; the curve takes it once in each quarter."""
        curve = self.curve
        return 1 / curve.bend(curve.tightest)

    def path(self) -> Path:
        """Return arcs with common tangents within `CURVE` of it, anticlockwise from the right."""
        return parallel_of_superellipse(self.curve, 0.0, CURVE)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the true parallel curve as circular arcs within `tolerance`, mm.

        Farther inside than the tightest radius it has a corner in each quarter, and farther still
        one at each end of the long axis.
        """
        self.require_left(distance)
        return parallel_of_superellipse(self.curve, distance, tolerance)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return self.curve.support(Point.polar(1.0, direction))

    def inner(self, tolerance: float = CHORD) -> Points:
        """Return a polygon of chords of the curve itself, not of the arcs drawn for it."""
        return superellipse_polygon(self.curve, tolerance, "inside")

    def outer(self, tolerance: float = CHORD) -> Points:
        """Return a polygon of tangents to the curve itself, not to the arcs drawn for it."""
        return superellipse_polygon(self.curve, tolerance, "outside")
