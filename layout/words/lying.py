"""How the panel lies while it is marked and sawn: which face up, which way round, what is where."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Point
from ..panel.datum import Datum
from ..plan.plan import Plan

_UPRIGHT = 1.15
"""A panel that reaches farther from its datum than this, by what it reaches along it, is turned a
quarter, so that its long way lies across the page."""


@dataclass(frozen=True, slots=True)
class Lying:
    """The view that the first page has of the panel; all of the sheet's left and right are its."""

    datum: Datum
    mirrored: bool
    """Whether the show face lies down."""
    upright: bool
    """Whether the datum runs up the page, and not along its foot."""

    @property
    def turn(self) -> float:
        """How far the panel is turned before it is mirrored, radians."""
        level = -(self.datum.end - self.datum.start).angle
        return level + math.pi / 2 if self.upright else level

    def way(self, direction: Point) -> Point:
        """Return where a direction of the panel points on the page."""
        turned = direction.turned(self.turn)
        return Point(-turned.x, turned.y) if self.mirrored else turned

    @property
    def hand(self) -> str:
        """At which hand the first point of the datum lies."""
        return "right" if self.mirrored != self.upright else "left"

    @property
    def words(self) -> str:
        """Which face is up, and where the tapes begin."""
        up = "DOWN" if self.mirrored else "UP"
        return f"show face {up}, {self.datum.first.name} at your {self.hand}"

    def side(self, direction: Point) -> str:
        """Return the side of the page that a direction of the panel points to."""
        seen = self.way(direction)
        if abs(seen.x) >= abs(seen.y):
            return "right" if seen.x > 0 else "left"
        return "upper" if seen.y > 0 else "lower"

    def corner(self, at: Point, direction: Point) -> str:
        """Return the corner of the panel next to a place, or else that of the page in a direction.

        Only a panel with four corners is told by their letters.
        """
        corners = self.datum.corners
        if len(corners) == 4:
            near = min(corners, key=lambda corner: round(corner.point.distance_to(at), 3))
            return f"at {near.name}"
        seen = self.way(direction)
        return f"{'upper' if seen.y > 0 else 'lower'} {'right' if seen.x > 0 else 'left'}"


def lying_of(plan: Plan) -> Lying:
    """Return how the panel of a plan lies."""
    datum = plan.datum
    level = datum.frame.inverse.of(plan.job.panel.boundary.points(1.0))
    along, across = level.max(axis=0) - level.min(axis=0)
    return Lying(datum, plan.cuts.face.mirrored, bool(across > _UPRIGHT * along))
