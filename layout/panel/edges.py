"""The edges of a panel: its boundary broken at the corners, as a maker sees it, and their letters.

Neighbouring segments that bend gently are one edge, and what is short between two edges, rounded,
clipped or notched, belongs to the corner.
"""

from __future__ import annotations

import math
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from enum import Enum

import numpy as np

from ..geometry import Arc, Line, Path, Point, Region, Segment, at_least, at_most, first_of_best
from ..geometry.intersect import meeting_of_lines, turn_at
from ..geometry.tolerance import CHORD, SAME_PLACE, SAME_POINT
from .panel import Panel


@dataclass(frozen=True, slots=True)
class Offsets:
    """Where a point lies from the datum, mm: `along` from its first point, `square` from it."""

    along: float
    square: float


class Flaw(Enum):
    """Why no tape is held to a corner."""

    GONE = "rounded, clipped or notched"
    NOT_CRISP = "not crisp"
    DAMAGED = "damaged"
    CUT_AWAY = "cut away"
    SPOILT = "spoilt"


@dataclass(frozen=True, slots=True)
class Corner:
    """A corner of the panel."""

    name: str
    """A letter: A at the maker's datum corner, the others anticlockwise, show face up."""
    point: Point
    """Where it is, or where its edges would meet."""
    flaw: Flaw | None = None
    """Why no tape may be held to it; None where one may."""
    spoilt_by: str = ""
    """The defect that spoils it, where one does."""

    @property
    def usable(self) -> bool:
        """Whether a tape may be held to it."""
        return self.flaw is None


class Found(Enum):
    """How a point that is measured from is found on the panel."""

    CORNER = "corner"
    PROLONGED = "edges prolonged"
    """Where the edge before it, prolonged past a corner that is not usable, meets the line: there
    may be no wood, so no tape is held to it."""
    ON_EDGE = "on the edge"
    STRUCK = "struck on the face"
    CARRIED = "carried down the end"
    """Where a struck line meets a new end of a slab."""


@dataclass(frozen=True, slots=True)
class Reference:
    """A point that is measured from."""

    name: str
    """The letter of a corner, or P or Q for a struck point."""
    point: Point
    found: Found = Found.CORNER
    edge: str = ""
    """The edge that it lies on, or that is prolonged, by its corners: ``A–B``; empty where it has
    no letters."""
    beside: str = ""
    """The corner, or the other point of the line, that it is measured from along that edge; empty
    where it is measured from the end of what is straight of the edge."""
    distance: float = 0.0
    """From there, mm."""


STRAIGHT = 1.0
"""An edge that stands nowhere farther than this off a taut string is straight, mm (common
practice)."""

CORNER_TURN = math.radians(30)
"""A boundary that turns by this or more in one place has a corner there."""

ROUND_TURN = math.radians(60)
"""An arc that turns by this or more is a rounded corner or a round end, not a bowed edge."""

CORNER_SHARE = 0.2
"""A piece shorter than this share of the panel's width belongs to a corner: a clip or a notch."""


@dataclass(frozen=True, slots=True)
class Edge(Path):
    """One edge of a panel, from corner to corner, the wood on its left."""

    name: str = ""
    """The letters of its corners in the order in which it runs, ``AB``; empty without letters."""

    @property
    def path(self) -> Path:
        """It as a path and no more."""
        return Path(self.segments)

    @property
    def chord(self) -> float:
        """The straight distance from end to end, mm."""
        return self.start.distance_to(self.end)

    @property
    def direction(self) -> Point:
        """The unit vector from start to end."""
        return (self.end - self.start).unit()

    @property
    def hollow(self) -> float:
        """How far it runs into the wood beyond its chord, mm; 0 where it only bows outwards."""
        return max(0.0, *self._offsets())

    @property
    def is_straight(self) -> bool:
        """Whether a taut string from end to end lies along it."""
        return at_most(self.off_straight, STRAIGHT)

    @property
    def off_straight(self) -> float:
        """How far it stands off a taut string from end to end where it is worst, mm."""
        return max(abs(offset) for offset in self._offsets())

    @property
    def is_clean(self) -> bool:
        """Whether it is straight or one even bow, so that it ends in a crisp corner."""
        return self.is_straight or (len(self.segments) == 1 and isinstance(self.segments[0], Arc))

    def away(self, point: Point) -> float:
        """Return how far a point lies from it, mm, good to `CHORD`."""
        return Region.line(self.points(CHORD)).distance_to(Region.at(point))

    def _offsets(self) -> list[float]:
        """Return how far points of it lie to the left of its chord: into the wood."""
        along = self.direction
        points = self.points(CHORD) - np.array(tuple(self.start))
        return [float(o) for o in along.x * points[:, 1] - along.y * points[:, 0]]


