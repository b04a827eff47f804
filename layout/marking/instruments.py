"""What swings a curve: string compass, trammel rod, string and nails; ordinates check the line."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry.point import Point
from ..geometry.scalar import last_where
from ..outlines.base import require_sizes


@dataclass(frozen=True, slots=True)
class StringCompass:
    """A string, or a trammel bar, from a centre to the pencil."""

    centres: tuple[str, ...]
    """Labels of the marks that it swings about."""
    radius: float
    """To the finish line, mm."""
    core_radius: float
    """To the core line inside a lipping, mm; the same where there is none."""


@dataclass(frozen=True, slots=True)
class Swing:
    """A radius, mm, and the centres that it is swung about."""

    radius: float
    centres: tuple[Point, ...]
    """From the middle of the top, mm."""
    hollow: bool = False
    """Whether they lie outside the top: its core then has the larger radius."""

    def core_radius(self, lipping: float) -> float:
        """Return the radius of the core line inside a lipping, mm; none is left where below 0."""
        return self.radius + lipping if self.hollow else self.radius - lipping


@dataclass(frozen=True, slots=True)
class TrammelRod:
    """A rod with two pins that run along the two axes while its end draws the oval.

    Pencil to one pin is half the width, to the other half the length (Rose, *Mechanical Drawing
    Self-Taught*, 1883, fig. 83; Hatfield, *The American House-Carpenter*, art. 549).
    """

    to_long_axis_pin: float
    to_short_axis_pin: float
    """From the pencil to the pin that runs on either axis, mm."""

    @classmethod
    def for_oval(cls, length: float, width: float) -> TrammelRod:
        """Return the rod of an oval, mm; an OutlineError if not ``0 < width <= length``."""
        require_sizes("an oval", length, width)
        return cls(width / 2, length / 2)

    @property
    def pins_apart(self) -> float:
        """Distance between the pins, mm: the arms of a framing square must reach as far."""
        return self.to_short_axis_pin - self.to_long_axis_pin


@dataclass(frozen=True, slots=True)
class Ordinate:
    """How far out from the middle along the long axis, and how far up from it, mm."""

    out: float
    up: float


_OUT = (0.6, 0.8, 0.96)
"""Shares of the half length; of an oval those of its half width are 0.8, 0.6 and 0.28: sides of
right triangles 3-4-5 and 7-24-25."""


def oval_checks(length: float, width: float, exponent: float = 2.0) -> tuple[Ordinate, ...]:
    """Return three points of a quarter of an oval, or of a superellipse, that prove its line, mm.

    >>> oval_checks(50.0, 30.0)[0]
    Ordinate(out=15.0, up=12.0)
    """
    return tuple(Ordinate(o * length / 2, share_up(o, exponent) * width / 2) for o in _OUT)


def share_up(out: float, exponent: float) -> float:
    """Return how far up a superellipse is at so far out, shares of its half width and length."""
    return float((1 - out**exponent) ** (1 / exponent))


@dataclass(frozen=True, slots=True)
class DrawnOval:
    """What a string draws: its length and width, mm."""

    length: float
    width: float


@dataclass(frozen=True, slots=True)
class StringLoop:
    """Two nails on the long centreline and a closed loop of string round them.

    A pencil that keeps the loop taut draws an oval: the distances from a point of an ellipse to its
    foci add up to its length (Apollonius, *Conics* III.52). A nail and a pencil of the same
    diameter d lengthen the loop by exactly πd and the curve stays an ellipse; where they differ the
    loop given here keeps the width, and the length comes out a little wrong: see `drawn`.
    """

    nail_spacing: float
    """Distance between the nails, mm; zero for a circle."""
    loop: float
    """Length of the closed loop as it is tied, slack, mm."""
    nail: float = 0.0
    pencil: float = 0.0
    """Their diameters, mm."""
    stretch: float = 0.0
    """Share by which the string gives when it is drawn taut."""

    @classmethod
    def for_oval(
        cls,
        length: float,
        width: float,
        nail: float = 0.0,
        pencil: float = 0.0,
        stretch: float = 0.0,
    ) -> StringLoop:
        """Return the loop of an oval, mm; an OutlineError if not ``0 < width <= length``.

        >>> StringLoop.for_oval(length=1000.0, width=600.0)
        StringLoop(nail_spacing=800.0, loop=1800.0, nail=0.0, pencil=0.0, stretch=0.0)
        """
        require_sizes("an oval", length, width)
        spacing = math.sqrt((length - width) * (length + width))
        if nail == pencil:
            taut = length + spacing + math.pi * nail
        else:
            taut = taut_length(Point(0.0, width / 2), spacing, nail, pencil)
        return cls(spacing, taut / (1 + stretch), nail, pencil, stretch)

    @property
    def taut(self) -> float:
        """Length of the loop drawn taut, mm."""
        return self.loop * (1 + self.stretch)

    @property
    def drawn(self) -> DrawnOval:
        """What this loop draws."""
        return DrawnOval(2 * self.reach(0.0), 2 * self.reach(math.pi / 2))

    def slipped(self, by: float) -> DrawnOval:
        """Return what a loop draws that is `by` mm longer than it should be.

        >>> longer = StringLoop.for_oval(1200.0, 700.0).slipped(by=21.746794344808962)
        >>> round(longer.length, 1), round(longer.width, 1)
        (1221.7, 736.7)
        """
        return replace(self, loop=self.loop + by).drawn

    def reach(self, direction: float) -> float:
        """Return how far out the pencil is, mm, in a direction from the line of nails, radians."""

        def is_slack(reach: float) -> bool:
            at = Point.polar(reach, direction)
            return taut_length(at, self.nail_spacing, self.nail, self.pencil) < self.taut

        return last_where(is_slack, 0.0, self.taut)

    def farthest_from_ellipse(self, length: float, width: float, steps: int = 64) -> float:
        """Return the farthest that the line lies from an oval along rays from its middle, mm."""

        def off(direction: float) -> float:
            across = math.hypot(math.cos(direction) / length, math.sin(direction) / width)
            return abs(self.reach(direction) - 0.5 / across)

        return max(off(math.pi / 2 * step / steps) for step in range(steps + 1))


def taut_length(pencil_at: Point, nail_spacing: float, nail: float, pencil: float) -> float:
    """Return the length of the string round two nails and a pencil, mm; the string has none.

    The string runs round the convex hull of three discs. Its length is the integral of the hull's
    reach over all directions (Cauchy), and between two directions in which two discs reach equally
    far the reach of one disc, c·u + r, integrates in closed form.
    """
    discs = (
        (Point(-nail_spacing / 2, 0.0), nail / 2),
        (Point(nail_spacing / 2, 0.0), nail / 2),
        (pencil_at, pencil / 2),
    )
    turns = [0.0, math.tau]
    for i, (centre, radius) in enumerate(discs):
        for other, other_radius in discs[i + 1 :]:
            apart = centre - other
            if apart.norm > abs(radius - other_radius):
                half = math.acos((other_radius - radius) / apart.norm)
                turns += [(apart.angle + half) % math.tau, (apart.angle - half) % math.tau]
    turns.sort()
    total = 0.0
    for start, end in pairwise(turns):
        way = Point.polar(1.0, (start + end) / 2)
        centre, radius = max(discs, key=lambda disc: disc[0].dot(way) + disc[1])
        swing = Point(math.sin(end) - math.sin(start), math.cos(start) - math.cos(end))
        total += centre.dot(swing) + radius * (end - start)
    return total
