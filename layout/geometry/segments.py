"""The pieces that a path is made of: straight lines, circular arcs and elliptic arcs, all exact.

A segment runs from `start` to `end`; a sweep is positive anticlockwise; the parallel at a positive
distance lies to the right: outside of a closed path that runs anticlockwise.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from .bounds import Bounds
from .placement import Placement
from .point import ORIGIN, Point
from .stepping import Swept, Swung, swapped


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
    def axes(self) -> tuple[Point, Point]:
        """The radius along x, and along y."""
        return Point(self.radius, 0.0), Point(0.0, self.radius)

    @property
    def length(self) -> float:
        """The length along the arc."""
        return self.radius * abs(self.sweep)

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


_NEAR = 1e-9
"""How near a length along an arc is met, mm."""

_STEPS = 60
"""Halvings alone would meet it in so many steps."""


@dataclass(frozen=True, slots=True)
class EllipticArc(Swung):
    """An arc of an ellipse, by its eccentric angle.

    The point at eccentric angle t is ``(a cos t, b sin t)`` in the ellipse's own frame, which is
    turned by `turn` about `centre`.
    """

    centre: Point
    half_length: float
    half_width: float
    """The half-axes a and b, mm, positive."""
    turn: float
    """Direction of the first axis, radians from x."""
    from_angle: float
    sweep: float
    """Eccentric angle of the start, and how far it runs, positive anticlockwise."""

    @property
    def axes(self) -> tuple[Point, Point]:
        """Its half-axes as vectors.

        An ellipse is a circle seen askew: chords and tangents stay what they are, and no
        distance grows beyond that on a circle of the longer half-axis.
        """
        u, v = Point(self.half_length, 0.0), Point(0.0, self.half_width)
        return u.turned(self.turn), v.turned(self.turn)

    @property
    def length(self) -> float:
        """The length along the arc, by the incomplete elliptic integral (DLMF 19.30.3)."""
        from scipy.special import ellipeinc

        long, short = self.half_length, self.half_width
        parameter = 1 - (long / short) ** 2
        ends = ellipeinc([self.from_angle + self.sweep, self.from_angle], parameter)
        return float(short * abs(ends[0] - ends[1]))

    def share_after(self, passed: float) -> float:
        """Return the share of the sweep at which this share of the length is passed.

        The eccentric angle does not run with the length: it is slow at the flat sides. Newton's
        steps find the share, and a bracket keeps them in where the ellipse is long.
        """
        due, low, high, share = passed * self.length, 0.0, 1.0, passed
        for _ in range(_STEPS):
            off = self.part(0.0, share).length - due
            low, high = (low, share) if off > 0 else (share, high)
            if abs(off) <= _NEAR:
                break
            following = share - off / self.pace(share).norm
            share = following if low < following < high else (low + high) / 2
        return share

    def placed(self, placement: Placement) -> EllipticArc:
        """Return the arc moved and turned."""
        return replace(self, centre=placement(self.centre), turn=self.turn + placement.turn)

    def scaled(self, factor: float) -> EllipticArc:
        """Return the arc scaled about the origin by a positive factor."""
        return replace(
            self,
            centre=self.centre * factor,
            half_length=self.half_length * factor,
            half_width=self.half_width * factor,
        )

    def mirrored(self) -> EllipticArc:
        """Return the arc with left and right swapped (x becomes −x)."""
        return replace(
            self,
            centre=swapped(self.centre),
            turn=-self.turn,
            from_angle=math.pi - self.from_angle,
            sweep=-self.sweep,
        )


Segment = Line | Arc | EllipticArc


def most_length(segment: Segment) -> float:
    """Return a length that a segment does not exceed: quicker than that of an elliptic arc."""
    if isinstance(segment, EllipticArc):
        return max(segment.half_length, segment.half_width) * abs(segment.sweep)
    return segment.length
