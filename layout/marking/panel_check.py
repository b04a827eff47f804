"""How to see that the panel is what the job says, before anything is marked on it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from ..errors import PanelError
from ..geometry import Arc, Path, Point, Points, Region, at_most
from ..geometry.distance import nearest
from ..geometry.tolerance import CHORD
from ..panel.datum import Datum
from ..panel.edges import Edge, edges_of
from ..panel.panel import Panel
from ..units import MM_PER_INCH, Tape
from .arcs import LargeArc
from .mark import edge_name

_UNITS = (400.0, 300.0, 200.0, 150.0, 100.0, 50.0, 25.0)
_UNITS_IMPERIAL = (16.0, 12.0, 8.0, 6.0, 4.0, 2.0, 1.0)
"""What 3, 4 and 5 are multiplied by, mm and inches: figures that a tape shows boldly."""

_FINE = 0.02
"""How near polygons follow curves where distances are taken, mm."""

ACCEPTED = 1.5
"""A corner that leans by no more than this over its shorter side is taken for square, mm: two
diagonals then differ by 3 at most (common practice)."""


@dataclass(frozen=True, slots=True)
class Squareness:
    """How a corner stands."""

    angle: float = field(metadata={"unit": "rad"})
    """Of the corner, radians."""
    out_by: float
    """How far the second side ends off the square line, mm: positive where it leans outwards."""
    square_diagonal: float
    """What the diagonal would be if the corner were square, mm."""
    is_square: bool
    """Whether it may be worked from as it is."""

    @classmethod
    def of_corner(cls, first: float, second: float, diagonal: float) -> Squareness:
        """Return how the corner between two sides stands, from the diagonal across them, mm.

        By the law of cosines. Equal diagonals of a panel do not prove it square (sides 90, 40, 90,
        48 have them too): take this at both ends of the reference edge. Raises a PanelError if the
        three lengths make no triangle.

        >>> Squareness.of_corner(1200.0, 900.0, 1500.0).is_square
        True
        """
        longest = max(first, second, diagonal)
        if min(first, second, diagonal) <= 0 or 2 * longest >= first + second + diagonal:
            raise PanelError(
                f"sides {first:g} and {second:g} and a diagonal of {diagonal:g} mm meet in no "
                "corner: measure again"
            )
        cosine = (first**2 + second**2 - diagonal**2) / (2 * first * second)
        out_by = -second * cosine
        true = math.hypot(first, second)
        return cls(math.acos(cosine), out_by, true, at_most(abs(out_by), ACCEPTED))


@dataclass(frozen=True, slots=True)
class SquareCheck:
    """Two edges and the diagonal across the corner between them."""

    corner: str
    along_to: str
    across_to: str
    """The corners at the other ends of the two edges, the first of them on the reference edge."""
    along: float
    across: float
    """Lengths of the edges, mm."""
    found: Squareness
    """How the corner stands in the panel as it was measured."""


@dataclass(frozen=True, slots=True)
class RightTriangle:
    """Sides of 3 and 4 with a diagonal of 5: a square corner by the tape alone."""

    start: str
    """Where it is raised on the reference line: a point that a tape can be held to."""
    across: float
    along: float
    diagonal: float


@dataclass(frozen=True, slots=True)
class BowCheck:
    """An edge that bows in one even arc."""

    edge: str
    """Its two corners; empty where it has no letters."""
    chord: float
    rise: float
    radius: float
    outwards: bool
    quarter: float
    """From each end along the chord to a quarter of it, mm."""
    stands: float
    """How far the edge stands off the chord there, mm; where it does not, it is no arc."""


@dataclass(frozen=True, slots=True)
class Clearance:
    """How much wood stands between the line that is cut and something else."""

    name: str
    """Of a defect, of an edge by its corners, or of a cut-out by its number."""
    distance: float
    """mm; 0 where they meet."""
    on_line: Point
    to: Point
    """Where it is taken, on the panel."""
    inside: bool = False


@dataclass(frozen=True, slots=True)
class PanelCheck:
    """All checks of the panel itself."""

    squares: tuple[SquareCheck, ...]
    """At the ends of the reference edge, where there are corners to measure from."""
    triangle: RightTriangle | None
    """To raise a square on the reference line; None where nothing so small would tell."""
    bows: tuple[BowCheck, ...]
    clearances: tuple[Clearance, ...]
    """Edges first, then cut-outs, then defects."""


def check_panel(panel: Panel, datum: Datum, core: Path, tape: Tape) -> PanelCheck:
    """Return the checks of a panel, of which `core` is cut, in figures that a tape shows boldly."""
    edges = edges_of(panel.boundary)
    return PanelCheck(
        tuple(_squares(datum)),
        _triangle(panel, datum, tape),
        tuple(_bows(edges, datum)),
        tuple(_clearances(panel, edges, datum, core)),
    )


def _squares(datum: Datum) -> Iterator[SquareCheck]:
    corners = datum.corners
    for i, corner in enumerate(corners):
        one, other = corners[i - 1], corners[(i + 1) % len(corners)]
        along, across = (other, one) if other.name in datum.names else (one, other)
        on_line = corner.name in datum.names and along.name in datum.names
        if on_line and all(c.usable for c in (corner, along, across)):
            first, second = (c.point.distance_to(corner.point) for c in (along, across))
            diagonal = along.point.distance_to(across.point)
            found = Squareness.of_corner(first, second, diagonal)
            yield SquareCheck(corner.name, along.name, across.name, first, second, found)


def _triangle(panel: Panel, datum: Datum, tape: Tape) -> RightTriangle | None:
    """Return the largest triangle whose longer side lies on the line and whose other on wood."""
    units = [n * MM_PER_INCH for n in _UNITS_IMPERIAL] if tape.imperial else list(_UNITS)
    start, up = datum.held, (datum.end - datum.start).unit().left
    room = start.point.distance_to(datum.end)
    points = panel.boundary.points(1.0) - np.array(tuple(start.point))
    deep = float((points @ np.array(tuple(up))).max())
    fitting = (unit for unit in units if at_most(4 * unit, room) and at_most(3 * unit, deep))
    return next((RightTriangle(start.name, 3 * u, 4 * u, 5 * u) for u in fitting), None)


def _bows(edges: tuple[Edge, ...], datum: Datum) -> Iterator[BowCheck]:
    for edge in edges:
        arc = edge.segments[0]
        if len(edge.segments) > 1 or not isinstance(arc, Arc) or edge.is_straight:
            continue
        middle = arc.at(0.5)
        rise = (middle - edge.start).cross(edge.direction)  # the wood lies on the edge's left
        if abs(rise) <= edge.chord / 2:
            bow, quarter = LargeArc.from_chord_and_rise(edge.chord, abs(rise)), edge.chord / 4
            sizes, name = (bow.chord, bow.rise, bow.radius), edge_name(edge, datum.corners)
            yield BowCheck(name, *sizes, rise > 0, quarter, bow.height(quarter))


def _clearances(
    panel: Panel, edges: tuple[Edge, ...], datum: Datum, core: Path
) -> Iterator[Clearance]:
    line = core.points(_FINE)
    top = Region.from_rings(line)
    for edge in edges:
        if name := edge_name(edge, datum.corners):
            yield _clear_of(name, line, Path(edge.segments).points(_FINE))
    for number, cut_out in enumerate(panel.cut_outs, start=1):
        name = "the cut-out" if len(panel.cut_outs) == 1 else f"cut-out {number}"
        yield _clear_of(name, line, _ring(cut_out))
    for defect in panel.defects:
        clear = _clear_of(defect.name, line, _ring(defect.place))
        if not top.touches_or_crosses(defect.extent):
            yield clear
        elif top.holds(defect.extent):
            yield replace(clear, inside=True)
        else:
            yield replace(clear, distance=0.0, to=clear.on_line)


def _ring(path: Path) -> Points:
    points = path.points(CHORD, "outside")
    return np.vstack([points, points[:1]])


def _clear_of(name: str, ring: Points, line: Points) -> Clearance:
    """Return the least distance between a closed line and another that does not cross it."""
    on_line, to = nearest(Region.line(np.vstack([ring, ring[:1]])), Region.line(line))
    return Clearance(name, on_line.distance_to(to), on_line, to)
