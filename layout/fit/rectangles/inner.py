"""A rectangle in hand: the line of its corner centres, and how it is drawn in or resized."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ...outlines import Outline, Rectangle, RoundedRectangle
from ..wood.edges import turned
from .gaps import Array


@dataclass(frozen=True, slots=True)
class Inner:
    """The inner rectangle of a top: the line of its corner centres, length along y."""

    turn: float
    """Direction of x, radians; the long axis is a quarter turn on."""
    centre: Array
    """(2,) array: mm."""
    half: Array
    """(2,) array: half its width and half its length, along x and y, mm."""
    radius: float
    """Corner radius of the finished top, mm."""

    @classmethod
    def between(cls, turn: float, pivot: Array, sides: Array, radius: float) -> Inner:
        """Return the one between its left, right, lower and upper side, seen from a pivot, mm."""
        ends = sides.reshape(2, 2)
        centre = pivot + turned(ends.mean(axis=1), -turn)
        return cls(turn, centre, (ends[:, 1] - ends[:, 0]) / 2, radius)

    def upright(self) -> Inner:
        """Return it with its length along y."""
        if self.half[0] <= self.half[1]:
            return self
        return replace(self, turn=self.turn + math.pi / 2, half=self.half[::-1])

    def drawn_in(self, by: float) -> Inner:
        """Return it with every side moved in."""
        return replace(self, half=self.half - by)

    def with_radius(self, radius: float) -> Inner:
        """Return that of the top of the same sizes with other corners."""
        return replace(self, half=self.half + self.radius - radius, radius=radius)


def outline(length: float, width: float, radius: float) -> Outline:
    """Return a rectangle of those sizes and corners, mm; square ones where they are sharp."""
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))
