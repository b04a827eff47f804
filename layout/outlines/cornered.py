"""Tops with straight sides: rectangles, square, round at corners or at an end, and regular ones."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Self

from ..errors import OutlineError
from ..geometry import Arc, Bounds, Line, Path, Point, Segment
from ..geometry.parallel import parallel_of_path
from ..geometry.tolerance import CURVE, SAME_POINT
from ..keys.figures import Number
from ..keys.key import take
from ..keys.plane import Four
from .base import LEAST, Outline, Sized, require, require_figures

Radii = tuple[float, float, float, float]
"""Corner radii, mm: lower left, lower right, upper right, upper left (anticlockwise)."""


def round_cornered(
    box: Bounds,
    radii: Radii,
    clips: Radii = (0.0, 0.0, 0.0, 0.0),
    side: Callable[[int, Point, Point], Segment] = lambda i, start, end: Line(start, end),
) -> Path:
    """Return the edge of a box, anticlockwise from the start of its lower side.

    Radius 0 leaves a square corner, or one that has lost its clip, mm, along both sides. A side by
    its number is drawn as `side` has it; one that its corners use up is left out.
    """
    corners, segments = box.corners, list[Segment]()
    taken = [radius + clip for radius, clip in zip(radii, clips, strict=True)]
    for i, corner in enumerate(corners):
        after = (i + 1) % 4
        end, radius, clip = corners[after], radii[after], clips[after]
        along = (end - corner).unit()
        first, last = corner + along * taken[i], end + along * -taken[after]
        if (last - first).dot(along) > SAME_POINT:
            segments.append(side(i, first, last))
        if radius:
            centre = last + along.left * radius
            segments.append(Arc(centre, radius, (i - 1) * math.pi / 2, math.pi / 2))
        elif clip:
            segments.append(Line(last, end + along.left * clip))
    return Path(tuple(segments))


class _Cornered(Sized):
    """What tops have alike that are set out from the corners of their box."""

    __slots__ = ()
    is_boxed = True

    if TYPE_CHECKING:  # at run time a dataclass would take it for the default of its field

        @property
        def radii(self) -> Radii:
            """Corner radii, mm; 0 for a square one."""

    @property
    def corners(self) -> tuple[Point, ...]:
        """Those of its corners that are square."""
        return tuple(c for c, r in zip(self.bounds.corners, self.radii, strict=True) if r == 0)

    @property
    def area(self) -> float:
        """Length times width less what each corner loses, (1 − π/4) r²; mm²."""
        return self.length * self.width - (1 - math.pi / 4) * sum(r * r for r in self.radii)

    @property
    def perimeter(self) -> float:
        """The way round, mm: each corner saves (2 − π/2) r."""
        return 2 * (self.length + self.width) - (2 - math.pi / 2) * sum(self.radii)

    def path(self) -> Path:
        """Return its edges and corner arcs, anticlockwise from the start of its lower edge."""
        return round_cornered(self.bounds, self.radii)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line; inside, a corner whose radius is used up is square."""
        self.require_left(distance)
        a, b, c, d = (max(r + distance, 0.0) for r in self.radii)
        return round_cornered(self.bounds.grown(distance), (a, b, c, d))

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        reach = Point.polar(1.0, direction)
        right, up = reach.x >= 0, reach.y >= 0
        radius = self.radii[(2 if up else 1) if right else (3 if up else 0)]
        arms = abs(reach.x) * (self.length / 2 - radius) + abs(reach.y) * (self.width / 2 - radius)
        return arms + radius


@dataclass(frozen=True, slots=True)
class RoundedRectangle(_Cornered):
    """A top with four rounded corners."""

    radii: Radii
    """Corner radii, mm: lower left, lower right, upper right, upper left. No two on one edge may
    add up to more than the edge."""

    def __post_init__(self) -> None:
        Sized.__post_init__(self)
        radii = take(Four(Number()), self.radii, "RoundedRectangle", "radii", error=OutlineError)
        object.__setattr__(self, "radii", radii)
        require(min(self.radii) >= 0, f"a corner radius of {min(self.radii):g} mm is below 0")
        slack, beside = 1e-9 * self.length, (*radii[1:], radii[0])
        for one, other, edge in zip(radii, beside, 2 * (self.length, self.width), strict=True):
            require(
                one + other <= edge + slack,
                f"two corner radii add up to {one + other:g} mm on an edge of {edge:g} mm: "
                "make them smaller",
            )

    @classmethod
    def with_radius(cls, length: float, width: float, radius: float) -> Self:
        """Return one with the same radius, mm, at all four corners; at most half the width."""
        return cls(length, width, (radius,) * 4)

    name = "rounded rectangle"

    @property
    def figures(self) -> Mapping[str, float]:
        """The radius of its corners, where they are alike."""
        return {"corner_radius": self.radii[0]} if len(set(self.radii)) == 1 else {}


