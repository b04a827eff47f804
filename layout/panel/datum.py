"""The datum: the one line that every mark is measured from, and the corners that may be used.

Offsets are taken along the line from its first point and square from it towards the wood. They are
measured from things that can be touched, so they stay the same when the panel is turned over;
only left and right swap.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from enum import Enum

from ..errors import PanelError
from ..geometry import Placement, Point, Region, at_least, first_of_best
from ..geometry.distance import longest_of
from ..geometry.tolerance import SAME_PLACE
from .edges import STRAIGHT, Corner, Edge, Found, Offsets, Reference, lettered
from .line_ends import held, is_there, on_face, prolonged, stand_in, told_from
from .panel import Panel

LONG_ENOUGH = 0.5
"""A reference edge is at least this share of the panel's greatest extent: a shorter one swings
what is squared from it (common practice)."""

STRIKE_INSIDE = 5.0
"""A struck line runs this far inside the hollowest place of an edge, mm, so that it shows."""


class Reason(Enum):
    """Why a line is the one to measure from."""

    STRAIGHT = "straight"
    LONGEST = "the longest straight edge"
    GIVEN = "as given"
    INSIDE = "struck inside a long edge"
    ACROSS = "struck across"
    AGAIN = "struck again"


@dataclass(frozen=True, slots=True)
class Datum:
    """The reference line with the wood on its left, show face up."""

    first: Reference
    last: Reference
    """Its two ends. What is measured along it is measured from `first`."""
    struck: bool
    """Whether the line is struck on the face; otherwise it is an edge."""
    why: Reason
    corners: tuple[Corner, ...] = ()
    """All corners of the panel; none for one that is round."""
    references: tuple[Reference, ...] = ()
    """Every point that a tape may be held to: `first` only where there is wood."""

    def __post_init__(self) -> None:
        if self.first.point.distance_to(self.last.point) <= STRAIGHT:
            raise PanelError("the two points of a reference line are one: give them farther apart")

    @property
    def held(self) -> Reference:
        """The point at or next to its start that a tape can be held to."""
        return self.references[0] if self.references else self.first

    @property
    def start(self) -> Point:
        """The point that lengths along it are measured from."""
        return self.first.point

    @property
    def end(self) -> Point:
        """Its other end."""
        return self.last.point

    @property
    def names(self) -> tuple[str, str]:
        """The names of its two ends."""
        return (self.first.name, self.last.name)

    @property
    def name(self) -> str:
        """The line by its ends: ``A–B``."""
        return f"{self.first.name}–{self.last.name}"

    @property
    def places(self) -> dict[str, Point]:
        """Where every corner that is usable and every point that is measured from lies."""
        held = {corner.name: corner.point for corner in self.corners if corner.usable}
        every = (self.first, self.last, *self.references)
        return held | {reference.name: reference.point for reference in every}

    @property
    def length(self) -> float:
        """The distance between its ends, mm."""
        return self.start.distance_to(self.end)

    @property
    def frame(self) -> Placement:
        """The motion that puts an offset (along, square) onto the panel."""
        return Placement(self.start, (self.end - self.start).angle)

    def coordinates(self, point: Point) -> Offsets:
        """Return the offsets of a point of the panel."""
        own = self.frame.into(point)
        return Offsets(own.x, own.y)

    def at(self, along: float, square: float) -> Point:
        """Return the point of the panel with these offsets, mm."""
        return self.frame(Point(along, square))


def choose_datum(
    panel: Panel,
    given: tuple[Point, Point] | None = None,
    damaged: AbstractSet[str] = frozenset(),
) -> Datum:
    """Return the line to measure from.

    The given line; else the edge A–B along the maker's x axis, if it is straight and long enough;
    else the longest straight edge; else a line struck just inside a long edge, or across the
    middle of a panel that is round.

    Parameters
    ----------
    panel : Panel
    given : two Points, optional
        Ends of a line that the maker has struck; P is the one that has the wood on its left.
    damaged : set of str
        Letters of corners that no tape can be held to.

    Raises
    ------
    PanelError
        If the given points are one.
    """
    edges, corners = lettered(panel, damaged)
    if given is not None:
        return _struck(panel, given, edges, corners, Reason.GIVEN)
    extent = max(panel.boundary.bounds.width, panel.boundary.bounds.height)
    face = panel.region()
    good = [
        i
        for i, edge in enumerate(edges)
        if edge.is_straight and at_least(edge.chord, LONG_ENOUGH * extent) and is_there(face, edge)
    ]
    if good:
        longest = first_of_best(good, lambda i: edges[i].chord, tolerance=SAME_PLACE)
        best = 0 if 0 in good else longest
        return _on_edge(panel, edges, best, corners)
    long = [edge for edge in edges if at_least(edge.chord, LONG_ENOUGH * extent)]
    if long:
        edge = long[0]
        inside = edge.direction.left * (edge.hollow + STRIKE_INSIDE)
        past = edge.direction * (edge.chord / 10)
        ends = (edge.start + inside - past, edge.end + inside + past)
        return _struck(panel, ends, edges, corners, Reason.INSIDE)
    return _struck(panel, _middle_line(face), edges, corners, Reason.ACROSS)


def _on_edge(
    panel: Panel, edges: tuple[Edge, ...], index: int, corners: tuple[Corner, ...]
) -> Datum:
    """Return the datum along an edge; a struck point stands in for each end that is not usable.

    Where only the corner at its start is gone, and the edge before it is straight, lengths are
    measured from that edge prolonged, so that none is negative on the wood beside the corner.
    """
    edge = edges[index]
    why = Reason.STRAIGHT if index == 0 else Reason.LONGEST
    one = corners[index] if corners else None
    other = corners[(index + 1) % len(corners)] if corners else None
    name = f"{one.name}–{other.name}" if one and other else ""
    start = held(one) if one and one.usable else stand_in(panel, edge, "P", name)
    last = held(other) if other and other.usable else stand_in(panel, edge.reversed(), "Q", name)
    first = start
    if one and start.found is Found.ON_EDGE:
        first = prolonged(panel, edges[index - 1], edge, one, corners[index - 1]) or start
        if first is not start:
            start = told_from(start, first)
        elif last.found is Found.CORNER:
            start = first = told_from(start, last)
    if last.found is Found.ON_EDGE:
        last = told_from(last, first)
    return Datum(first, last, False, why, corners, _references(start, last, corners))


def _struck(
    panel: Panel,
    ends: tuple[Point, Point],
    edges: tuple[Edge, ...],
    corners: tuple[Corner, ...],
    why: Reason,
) -> Datum:
    """Return the datum along a struck line, turned so that most of the wood lies on its left."""
    start, end = ends
    face = panel.region()
    if (end - start).cross(face.centroid - start) < -STRAIGHT * start.distance_to(end):
        start, end = end, start
    if why is not Reason.GIVEN:
        spans = face.chord(start, end) if start != end else ()
        if spans:
            start, end = longest_of(spans)
    first, last = (
        on_face(name, point, edges, corners) for name, point in (("P", start), ("Q", end))
    )
    return Datum(first, last, True, why, corners, _references(first, last, corners))


def _references(
    first: Reference, last: Reference, corners: tuple[Corner, ...]
) -> tuple[Reference, ...]:
    rest = [held(c) for c in corners if c.usable and c.name not in (first.name, last.name)]
    return (first, last, *rest)


def _middle_line(face: Region) -> tuple[Point, Point]:
    bounds, middle = face.bounds, face.centroid
    if at_least(bounds.width, bounds.height, SAME_PLACE):
        return Point(bounds.left - 1, middle.y), Point(bounds.right + 1, middle.y)
    return Point(middle.x, bounds.top + 1), Point(middle.x, bounds.bottom - 1)
