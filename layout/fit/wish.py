"""What the maker wishes for: shapes, what counts as best, and within which limits."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass, field
from enum import Enum

from ..geometry import Path, Point
from ..keys.figures import ABOVE_0, FROM_0, Number, Range, count, degrees, percent
from ..keys.key import Key, fills, hold, key
from ..keys.kinds import Choice, Only, YesNo, names
from ..keys.plane import Choices, Pair, Points
from ..outlines import Outline
from ..panel.named_edges import EdgeName, EdgeNames
from .wish_kinds import ANY, OwnOutline, Span, Spans

__all__ = ["ANY", "Ends", "Goal", "Keeping", "Limits", "Span", "Wish"]

OWN, AS_FOUND = "own outline", "piece as found"
"""Shapes that need more keys than their name."""
ROUNDED = "rounded rectangle"

SHAPES = (
    *("circle", "rectangle", ROUNDED, "capsule", "D end", "oval", "superellipse", "hexagon"),
    "octagon",
)
"""The shapes that need no other key."""
STRAIGHT_SIDED = ("rectangle", ROUNDED, "capsule")
"""The shapes with a long straight side, which can lie on an edge that is kept."""
WITHOUT_LIPPING = ("superellipse", OWN, AS_FOUND)
"""No strip bends or mitres round these."""
EVERY = "any"
"""Stands for all that need no other key."""

_SHAPE = Choice(
    names(*SHAPES, OWN, AS_FOUND, EVERY),
    {
        **dict.fromkeys(("round", "circular", "disk", "disc"), "circle"),
        **dict.fromkeys(("racetrack", "round-ended", "stadium", "pill"), "capsule"),
        **dict.fromkeys(("d-end", "d end", "half-round end"), "D end"),
        **dict.fromkeys(("ellipse", "elliptical"), "oval"),
        **dict.fromkeys(("rounded corners", "rounded"), ROUNDED),
        "live edge": AS_FOUND,
        "waney edge": AS_FOUND,
    },
    {"square": 'is a rectangle as long as wide: write "rectangle" and most_ratio = 1'},
)


class Goal(Enum):
    """What makes one top better than another; the value is the name a job file uses."""

    AREA = "largest"
    LENGTH = "longest"
    WIDTH = "widest"
    NEAREST = "nearest"


_RATIO = Number(limits=Range(1, 1000))


@dataclass(frozen=True, slots=True)
class Limits:
    """Sizes that the finished top must keep."""

    length: Span = key(
        ANY,
        Spans(ABOVE_0),
        "Exactly this long; with goal `nearest`, about this long",
        "1400",
        also=(
            Key("least_length", FROM_0, "At least this long", 0.0, "0", "1200"),
            Key("most_length", ABOVE_0, "At most this long", math.inf, "no limit", "1800"),
        ),
    )
    width: Span = key(
        ANY,
        Spans(ABOVE_0),
        "Exactly this wide; with goal `nearest`, about this wide",
        "600",
        also=(
            Key("least_width", FROM_0, "At least this wide", 0.0, "0", "500"),
            Key("most_width", ABOVE_0, "At most this wide", math.inf, "no limit", "800"),
        ),
    )
    """Overall, mm."""
    ratio: Span = key(
        Span(1.0),
        Spans(_RATIO),
        also=(
            Key("least_ratio", _RATIO, "Length over width, at least", 1.0, "1", "1.5"),
            Key("most_ratio", _RATIO, "Length over width, at most", math.inf, "no limit", "2.5"),
        ),
        in_file=False,
    )
    """Length over width."""
    corner_radius: Span = key(
        Span(60.0, 60.0),
        Spans(FROM_0),
        "Of a rounded rectangle",
        "80",
        also=(
            Key("least_corner_radius", FROM_0, "In place of a fixed one", 0.0, "0", "40"),
            Key(
                "most_corner_radius", FROM_0, "In place of a fixed one", math.inf, "no limit", "120"
            ),
        ),
    )
    """For a rounded rectangle, mm (common practice); a span of one value fixes it."""
    grain_deg: float | None = key(None, degrees(-360, 360), in_file=False)
    """Direction of the panel's grain, degrees from x; None for that of the panel of a job."""
    most_turn_deg: float = key(
        90.0,
        degrees(0, 90, "90 lets it turn freely"),
        "How far the top's length may turn from the grain",
        "15",
        usual="90: freely",
        name="most_turn",
    )

    def __post_init__(self) -> None:
        hold(self, "top")

    @property
    def grain(self) -> float:
        """Direction of the panel's grain, radians from x."""
        return math.radians(self.grain_deg or 0.0)

    @property
    def most_turn(self) -> float:
        """How far the long axis may turn from the grain, radians."""
        return math.radians(self.most_turn_deg)

    @property
    def fixes_a_size(self) -> bool:
        """Whether the length or the width is to be one figure, which is then met exactly."""
        return any(span.least == span.greatest for span in (self.length, self.width))

    def off_grain(self, turn: float) -> float:
        """Return how far a long axis so turned lies off the grain, −π/2 to π/2."""
        return math.remainder(turn - self.grain, math.pi)

    def allows(self, turn: float) -> bool:
        """Return whether a long axis may be so turned."""
        return abs(self.off_grain(turn)) <= self.most_turn + 1e-12


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