def edges_of(boundary: Path) -> tuple[Edge, ...]:
    """Return the edges of a boundary, anticlockwise; none for one that is round all over."""
    held = boundary.segments
    chains = boundary.broken([i for i in range(len(held)) if _breaks(held[i - 1], held[i])])
    bounds = boundary.bounds
    least = CORNER_SHARE * min(bounds.width, bounds.height)
    return tuple(
        Edge(chain.segments)
        for chain in chains
        if not _is_round(chain.segments[0]) and at_least(chain.start.distance_to(chain.end), least)
    )


def _met(one: Edge, other: Edge) -> Point:
    """Return where an edge meets the one that follows it, or would if their corner were there."""
    if one.end.distance_to(other.start) <= SAME_POINT:
        return one.end
    arriving, leaving = one.segments[-1].pace(1.0).unit(), other.segments[0].pace(0.0).unit()
    met = meeting_of_lines(one.end, arriving, other.start, leaving)
    if met is None or abs(arriving.cross(leaving)) < math.sin(CORNER_TURN):
        return one.end.midpoint(other.start)
    return met


def _breaks(one: Segment, other: Segment) -> bool:
    if _is_round(one) or _is_round(other):
        return True
    return at_least(abs(turn_at(one, other)), CORNER_TURN)


def _is_round(segment: Segment) -> bool:
    return not isinstance(segment, Line) and at_least(abs(segment.sweep), ROUND_TURN)


LETTERS = "ABCDEFGHIJKLMNO"
"""Names of corners; P and Q are kept for struck points."""

FEWEST = 3
"""Edges between which corners have names."""


def lettered(
    panel: Panel, damaged: AbstractSet[str] = frozenset()
) -> tuple[tuple[Edge, ...], tuple[Corner, ...]]:
    """Return edges and corners, A nearest the lower left; edge i runs from corner i.

    Corners, and letters, are left out where edges are too few, or more than there are letters.
    """
    edges = edges_of(panel.boundary)
    if not FEWEST <= len(edges) <= len(LETTERS):
        return edges, ()
    bounds = panel.boundary.bounds
    origin, count = Point(bounds.left, bounds.bottom), len(edges)
    met = [_met(edges[i - 1], edge) for i, edge in enumerate(edges)]
    first = first_of_best(
        range(count),
        lambda i: -met[i].distance_to(origin),
        lambda i: tuple(met[i]),
        tolerance=SAME_PLACE,
    )
    named, corners = [], []
    for k, letter in enumerate(LETTERS[:count]):
        i = (first + k) % count
        flaw, spoilt_by = _flaw(panel, met[i], edges[i - 1], edges[i])
        flaw = Flaw.DAMAGED if letter in damaged else flaw
        corners.append(Corner(letter, met[i], flaw, spoilt_by))
        named.append(replace(edges[i], name=letter + LETTERS[(k + 1) % count]))
    return tuple(named), tuple(corners)


def _flaw(panel: Panel, point: Point, one: Edge, other: Edge) -> tuple[Flaw | None, str]:
    """Return why no tape can be held to where two edges meet, and the defect that spoils it."""
    turn = turn_at(one.segments[-1], other.segments[0])
    if one.end.distance_to(other.start) > SAME_POINT:
        return Flaw.GONE, ""
    if not (one.is_clean and other.is_clean and at_least(turn, CORNER_TURN)):
        return Flaw.NOT_CRISP, ""
    if any(Region.of(cut_out).holds_point(point) for cut_out in panel.cut_outs):
        return Flaw.CUT_AWAY, ""
    spoilt = next((d for d in panel.defects if d.spoils and d.extent.holds_point(point)), None)
    return (None, "") if spoilt is None else (Flaw.SPOILT, spoilt.name)
