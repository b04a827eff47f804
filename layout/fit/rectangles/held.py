"""A rectangle in hand: the line of its corner centres, and how it is drawn in or resized."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from .gaps import Array


@dataclass(frozen=True, slots=True)
class Held:
    """The inner rectangle of a top: the line of its corner centres, length along y."""

    turn: float
    """Direction of x, radians; the long axis is a quarter turn on."""
    pivot: Array
    """(2,) array: mm."""
    sides: Array
    """(4,) array: left, right, bottom and top in its own frame, mm."""
    radius: float
    """Corner radius of the finished top, mm."""

    @property
    def inner_length(self) -> float:
        """Along y, mm."""
        return float(self.sides[3] - self.sides[2])

    @property
    def inner_width(self) -> float:
        """Along x, mm."""
        return float(self.sides[1] - self.sides[0])

    @property
    def centre(self) -> Array:
        """Its middle, mm."""
        x, y = (self.sides[0] + self.sides[1]) / 2, (self.sides[2] + self.sides[3]) / 2
        cos, sin = math.cos(self.turn), math.sin(self.turn)
        middle: Array = self.pivot + np.array([x * cos - y * sin, x * sin + y * cos])
        return middle

    def upright(self) -> Held:
        """Return it with its length along y."""
        if self.inner_width <= self.inner_length:
            return self
        left, right, bottom, top = self.sides
        sides = np.array([bottom, top, -right, -left])
        return replace(self, turn=self.turn + math.pi / 2, sides=sides)

    def drawn_in(self, by: float) -> Held:
        """Return it with every side moved in."""
        return replace(self, sides=self.sides + np.array([by, -by, by, -by]))

    def shrunk_round(self, points: Array, inner_length: float, inner_width: float) -> Held:
        """Return a smaller one within it, round points in its frame where it has room for them."""
        spans = []
        for axis, size in ((0, inner_width), (1, inner_length)):
            low, high = self.sides[2 * axis], self.sides[2 * axis + 1]
            least, most = points[:, axis].min(), points[:, axis].max()
            middle = (low + high) / 2
            if most - least > size:
                middle = (least + most) / 2
            else:
                middle = min(max(middle, most - size / 2), least + size / 2)
            middle = min(max(middle, low + size / 2), high - size / 2)
            spans += [middle - size / 2, middle + size / 2]
        return replace(self, sides=np.array(spans))

    def resized(self, inner_length: float, inner_width: float) -> Held:
        """Return one of another size about the same middle."""
        half = np.array([-inner_width, inner_width, -inner_length, inner_length]) / 2
        return replace(self, pivot=self.centre, sides=half)
