"""Where a centre falls off the panel: beyond which edge, and how far."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from ..geometry import Point, Region
from ..geometry.alike import first_of_best
from ..geometry.tolerance import CHORD, SAME_PLACE
from ..panel.datum import Datum
from ..panel.edges import STRAIGHT, Edge, edges_of
from ..panel.reference import Corner, Flaw
from ..top import Top


@dataclass(frozen=True, slots=True)
class OffWood:
    """A place without wood."""

    distance: float
    """To the nearest wood, mm."""
    edge: str
    """The edge that it lies beyond, by its corners: ``C–D``; empty for a cut-out, or where the edge
    has no letters."""


@dataclass(frozen=True)
class Ground:
    """The panel that a top is set out on, to ask whether there is wood at a point of the top."""

    top: Top
    datum: Datum
    """Its corners name the edges."""

    @cached_property
    def face(self) -> Region:
        """The wood, as a polygon that holds it."""
        return self.top.panel.region("outside")

    def missing(self, own: Point) -> OffWood | None:
        """Return how far a point of the top's own frame lies off the wood; None where on it."""
        return self.missing_at(self.top.placement(own))

    def missing_at(self, point: Point) -> OffWood | None:
        """Return how far a point of the panel's frame lies off the wood; None where it is on it."""
        if self.face.holds_point(point):
            return None
        distance = self.face.edge_distance(point)
        if distance <= SAME_PLACE:
            return None
        return OffWood(distance, self._edge(point, distance))

    def _edge(self, point: Point, distance: float) -> str:
        """Return the letters of the edge nearest to a point outside, if it is that near."""
        corners = self.datum.corners
        for edge in edges_of(self.top.panel.boundary):
            if abs(edge.away(point) - distance) <= 2 * CHORD:
                return edge_name(edge, corners)
        return ""


def edge_name(edge: Edge, corners: tuple[Corner, ...]) -> str:
    """Return the letters of an edge, ``C–D``; empty where one of its ends has none.

    A corner that is rounded or clipped lies beyond the end of its edges, in their line.
    """
    first, last = edge.segments[0], edge.segments[-1]
    ends = ((edge.start, -first.pace(0.0).unit()), (edge.end, last.pace(1.0).unit()))
    names = [_letter(end, out, corners) for end, out in ends]
    return "–".join(names) if all(names) else ""


def _letter(end: Point, out: Point, corners: tuple[Corner, ...]) -> str:
    """Return the letter of the corner at the end of an edge that runs out along a unit vector."""
    held = [c for c in corners if c.point.distance_to(end) <= SAME_PLACE or _beyond(c, end, out)]
    if not held:
        return ""
    return first_of_best(held, lambda c: -c.point.distance_to(end), tolerance=SAME_PLACE).name


def _beyond(corner: Corner, end: Point, out: Point) -> bool:
    way = corner.point - end
    return corner.flaw is Flaw.GONE and way.dot(out) > 0 and abs(way.cross(out)) <= STRAIGHT
