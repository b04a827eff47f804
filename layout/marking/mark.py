"""A mark on the panel, by figures that a maker can measure; which two tapes fix it best; checks.

Where a mark or a centre falls off the wood: beyond which edge, and how far.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from enum import Enum
from functools import cached_property
from itertools import combinations

from ..geometry import Point, Region, at_least, at_most, first_of_best
from ..geometry.tolerance import CHORD, ROUNDING, SAME_PLACE
from ..panel.datum import Datum
from ..panel.edges import STRAIGHT, Corner, Edge, Flaw, Reference, edges_of
from ..top import Top
from ..units import Tape


@dataclass(frozen=True, slots=True)
class OffWood:
    """A place without wood."""

    distance: float
    """To the nearest wood, mm."""
    edge: str
    """The edge that it lies beyond, ``C–D``; empty for a cut-out, or an edge without letters."""


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

    def missing(self, point: Point) -> OffWood | None:
        """Return how far a point of the panel lies off the wood; None where it is on it."""
        distance = 0.0 if self.face.holds_point(point) else self.face.edge_distance(point)
        if distance <= SAME_PLACE:
            return None
        edges = edges_of(self.top.panel.boundary)
        near = (edge for edge in edges if abs(edge.away(point) - distance) <= 2 * CHORD)
        names = (edge_name(edge, self.datum.corners) for edge in near)
        return OffWood(distance, next(names, ""))


def edge_name(edge: Edge, corners: tuple[Corner, ...]) -> str:
    """Return the letters of an edge, ``C–D``; empty where one of its ends has none."""
    first, last = edge.segments[0], edge.segments[-1]
    ends = ((edge.start, -first.pace(0.0).unit()), (edge.end, last.pace(1.0).unit()))
    names = [_letter(end, out, corners) for end, out in ends]
    return "–".join(names) if all(names) else ""


def _letter(end: Point, out: Point, corners: tuple[Corner, ...]) -> str:
    """Return the letter at the end of an edge that runs out that way; its corner may be gone."""

    def is_at(corner: Corner) -> bool:
        way = corner.point - end
        beyond = way.dot(out) > 0 and abs(way.cross(out)) <= STRAIGHT
        return way.norm <= SAME_PLACE or (corner.flaw is Flaw.GONE and beyond)

    held = [corner for corner in corners if is_at(corner)]
    if not held:
        return ""
    return first_of_best(held, lambda c: -c.point.distance_to(end), tolerance=SAME_PLACE).name


class Kind(Enum):
    """What a mark is for."""

    CENTRE = "centre"
    END = "end of the long axis"
    SIDE = "end of the short axis"
    ARC_CENTRE = "centre of an arc"
    TANGENT = "where straight meets curve"
    CORE_TANGENT = "where straight meets curve on the core line"
    CORNER = "corner"
    NAIL = "nail"
    ON_CURVE = "on the curve, on the diagonal"
    CENTRELINE = "centreline at the panel's edge"
    CROSS_CENTRELINE = "cross centreline at the panel's edge"

    @property
    def is_pinned(self) -> bool:
        """Whether a nail, a pin or a compass point stands in it."""
        return self in (Kind.CENTRE, Kind.ARC_CENTRE, Kind.NAIL)

    @property
    def is_on_panel_edge(self) -> bool:
        """Whether it lies on the edge of the panel, not on the top."""
        return self in (Kind.CENTRELINE, Kind.CROSS_CENTRELINE)


@dataclass(frozen=True, slots=True)
class Tie:
    """A tape from a reference point to a mark: its name and the distance, mm."""

    name: str
    distance: float


@dataclass(frozen=True, slots=True)
class Ties:
    """Tie measurements: two tapes that fix a mark where they cross."""

    first: Tie
    second: Tie
    crossing: float = field(metadata={"unit": "rad"})
    """Angle between the tapes, radians; best near a right angle."""
    error: float
    """How far the mark may be out by what the tapes may be out, mm."""

    def rounding_error(self, tape: Tape) -> float:
        """Return the most that rounding both figures to the tape's division moves the mark, mm.

        Each tape is then out by half a division at most; the crossing lies in a rhombus whose
        farthest corner stands half a division over the sine or cosine of half the angle away.
        """
        half = self.crossing / 2
        return tape.division / 2 / min(math.sin(half), math.cos(half))


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark."""

    label: str
    """As it is written on the wood: ``C1``."""
    kind: Kind
    point: Point
    """Where it lies on the panel, mm."""
    along: float
    square: float
    """Its offsets from the datum, mm."""
    ties: Ties | None = None
    """Where two reference points see it well enough."""
    off: OffWood | None = None
    """How far it lies from the nearest wood, where there is none to mark it on."""
    defect: str = ""
    """The defect that spoils more than what shows and that a nail or pin in it would stand in."""

    def rounding_error(self, tape: Tape) -> float:
        """Return how far the mark moves when both offsets are rounded to the tape's division, mm.

        >>> mark = Mark("C1", Kind.ARC_CENTRE, Point(3.3, 4.4), 3.3, 4.4)
        >>> round(mark.rounding_error(Tape()), 3)
        0.5
        """
        return math.hypot(
            tape.nearest(self.along) - self.along, tape.nearest(self.square) - self.square
        )


