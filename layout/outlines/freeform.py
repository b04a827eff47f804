"""An outline of any form: the maker's own, or what a panel's kept edges leave."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from typing import Self

from ..errors import GeometryError, OutlineError
from ..geometry import ORIGIN, Line, Path, Placement, Point, Region
from ..geometry.intersect import turn_at
from ..geometry.parallel import parallel_of_path
from ..geometry.tolerance import CHORD, CURVE, SAME_POINT, SAME_WAY
from .base import Outline, require

OWN_OUTLINE, PIECE_AS_FOUND = "own outline", "piece as found"
"""What the trade calls the two: one is drawn by the maker, the other given by the panel."""


@dataclass(frozen=True, slots=True)
class Freeform(Outline):
    """A top bounded by any closed path that does not cross itself; it need not be convex.

    Its frame has the middle of its upright box at the origin, and it is no taller than long.
    `Freeform.of` and `Freeform.through` bring a path into that frame. Raises an OutlineError if the
    path is open, crosses itself, runs clockwise or lies in another frame.
    """

    boundary: Path
    """Closed, anticlockwise, mm."""
    title: str
    """What the trade calls it."""

    def __post_init__(self) -> None:
        path = self.boundary
        gap = path.end.distance_to(path.start)
        require(
            path.is_closed, f"the {self.title} needs to end where it starts, not {gap:g} mm away"
        )
        box = self.boundary.bounds
        sizes = f"{box.width:g} by {box.height:g} mm"
        try:
            Region.of(self.boundary, tolerance=min(CHORD, 1e-5 * box.width))
        except GeometryError as error:
            raise OutlineError(
                f"the {self.title}, {sizes}, may not cross or touch itself: {error}"
            ) from error
        slack = SAME_POINT + 1e-9 * box.width
        require(
            self.boundary.area > 0
            and box.middle.distance_to(ORIGIN) <= slack
            and box.height <= box.width + slack,
            f"the path of the {self.title}, {sizes}, needs to run anticlockwise, with its middle "
            "at the origin and its length along x: `Freeform.of` makes it so",
        )

    @classmethod
    def of(cls, path: Path, title: str = OWN_OUTLINE) -> Self:
        """Return the outline of a closed path anywhere, run either way.

        It is moved and, where it is taller than long, turned by a quarter; `frame_of` tells how.
        """
        frame = cls.frame_of(path)
        run = path if path.area > 0 else path.reversed()
        moved = run.placed(Placement(-frame.centre)).placed(Placement(turn=-frame.turn))
        return cls(moved, title)

    @classmethod
    def through(cls, points: Iterable[Point], title: str = OWN_OUTLINE) -> Self:
        """Return the straight-sided outline through points in order; alike ones are one."""
        held = list(points)
        apart = [p for p, q in pairwise([*held, held[0]]) if p.distance_to(q) > SAME_POINT]
        require(len(apart) >= 3, f"the {title} needs at least 3 different points, not {len(apart)}")
        return cls.of(Path.through(apart, closed=True), title)

    @staticmethod
    def frame_of(path: Path) -> Placement:
        """Return the placement that puts the outline of a closed path where that path lies."""
        box = path.bounds
        upright = box.height > box.width + SAME_POINT
        return Placement(box.middle, math.pi / 2 if upright else 0.0)

    free_sizes = 0

    @property
    def name(self) -> str:
        """Its title."""
        return self.title

    @property
    def length(self) -> float:
        """The length of its upright box, mm."""
        return self.boundary.bounds.width

    @property
    def width(self) -> float:
        """The width of its upright box, mm."""
        return self.boundary.bounds.height

    @property
    def area(self) -> float:
        """The area, mm²."""
        return self.boundary.area

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return self.boundary.length

    @property
    def corners(self) -> tuple[Point, ...]:
        """Where its edge turns sharply, in the order of its path, mm."""
        return tuple(p for p, turn in self._joints() if abs(turn) > SAME_WAY)

    @property
    def is_convex(self) -> bool:
        """Whether it turns to the left only."""
        bulges = all(isinstance(s, Line) or s.sweep > 0 for s in self.boundary.segments)
        return bulges and all(turn > -SAME_WAY for _, turn in self._joints())

    def _joints(self) -> list[tuple[Point, float]]:
        segments = self.boundary.segments
        before = (segments[-1], *segments[:-1])
        return [(s.start, turn_at(p, s)) for p, s in zip(before, segments, strict=True)]

    def path(self) -> Path:
        """Return its boundary."""
        return self.boundary

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the line `distance` outside, exact for lines and arcs of which none is used up."""
        try:
            return parallel_of_path(self.boundary, distance, tolerance)
        except GeometryError as error:
            raise OutlineError(
                f"no one line runs {abs(distance):g} mm {'inside' if distance < 0 else 'outside'} "
                f"the {self.title}, {self.length:g} by {self.width:g} mm: {error}"
            ) from error

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        return self.boundary.placed(Placement(turn=-direction)).bounds.right

    def scaled(self, factor: float) -> Self:
        """Return one `factor` times as long and as wide."""
        require(0 < factor < math.inf, f"a factor of {factor:g} is not above 0")
        return type(self)(self.boundary.scaled(factor), self.title)

    def resized(self, length: float, width: float) -> Self:
        """Return it scaled; both sizes must grow alike, for nothing else keeps its form."""
        own = (self.length, self.width)
        require(
            math.isclose(length * own[1], width * own[0], rel_tol=1e-9),
            f"the {self.title} of {own[0]:g} by {own[1]:g} mm keeps its form and cannot be "
            f"{length:g} by {width:g}",
        )
        return self if math.isclose(length, own[0], rel_tol=1e-12) else self.scaled(length / own[0])
