"""A way to draw an outline on wood: what it takes, what it draws, and how far that may be out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import Enum
from typing import Any

from ..concern import Concern
from ..geometry import Point, alike
from ..geometry.tolerance import ROUNDING
from .instruments import StringLoop
from .mark import Ground, OffWood


class HandTool(Enum):
    """What is needed to draw a line; the value is its name on the sheets."""

    STRING = "nails and string"
    BAR = "trammel bar or beam compass"
    ROUTER = "router trammel"
    ROD = "rod with two pins"
    SQUARE = "framing square"
    LATH = "thin even lath"
    LATHS = "two stiff laths"
    TEMPLATE = "corner template"
    TAPE = "tape"
    PAPER = "full-size template"


class Against(Enum):
    """Why a way to draw does not serve."""

    NO_TOOL = "tool not at hand"
    SHORT_TONGUE = "tongue too short"
    NO_END = "no end left"


ALL_TOOLS = frozenset(HandTool) - {HandTool.PAPER}
"""The sheets of a full-size template need not be at hand: they are printed."""

TONGUE = 406.4
"""Tongue of a common framing square, its shorter arm, mm: 16 in."""

BAR_PLAY, ROUTER_PLAY = 0.5, 0.2
"""A pencil on a bar draws, and a router on a trammel cuts, within this, mm (common practice)."""

PENCIL_LEAN, TYING = 1.0, 1.0
"""A pencil on a string leans by this; a loop is tied, and its nails are driven, within this, mm
(common practice)."""

SETTING = 0.5
"""A pin, a rod or an ordinate is set and read within this, mm: half a division of a tape."""

READ_TWICE = math.hypot(SETTING, SETTING)
"""A place that is set or read in two ways lies within this, mm."""


@dataclass(frozen=True, slots=True)
class Pivot:
    """A place that a point or nail stands in."""

    name: str
    """What it is, or the label of its mark."""
    at: Point
    """From the middle of the top, x along its length, mm."""
    off: OffWood | None = None
    """How far it lies off the wood, where a panel is known and has none there."""


@dataclass(frozen=True, slots=True)
class Method:
    """One way to draw an outline."""

    name: str
    tools: tuple[HandTool, ...]
    """All of them are needed."""
    figures: Any
    """The lengths to set, under the names that the trade's formulas have."""
    pivots: tuple[Pivot, ...] = ()
    """Where points or nails stand."""
    line_error: float = 0.0
    """How far the line that is drawn lies from the outline even if all is set truly, mm."""
    hand_error: float = READ_TWICE
    """How far a careful hand lets it stray, mm: the root of the squares of its slips."""
    leaves_hole: bool = False
    """Whether it leaves a hole in the face that is drawn on."""
    draws_line: bool = True
    """Whether there is a line to saw by when it is done; a router on a trammel cuts at once."""
    against: Concern | None = None
    """Why it does not serve here; None where it does. Its matter is one of `Against`."""
    joins: int = 0
    """How many straight sides are joined from mark to mark when its curves are drawn."""

    @property
    def error(self) -> float:
        """How far the drawn line may lie from the outline, mm."""
        return self.line_error + self.hand_error

    @property
    def serves(self) -> bool:
        """Whether it can be used here."""
        return self.against is None


@dataclass(frozen=True, slots=True)
class Workshop:
    """What there is to draw with."""

    tools: frozenset[HandTool] = ALL_TOOLS
    tongue: float = TONGUE
    """Of the framing square, its shorter arm, mm."""
    nail: float = 3.0
    pencil: float = 3.0
    """Diameters, mm; a pencil notched to the nail's size draws a true ellipse."""
    stretch: float = 0.0
    """Share by which the string gives."""
    ground: Ground | None = None
    """The panel to draw on, where it is known."""

    def loop(self, length: float, width: float) -> StringLoop:
        """Return the loop of string for an oval, mm."""
        return StringLoop.for_oval(length, width, self.nail, self.pencil, self.stretch)

    def pivots(self, **places: Point) -> tuple[Pivot, ...]:
        """Return pivots by name, each with how far it lies off the wood."""
        ground = self.ground
        return tuple(
            Pivot(name, at, ground.missing(ground.top.placement(at)) if ground else None)
            for name, at in places.items()
        )


def ranked(methods: Iterable[Method], workshop: Workshop) -> tuple[Method, ...]:
    """Return the methods, those that serve first and of these the truest first.

    A method whose tools are not at hand says so; one with a pivot off the wood still serves, by a
    board beside the panel, but later; one that draws no line comes after those that do.
    """

    def judged(method: Method) -> Method:
        lacking = [t.value for t in method.tools if t in ALL_TOOLS - workshop.tools]
        if not lacking or not method.serves:
            return method
        return replace(method, against=Concern(Against.NO_TOOL, tuple(lacking)))

    def rank(method: Method) -> tuple[float, ...]:
        boards = sum(pivot.off is not None for pivot in method.pivots)
        return method.serves, method.draws_line, -boards, -method.error

    held = alike.ranked(map(judged, methods), rank, tolerance=(0.0, 0.0, 0.0, ROUNDING))
    return tuple(held)


@dataclass(frozen=True, slots=True)
class JoinedCorners:
    """Corners that are marked from the datum and joined: each stands where two offsets are read."""

    sides: int
    """How many straight sides are drawn."""
    all_round: bool = True
    """Whether they are all the sides; else the rest of the edge stays."""


@dataclass(frozen=True, slots=True)
class FullSize:
    """A template as large as the top, mm, laid and pricked through, each as a tape is read."""

    length: float
    width: float