class Proves(Enum):
    """What a check shows to be right."""

    PANEL = "panel"
    LENGTH = "overall length"
    WIDTH = "overall width"
    DIAMETER = "diameter"
    ACROSS_FLATS = "across the flats"
    ACROSS_CORNERS = "across the corners"
    SIDE = "side"
    LONG_SIDE = "long side"
    END = "end"
    CENTRES = "centres of the ends"
    STRAIGHTS = "straights"
    TANGENTS = "tangent points"
    CORNERS = "corners, square"
    CORNER_CENTRES = "centres of the corners"
    NAILS = "nails"
    NAIL_TO_SIDE = "nail to side"
    ON_CURVE = "on the curve"
    NEXT_CORNER = "next corner"
    DIAGONAL = "diagonal"


@dataclass(frozen=True, slots=True)
class Check:
    """A distance between two marks that shows a slip."""

    start: str
    end: str
    """Labels of the marks, or letters of corners."""
    distance: float
    proves: Proves
    other: bool = False
    """Whether it is the second of two diagonals that must come out alike."""


READING_ERROR, TAPE_ERROR = 0.5, 0.5e-3
"""Half a division of a tape in millimetres, mm; what it is out by hook, sag and class, a mm: with
the reading 2 mm at 3 m (common practice)."""

NEAREST_TIE, WORST_TIE = 20.0, 12.0
"""No tie: a tape shorter than the first is held by its hook and read at nothing; what may be out by
more than the second is not worth measuring, mm."""


def tape_error(distance: float) -> float:
    """Return how far a careful tape may be out over a distance, mm."""
    return READING_ERROR + TAPE_ERROR * distance


def best_ties(point: Point, references: Sequence[Reference]) -> Ties | None:
    """Return the two tapes that fix a point with the smallest error; None where none do.

    Two tapes that are out by s₁ and s₂ and cross at an angle θ leave the point out by
    √(s₁² + s₂²) / sin θ, so a crossing near a right angle and short tapes are best.
    """
    good, ways = [], {reference.name: reference.point - point for reference in references}
    far = {name: way for name, way in ways.items() if at_least(way.norm, NEAREST_TIE)}
    for (name, first), (other, second) in combinations(far.items(), 2):
        crossed, errors = abs(first.cross(second)), (tape_error(w.norm) for w in (first, second))
        sine = crossed / (first.norm * second.norm)
        error = math.hypot(*errors) / sine if sine >= 1e-6 else math.inf
        if at_most(error, WORST_TIE):
            ties = Tie(name, first.norm), Tie(other, second.norm)
            good.append(Ties(*ties, math.atan2(crossed, first.dot(second)), error))
    return first_of_best(good, lambda pair: -pair.error, tolerance=ROUNDING) if good else None
