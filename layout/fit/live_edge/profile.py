"""How wide the wood is at each place along an axis, between two edges or an edge and a line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..wood.edges import Array

Stretch = tuple[float, float]
"""From where to where, mm."""


@dataclass(frozen=True, slots=True)
class Profile:
    """A width that changes evenly between places along x."""

    x: Array
    height: Array
    """(n,) arrays: places from left to right, and the width there, mm."""

    @classmethod
    def between(cls, lower: Array, upper: Array | None, left: float, right: float) -> Profile:
        """Return the width from one line up to another, (n, 2) each, or to y = 0 where none is."""
        places = [lower[:, 0]] if upper is None else [lower[:, 0], upper[:, 0]]
        x = np.unique(np.concatenate([*places, [left, right]]))
        x = x[(x >= left) & (x <= right)]
        top = 0.0 if upper is None else np.interp(x, upper[:, 0], upper[:, 1])
        return cls(x, top - np.interp(x, lower[:, 0], lower[:, 1]))

    def raised(self, by: float) -> Profile:
        """Return it with its upper line moved up, mm."""
        return Profile(self.x, self.height + by)

    def at(self, x: Array | float) -> Array:
        """Return the width at places, mm."""
        return np.asarray(np.interp(x, self.x, self.height))

    def area(self, left: Array | float, right: Array | float) -> Array:
        """Return the area between places, mm²; negative where left is right of right."""
        return self._swept(right) - self._swept(left)

    def _swept(self, x: Array | float) -> Array:
        pieces = np.diff(self.x) * (self.height[1:] + self.height[:-1]) / 2
        whole = np.concatenate([[0.0], np.cumsum(pieces)])
        first = np.clip(np.searchsorted(self.x, x, side="right") - 1, 0, len(self.x) - 2)
        over = x - self.x[first]
        area: Array = whole[first] + over * (self.height[first] + self.at(x)) / 2
        return area

    def span(self, left: float, right: float) -> tuple[float, float]:
        """Return the least and the greatest width between two places, mm."""
        within = (self.x > left) & (self.x < right)
        held = np.concatenate([self.height[within], self.at(np.array([left, right]))])
        return float(held.min()), float(held.max())

    def outside(self, least: float, greatest: float) -> Array:
        """Return where it is narrower than least or wider than greatest, (n, 2) from and to."""
        narrow, wide = _below(self.x, self.height, least), _below(self.x, -self.height, -greatest)
        return np.concatenate([narrow, wide])


def _below(x: Array, height: Array, level: float) -> Array:
    """Return where a line of straight pieces runs below a level, one part for each piece."""
    start, end = height[:-1], height[1:]
    low = np.minimum(start, end) < level
    rise = np.where(start == end, 1.0, end - start)
    share = np.clip((level - start) / rise, 0.0, 1.0)
    middle = x[:-1] + share * np.diff(x)
    left = np.where(start < level, x[:-1], middle)
    right = np.where(end < level, x[1:], middle)
    parts: Array = np.stack([left, right], axis=1)[low]
    return parts
