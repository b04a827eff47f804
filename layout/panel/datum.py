"""The datum: the one line that every mark is measured from, and the corners that may be used.

All is measured from things that can be touched, so it holds when the panel is turned over too.
"""

from __future__ import annotations

import math
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from enum import Enum

from ..errors import PanelError
from ..geometry import Placement, Point, Region, at_least, at_most, first_of_best
from ..geometry.distance import longest_of
from ..geometry.intersect import meeting_of_lines
from ..geometry.tolerance import SAME_PLACE
from .defect_kinds import Spoils
from .edges import (
    CORNER_TURN,
    STRAIGHT,
    Corner,
    Edge,
    Flaw,
    Found,
    Offsets,
    Reference,
    lettered,
)  # fmt: skip
from .panel import Panel

LONG_ENOUGH = 0.5
"""A reference edge is at least this share of the panel's greatest extent: a shorter one swings
what is squared from it (common practice)."""

SOUND_SHARE = 0.5
"""At least this share of a reference edge is still there, so that a straightedge bridges gaps."""

STRUCK_FROM_CORNER = 50.0
"""A point that stands in for a bad corner is struck this far along the edge, mm."""

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
        return "–".join(self.names)

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
    panel: Panel, given: tuple[Point, Point] | None = None, damaged: AbstractSet[str] = frozenset()
) -> Datum:
    """Return the line to measure from.

    The given line; else the edge A–B along the maker's x axis, if it is straight and long enough;
    else the longest straight edge; else a line struck just inside a long edge, or across the
    middle of a panel that is round. Two given points may not be one, or a `PanelError` is raised.
    No tape is held to corners whose letters are `damaged`.
    """
    edges, corners = lettered(panel, damaged)
    if given is not None:
        return _struck(panel, given, edges, corners, Reason.GIVEN)
    box, face = panel.boundary.bounds, panel.region()
    least = LONG_ENOUGH * max(box.width, box.height)
    long = [i for i, edge in enumerate(edges) if at_least(edge.chord, least)]
    good = [i for i in long if edges[i].is_straight and _is_there(face, edges[i])]
    if good:
        longest = first_of_best(good, lambda i: edges[i].chord, tolerance=SAME_PLACE)
        return _on_edge(panel, edges, 0 if 0 in good else longest, corners)
    if long:
        edge = edges[long[0]]
        inside = edge.direction.left * (edge.hollow + STRIKE_INSIDE)
        past = edge.direction * (edge.chord / 10)
        ends = (edge.start + inside - past, edge.end + inside + past)
        return _struck(panel, ends, edges, corners, Reason.INSIDE)
    box, middle = face.bounds, face.centroid
    ends = Point(middle.x, box.top + 1), Point(middle.x, box.bottom - 1)
    if at_least(box.width, box.height, SAME_PLACE):
        ends = Point(box.left - 1, middle.y), Point(box.right + 1, middle.y)
    return _struck(panel, ends, edges, corners, Reason.ACROSS)


def _on_edge(
    panel: Panel, edges: tuple[Edge, ...], index: int, corners: tuple[Corner, ...]
) -> Datum:
    """Return the datum along an edge; a struck point stands in for each end that is not usable.

    Where only the corner at its start is gone, and the edge before it is straight, lengths are
    measured from that edge prolonged, so that none is negative on the wood beside the corner.
    """
    edge = edges[index]
    one = corners[index] if corners else None
    other = corners[(index + 1) % len(corners)] if corners else None
    name = f"{one.name}–{other.name}" if one and other else ""
    start = _corner(one) or _stand_in(panel, edge, "P", name)
    last = _corner(other) or _stand_in(panel, edge.reversed(), "Q", name)
    first = start
    if one and start.found is Found.ON_EDGE:
        first = _prolonged(panel, edges[index - 1], edge, one, corners[index - 1]) or start
        if first is not start:
            start = _told_from(start, first)
        elif last.found is Found.CORNER:
            start = first = _told_from(start, last)
    if last.found is Found.ON_EDGE:
        last = _told_from(last, first)
    why = Reason.STRAIGHT if index == 0 else Reason.LONGEST
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
    if why is not Reason.GIVEN and start != end:
        spans = face.chord(start, end)
        start, end = longest_of(spans) if spans else (start, end)
    first, last = (_on_face(*named, edges, corners) for named in (("P", start), ("Q", end)))
    return Datum(first, last, True, why, corners, _references(first, last, corners))


