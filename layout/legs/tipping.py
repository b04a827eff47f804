"""Which vertical force near the edge tips the table: an estimate from geometry and weight.

A table tips over a side of the polygon of its feet when the force outside that side turns it more
than its weight inside holds it: P·e = W·d, d from the weight to the side, e from the side out to
the force. A force inside the polygon never tips it. ISO 7172:1988 presses 50 mm in from the edge,
at the middle of a side, then of the other, and for odd shapes wherever the table stands least
firmly; it states no force to pass. Where the top is too narrow for that the force presses a quarter
of its width in.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np

from ..errors import OutlineError
from ..geometry.alike import first_of_best
from ..geometry.parallel import parallel_of_path
from ..geometry.path import Path
from ..geometry.placement import Points, array_of
from ..geometry.point import ORIGIN, Point
from ..geometry.polygon import convex_hull
from ..geometry.segments import Arc, Line, Segment
from ..geometry.tolerance import CURVE, ROUNDING
from ..outlines import Outline

GRAVITY = 9.80665
"""Standard gravity, m/s² (ISO 80000-3)."""

EDGE = 50.0
"""How far in from the edge the force presses, mm (ISO 7172:1988)."""

_ALIKE = 1e-6
"""Share of the weight by which two forces may differ and still be alike."""

STATIONS = 72
"""Places round the edge at which the force is given."""


@dataclass(frozen=True, slots=True)
class EdgeForce:
    """The vertical force at a place that just tips the table."""

    place: Point
    """On the top, mm from its centre."""
    force: float = field(metadata={"unit": "N"})
    """N; infinite where no force tips it."""


@dataclass(frozen=True, slots=True)
class Tipping:
    """What tips a table."""

    weight: float = field(metadata={"unit": "N"})
    """That holds it down, N."""
    edge: float
    """How far in from the edge the force presses, mm."""
    least: EdgeForce
    """Where it stands least firmly."""
    side: float = field(metadata={"unit": "N"})
    end: float = field(metadata={"unit": "N"})
    """The force at the middle of a side and of an end, the lesser of the two, N."""
    around: tuple[EdgeForce, ...]
    """At even steps round the edge."""
    push: float = field(metadata={"unit": "N"})
    """The least level push at the height of the top that tips it, N, where its feet do not slide.
    """
    push_way: float = field(metadata={"unit": "rad"})
    """Which way that push goes, radians from the length of the top."""


def tipping_force(weight: float, inside: float, outside: float) -> float:
    """Return the force that tips over a line, N: W·d/e, infinite where it presses inside the line.

    Parameters
    ----------
    weight : float
        N.
    inside, outside : float
        From the line in to the weight and out to the force, mm.

    Examples
    --------
    >>> round(tipping_force(40 * GRAVITY, inside=350, outside=200), 1)
    686.5
    """
    if inside <= 0:
        return 0.0
    return weight * inside / outside if outside > 0 else math.inf


def tipping_of(
    outline: Outline, feet: Points, mass: float, height: float, centre: Point = ORIGIN
) -> Tipping:
    """Return the forces at the edge of a top that tip it.

    Parameters
    ----------
    feet : Points
        Corners of the convex polygon of the feet on the floor, anticlockwise, (n, 2) mm.
    mass : float
        That holds the table down, kg.
    height : float
        Of the top above the floor, mm.
    centre : Point
        Of that mass, mm from the top's centre.
    """
    edge = min(EDGE, outline.width / 4)
    line = _pressed_line(outline, edge)
    sides = _sides(feet)
    weight = mass * GRAVITY
    normals = array_of(normal for normal, _ in sides)
    offsets = np.array([offset for _, offset in sides])
    inside = np.maximum(offsets - normals @ np.array(tuple(centre)), 0.0)

    def forces_at(places: Sequence[Point]) -> list[EdgeForce]:
        outside = array_of(places) @ normals.T - offsets
        forces = np.full(outside.shape, math.inf)
        np.divide(weight * inside, outside, out=forces, where=outside > 0)
        forces[:, inside <= 0] = 0.0
        return [EdgeForce(p, float(f)) for p, f in zip(places, forces.min(axis=1), strict=True)]

    def least_at(places: Sequence[Point]) -> EdgeForce:
        found = forces_at(places)
        return first_of_best(
            found, lambda f: -f.force, lambda f: tuple(f.place), tolerance=_ALIKE * weight
        )

    def lesser(way: Point) -> float:
        return least_at([farthest(line, way), farthest(line, -way)]).force

    push, over = first_of_best(
        ((tipping_force(weight, offset - n.dot(centre), height), n) for n, offset in sides),
        lambda pushed: -pushed[0],
        lambda pushed: tuple(pushed[1]),
        tolerance=_ALIKE * weight,
    )
    return Tipping(
        weight,
        edge,
        least=least_at([farthest(line, normal) for normal, _ in sides]),
        side=lesser(Point(0, 1)),
        end=lesser(Point(1, 0)),
        around=tuple(forces_at([segment.at(share) for segment, share in line.stations(STATIONS)])),
        push=push,
        push_way=_turn_of(over),
    )


@lru_cache(maxsize=16)
def _pressed_line(outline: Outline, edge: float) -> Path:
    """Return the line along which a force presses: all legs tried under a top share it.

    Where an outline is hollow and too narrow somewhere, it is that of its convex hull: what tips a
    table most lies on both.
    """
    try:
        return outline.parallel(-edge)
    except OutlineError:
        around = Path.through_ring(convex_hull(outline.inner()))
        return parallel_of_path(around, -edge, CURVE)


def farthest(line: Path, way: Point) -> Point:
    """Return the point of a closed line that lies farthest towards a unit vector.

    Where a straight of the line lies square to it, the middle of that straight.
    """
    reached = [point for segment in line.segments for point in _extremes(segment, way)]
    most = max(point.dot(way) for point in reached)
    tied = [point for point in reached if point.dot(way) >= most - 1e-9 * max(1.0, abs(most))]
    across = sorted(tied, key=lambda point: point.dot(way.left))
    return across[0].midpoint(across[-1])


def _extremes(segment: Segment, way: Point) -> list[Point]:
    """Return the ends of a segment and, where it has one, its farthest point towards `way`."""
    ends = [segment.start, segment.end]
    if isinstance(segment, Line):
        return ends
    if isinstance(segment, Arc):
        angle, top = way.angle, segment.centre + way * segment.radius
    else:
        own = way.turned(-segment.turn)
        own = Point(own.x * segment.half_length, own.y * segment.half_width)
        angle = own.angle
        top = segment.at((angle - segment.from_angle) % math.tau / segment.sweep)
    ahead = (angle - segment.from_angle) % math.tau
    passes = ahead <= segment.sweep or ahead - math.tau >= segment.sweep
    return [*ends, top] if passes else ends


def _turn_of(way: Point) -> float:
    """Return the direction of a vector, above −π and up to π; a hair below −x is −x."""
    most = math.pi + ROUNDING
    return most - (most - way.angle) % math.tau


def _sides(feet: Points) -> Sequence[tuple[Point, float]]:
    """Return the outward normal of each side of a polygon and the side's distance along it."""
    corners = [*map(Point.of, feet)]
    sides = []
    for a, b in zip(corners, corners[1:] + corners[:1], strict=True):
        normal = -(b - a).unit().left
        sides.append((normal, normal.dot(a)))
    return sides
