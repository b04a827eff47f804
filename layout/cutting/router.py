"""The router: which way it goes round a solid top, and the template that it follows.

Downhill is from the long grain towards the end. Seen from above, a router is fed anticlockwise
round the outside of the work, against the turn of its bit. In two of the four quarters that runs
uphill and tears the grain: they are routed with the work turned over, where they run downhill. A
trammel cannot be turned over, for its pin's holes are in the face that the top was marked on: there
they are taken by light passes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..geometry import Path, Point, Region
from ..marking.mark import Kind as MarkKind
from ..marking.places import groups_for
from ..outlines import Oval
from ..panel.build import Kind
from ..top import Top
from .bench import Bench

ALONG = math.radians(30)
"""Grain that lies within this of an axis of the top is taken to run along it."""


@dataclass(frozen=True, slots=True)
class QuarterFeed:
    """One quarter of the edge."""

    start: str
    end: str
    """Labels of the marks between which it is routed, in the direction of feed."""
    show_face_up: bool
    """How the work lies, so that the feed is against the bit."""
    uphill: bool = False
    """Whether it runs from the end towards the long grain, and is taken by light passes."""


def quarter_feeds(bench: Bench, *, pinned: bool) -> tuple[QuarterFeed, ...]:
    """Return the four quarters of the edge, where they are alike and it is routed all round.

    None for board, or grain that runs slantwise. Where it is `pinned` the work stays as marked.
    """
    top, outline = bench.top, bench.top.outline
    if top.panel.build.kind is not Kind.SOLID or top.runs.kept or not outline.free_sizes:
        return ()
    slant = top.grain % math.pi
    along, across = min(slant, math.pi - slant) <= ALONG, abs(slant - math.pi / 2) <= ALONG
    if not along and not across and not outline.is_round:
        return ()
    seen = {group.kind: group.seen(top.turn_from(bench.datum)) for group in groups_for(outline)}
    ends, sides = seen[MarkKind.END], seen[MarkKind.SIDE]
    if across and not along:
        ends, sides = sides, ends
    up, feeds = not bench.face.mirrored, []
    for side, at_side in sides:
        for end, at_end in ends:
            downhill_up = at_side.cross(at_end) > 0
            if not pinned or downhill_up is up:
                feeds.append(QuarterFeed(side, end, show_face_up=downhill_up))
            else:
                feeds.append(QuarterFeed(end, side, show_face_up=up, uphill=True))
    return tuple(feeds)


@dataclass(frozen=True, slots=True)
class TemplateGuide:
    """A template that a bush or bearing follows."""

    bush: float
    cutter: float
    """Diameters of the bush or bearing and of the bit, mm."""
    offset: float
    """How far the template stands inside the line that is cut, mm; outside where negative."""
    line: Path
    """Its edge on the panel: the true parallel."""
    length: float
    width: float
    """Of the template, mm."""
    off_oval: float
    """How far an oval drawn anew at that size would be out, mm; 0 for other shapes."""

    @classmethod
    def of(cls, top: Top, bush: float, cutter: float) -> TemplateGuide:
        """Return the template for the core of a top; a LayoutError if nothing of it is left."""
        offset = bush_offset(bush, cutter)
        own = top.outline.line(-top.lipping - offset)
        length, width, off = own.bounds.width, own.bounds.height, 0.0
        if top.outline.foci:
            oval = Region.of(Oval(length, width).path())
            off = max(oval.edge_distance(Point.of(row)) for row in own.points(0.05))
        return cls(bush, cutter, offset, own.placed(top.placement), length, width, off)


def bush_offset(bush: float, cutter: float) -> float:
    """Return how far a guide bush or bearing keeps the cutter from its template, mm.

    Half the difference of the diameters (common practice): negative for a bearing smaller than the
    cutter. Raises a LayoutError if a diameter is not above 0.

    >>> bush_offset(bush=24.0, cutter=12.0)
    6.0
    """
    if min(bush, cutter) <= 0:
        raise LayoutError(f"a bush of {bush:g} and a cutter of {cutter:g} mm are above 0 both")
    return (bush - cutter) / 2
