"""The datum: the one line that every mark is measured from, and the corners that may be used.

Offsets are taken along the line from its first point and square from it towards the wood. They are
measured from things that can be touched, so they stay the same when the panel is turned over;
only left and right swap.
"""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from ..errors import PanelError
from ..geometry.alike import at_least, at_most, first_of_best
from ..geometry.distance import longest_of
from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import SAME_PLACE
from .defect import Spoils
from .edges import CORNER_TURN, STRAIGHT, Edge, edges_of, meeting
from .panel import Panel
from .reference import Corner, Offsets, Reference

__all__ = ["LETTERS", "Corner", "Datum", "Offsets", "Reference", "choose_datum", "lettered"]

LETTERS = "ABCDEFGHIJKLMNO"
"""Names of corners; P and Q are kept for struck points."""

LONG_ENOUGH = 0.5
"""A reference edge is at least this share of the panel's greatest extent: a shorter one swings
what is squared from it (common practice)."""

SOUND_SHARE = 0.5
"""At least this share of a reference edge is still there, so that a straightedge bridges gaps."""

STRIKE_INSIDE = 5.0
"""A struck line runs this far inside the hollowest place of an edge, mm, so that it shows."""

STRUCK_FROM_CORNER = 50.0
"""A point that stands in for a bad corner is struck this far along the edge, mm."""


@dataclass(frozen=True, slots=True)
class Datum:
    """The reference line with the wood on its left, show face up."""

    first: Reference
    last: Reference
    """Its two ends. What is measured along it is measured from `first`."""
    struck: bool
    """Whether the line is struck on the face; otherwise it is an edge."""
    why: str
    """Why this line."""
    corners: tuple[Corner, ...] = ()
    """All corners of the panel; none for one that is round."""
    references: tuple[Reference, ...] = ()
    """Every point that cross-measures may be taken from, `first` and `last` among them."""

    def __post_init__(self) -> None:
        if self.first.point.distance_to(self.last.point) <= STRAIGHT:
            raise PanelError("the two points of a reference line are one: give them farther apart")

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

    def corner(self, name: str) -> Corner | None:
        """Return the corner of that letter, if there is one."""
        return next((corner for corner in self.corners if corner.name == name), None)


