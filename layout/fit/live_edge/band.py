"""The band of wood along one or two kept edges, in the frame of its axis, and what is free of it.

The axis runs along the straight line between the ends of the kept edge, or midway between the
directions of two. Places along it are x; the first edge is the lower one, and the upper side is
the other edge or a line that is ripped at some height.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...errors import LayoutError
from ...geometry import Bounds, Path, Placement, Region
from ...geometry.stepping import Side
from ...geometry.tolerance import CHORD, ROUNDING
from ...geometry.turned_box import half_turn
from ...panel.edges import Edge
from ..on_edge.line import require_turn
from ..wish import Wish
from ..wood.edges import Array

FAR = 1e6
"""mm: farther than any panel reaches."""

Stretch = tuple[float, float]
"""From where to where, mm."""


@dataclass(frozen=True, slots=True)
class Band:
    """Kept edges in the frame of their axis."""

    frame: Placement
    """From the frame onto the panel."""
    lower: Path
    """The first edge; it runs along x."""
    upper: Path | None
    """The second; it runs back."""
    left: float
    right: float
    """From where to where the edges go on together, mm."""

    @classmethod
    def of(cls, wish: Wish) -> Band:
        """Return the band of the edges that a wish keeps; raise a `LayoutError` if none is."""
        kept = wish.keeping.edges if wish.keeping is not None else ()
        if not 1 <= len(kept) <= 2:
            raise LayoutError(
                "a piece as found keeps one edge of the panel or two opposite ones, not "
                f"{len(kept)}: say which in keep"
            )
        ways = [Edge(path.segments).direction for path in kept]
        axis = ways[0] if len(kept) == 1 else ways[0] - ways[1]
        if len(kept) == 2 and ways[0].dot(ways[1]) >= 0:
            raise LayoutError(
                "the two kept edges do not face each other across the panel: keep one of them alone"
            )
        require_turn(half_turn(axis.angle), wish.limits)
        frame = Placement(kept[0].segments[0].start, axis.angle)
        own = [path.placed(frame.inverse) for path in kept]
        upper = own[1] if len(own) == 2 else None
        for number, (path, sense) in enumerate(zip(own, (1, -1), strict=False)):
            lines = [path.points(CHORD, side)[:, 0] * sense for side in ("inside", "outside")]
            if min(np.diff(line).min() for line in lines) <= 0:
                raise LayoutError(
                    f"kept edge {number + 1} turns back on itself along the piece, so that it has "
                    "no one width there: keep another edge, or measure it with fewer points"
                )
        lines = [np.sort(path.points(CHORD)[[0, -1], 0]) for path in own]
        left, right = (max(line[0] for line in lines), min(line[1] for line in lines))
        if right - left <= ROUNDING:
            raise LayoutError("the two kept edges lie beside each other, with no wood between them")
        return cls(frame, own[0], upper, float(left), float(right))

    def lines(self, side: Side) -> tuple[Array, Array | None]:
        """Return both edges as lines of points from left to right, inside the wood or outside."""
        upper = None if self.upper is None else self.upper.points(CHORD, side)[::-1]
        return self.lower.points(CHORD, side), upper

    def between(self, side: Side, top: float) -> Region:
        """Return what lies between the sides, within the true one or around it.

        The upper one is ripped at `top`, mm; of no account where two edges are kept.
        """
        lower, upper = self.lines(side)
        lower, roof = self._cut(lower), None if upper is None else self._cut(upper)
        if roof is not None:
            return Region.from_rings(np.concatenate([lower, roof[::-1]]))
        over = max(top, float(lower[:, 1].max())) + 1.0
        roof = np.array([[self.right, over], [self.left, over]])
        below = Region.of(Path.round_box(Bounds(-FAR, -FAR, FAR, top)))
        return Region.from_rings(np.concatenate([lower, roof])).meet(below)

    def _cut(self, line: Array) -> Array:
        """Return a line of points between the ends of the band."""
        x = line[(line[:, 0] > self.left) & (line[:, 0] < self.right), 0]
        x = np.concatenate([[self.left], x, [self.right]])
        return np.column_stack([x, np.interp(x, *line.T)])

    def profile(self, side: Side) -> Profile:
        """Return how wide it is: at most so, or at least; to y = 0 where one edge is kept."""
        lower, upper = self.lines(side)
        places = [lower[:, 0]] if upper is None else [lower[:, 0], upper[:, 0]]
        x = np.unique(np.concatenate([*places, [self.left, self.right]]))
        x = x[(x >= self.left) & (x <= self.right)]
        top = 0.0 if upper is None else np.interp(x, *upper.T)
        return Profile(x, top - np.interp(x, *lower.T))


@dataclass(frozen=True, slots=True)
class Ground:
    """One of the two polygons of the sound wood, seen along a band."""

    band: Band
    wood: Region
    """In the frame of the band."""

    def blocked(self, top: float) -> Array:
        """Return where something unsound lies between the sides, (n, 2) from and to along x."""
        boxes = [part.bounds for part in self.unsound(top).pieces]
        return np.array([(box.left, box.right) for box in boxes]).reshape(-1, 2)

    def unsound(self, top: float) -> Region:
        """Return what lies between the sides and not in the wood, ripped at `top`, mm.

        Along a kept side the band and the wood are bounded by the same line; the band is drawn in
        there by a hair, so that rounding is no defect.
        """
        between = self.band.between("inside", top + CHORD - ROUNDING)
        return between.shrunk(CHORD, around=True).minus(self.wood)


@dataclass(frozen=True, slots=True)
class Profile:
    """A width that changes evenly between places along x."""

    x: Array
    height: Array
    """(n,) arrays: places from left to right, and the width there, mm."""

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
