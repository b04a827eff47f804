"""The arc of a circle."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..bounds import Bounds
from ..placement import Placement
from ..point import Point
from .stepping import Swept, Swung, quarters, swapped


@dataclass(frozen=True, slots=True)
class Arc(Swung):
    """An arc of a circle."""

    centre: Point
    radius: float
    """Positive, mm."""
    from_angle: float
    """Where it starts, radians from x."""
    sweep: float
    """How far it turns, positive anticlockwise."""

    @classmethod
    def from_chord_and_rise(cls, start: Point, end: Point, rise: float) -> Arc:
        """Return the arc from `start` to `end` that stands `rise` off the chord in its middle.

        A positive rise lies to the right of the chord: outside of an anticlockwise boundary.
        The radius is c²/(8h) + h/2 for a chord c and a rise h (Hatfield, *The American
        House-Carpenter*, art. 518).

        >>> round(Arc.from_chord_and_rise(Point(0, 0), Point(96, 0), 12).radius, 9)
        102.0
        """
        chord, height = start.distance_to(end), abs(rise)
        radius = chord * chord / (8 * height) + height / 2
        side = math.copysign(1.0, rise)
        across = (end - start).unit().left * -side
        centre = start.midpoint(end) + across * (height - radius)
        half = 2 * math.atan2(2 * height, chord)
        return cls(centre, radius, (start - centre).angle, 2 * half * side)

    @property
    def length(self) -> float:
        """The length along the arc."""
        return self.radius * abs(self.sweep)

    @property
    def swept_area(self) -> float:
        """Half of ∮ x dy − y dx along the segment (Green): its chord and what bulges off it.

        A far centre takes no part in it, so that a flat arc loses no digits.
        """
        bulge = self.radius**2 * (self.sweep - math.sin(self.sweep))
        return (self.start.cross(self.end) + bulge) / 2

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        return Bounds.around(
            [self.start, self.end] + [self._on(a) for a in quarters(self.from_angle, self.sweep)]
        )

    def _on(self, angle: float) -> Point:
        return self.centre + Point.polar(self.radius, angle)

    def pace(self, share: float) -> Point:
        """Return how the point at this share moves as the share grows, mm."""
        angle = self.from_angle + self.sweep * share
        return Point.polar(self.radius * self.sweep, angle + math.pi / 2)

    def placed(self, placement: Placement) -> Arc:
        """Return the arc moved and turned."""
        turned = self.from_angle + placement.turn
        return Arc(placement(self.centre), self.radius, turned, self.sweep)

    def scaled(self, factor: float) -> Arc:
        """Return the arc scaled about the origin by a positive factor."""
        return replace(self, centre=self.centre * factor, radius=self.radius * factor)

    def mirrored(self) -> Arc:
        """Return the arc with left and right swapped (x becomes −x)."""
        return Arc(swapped(self.centre), self.radius, math.pi - self.from_angle, -self.sweep)

    @property
    def swept(self) -> Swept:
        """It as an arc of an ellipse whose axes are alike."""
        return (
            self.centre,
            Point(self.radius, 0.0),
            Point(0.0, self.radius),
            self.from_angle,
            self.sweep,
        )
