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
    """A point on the edge of the panel.

    Attributes
    ----------
    point : Point
    along, square : float
        Its offsets from the datum, mm.
    corner : str
        The nearer usable corner of the same edge; empty where there is none.
    distance : float
        Straight from that corner, mm; 0 where there is none.
    """

    point: Point
    along: float
    square: float
    corner: str = ""
    distance: float = 0.0


@dataclass(frozen=True, slots=True)
class Guide:
    """Where the straightedge is clamped: the line along which the saw's base runs.

    Attributes
    ----------
    offset : float
        From the saw line into the kept wood, mm.
    blade_side : str
        On which side of the blade the guide stands as the saw is pushed: "left" or "right".
    start, end : EdgePoint
        Where the guide's edge meets the edges of the panel.
    """

    offset: float
    blade_side: str
    start: EdgePoint
    end: EdgePoint


@dataclass(frozen=True, slots=True)
class Trim:
    """One straight saw cut through the panel.

    Attributes
    ----------
    label : str
        ``Cut 1``.
    kind : TrimKind
    start, end : EdgePoint
        Where the saw line, the kept side of the kerf, meets the panel's edges.
    waste : Point
        Unit vector towards the waste.
    allowance : float
        From the line that is kept to the saw line, mm.
    kerf : float
        Width of the cut, taken from the waste, mm.
    guide : Guide or None
        None where the saw has not been measured: then only the saw line is given.
    depths : tuple of float
        How deep the saw is set, pass by pass, mm.
    narrowest, widest : float
        What falls off beside the kerf, mm, over the stretch where the saw is in wood.
    fallen : tuple of Region
        The pieces that fall off, largest first.
    heaviest : float
        Mass of the heaviest of them, kg.
    spans : tuple of pairs of Points
        The stretches on which the saw is in wood: several where a cut-out interrupts the line.
    warnings : tuple of str
    """

    label: str
    kind: TrimKind
    start: EdgePoint
    end: EdgePoint
    waste: Point
    allowance: float
    kerf: float
    guide: Guide | None
    depths: tuple[float, ...]
    narrowest: float
    widest: float
    fallen: tuple[Region, ...]
    heaviest: float = field(metadata={"unit": "kg"})
    spans: tuple[tuple[Point, Point], ...]
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
    """A side of the top along which no straight cut is made.

    Attributes
    ----------
    kind : TrimKind
    waste : Point
        Unit vector from the top towards that side.
    strip : float
        The most wood beyond the line, mm.
    reason : str
    """

    kind: TrimKind
    waste: Point
    strip: float
    reason: str


@dataclass(frozen=True, slots=True)
class Facet:
    """A 45° saw cut that takes off a corner of the blank before a curve.

    Attributes
    ----------
    label : str
        ``Facet 1``.
    start, end : Point
        Where the saw line meets the edges of the blank.
    waste : Point
        Unit vector towards the waste.
    leg : float or None
        From the corner of the blank, where two saw lines cross, along both its edges to the line,
        mm; None where one of those edges is not sawn.
    clear : float
        From the curve to the saw line, mm.
    guide_offset : float or None
        From the saw line into the kept wood to the guide, mm.
    fallen : tuple of Region
    """

    label: str
    start: Point
    end: Point
    waste: Point
    leg: float | None
    clear: float
    guide_offset: float | None
    fallen: tuple[Region, ...]


@dataclass(frozen=True, slots=True)
class SwungRadius:
    """What a pin and a cutter are set to about some centres.

    Attributes
    ----------
    centres : tuple of str
        Labels of the marks.
    radius : float
        From the pin to the line, mm; for a router the near edge of its bit.
    to_bit_middle, to_far_edge : float or None
        From the pin to the middle and to the far edge of the router's bit, mm: a disk is measured
        to its near edge, a hole would be to the far one.
    """

    centres: tuple[str, ...]
    radius: float
    to_bit_middle: float | None = None
    to_far_edge: float | None = None


@dataclass(frozen=True, slots=True)
class CurveCut:
    """A cut along the outline by jigsaw, router or hand.

    Attributes
    ----------
    tool : str
        "jigsaw", "router" or "hand".
    line : Path
        On the panel, closed.
    allowance : float
        From the line that is kept to this one, mm; 0 where the cut goes to the line.
    most_waste : float
        The farthest that wood stands outside the kept line when this cut starts, mm.
    radii : tuple of SwungRadius
    passes : int
    depth : float
        Of one pass, mm.
    notes : tuple of str
    relief : tuple of pairs of Points
        Cuts from the edge of the blank to the line that free the waste of a tight curve.
    template : TemplateGuide or None
        What the router's bush or bearing follows, where it runs on no trammel.
    kept : tuple of Path
        Stretches of the line that lie on edges of the panel which stay: nothing is cut there.
    """

    tool: str
    line: Path
    allowance: float
    most_waste: float
    radii: tuple[SwungRadius, ...]
    passes: int
    depth: float
    notes: tuple[str, ...] = ()
    relief: tuple[tuple[Point, Point], ...] = ()
    template: TemplateGuide | None = None
    kept: tuple[Path, ...] = ()
