"""Where a centre falls off the panel: beyond which edge, and how far."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ..geometry.path import Path
from ..geometry.placement import Points
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD
from ..panel.datum import Corner, Datum
from ..panel.edges import Edge, edges_of
from ..top import Top

ON_EDGE = 0.01
"""A mark no farther than this off the polygon of the wood is on its edge, mm."""


@dataclass(frozen=True, slots=True)
class OffWood:
    """A place without wood.

    Attributes
    ----------
    distance : float
        To the nearest wood, mm.
    edge : str
        The edge that it lies beyond, by its corners: ``C–D``; empty for a cut-out, or where the
        edge has no letters.
    """

    distance: float
    edge: str

    @property
    def advice(self) -> str:
        """What to do; ``{distance}`` stands for the distance."""
        beyond = f"{{distance}} beyond edge {self.edge}" if self.edge else "{distance} off the wood"
        return f"{beyond}: clamp a board of the same thickness there and mark it on that"


@dataclass(frozen=True)
class Ground:
    """The panel that a top is set out on, to ask whether there is wood at a point of the top.

    Attributes
    ----------
    top : Top
    datum : Datum
        Its corners name the edges.
    """

    top: Top
    datum: Datum

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
        if distance <= ON_EDGE:
            return None
        return OffWood(distance, self._edge(point, distance))

    def _edge(self, point: Point, distance: float) -> str:
        """Return the letters of the edge nearest to a point outside, if it is that near."""
        corners = self.datum.corners
        for edge in edges_of(self.top.panel.boundary):
            apart = _distance(Path(edge.segments).points(CHORD), point)
            if abs(apart - distance) > 2 * CHORD:
                continue
            return edge_name(edge, corners)
        return ""


def edge_name(edge: Edge, corners: tuple[Corner, ...]) -> str:
    """Return the letters of an edge, ``C–D``; empty where one of its ends has none."""
    ends = [c.name for p in (edge.start, edge.end) for c in corners if _near(c.point, p)]
    return "–".join(ends) if len(ends) == 2 else ""


def _distance(line: Points, point: Point) -> float:
    """Return the distance from a point to an open line through points, (n, 2) mm."""
    starts, ways = line[:-1], np.diff(line, axis=0)
    away = np.array([point.x, point.y]) - starts
    shares = np.clip((away * ways).sum(axis=1) / (ways * ways).sum(axis=1), 0.0, 1.0)
    return float(np.hypot(*(away - ways * shares[:, None]).T).min())


def _near(one: Point, other: Point) -> bool:
    return one.distance_to(other) <= ON_EDGE
