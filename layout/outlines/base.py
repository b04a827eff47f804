"""What every outline of a top can tell, in its own frame: centre at the origin, length along x."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, ClassVar, Self

from ..errors import OutlineError
from ..geometry import ORIGIN, Arc, Bounds, Line, Path, Point, Points
from ..geometry.tolerance import CHORD, CURVE, ROUNDING, SAME_POINT
from ..keys.figures import Number
from ..keys.key import take


class Outline(ABC):
    """The exact shape of a top; a path or polygon only on request."""

    __slots__ = ()

    @property
    @abstractmethod
    def name(self) -> str:
        """What the trade calls it, as a job file writes it."""

    if TYPE_CHECKING:  # at run time a dataclass would take these for the defaults of its fields

        @property
        def length(self) -> float:
            """The extent along x, mm."""

        @property
        def width(self) -> float:
            """The extent along y, mm."""

    free_sizes: ClassVar[int] = 2
    """How many of its sizes may be chosen: length and width, one size, or none of an own form."""
    is_boxed: ClassVar[bool] = False
    """Whether it is set out from the corners of its box."""
    is_round: ClassVar[bool] = False
    """Whether it looks the same whichever way it is turned."""
    bends_everywhere: ClassVar[bool] = False
    """Whether its line is a curve without an arc or a straight: half of it tells all."""

    @property
    def figures(self) -> Mapping[str, float]:
        """The numbers of its own besides length and width, by their names."""
        return {}

    @property
    def corners(self) -> tuple[Point, ...]:
        """Where its line turns sharply, anticlockwise, mm."""
        return ()

    @property
    def marked_corners(self) -> tuple[Point, ...]:
        """The corners it is set out from: its box's, or its own but two that end a long axis."""
        own = tuple(corner for corner in self.corners if corner.y != 0)
        return self.bounds.corners if self.is_boxed else own

    def arcs(self, inside: float = 0.0) -> tuple[Arc, ...]:
        """Return the arcs of its line, or so far inside it, mm; none of a curve or an own form."""
        if self.bends_everywhere or not self.free_sizes:
            return ()
        return tuple(s for s in self.line(-inside).segments if isinstance(s, Arc))

    @property
    def swung(self) -> tuple[tuple[float, tuple[Point, ...]], ...]:
        """The radii, mm, that a compass is set to, each with the centres of its arcs."""
        held: dict[float, list[Point]] = {}
        for arc in self.arcs():
            held.setdefault(arc.radius, []).append(arc.centre)
        ordered = ((radius, _from_lower_left(centres)) for radius, centres in held.items())
        return tuple(sorted(ordered, key=lambda swing: _round(swing[1][0])))

    @property
    def arc_centres(self) -> tuple[Point, ...]:
        """The centres of arcs that straights run on from; anticlockwise, of a pair the left one."""
        return _from_lower_left(arc.centre for arc in self.arcs() if arc.centre.norm > SAME_POINT)

    def tangents(self, inside: float = 0.0) -> tuple[Point, ...]:
        """Return where straights meet arcs, on its line or so far inside it, mm; anticlockwise."""
        if not self.arcs(inside):
            return ()
        held = self.line(-inside).segments
        joints = zip((held[-1], *held[:-1]), held, strict=True)
        return _from_lower_left(
            b.start for a, b in joints if isinstance(a, Line) != isinstance(b, Line)
        )

    @property
    def foci(self) -> tuple[Point, ...]:
        """The two points that a string is held at, the left one first."""
        return ()

    @property
    def on_diagonals(self) -> tuple[Point, ...]:
        """Where a curve without centres crosses the diagonals of its box, anticlockwise."""
        return ()

    def tightest(self, inside: float = 0.0) -> float | None:
        """Return the least radius of its line so far inside it, mm; None where nothing bends."""
        return min((arc.radius for arc in self.arcs(inside)), default=None)

    @property
    @abstractmethod
    def area(self) -> float:
        """The area, mm², exact."""

    @property
    @abstractmethod
    def perimeter(self) -> float:
        """The way round, mm, exact."""

    @property
    def bounds(self) -> Bounds:
        """The upright box round it, mm."""
        return Bounds.about(ORIGIN, self.length / 2, self.width / 2)

    @abstractmethod
    def path(self) -> Path:
        """Return its exact boundary, anticlockwise."""

    @abstractmethod
    def parallel(self, distance: float, tolerance: float = CURVE) -> Path:
        """Return the closed line at `distance` outside it (inside, where negative), anticlockwise.

        Exact for lines and circular arcs; elsewhere the true parallel curve to `tolerance`, mm.
        Raises an OutlineError if nothing is left so far inside.
        """

    def line(self, outside: float = 0.0) -> Path:
        """Return its boundary, or the parallel of it that lies so far outside, mm."""
        return self.parallel(outside) if outside else self.path()

    def require_left(self, distance: float) -> None:
        """Raise an `OutlineError` where nothing is left so far outside, mm (inside: below 0)."""
        left = self.width / 2 + distance > 0
        name = _a(self.name)
        require(left, f"{-distance:g} mm inside {name} {self.width:g} mm wide is nothing")

    @abstractmethod
    def support(self, direction: float) -> float:
        """Return how far it reaches from its centre towards `direction`, radians from x; mm."""

    @abstractmethod
    def resized(self, length: float, width: float) -> Self:
        """Return an outline of the same kind with other overall sizes and the same corners."""

    def inner(self, tolerance: float = CHORD) -> Points:
        """Return a polygon, (n, 2) mm, that lies inside it and nowhere farther than `tolerance`."""
        return self.path().points(tolerance, "inside")

    def outer(self, tolerance: float = CHORD) -> Points:
        """Return a polygon, (n, 2) mm, that holds it and lies nowhere farther than `tolerance`."""
        return self.path().points(tolerance, "outside")


