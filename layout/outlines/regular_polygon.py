"""The hexagon and the octagon: regular, with straight edges and equal corners."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from ..geometry import Path, Point
from ..geometry.parallel import parallel_of_path
from ..geometry.tolerance import CURVE
from .base import LEAST, Outline, require, require_figures

_NAMES = {6: "hexagon", 8: "octagon"}


@dataclass(frozen=True, slots=True)
class RegularPolygon(Outline):
    """A regular top of six or eight sides.

    A hexagon has corners at both ends of its long axis; an octagon has flats at the ends of both
    axes. Raises an OutlineError if the number of sides is another, or the size is not above 0.
    """

    sides: int
    """6 or 8."""
    across_flats: float
    """From one edge to the opposite one, mm, above 0."""

    def __post_init__(self) -> None:
        require_figures(self, "across_flats", "sides")
        object.__setattr__(self, "sides", int(self.sides))
        require(self.sides in _NAMES, f"a regular top has 6 or 8 sides, not {self.sides}")
        require(
            self.across_flats >= LEAST,
            f"a {self.name} needs a size across its flats above 0, not {self.across_flats:g} mm",
        )

    free_sizes = 1

    @property
    def figures(self) -> Mapping[str, float]:
        """Its sides, and its sizes across flats and corners, mm."""
        return {
            "sides": self.sides,
            "across_flats": self.across_flats,
            "across_corners": self.across_corners,
        }

    @property
    def name(self) -> str:
        """The trade's word."""
        return _NAMES[self.sides]

    @property
    def length(self) -> float:
        """A hexagon's size across its corners, an octagon's across its flats, mm."""
        return self.across_corners if self.sides == 6 else self.across_flats

    @property
    def width(self) -> float:
        """The size across the flats, mm."""
        return self.across_flats

    @property
    def across_corners(self) -> float:
        """From one corner to the opposite one, mm: across the flats over cos(π/n)."""
        return self.across_flats / math.cos(math.pi / self.sides)

    @property
    def circumradius(self) -> float:
        """The radius of the circle through its corners, mm; a hexagon's sides are as long."""
        return self.across_corners / 2

    @property
    def side(self) -> float:
        """The length of an edge, mm: across the flats times tan(π/n)."""
        return self.across_flats * math.tan(math.pi / self.sides)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners, anticlockwise from the left end of the lower edge, mm."""
        half, flat = self.side / 2, self.across_flats / 2
        lower = (Point(-half, -flat), Point(half, -flat))
        right = (
            (Point(self.circumradius, 0.0),)
            if self.sides == 6
            else (Point(flat, -half), Point(flat, half))
        )
        first = (*lower, *right)
        return (*first, *(-corner for corner in first))

    @property
    def area(self) -> float:
        """Half the way round times half the size across the flats, mm²."""
        return self.perimeter * self.across_flats / 4

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return self.sides * self.side

    def path(self) -> Path:
        """Return its edges, anticlockwise from the left end of the lower one."""
        return Path.through(self.corners, closed=True)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line: outside, its corners are arcs of radius `distance`."""
        self.require_left(distance)
        if distance <= 0:
            return type(self)(self.sides, self.width + 2 * distance).path()
        return parallel_of_path(self.path(), distance, tolerance)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        way = Point.polar(1.0, direction)
        return max(way.dot(corner) for corner in self.corners)

    def resized(self, length: float, width: float) -> Self:
        """Return one of another size; both sizes must be those of one regular top.

        Raises an OutlineError if they are not.
        """
        top = type(self)(self.sides, width)
        require(
            math.isclose(top.length, length, rel_tol=1e-9),
            f"a {self.name} {width:g} mm wide is {top.length:g} mm long, not {length:g}",
        )
        return top
