"""The ways to draw any outline of a top by compass, string, pins and ordinates."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from ..geometry import ORIGIN, Bounds, Line, Point
from ..outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from .arcs import ArchTrammel, LargeArc, SprungLath
from .instruments import Ordinate, Swing
from .method import (
    BAR_PLAY,
    PENCIL_LEAN,
    ROUTER_PLAY,
    SETTING,
    FullSize,
    HandTool,
    JoinedCorners,
    Method,
    Workshop,
    ranked,
)
from .oval_methods import oval_ways, superellipse_ways
from .places import FreeformPlaces, swept_by


@dataclass(frozen=True, slots=True)
class Ordinates:
    """Heights at stations from the middle, mm."""

    ordinates: tuple[Ordinate, ...]


def swung_ways(outline: Circle | Capsule | RoundedRectangle, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw the arcs of an outline, each of its radii in turn."""
    own = outline.arc_centres and outline.corners  # of a D end its corners are marks
    joins = sum(isinstance(s, Line) for s in outline.path().segments) if own else 0
    for swing in swept_by(outline):
        yield from (replace(method, joins=joins) for method in swings(swing, shop))
        if isinstance(outline, RoundedRectangle):
            yield Method("corner template", (HandTool.TEMPLATE,), swing)


def swings(swing: Swing, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to swing a radius about its centres, with what is there to swing it."""
    pivots = shop.pivots(**{f"centre {i}": at for i, at in enumerate(swing.centres, start=1)})
    for name, tool, slip in _compasses(shop, swing.radius):
        draws = tool is not HandTool.ROUTER
        yield Method(name, (tool,), swing, pivots, 0.0, slip, True, draws_line=draws)


def _compasses(shop: Workshop, reach: float) -> Iterator[tuple[str, HandTool, float]]:
    """Yield what swings a radius: its name, and how far it may be out where it is set and drawn."""
    lean = math.hypot(PENCIL_LEAN, shop.stretch * reach)
    yield "string compass", HandTool.STRING, math.hypot(lean, SETTING)
    yield "trammel bar", HandTool.BAR, math.hypot(BAR_PLAY, SETTING)
    yield "router trammel", HandTool.ROUTER, math.hypot(ROUTER_PLAY, SETTING)


def arc_ways(arc: LargeArc, stations: int, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw a large arc; pivots from the middle of its chord, the arc lying up."""
    ends = {"nail 1": Point(-arc.chord / 2, 0.0), "nail 2": Point(arc.chord / 2, 0.0)}
    centre, slip = shop.pivots(centre=Point(0.0, -arc.centre_below)), math.hypot(BAR_PLAY, SETTING)
    yield Method("swung radius", (HandTool.BAR,), arc, centre, 0.0, slip, leaves_hole=True)
    trammel, nails = ArchTrammel.for_arc(arc), shop.pivots(**ends)
    yield Method("arch trammel", (HandTool.LATHS,), trammel, nails, leaves_hole=True)
    if arc.is_flat:
        points = arc.ordinates(stations)
        sag = max(_sag(arc, one, other) for one, other in pairwise(points))
        yield Method("ordinates", (HandTool.TAPE,), Ordinates(points), line_error=sag)
        lath = SprungLath.for_arc(arc, stations)
        out = lath.farthest
        yield Method("sprung lath", (HandTool.LATH,), lath, line_error=out, leaves_hole=True)


def _sag(arc: LargeArc, one: Ordinate, other: Ordinate) -> float:
    """Return how far the arc stands off the straight line between two points, r(1 − cos), mm."""
    half = Point(one.out, one.up).distance_to(Point(other.out, other.up)) / 2
    return arc.radius - math.sqrt(max(arc.radius**2 - half**2, 0.0))


@dataclass(frozen=True, slots=True)
class SteppedCircle:
    """A circle through the corners, and the chord that steps from one corner to the next."""

    radius: float
    step: float
    """mm; a hexagon's is the radius itself (Euclid, *Elements* IV.15)."""


@dataclass(frozen=True, slots=True)
class SquareAndHalfDiagonal:
    """A square whose corners are cut off so that eight equal sides are left.

    Half its diagonal, struck from each corner, meets its sides in the octagon's corners.
    """

    square: float
    """Its side: across the flats, mm."""
    half_diagonal: float
    """From each corner to the marks on its two sides, mm."""
    cut_off: float
    """From each corner to the nearer mark on a side, mm: what is left of the side."""

    @classmethod
    def of(cls, across_flats: float) -> SquareAndHalfDiagonal:
        """Return the square of an octagon, mm."""
        half = across_flats / math.sqrt(2)
        return cls(across_flats, half, across_flats - half)

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners of the square from its middle, anticlockwise from the lower left, mm."""
        return Bounds.about(ORIGIN, self.square / 2).corners


def regular_ways(top: RegularPolygon, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw a hexagon or an octagon.

    A hexagon's circle is stepped round from both ends of the long axis, so that no step adds up:
    circle and step cross at 60°. Half the diagonal of an octagon's square is struck from each
    corner: its sides are read once, its corners twice, and the compass slips along the sides.
    """
    yield Method("corners joined", (HandTool.TAPE,), JoinedCorners(top.sides))
    figures: SteppedCircle | SquareAndHalfDiagonal
    if top.sides == 6:
        name, reach = "circle stepped round", top.circumradius
        figures = SteppedCircle(reach, top.side)
        places = {"centre": ORIGIN, "end 1": Point(-reach, 0.0), "end 2": Point(reach, 0.0)}
    else:
        figures = SquareAndHalfDiagonal.of(top.across_flats)
        name, reach = "square and half diagonal", figures.half_diagonal
        places = {f"square {i}": at for i, at in enumerate(figures.corners, start=1)}
    for by, tool, slip in _compasses(shop, reach):
        if tool is HandTool.ROUTER:  # it would cut where a line is to be struck
            continue
        tools = (tool,) if top.sides == 6 else (tool, HandTool.TAPE)
        crossed = math.hypot(slip, slip) / math.sin(math.pi / 3)
        error = crossed if top.sides == 6 else math.hypot(slip, SETTING, SETTING)
        by = f"{name} by {by.removesuffix(' compass')}"
        yield Method(by, tools, figures, shop.pivots(**places), 0.0, error, leaves_hole=True)


def methods_for(outline: Outline, workshop: Workshop | None = None) -> tuple[Method, ...]:
    """Return the ways to draw an outline, those that serve first; none for a rectangle.

    With `Workshop.ground` each pivot says how far it lies off the panel, and what lies on the
    panel's own edge is not drawn.
    """
    shop = workshop or Workshop()
    return ranked(_ways(outline, shop), shop)


def _ways(outline: Outline, shop: Workshop) -> Iterator[Method]:
    match outline:
        case Oval() if outline.length > outline.width:
            yield from oval_ways(outline.length, outline.width, shop)
        case Oval():
            yield from swung_ways(Circle(outline.length), shop)
        case Circle() | Capsule() | RoundedRectangle():
            yield from swung_ways(outline, shop)
        case Superellipse():
            yield from superellipse_ways(outline)
        case RegularPolygon():
            yield from regular_ways(outline, shop)
        case Freeform():
            yield from _freeform_ways(outline, shop)


def _freeform_ways(outline: Freeform, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw what of an outline is cut.

    Arcs are swung, each radius in turn; straight sides are joined after the last. Where some of it
    is neither, only a template draws it.
    """
    places = FreeformPlaces.of(outline, shop.ground)
    if places.cut and not places.by_template:
        swept = places.swept
        for which, one in enumerate(swept, start=1):
            joins = len(places.lines) if which == len(swept) else 0
            yield from (replace(method, joins=joins) for method in swings(one, shop))
        if not places.arcs:
            corners = JoinedCorners(len(places.lines), all_round=False)
            yield Method("corners joined", (HandTool.TAPE,), corners)
    yield Method("full-size template", (HandTool.PAPER,), FullSize(outline.length, outline.width))
