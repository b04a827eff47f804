"""The values of a cutting plan: straight cuts, curve cuts, and where their guides stand."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from ..geometry import Path, Point, Region
from ..panel.datum import Datum
from .router import QuarterFeed, TemplateGuide

HEAVY = 10.0
"""A falling piece heavier than this wants a second pair of hands, kg (common practice)."""

LONG_STRIP, NARROW_STRIP = 1000.0, 150.0
"""A strip so long and narrow bends into the blade unless it lies on boards, mm (ours)."""

PAST_EACH_END = 150.0
"""How far a straightedge reaches past both ends of a cut, mm (common practice)."""


class Support(Enum):
    """What holds the piece that falls."""

    PEOPLE = "a second person"
    BOARDS = "boards along the strip"
    PIECE = "boards under the piece"


class TrimKind(Enum):
    """Why a straight cut is made."""

    ROUGH = "to rough length"
    FIRST_RIP = "first rip"
    FREEING = "frees the good part"
    END = "end"
    SIDE = "long edge"
    EDGE = "side"
    TO_CORNER = "into a hollow corner"

    @property
    def stops(self) -> bool:
        """Whether it stops short of a hollow corner, so that nothing falls off yet."""
        return self is TrimKind.TO_CORNER


class SkipReason(Enum):
    """Why no straight cut is made along a side."""

    KEPT = "the edge is kept"
    TOO_THIN = "too little would fall off"
    TO_JIGSAW = "jigsaw or router take it on their way"
    IN_THE_WAY = "what no blade may cross lies in its line"


@dataclass(frozen=True, slots=True)
class EdgePoint:
    """Where a saw line or a guide enters or leaves the wood."""

    point: Point
    along: float
    square: float
    """Its offsets from the datum, mm."""
    corner: str = ""
    """The nearer usable corner of the same edge of the panel; empty where there is none."""
    distance: float = 0.0
    """Straight from that corner, mm; 0 where there is none."""

    @classmethod
    def at(cls, point: Point, datum: Datum) -> EdgePoint:
        """Return a place by its offsets alone."""
        offsets = datum.coordinates(point)
        return cls(point, offsets.along, offsets.square)


@dataclass(frozen=True, slots=True)
class Guide:
    """Where the straightedge is clamped: the line along which the saw's base runs."""

    offset: float
    """From the saw line into the kept wood, mm."""
    blade_side: str
    """On which side of the blade the guide stands as the saw is pushed: "left" or "right"."""
    start: EdgePoint
    end: EdgePoint
    """Where the guide's edge meets the edges of the wood, as the saw is pushed."""


@dataclass(frozen=True, slots=True)
class StraightCut:
    """A straight saw cut."""

    label: str
    """``Cut 1``."""
    start: EdgePoint
    end: EdgePoint
    """Where the saw line, the kept side of the kerf, meets the edges of the wood; the saw is pushed
    from `start` to `end`, the work lying as it is sawn."""
    waste: Point
    """Unit vector towards the waste."""
    allowance: float
    """From the line that is kept to the saw line, mm."""
    kerf: float
    """Width of the cut, taken from the waste, mm."""
    guide: Guide | None
    """None where no guide is used, or the saw has not been measured."""
    depths: tuple[float, ...]
    """How deep the saw is set, pass by pass, mm."""
    narrowest: float
    widest: float
    """What falls off beside the kerf, mm, over the stretch where the saw is in wood."""
    fallen: tuple[Region, ...]
    """The pieces that fall off, largest first."""
    heaviest: float = field(metadata={"unit": "kg"})
    """Mass of the heaviest of them, kg."""
    wall: float | None
    """What is left beside a cut-out in a piece that falls, mm; None where it does not break."""
    spans: tuple[tuple[Point, Point], ...]
    """The stretches on which the saw is in wood, as it is pushed; a cut-out interrupts them."""

    @property
    def sawn(self) -> float:
        """From where the saw enters what is left of the wood to where it leaves it, mm."""
        return self.spans[0][0].distance_to(self.spans[-1][1])

    @property
    def straightedge(self) -> float:
        """The least length of a straightedge for it, mm."""
        return self.sawn + 2 * PAST_EACH_END

    @property
    def support(self) -> Support:
        """What holds the piece that falls."""
        if self.heaviest > HEAVY:
            return Support.PEOPLE
        if self.sawn >= LONG_STRIP and self.widest <= NARROW_STRIP:
            return Support.BOARDS
        return Support.PIECE


