"""A point of the plane, which is also a vector from the origin."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Point:
    """A place, or the way from one place to another; x and y in mm."""

    x: float
    y: float

    @classmethod
    def of(cls, row: Iterable[float]) -> Point:
        """Return the point of a row of an array: two numbers of any kind."""
        x, y = row
        return cls(float(x), float(y))

    @classmethod
    def polar(cls, radius: float, angle: float) -> Point:
        """Return the point at `radius` from the origin, at `angle` from x."""
        return cls(radius * math.cos(angle), radius * math.sin(angle))

    def __iter__(self) -> Iterator[float]:
        yield self.x
        yield self.y

    def __add__(self, other: Point) -> Point:
        return Point(self.x + other.x, self.y + other.y)

    def __sub__(self, other: Point) -> Point:
        return Point(self.x - other.x, self.y - other.y)

    def __mul__(self, factor: float) -> Point:
        return Point(self.x * factor, self.y * factor)

    def __neg__(self) -> Point:
        return Point(-self.x, -self.y)

    def dot(self, other: Point) -> float:
        """Return the scalar product."""
        return self.x * other.x + self.y * other.y

    def cross(self, other: Point) -> float:
        """Return the z of the vector product: positive where `other` lies to the left."""
        return self.x * other.y - self.y * other.x

    @property
    def norm(self) -> float:
        """The distance from the origin."""
        return math.hypot(self.x, self.y)

    @property
    def angle(self) -> float:
        """The direction from the origin, in (−π, π]."""
        return math.atan2(self.y, self.x)

    @property
    def left(self) -> Point:
        """The vector turned a quarter to the left."""
        return Point(-self.y, self.x)

    def unit(self) -> Point:
        """Return the vector of length 1 in this direction; the zero vector has none and raises."""
        return self * (1.0 / self.norm)

    def turned(self, angle: float) -> Point:
        """Return this point turned anticlockwise about the origin."""
        cos, sin = math.cos(angle), math.sin(angle)
        return Point(cos * self.x - sin * self.y, sin * self.x + cos * self.y)

    def distance_to(self, other: Point) -> float:
        """Return the distance between two points."""
        return math.hypot(other.x - self.x, other.y - self.y)

    def midpoint(self, other: Point) -> Point:
        """Return the point half way to `other`."""
        return Point((self.x + other.x) / 2, (self.y + other.y) / 2)


ORIGIN = Point(0.0, 0.0)