def _references(
    first: Reference, last: Reference, corners: tuple[Corner, ...]
) -> tuple[Reference, ...]:
    rest = (_corner(c) for c in corners if c.name not in (first.name, last.name))
    return (first, last, *(corner for corner in rest if corner))


def _is_there(face: Region, edge: Edge) -> bool:
    """Return whether so much of an edge is left that a straightedge bridges its gaps."""
    inside = edge.direction.left * (2 * STRAIGHT)
    spans = face.chord(edge.start + inside, edge.end + inside)
    return at_least(sum(a.distance_to(b) for a, b in spans), SOUND_SHARE * edge.chord)


def _corner(corner: Corner | None) -> Reference | None:
    """Return a corner as a point to measure from, where it is usable."""
    return Reference(corner.name, corner.point) if corner and corner.usable else None


def _prolonged(
    panel: Panel, before: Edge, edge: Edge, corner: Corner, previous: Corner
) -> Reference | None:
    """Return where the edge before, prolonged past a bad corner, meets the line along an edge.

    None where it is not straight or not there, or where the two run nearly alike.
    """
    if corner.flaw is Flaw.NOT_CRISP or not before.is_straight:
        return None
    met = meeting_of_lines(edge.start, edge.direction, before.end, before.direction)
    turns = at_least(before.direction.cross(edge.direction), math.sin(CORNER_TURN))
    if met is None or not turns or not _is_there(panel.region(), before):
        return None
    if not at_most(met.distance_to(before.end), before.chord):
        return None  # so far no straightedge on it is true
    return Reference(corner.name, met, Found.PROLONGED, f"{previous.name}–{corner.name}")


def _stand_in(panel: Panel, edge: Edge, name: str, letters: str) -> Reference:
    """Return a point struck on an edge beyond what is wrong with the end that it starts at."""
    bad = [d.extent for d in panel.defects if Spoils.SHOWING in d.spoils]
    bad += [Region.of(c) for c in panel.cut_outs]
    along, most = edge.direction, edge.chord / 3
    reach = min(STRUCK_FROM_CORNER, most)
    while reach < most and any(
        b.holds_point(edge.start + along * reach)
        or at_most(b.edge_distance(edge.start + along * reach), 0.0)
        for b in bad
    ):
        reach = min(reach + STRUCK_FROM_CORNER / 5, most)
    return Reference(name, edge.start + along * reach, Found.ON_EDGE, letters, "", reach)


def _told_from(point: Reference, other: Reference) -> Reference:
    """Return a point struck on an edge as it is measured from another one of the same line."""
    return replace(point, beside=other.name, distance=point.point.distance_to(other.point))


def _on_face(
    name: str, point: Point, edges: tuple[Edge, ...], corners: tuple[Corner, ...]
) -> Reference:
    """Return a struck point: where it lies on an edge, as far as it stands from its nearer end."""
    for i, edge in enumerate(edges if corners else ()):
        if edge.away(point) > SAME_PLACE:
            continue
        ends = corners[i], corners[(i + 1) % len(corners)]
        left = [c for c in ends if c.flaw is not Flaw.GONE]
        if left:
            near = first_of_best(left, lambda c: -c.point.distance_to(point), tolerance=SAME_PLACE)
            letters, away = "–".join(c.name for c in ends), near.point.distance_to(point)
            return Reference(name, point, Found.STRUCK, letters, near.name, away)
    return Reference(name, point, Found.STRUCK)
