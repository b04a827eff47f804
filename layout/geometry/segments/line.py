"""The straight line."""

from __future__ import annotations

from dataclasses import dataclass

from ..bounds import Bounds
from ..placement import Placement
from ..point import ORIGIN, Point
from .stepping import Swept, swapped


@dataclass(frozen=True, slots=True)
class Line:
    """The straight way from `start` to `end`."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """The distance between the ends."""
        return self.start.distance_to(self.end)

    @property
    def direction(self) -> Point:
        """The unit vector from start to end."""
        return (self.end - self.start).unit()

    @property
    def swept_area(self) -> float:
        """Half of ∮ x dy − y dx along the segment (Green): its share of a closed path's area."""
        return self.start.cross(self.end) / 2

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        return Bounds.around((self.start, self.end))

    def at(self, share: float) -> Point:
        """Return the point at this share of the way, 0 to 1."""
        return self.start + (self.end - self.start) * share

    def part(self, first: float, last: float) -> Line:
        """Return what lies between two shares of the way."""
        return Line(self.at(first), self.at(last))

    def pace(self, share: float) -> Point:
        """Return how the point at this share moves as the share grows, mm."""
        return self.end - self.start

    def reversed(self) -> Line:
        """Return the same line run the other way."""
        return Line(self.end, self.start)

    def placed(self, placement: Placement) -> Line:
        """Return the line moved and turned."""
        return Line(placement(self.start), placement(self.end))

    def scaled(self, factor: float) -> Line:
        """Return the line scaled about the origin."""
        return Line(self.start * factor, self.end * factor)

    def mirrored(self) -> Line:
        """Return the line with left and right swapped (x becomes −x)."""
        return Line(swapped(self.start), swapped(self.end))

    def parallel(self, distance: float) -> Line:
        """Return the line at `distance` to the right."""
        shift = self.direction.left * -distance
        return Line(self.start + shift, self.end + shift)

    @property
    def swept(self) -> Swept:
        """Its start alone: the corner of a polygon."""
        return self.start, ORIGIN, ORIGIN, 0.0, 0.0