@dataclass(frozen=True, slots=True)
class Trim(StraightCut):
    """A straight saw cut through the panel along a side of the top."""

    kind: TrimKind
    wanders: bool
    """Whether much of what falls off is thinner than a blade keeps its way in."""


@dataclass(frozen=True, slots=True)
class CornerCut(StraightCut):
    """A 45° saw cut off a corner of the blank before a curve; its ends lie on the blank's edges."""

    leg: float | None
    """From the corner of the blank along both its edges to the line, mm; None where those edges
    are not both sawn, or their corner is in the air."""
    handsaw: bool
    """Whether it is too short for a saw with a base to be led along a guide."""


@dataclass(frozen=True, slots=True)
class SkippedTrim:
    """A side of the top along which no straight cut is made."""

    kind: TrimKind
    waste: Point
    edge: str
    """The panel's edge there, by the letters of its corners; empty where it has no name."""
    strip: float
    """The most wood beyond the line that is kept, mm."""
    needed: float
    """What a saw needs there, mm: what it leaves outside the line, its kerf, and what falls off."""
    reason: SkipReason
    in_the_way: tuple[str, ...] = ()
    """Names of the defects that no blade may cross and this cut would."""


@dataclass(frozen=True, slots=True)
class SwungRadius:
    """What a pin and a cutter are set to about some centres."""

    centres: tuple[str, ...]
    """Labels of the marks."""
    radius: float
    """From the pin to the line, mm; for a router the near edge of its bit."""
    to_bit_middle: float | None = None
    to_far_edge: float | None = None
    """From the pin to the middle and to the far edge of the router's bit, mm: a disk is measured to
    its near edge, a hole would be to the far one."""


class CurveTool(Enum):
    """What goes along the outline."""

    JIGSAW = "jigsaw"
    ROUTER = "router"
    HAND = "hand"


@dataclass(frozen=True, slots=True)
class LineCut:
    """A cut along the outline."""

    tool: CurveTool
    line: Path
    """On the panel, closed."""
    allowance: float
    """From the line that is kept to this one, mm; 0 where the cut goes to the line."""
    most_waste: float
    """The farthest that wood stands outside the kept line when this cut starts, mm."""
    kept: tuple[Path, ...]
    """Stretches of the line that lie on edges of the panel which stay: nothing is cut there."""

    @property
    def label(self) -> str:
        """What it is called."""
        return self.tool.value.capitalize()


@dataclass(frozen=True, slots=True)
class JigsawCut(LineCut):
    """Along the rough line."""

    kerf: float
    radii: tuple[SwungRadius, ...]
    thick: bool
    """Whether the wood is so thick that the blade is trusted with rough waste only."""
    after_stopped: bool
    """Whether it also frees hollow corners that straight cuts stop short of."""
    relief: tuple[tuple[Point, Point], ...]
    """Cuts from the edge of the blank to the line that free the waste of a tight curve."""


@dataclass(frozen=True, slots=True)
class RouterCut(LineCut):
    """To the line."""

    radii: tuple[SwungRadius, ...]
    """What is swung on a trammel."""
    passes: int
    depth: float
    """Of one pass, mm."""
    template: TemplateGuide | None
    """What the router's bush or bearing follows, where it runs on no trammel."""
    half_template: bool
    """Whether the template is one half, flipped on the long centreline."""
    straights: bool
    """Whether straight sides are routed along a straightedge."""
    straightedge: float | None
    """How far inside the line that is clamped, mm; None where the router's base is not measured."""
    bit: float
    stays_out: float
    """The farthest that a round bit stays out of a hollow corner, mm; 0 where there is none."""
    all_straight: bool
    feeds: tuple[QuarterFeed, ...]
    """Which way it goes round a solid top whose quarters are alike."""
    has_grain: bool


@dataclass(frozen=True, slots=True)
class HandCut(LineCut):
    """To the line with plane, spokeshave and file."""


CurveCut = JigsawCut | RouterCut | HandCut


@dataclass(frozen=True, slots=True)
class Kerf:
    """What a saw, a bit, a screw or a pin turns to dust."""

    label: str
    band: Region
    """On the panel; it may overrun what is left of it."""

    @classmethod
    def bored(cls, label: str, at: Point, diameter: float) -> Kerf:
        """Return the hole of a screw or a pin, mm."""
        return cls(label, Region.disk(at, diameter / 2, around=True))
