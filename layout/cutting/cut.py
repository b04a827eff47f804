"""The values of a cutting plan: trims, facets, curve cuts, and where their guides stand."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum

from ..geometry.path import Path
from ..geometry.point import Point
from ..geometry.polygon import Region
from .template_line import TemplateGuide


class TrimKind(Enum):
    """Why a straight cut is made."""

    ROUGH = "to rough length"
    REFERENCE = "reference rip"
    FREEING = "frees the good part"
    END = "end"
    SIDE = "long edge"
    EDGE = "side"
    TO_CORNER = "into a hollow corner"
    FROM_CORNER = "out of a hollow corner"

    @property
    def stops(self) -> bool:
        """Whether it stops short of a hollow corner, so that nothing falls off yet."""
        return self in (TrimKind.TO_CORNER, TrimKind.FROM_CORNER)


@dataclass(frozen=True, slots=True)
class EdgePoint:
    """A point on the edge of the panel."""

    point: Point
    along: float
    square: float
    """Its offsets from the datum, mm."""
    corner: str = ""
    """The nearer usable corner of the same edge; empty where there is none."""
    distance: float = 0.0
    """Straight from that corner, mm; 0 where there is none."""


@dataclass(frozen=True, slots=True)
class Guide:
    """Where the straightedge is clamped: the line along which the saw's base runs."""

    offset: float
    """From the saw line into the kept wood, mm."""
    blade_side: str
    """On which side of the blade the guide stands as the saw is pushed: "left" or "right"."""
    start: EdgePoint
    end: EdgePoint
    """Where the guide's edge meets the edges of the panel."""


@dataclass(frozen=True, slots=True)
class Trim:
    """One straight saw cut through the panel."""

    label: str
    """``Cut 1``."""
    kind: TrimKind
    start: EdgePoint
    end: EdgePoint
    """Where the saw line, the kept side of the kerf, meets the panel's edges."""
    waste: Point
    """Unit vector towards the waste."""
    allowance: float
    """From the line that is kept to the saw line, mm."""
    kerf: float
    """Width of the cut, taken from the waste, mm."""
    guide: Guide | None
    """None where the saw has not been measured: then only the saw line is given."""
    depths: tuple[float, ...]
    """How deep the saw is set, pass by pass, mm."""
    narrowest: float
    widest: float
    """What falls off beside the kerf, mm, over the stretch where the saw is in wood."""
    fallen: tuple[Region, ...]
    """The pieces that fall off, largest first."""
    heaviest: float = field(metadata={"unit": "kg"})
    """Mass of the heaviest of them, kg."""
    spans: tuple[tuple[Point, Point], ...]
    """The stretches on which the saw is in wood: several where a cut-out interrupts the line."""
    warnings: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """From edge to edge, mm."""
        return self.start.point.distance_to(self.end.point)

    @property
    def sawn(self) -> float:
        """From where the saw enters what is left of the wood to where it leaves it, mm."""
        return self.spans[0][0].distance_to(self.spans[-1][1])


@dataclass(frozen=True, slots=True)
class SkippedTrim:
    """A side of the top along which no straight cut is made."""

    kind: TrimKind
    waste: Point
    """Unit vector from the top towards that side."""
    strip: float
    """The most wood beyond the line, mm."""
    reason: str


@dataclass(frozen=True, slots=True)
class Facet:
    """A 45° saw cut that takes off a corner of the blank before a curve."""

    label: str
    """``Facet 1``."""
    start: Point
    end: Point
    """Where the saw line meets the edges of the blank."""
    waste: Point
    """Unit vector towards the waste."""
    leg: float | None
    """From the corner of the blank, where two saw lines cross, along both its edges to the line,
    mm; None where one of those edges is not sawn."""
    clear: float
    """From the curve to the saw line, mm."""
    guide_offset: float | None
    """From the saw line into the kept wood to the guide, mm."""
    fallen: tuple[Region, ...]


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


@dataclass(frozen=True, slots=True)
class CurveCut:
    """A cut along the outline by jigsaw, router or hand."""

    tool: str
    """"jigsaw", "router" or "hand"."""
    line: Path
    """On the panel, closed."""
    allowance: float
    """From the line that is kept to this one, mm; 0 where the cut goes to the line."""
    most_waste: float
    """The farthest that wood stands outside the kept line when this cut starts, mm."""
    radii: tuple[SwungRadius, ...]
    passes: int
    depth: float
    """Of one pass, mm."""
    notes: tuple[str, ...] = ()
    relief: tuple[tuple[Point, Point], ...] = ()
    """Cuts from the edge of the blank to the line that free the waste of a tight curve."""
    template: TemplateGuide | None = None
    """What the router's bush or bearing follows, where it runs on no trammel."""
    kept: tuple[Path, ...] = ()
    """Stretches of the line that lie on edges of the panel which stay: nothing is cut there."""
