"""The arc of an ellipse."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ..bounds import Bounds
from ..placement import Placement
from ..point import Point
from .stepping import Swept, Swung, swapped

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

    def pace(self, share: float) -> Point:
        """Return how the point at this share moves as the share grows, mm."""
        angle = self.from_angle + self.sweep * share
        own = Point(-self.half_length * math.sin(angle), self.half_width * math.cos(angle))
        return own.turned(self.turn) * self.sweep

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

    @property
    def swept(self) -> Swept:
        """It as `corners_of` takes it.

        An ellipse is a circle seen askew: chords and tangents stay what they are, and no
        distance grows beyond that on a circle of the longer half-axis.
        """
        u, v = Point(self.half_length, 0.0), Point(0.0, self.half_width)
        return self.centre, u.turned(self.turn), v.turned(self.turn), self.from_angle, self.sweep
