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
    """Sizes that the finished top must keep."""

    length: Span = ANY
    width: Span = ANY
    """Overall, mm."""
    ratio: Span = ANY
    """Length over width."""
    corner_radius: Span = Span(60.0, 60.0)
    """For a rounded rectangle, mm; a span of one value fixes it."""
    grain: float = 0.0
    """Direction of the panel's grain, radians from x."""
    most_turn: float = math.pi / 2
    """How far the long axis may turn from the grain, radians; a quarter turn or more is free."""


class Ends(Enum):
    """How the ends of a piece as found are cut; the value is the name a job file uses."""

    SQUARE = "square"
    HALF_ROUND = "half-round"


@dataclass(frozen=True, slots=True)
class Keeping:
    """Edges of the panel that stay as they are: nothing is cut there, and no margin is kept."""

    edges: tuple[Path, ...]
    """One edge of the panel, or two opposite ones, each with the wood on its left."""
    ends: Ends = Ends.SQUARE
    """Of a piece as found."""


@dataclass(frozen=True, slots=True)
class Wish:
    """The wished-for tops."""

    shapes: tuple[str, ...]
    """Names of families, those of `FAMILIES`."""
    goal: Goal = Goal.AREA
    """What counts as best."""
    limits: Limits = field(default_factory=Limits)
    lipping: float = 0.0
    """Thickness of a lipping glued round the core, mm; limits and scores are of the finished top,
    and only its core, the line `lipping` inside the finish line, must lie in the sound wood."""
    wanted: tuple[float, float] | None = None
    """Length and width, mm, that `Goal.NEAREST` measures from."""
    gap: float = 0.001
    """How far, as a share, the bound may stay above the found top when the search stops."""
    most_steps: int = 3_000
    """Boxes after which the search stops and states the gap it reached."""
    most_effort: float = 2e8
    """Looks at an edge (`driver.Family.looks`) after which it stops too, over all shapes and parts
    together: about ten seconds of one processor core."""
    beats: float = 0.0
    """A score already in hand: only tops that are better are of interest."""
    exponent: float = 2.5
    """Of a superellipse."""
    own: Outline | None = None
    """The maker's own outline, for the family of that name."""
    scaled: bool = False
    """Whether the own outline is sought as large as may be; else at its own size, with the most
    clearance."""
    keeping: Keeping | None = None
    """Edges of the panel that a long side of the top lies on."""
    covers: tuple[Point, ...] = ()
    avoids: tuple[Point, ...] = ()
    """Points of the panel that lie within the top, or outside it."""

    @property
    def kept(self) -> tuple[Path, ...]:
        """The edges of the panel that stay as they are, the wood on their left."""
        return () if self.keeping is None else self.keeping.edges