def shapes_meant(named: Collection[str], *, kept: bool, lipped: bool) -> tuple[str, ...]:
    """Return shapes with all that "any" stands for where edges are kept, or are lipped."""
    every: tuple[str, ...] = STRAIGHT_SIDED if kept else SHAPES
    if lipped:
        every = tuple(shape for shape in every if shape not in WITHOUT_LIPPING)
    each = (shape for name in named for shape in (every if name == EVERY else (name,)))
    return tuple(dict.fromkeys(each))


@dataclass(frozen=True, slots=True)
class Wish:
    """The wished-for tops."""

    shapes: tuple[str, ...] = key(
        (EVERY,),
        Choices(_SHAPE, one_will_do=True),
        "Which shapes; several are ranked. `any` are those that need no other key; `own outline` "
        "needs `outline`, `piece as found` needs `keep`",
        '["capsule", "oval"]',
        usual='"any"',
        name="shape",
    )
    goal: Goal = key(
        Goal.AREA,
        Choice({goal.value: goal for goal in Goal}),
        "What counts as best: the area, the length, the width, or to be nearest to `length` and "
        "`width`",
        '"longest"',
    )
    limits: Limits = field(
        default_factory=Limits, metadata=fills(Only(Limits, "give Limits(…)"), in_file=False)
    )
    lipping: float = key(
        0.0,
        FROM_0,
        "Thickness of a strip glued round the edge; only the core within it is cut from the "
        "panel. Not round a superellipse, an own outline or a piece as found, nor with `keep`",
        "6",
        usual="0: none",
    )
    """Limits and scores are of the finished top, and only its core, the line `lipping` inside the
    finish line, must lie in the sound wood."""
    wanted: tuple[float, float] | None = key(None, Pair(ABOVE_0), in_file=False)
    """Length and width, mm, that `Goal.NEAREST` measures from."""
    gap: float = key(
        0.001,
        percent(Range(0.0, 50.0, above=True)),
        "How far the best possible top may stay above the one found when the search stops",
        "0.01",
        usual="0.1",
    )
    most_steps: int = key(3_000, count(0, 10_000_000), in_file=False)
    """Boxes after which the search stops and states the gap it reached."""
    most_effort: float = field(default=2e8, metadata={"json": False})
    """Looks at an edge (`Family.looks`) after which it stops too, over all shapes and parts
    together: about ten seconds of one processor core."""
    beats: float = 0.0
    """A score already in hand: only tops that are better are of interest."""
    exponent: float = key(
        2.5,
        Number(limits=Range(2, 20)),
        "Of a superellipse: 2 is an oval, and the more the squarer",
        "3",
    )
    own: Outline | None = key(
        None,
        OwnOutline(),
        "Corners of a top of your own, from any origin; it is laid where it has the most clearance",
        "[[0, 0], [900, 0], [900, 400], [450, 620], [0, 400]]",
        name="outline",
    )
    scaled: bool = key(
        False,
        YesNo(),
        "Whether `outline` is only a shape, to be had as large as it fits; it must not be hollow "
        "anywhere",
        "true",
    )
    """Else it is laid at its own size, with the most clearance."""
    parallel_to: str | None = key(
        None,
        EdgeName(),
        "The edge of the panel that the top's length runs parallel to",
        '"AB"',
        usual="any way",
    )
    keep: tuple[str, ...] = key(
        (),
        EdgeNames(),
        "Edges of the panel that stay as they are. A straight factory edge: a long side of a "
        "rectangle, rounded rectangle or capsule lies on it. One edge or two opposite ones, live "
        "ones too: the sides of a piece as found",
        '["AB", "CD"]',
        usual="none",
    )
    ends: Ends = key(
        Ends.SQUARE,
        Choice({ends.value: ends for ends in Ends}, {"round": Ends.HALF_ROUND.value}),
        "How the ends of a piece as found are cut",
        '"half-round"',
    )
    covers: tuple[Point, ...] = key(
        (),
        Points(),
        "Points of the panel that the top must hold: a fine figure, an inlay",
        "[[820, 400]]",
        usual="none",
    )
    avoids: tuple[Point, ...] = key(
        (), Points(), "Points of the panel that must lie outside it", "[[300, 120]]", usual="none"
    )
    keeping: Keeping | None = key(
        None, Only(Keeping, 'name edges of the panel: keep="AB"'), in_file=False
    )
    """What `keep` names on the panel of a job: edges that a long side of the top lies on."""

    def __post_init__(self) -> None:
        hold(self, "top")
        if EVERY in self.shapes:
            kept = bool(self.keep or self.keeping)
            meant = shapes_meant(self.shapes, kept=kept, lipped=self.lipping > 0)
            object.__setattr__(self, "shapes", meant)

    @property
    def kept(self) -> tuple[Path, ...]:
        """The edges of the panel that stay as they are, the wood on their left."""
        return () if self.keeping is None else self.keeping.edges