def choose_datum(
    panel: Panel,
    given: tuple[Point, Point] | None = None,
    chewed: AbstractSet[str] = frozenset(),
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
    chewed : set of str
        Letters of corners that no tape can be held to.

    Raises
    ------
    PanelError
        If the given points are one.
    """
    edges, corners = lettered(panel, chewed)
    if given is not None:
        return _struck(panel, given, corners, "as given")
    extent = max(panel.boundary.bounds.width, panel.boundary.bounds.height)
    face = panel.region()
    good = [
        i
        for i, edge in enumerate(edges)
        if edge.is_straight and at_least(edge.chord, LONG_ENOUGH * extent) and _is_there(face, edge)
    ]
    if good:
        longest = first_of_best(good, lambda i: edges[i].chord, tolerance=SAME_PLACE)
        best = 0 if 0 in good else longest
        why = "it is straight" if best == 0 else "the longest straight edge; A–B is not"
        return _on_edge(panel, edges[best], best, corners, why)
    long = [edge for edge in edges if at_least(edge.chord, LONG_ENOUGH * extent)]
    if long:
        edge = long[0]
        inside = edge.direction.left * (edge.hollow + STRIKE_INSIDE)
        past = edge.direction * (edge.chord / 10)
        ends = (edge.start + inside - past, edge.end + inside + past)
        return _struck(panel, ends, corners, "no edge is straight: struck inside a long one")
    return _struck(panel, _middle_line(face), corners, "no edge is straight: struck across it")


def lettered(
    panel: Panel, chewed: AbstractSet[str] = frozenset()
) -> tuple[tuple[Edge, ...], tuple[Corner, ...]]:
    """Return edges and corners, A nearest the lower left; edge i runs from corner i.

    There are no corners where there are fewer than three edges or more than there are letters.
    """
    edges = edges_of(panel.boundary)
    if not 3 <= len(edges) <= len(LETTERS):
        return edges, ()
    bounds = panel.boundary.bounds
    origin = Point(bounds.left, bounds.bottom)
    meetings = [meeting(edges[i - 1], edge) for i, edge in enumerate(edges)]
    first = first_of_best(
        range(len(edges)),
        lambda i: -meetings[i].point.distance_to(origin),
        lambda i: tuple(meetings[i].point),
        tolerance=SAME_PLACE,
    )
    turned = [(first + i) % len(edges) for i in range(len(edges))]
    corners = []
    for letter, i in zip(LETTERS, turned, strict=False):
        clean = edges[i - 1].is_clean and edges[i].is_clean
        sticks_out = at_least(meetings[i].turn, CORNER_TURN)
        why = _why_not(panel, meetings[i].point, meetings[i].intact, clean and sticks_out)
        why = "chewed" if letter in chewed else why
        corners.append(Corner(letter, meetings[i].point, not why, why))
    return tuple(edges[i] for i in turned), tuple(corners)


def _why_not(panel: Panel, point: Point, intact: bool, crisp: bool) -> str:
    """Return why no tape can be held to a corner; empty where one can."""
    if not intact:
        return "rounded, clipped or notched"
    if not crisp:
        return "not crisp"
    for cut_out in panel.cut_outs:
        if Region.of(cut_out).holds_point(point):
            return "cut away"
    spoilt = [d for d in panel.defects if d.spoils and d.extent.holds_point(point)]
    return f"spoilt by {spoilt[0].name}" if spoilt else ""


def _is_there(face: Region, edge: Edge) -> bool:
    inside = edge.direction.left * (2 * STRAIGHT)
    spans = face.chord(edge.start + inside, edge.end + inside)
    return at_least(sum(a.distance_to(b) for a, b in spans), SOUND_SHARE * edge.chord)


def _on_edge(panel: Panel, edge: Edge, index: int, corners: tuple[Corner, ...], why: str) -> Datum:
    """Return the datum along an edge; a struck point stands in for each end that is not usable."""
    back = Edge(tuple(s.reversed() for s in reversed(edge.segments)))
    one = corners[index] if corners else None
    other = corners[(index + 1) % len(corners)] if corners else None
    first = _held(one) if one and one.usable else _stand_in(panel, edge, "P", one)
    last = _held(other) if other and other.usable else _stand_in(panel, back, "Q", other)
    return Datum(first, last, False, why, corners, _references(first, last, corners))


def _held(corner: Corner) -> Reference:
    return Reference(corner.name, corner.point, f"corner {corner.name}")


def _stand_in(panel: Panel, edge: Edge, name: str, corner: Corner | None) -> Reference:
    """Return a point struck on an edge beyond what is wrong with the end that it starts at."""
    bad = [d.extent for d in panel.defects if Spoils.SHOWING in d.spoils]
    bad += [Region.of(c) for c in panel.cut_outs]
    along, most = edge.direction, edge.chord / 3
    reach = min(STRUCK_FROM_CORNER, most)
    while reach < most and any(_is_met(b, edge.start + along * reach) for b in bad):
        reach = min(reach + STRUCK_FROM_CORNER / 5, most)
    point = edge.start + along * reach
    if corner is None:
        return Reference(name, point, "struck on the edge, {distance} from its end", reach)
    how = f"struck on the edge, {{distance}} from where corner {corner.name} would be"
    return Reference(name, point, how, point.distance_to(corner.point))


def _is_met(bad: Region, point: Point) -> bool:
    return bad.holds_point(point) or at_most(bad.edge_distance(point), 0.0)


def _struck(
    panel: Panel, ends: tuple[Point, Point], corners: tuple[Corner, ...], why: str
) -> Datum:
    """Return the datum along a struck line, turned so that most of the wood lies on its left."""
    start, end = ends
    face = panel.region()
    if (end - start).cross(face.centroid - start) < -STRAIGHT * start.distance_to(end):
        start, end = end, start
    if why != "as given":
        spans = face.chord(start, end) if start != end else ()
        if spans:
            start, end = longest_of(spans)
    how = "struck on the face, carried down the edge"
    first, last = Reference("P", start, how), Reference("Q", end, how)
    return Datum(first, last, True, why, corners, _references(first, last, corners))


def _references(
    first: Reference, last: Reference, corners: tuple[Corner, ...]
) -> tuple[Reference, ...]:
    held = [_held(c) for c in corners if c.usable and c.name not in (first.name, last.name)]
    return (first, last, *held)


def _middle_line(face: Region) -> tuple[Point, Point]:
    bounds, middle = face.bounds, face.centroid
    if at_least(bounds.width, bounds.height, SAME_PLACE):
        return Point(bounds.left - 1, middle.y), Point(bounds.right + 1, middle.y)
    return Point(middle.x, bounds.top + 1), Point(middle.x, bounds.bottom - 1)
