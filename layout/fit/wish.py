"""What the maker wishes for: shapes, what counts as best, and within which limits."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from enum import Enum

from ..errors import LayoutError
from ..geometry.path import Path
from ..geometry.point import Point
from ..outlines import Outline


class Goal(Enum):
    """What makes one top better than another; the value is the name a job file uses."""

    AREA = "largest"
    LENGTH = "longest"
    WIDTH = "widest"
    NEAREST = "nearest"


@dataclass(frozen=True, slots=True)
class Span:
    """From `least` to `greatest`, both allowed.

    Raises
    ------
    LayoutError
        If least is above greatest.
    """

    least: float = 0.0
    greatest: float = math.inf

    def __post_init__(self) -> None:
        if not self.least <= self.greatest:
            raise LayoutError(f"a span from {self.least:g} to {self.greatest:g} holds nothing")

    def holds(self, value: float, slack: float = 0.0) -> bool:
        """Return whether the value lies within, give or take `slack`."""
        return self.least - slack <= value <= self.greatest + slack


ANY = Span()


@dataclass(frozen=True, slots=True)
class Limits:
    """Sizes that the finished top must keep.

    Attributes
    ----------
    length, width : Span
        Overall, mm.
    ratio : Span
        Length over width.
    corner_radius : Span
        For a rounded rectangle, mm; a span of one value fixes it.
    grain : float
        Direction of the panel's grain, radians from x.
    most_turn : float
        How far the long axis may turn from the grain, radians; a quarter turn or more is free.
    """

    length: Span = ANY
    width: Span = ANY
    ratio: Span = ANY
    corner_radius: Span = Span(60.0, 60.0)
    grain: float = 0.0
    most_turn: float = math.pi / 2


class Ends(Enum):
    """How the ends of a piece as found are cut; the value is the name a job file uses."""

    SQUARE = "square"
    HALF_ROUND = "half-round"


@dataclass(frozen=True, slots=True)
class Keeping:
    """Edges of the panel that stay as they are: nothing is cut there, and no margin is kept.

    Attributes
    ----------
    edges : tuple of Path
        One edge of the panel, or two opposite ones, each with the wood on its left.
    ends : Ends
        Of a piece as found.
    """

    edges: tuple[Path, ...]
    ends: Ends = Ends.SQUARE


@dataclass(frozen=True, slots=True)
class Wish:
    """The wished-for tops.

    Attributes
    ----------
    shapes : tuple of str
        Names of families, those of `FAMILIES`.
    goal : Goal
        What counts as best.
    limits : Limits
    lipping : float
        Thickness of a lipping glued round the core, mm; limits and scores are of the finished top,
        and only its core, the line `lipping` inside the finish line, must lie in the sound wood.
    wanted : tuple of two floats or None
        Length and width, mm, that `Goal.NEAREST` measures from.
    gap : float
        How far, as a share, the bound may stay above the found top when the search stops.
    most_steps : int
        Boxes after which the search stops and states the gap it reached.
    beats : float
        A score already in hand: only tops that are better are of interest.
    exponent : float
        Of a superellipse.
    own : Outline or None
        The maker's own outline, for the family of that name.
    scaled : bool
        Whether the own outline is sought as large as may be; else at its own size, with the most
        clearance.
    keeping : Keeping or None
        Edges of the panel that a long side of the top lies on.
    covers, avoids : tuple of Point
        Points of the panel that lie within the top, or outside it.
    """

    shapes: tuple[str, ...]
    goal: Goal = Goal.AREA
    limits: Limits = field(default_factory=Limits)
    lipping: float = 0.0
    wanted: tuple[float, float] | None = None
    gap: float = 0.001
    most_steps: int = 3_000
    beats: float = 0.0
    exponent: float = 2.5
    own: Outline | None = None
    scaled: bool = False
    keeping: Keeping | None = None
    covers: tuple[Point, ...] = ()
    avoids: tuple[Point, ...] = ()

    @property
    def kept(self) -> tuple[Path, ...]:
        """The edges of the panel that stay as they are, the wood on their left."""
        return () if self.keeping is None else self.keeping.edges
