"""What every outline of a top can tell, and the frame in which it tells it.

An outline lies in its own frame: its centre at the origin, its length along x, its width along y.
Its path runs anticlockwise. A `Placement` puts it on a panel.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from typing import TYPE_CHECKING, Self

from ..errors import OutlineError
from ..geometry.bounds import Bounds
from ..geometry.path import Path
from ..geometry.placement import Points
from ..geometry.point import ORIGIN
from ..geometry.tolerance import CHORD, CURVE


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

        Raises
        ------
        OutlineError
            If nothing is left so far inside.
        """

    def line(self, outside: float = 0.0) -> Path:
        """Return its boundary, or the parallel of it that lies so far outside, mm."""
        return self.parallel(outside) if outside else self.path()

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


LEAST, GREATEST = 1e-6, 1e9
"""Of the sizes of an outline, mm: far beyond any top, and their squares can be reckoned with."""


def require_sizes(name: str, length: float, width: float) -> None:
    """Raise an `OutlineError` unless ``0 < width <= length`` and both can be reckoned with, mm."""
    require(
        0 < width <= length < math.inf,
        f"{name} needs 0 < width <= length, not {width:g} by {length:g} mm",
    )
    require(
        width >= LEAST and length <= GREATEST,
        f"{name} needs sizes from {LEAST:g} to {GREATEST:g} mm, not {width:g} by {length:g} mm",
    )


def require(condition: bool, message: str) -> None:
    """Raise an `OutlineError` with `message` unless the condition holds."""
    if not condition:
        raise OutlineError(message)
