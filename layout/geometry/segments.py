"""The pieces that a path is made of: straight lines, circular arcs and elliptic arcs, all exact.

Conventions, once for all of them: a segment runs from `start` to `end`; a sweep is positive
anticlockwise; the parallel at a positive distance lies to the *right* of the way it runs, which
is outside of a closed path that runs anticlockwise.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from .bounds import Bounds
from .placement import Placement
from .point import Point

Side = Literal["inside", "outside"]
"""Which side of an anticlockwise boundary a polygon of it must not leave."""


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
        return Line(_swap(self.start), _swap(self.end))

    def parallel(self, distance: float) -> Line:
        """Return the line at `distance` to the right."""
        shift = self.direction.left * -distance
        return Line(self.start + shift, self.end + shift)

    def corners(self, tolerance: float, side: Side) -> Iterator[Point]:
        """Yield the points of a polygon of it, without the end."""
        yield self.start


@dataclass(frozen=True, slots=True)
class Arc:
    """An arc of a circle.

    Attributes
    ----------
    centre : Point
    radius : float
        Positive, mm.
    from_angle : float
        Where it starts, radians from x.
    sweep : float
        How far it turns, positive anticlockwise.
    """

    centre: Point
    radius: float
    from_angle: float
    sweep: float

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
    def start(self) -> Point:
        """Where it starts."""
        return self._on(self.from_angle)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self._on(self.from_angle + self.sweep)

    @property
    def length(self) -> float:
        """The length along the arc."""
        return self.radius * abs(self.sweep)

    @property
    def swept_area(self) -> float:
        """Half of ∮ x dy − y dx along the segment (Green)."""
        return (self.centre.cross(self.end - self.start) + self.radius**2 * self.sweep) / 2

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        return Bounds.around(
            [self.start, self.end] + [self._on(a) for a in _quarters(self.from_angle, self.sweep)]
        )

    def _on(self, angle: float) -> Point:
        return self.centre + Point.polar(self.radius, angle)

    def at(self, share: float) -> Point:
        """Return the point at this share of the way, 0 to 1."""
        return self._on(self.from_angle + self.sweep * share)

    def reversed(self) -> Arc:
        """Return the same arc run the other way."""
        return replace(self, from_angle=self.from_angle + self.sweep, sweep=-self.sweep)

    def placed(self, placement: Placement) -> Arc:
        """Return the arc moved and turned."""
        turned = self.from_angle + placement.turn
        return Arc(placement(self.centre), self.radius, turned, self.sweep)

    def scaled(self, factor: float) -> Arc:
        """Return the arc scaled about the origin by a positive factor."""
        return replace(self, centre=self.centre * factor, radius=self.radius * factor)

    def mirrored(self) -> Arc:
        """Return the arc with left and right swapped (x becomes −x)."""
        return Arc(_swap(self.centre), self.radius, math.pi - self.from_angle, -self.sweep)

    def parallel(self, distance: float) -> Arc:
        """Return the arc at `distance` to the right; its radius must stay positive."""
        return replace(self, radius=self.radius + math.copysign(distance, distance * self.sweep))

    def corners(self, tolerance: float, side: Side) -> Iterator[Point]:
        """Yield the points of a polygon of it, without the end.

        Chords where the arc bulges away from the side to stay on, tangents where it bulges
        towards it; no point lies farther than `tolerance` from the arc.
        """
        return _arc_corners(self.at, self.centre, self.radius, self.sweep, tolerance, side)


@dataclass(frozen=True, slots=True)
class EllipticArc:
    """An arc of an ellipse, by its eccentric angle.

    The point at eccentric angle t is ``(a cos t, b sin t)`` in the ellipse's own frame, which is
    turned by `turn` about `centre`.

    Attributes
    ----------
    centre : Point
    half_length, half_width : float
        The half-axes a and b, mm, positive.
    turn : float
        Direction of the first axis, radians from x.
    from_angle, sweep : float
        Eccentric angle of the start, and how far it runs, positive anticlockwise.
    """

    centre: Point
    half_length: float
    half_width: float
    turn: float
    from_angle: float
    sweep: float

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self._on(self.from_angle)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self._on(self.from_angle + self.sweep)

    @property
    def length(self) -> float:
        """The length along the arc, by the incomplete elliptic integral (DLMF 19.30.3)."""
        from scipy.special import ellipeinc

        long, short = self.half_length, self.half_width
        parameter = 1 - (long / short) ** 2
        ends = ellipeinc([self.from_angle + self.sweep, self.from_angle], parameter)
        return float(short * abs(ends[0] - ends[1]))

    @property
    def swept_area(self) -> float:
        """Half of ∮ x dy − y dx along the segment (Green)."""
        turned = self.half_length * self.half_width * self.sweep
        return (self.centre.cross(self.end - self.start) + turned) / 2

    @property
    def bounds(self) -> Bounds:
        """The upright box round it."""
        a, b, cos, sin = self.half_length, self.half_width, math.cos(self.turn), math.sin(self.turn)
        extremes = (math.atan2(-b * sin, a * cos), math.atan2(b * cos, a * sin))
        reached = [self.start, self.end]
        for first in extremes:
            for angle in (first, first + math.pi):
                ahead = (angle - self.from_angle) % math.tau
                if ahead <= self.sweep or ahead - math.tau >= self.sweep:
                    reached.append(self._on(angle))
        return Bounds.around(reached)

    def _on(self, angle: float) -> Point:
        own = Point(self.half_length * math.cos(angle), self.half_width * math.sin(angle))
        return own.turned(self.turn) + self.centre

    def at(self, share: float) -> Point:
        """Return the point at this share of the sweep, 0 to 1."""
        return self._on(self.from_angle + self.sweep * share)

    def reversed(self) -> EllipticArc:
        """Return the same arc run the other way."""
        return replace(self, from_angle=self.from_angle + self.sweep, sweep=-self.sweep)

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
            centre=_swap(self.centre),
            turn=-self.turn,
            from_angle=math.pi - self.from_angle,
            sweep=-self.sweep,
        )

    def corners(self, tolerance: float, side: Side) -> Iterator[Point]:
        """Yield the points of a polygon of it, without the end, as `Arc.corners` does.

        An ellipse is a circle seen askew: chords and tangents stay what they are, and no
        distance grows beyond that on a circle of the longer half-axis.
        """
        radius = max(self.half_length, self.half_width)
        return _arc_corners(self.at, self.centre, radius, self.sweep, tolerance, side)


Segment = Line | Arc | EllipticArc


def _swap(point: Point) -> Point:
    return Point(-point.x, point.y)


def _quarters(start: float, sweep: float) -> Iterator[float]:
    """Yield the multiples of a quarter turn that a sweep passes."""
    low, high = min(start, start + sweep), max(start, start + sweep)
    quarter = math.pi / 2
    for step in range(math.ceil(low / quarter), math.floor(high / quarter) + 1):
        yield step * quarter


def _arc_corners(
    at: Callable[[float], Point],
    centre: Point,
    radius: float,
    sweep: float,
    tolerance: float,
    side: Side,
) -> Iterator[Point]:
    """Yield chord or tangent points; the tangents of two points meet at 1/cos(half the step)."""
    chords = (side == "inside") == (sweep > 0)
    count = arc_steps(radius, sweep, tolerance)
    if chords:
        for step in range(count):
            yield at(step / count)
        return
    reach = 1 / math.cos(abs(sweep) / count / 2)
    yield at(0.0)
    for step in range(count):
        yield centre + (at((step + 0.5) / count) - centre) * reach


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
