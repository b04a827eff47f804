"""The oval by string and nails, with the thickness of both counted, and what a slip does."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry.point import Point
from ..geometry.scalar import last_where
from ..outlines.base import require_sizes


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
        """Return the loop of an oval `length` by `width`, mm.

        Raises
        ------
        OutlineError
            If not ``0 < width <= length``.

        Examples
        --------
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
        """Return how far from the middle the pencil is, mm, where it lies towards `direction`.

        The taut loop grows with the reach.

        Parameters
        ----------
        direction : float
            Radians from the line through the nails.
        """

        def is_slack(reach: float) -> bool:
            at = Point.polar(reach, direction)
            return taut_length(at, self.nail_spacing, self.nail, self.pencil) < self.taut

        return last_where(is_slack, 0.0, self.taut)

    def farthest_from_ellipse(self, length: float, width: float, steps: int = 64) -> float:
        """Return the farthest that the drawn line lies from the oval `length` by `width`, mm.

        Measured along rays from the middle, which overstates the true distance.
        """
        worst = 0.0
        for step in range(steps + 1):
            direction = math.pi / 2 * step / steps
            across = math.hypot(math.cos(direction) / length, math.sin(direction) / width)
            worst = max(worst, abs(self.reach(direction) - 0.5 / across))
        return worst


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
