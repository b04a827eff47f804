"""How the panel lies while it is marked and sawn: which face up, which way round, what is where.

And the letters of its defects there: few enough to be found again.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..geometry import Point, Region
from ..panel.datum import Datum
from ..panel.defect import Spoils
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


FEW = 8
"""So many defects are all lettered."""

NEAR = 50.0
"""Of more, those are that lie so near to the finished edge, mm, and those that no blade may
cross (our choice)."""

MOST = 14
"""Letters that a page can hold."""

LONGEST = 24
"""Signs of a name in the key; longer ones are cut at a word."""


def letters_of(plan: Plan) -> dict[str, str]:
    """Return the letter of each defect that has one, by its name."""
    defects = plan.job.panel.defects
    if len(defects) > FEW:
        line = Region.line(plan.cuts.finish.points(1.0))
        near = [
            defect
            for defect in defects
            if Spoils.CUTTING in defect.spoils or Region.of(defect.place).distance_to(line) <= NEAR
        ]
        defects = tuple(near[:MOST])
    return {defect.name: chr(ord("a") + i) for i, defect in enumerate(defects)}


def key_of(plan: Plan) -> tuple[tuple[tuple[str, str], ...], str]:
    """Return the key: letters with names, and what is drawn without a letter."""
    letters = letters_of(plan)
    more = len(plan.job.panel.defects) - len(letters)
    rest = [f"and {more} more, listed where the panel is looked at"] if more else []
    rest += ["white field: cut-out"] if plan.job.panel.cut_outs else []
    return tuple((letter, _short(name)) for name, letter in letters.items()), " · ".join(rest)


def _short(name: str) -> str:
    if len(name) <= LONGEST:
        return name
    return f"{name[: LONGEST - 1].rsplit(' ', 1)[0]} …"