@dataclass(frozen=True, slots=True)
class Rectangle(_Cornered):
    """A top with four square corners."""

    name = "rectangle"
    radii = (0.0, 0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class DEnd(RoundedRectangle):
    """A rectangle whose right end is a half circle."""

    name = "D end"

    def __post_init__(self) -> None:
        RoundedRectangle.__post_init__(self)
        half = self.width / 2
        round_end = self.radii == (0.0, half, half, 0.0)
        require(round_end, "a D end is square at its left end and half round at its right")

    @classmethod
    def of_size(cls, length: float, width: float) -> Self:
        """Return the D end that long and wide, mm."""
        return cls(length, width, (0.0, width / 2, width / 2, 0.0))

    @property
    def marked_corners(self) -> tuple[Point, ...]:
        """Those of its square end: none stands at a half circle."""
        return self.corners

    def resized(self, length: float, width: float) -> Self:
        """Return a D end of another size."""
        return self.of_size(length, width)


_NAMES = {6: "hexagon", 8: "octagon"}


@dataclass(frozen=True, slots=True)
class RegularPolygon(Outline):
    """A regular top of six or eight sides.

    A hexagon has corners at both ends of its long axis; an octagon has flats at the ends of both
    axes. Raises an OutlineError if the number of sides is another, or the size is not above 0.
    """

    sides: int
    """6 or 8."""
    across_flats: float
    """From one edge to the opposite one, mm, above 0."""

    def __post_init__(self) -> None:
        require_figures(self, "across_flats", "sides")
        object.__setattr__(self, "sides", int(self.sides))
        require(self.sides in _NAMES, f"a regular top has 6 or 8 sides, not {self.sides}")
        require(
            self.across_flats >= LEAST,
            f"a {self.name} needs a size across its flats above 0, not {self.across_flats:g} mm",
        )

    free_sizes = 1

    @property
    def figures(self) -> Mapping[str, float]:
        """Its sides, and its sizes across flats and corners, mm."""
        return {
            "sides": self.sides,
            "across_flats": self.across_flats,
            "across_corners": self.across_corners,
        }

    @property
    def name(self) -> str:
        """The trade's word."""
        return _NAMES[self.sides]

    @property
    def length(self) -> float:
        """A hexagon's size across its corners, an octagon's across its flats, mm."""
        return self.across_corners if self.sides == 6 else self.across_flats

    @property
    def width(self) -> float:
        """The size across the flats, mm."""
        return self.across_flats

    @property
    def across_corners(self) -> float:
        """From one corner to the opposite one, mm: across the flats over cos(π/n)."""
        return self.across_flats / math.cos(math.pi / self.sides)

    @property
    def circumradius(self) -> float:
        """The radius of the circle through its corners, mm; a hexagon's sides are as long."""
        return self.across_corners / 2

    @property
    def side(self) -> float:
        """The length of an edge, mm: across the flats times tan(π/n)."""
        return self.across_flats * math.tan(math.pi / self.sides)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners, anticlockwise from the left end of the lower edge, mm."""
        half, flat = self.side / 2, self.across_flats / 2
        lower = (Point(-half, -flat), Point(half, -flat))
        right = (
            (Point(self.circumradius, 0.0),)
            if self.sides == 6
            else (Point(flat, -half), Point(flat, half))
        )
        first = (*lower, *right)
        return (*first, *(-corner for corner in first))

    @property
    def area(self) -> float:
        """Half the way round times half the size across the flats, mm²."""
        return self.perimeter * self.across_flats / 4

    @property
    def perimeter(self) -> float:
        """The way round, mm."""
        return self.sides * self.side

    def path(self) -> Path:
        """Return its edges, anticlockwise from the left end of the lower one."""
        return Path.through(self.corners, closed=True)

    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the exact parallel line: outside, its corners are arcs of radius `distance`."""
        self.require_left(distance)
        if distance <= 0:
            return type(self)(self.sides, self.width + 2 * distance).path()
        return parallel_of_path(self.path(), distance, tolerance)

    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, mm."""
        way = Point.polar(1.0, direction)
        return max(way.dot(corner) for corner in self.corners)

    def resized(self, length: float, width: float) -> Self:
        """Return one of another size; both sizes must be those of one regular top."""
        top = type(self)(self.sides, width)
        require(
            math.isclose(top.length, length, rel_tol=1e-9),
            f"a {self.name} {width:g} mm wide is {top.length:g} mm long, not {length:g}",
        )
        return top