@dataclass(frozen=True, slots=True)
class Sized(Outline):
    """An outline of any length and width no greater."""

    length: float
    width: float
    """Overall, mm, with ``0 < width <= length``."""

    def __post_init__(self) -> None:
        require_figures(self, "length", "width")
        require_sizes(_a(self.name), self.length, self.width)

    def resized(self, length: float, width: float) -> Self:
        """Return one of another size, with all else that it has."""
        return replace(self, length=length, width=width)


def _from_lower_left(points: Iterable[Point]) -> tuple[Point, ...]:
    """Return different points anticlockwise from the left end, or the lower left."""
    return tuple(sorted(distinct(points), key=_round))


def distinct(points: Iterable[Point]) -> tuple[Point, ...]:
    """Return points without those that lie on an earlier one."""
    held: list[Point] = []
    for point in points:
        if all(point.distance_to(other) > SAME_POINT for other in held):
            held.append(point)
    return tuple(held)


def _round(point: Point) -> float:
    return (point.angle + math.pi + ROUNDING) % math.tau


def _a(name: str) -> str:
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"


LEAST, GREATEST = 1e-6, 1e7
"""Of the sizes of an outline, mm: far beyond any top, and few enough arcs follow its parallel."""


def require_figures(outline: Any, *fields: str) -> None:  # noqa: ANN401 - any dataclass
    """Raise an `OutlineError` unless these fields are numbers, and hold them as our own."""
    for name in fields:
        figure = take(
            Number(), getattr(outline, name), type(outline).__name__, name, error=OutlineError
        )
        require(abs(figure) <= GREATEST, f"{name} of {figure:g} is above {GREATEST:g}: no top is")
        object.__setattr__(outline, name, figure)


def require_sizes(name: str, length: float, width: float) -> None:
    """Raise an `OutlineError` unless ``0 < width <= length`` and both are finite, mm."""
    asked = f"{name} needs 0 < width <= length, not {width:g} by {length:g} mm"
    require(0 < width <= length < math.inf, asked)
    require(width >= LEAST, f"{name} {width:g} mm wide is below {LEAST:g} mm: no top is")


def require(condition: bool, message: str) -> None:
    """Raise an `OutlineError` with `message` unless the condition holds."""
    if not condition:
        raise OutlineError(message)
