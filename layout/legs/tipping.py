"""Which vertical force near the edge tips the table: an estimate from geometry and weight.

A table tips over a side of the polygon of its feet when the force outside that side turns it more
than its weight inside holds it: P·e = W·d, d from the weight to the side, e from the side out to
the force. A force inside the polygon never tips it. ISO 7172:1988 presses 50 mm in from the edge,
at the middle of a side, then of the other, and for odd shapes wherever the table stands least
firmly; it states no force to pass. Where the top is too narrow for that the force presses a quarter
of its width in. Who sits down on a table does so at its very edge: that force is told too.

A top that lies loose on loose legs does not tip over as one: pushed level each leg turns about the
edge of its foot, and the top rises with their heads, so that they lie down together as the sides of
a parallelogram. By virtual work P·h = (W + w/2)·b, W the top, w all legs, b a leg's width.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ..errors import OutlineError
from ..geometry import ORIGIN, Arc, Line, Path, Point, Points, Segment, array_of, first_of_best
from ..geometry.parallel import parallel_of_path
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CURVE, ROUNDING
from ..outlines import Outline

GRAVITY = 9.80665
"""Standard gravity, m/s² (ISO 80000-3)."""

EDGE = 50.0
"""How far in from the edge the force presses, mm (ISO 7172:1988)."""

_ALIKE = 1e-6
"""Share of the weight by which two forces may differ and still be alike."""

_NEAR = 0.01
"""Share of the least force within which a side may turn out to be the weakest."""

_COARSE = 0.01
"""How near the edge is followed to tell these, mm."""

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
    at_edge: EdgeForce
    """The same at its very edge."""
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
    rocks: bool = False
    """Whether loose legs give way to that push before the table tips over as one."""


def tipping_of(
    outline: Outline, feet: Points, mass: float, height: float, centre: Point = ORIGIN
) -> Tipping:
    """Return the forces at the edge of a top that tip it, so high above the floor, mm.

    `feet` are the corners of their convex polygon on the floor, anticlockwise, (n, 2) mm; `mass`,
    kg, holds the table down, `centre` mm from that of the top.
    """
    edge = min(EDGE, outline.width / 4)
    line, rim = pressed_line(outline, edge), outline.path()
    sides, weight = Sides.of(feet, centre), mass * GRAVITY

    def forces_at(places: Sequence[Point]) -> list[EdgeForce]:
        forces = sides.forces(weight, sides.normals @ array_of(places).T).min(axis=0)
        return [EdgeForce(p, float(f)) for p, f in zip(places, forces, strict=True)]

    def least_at(places: Sequence[Point]) -> EdgeForce:
        found = forces_at(places)
        return first_of_best(
            found, lambda f: -f.force, lambda f: tuple(f.place), tolerance=_ALIKE * weight
        )

    def weakest(pressed: Path) -> EdgeForce:
        about = sides.forces(weight, sides.reach(_points_of(pressed))[:, None])[:, 0]
        near = about <= about.min() * (1 + _NEAR) + _ALIKE * weight
        return least_at([farthest(pressed, Point.of(n)) for n in sides.normals[near]])

    def lesser(way: Point) -> float:
        return least_at([farthest(line, way), farthest(line, -way)]).force

    push, over = first_of_best(
        (
            (weight * max(float(inside), 0.0) / height, Point.of(n))
            for n, inside in zip(sides.normals, sides.inside, strict=True)
        ),
        lambda pushed: -pushed[0],
        lambda pushed: tuple(pushed[1]),
        tolerance=_ALIKE * weight,
    )
    return Tipping(
        weight,
        edge,
        least=weakest(line),
        at_edge=weakest(rim),
        side=lesser(Point(0, 1)),
        end=lesser(Point(1, 0)),
        around=tuple(forces_at([segment.at(share) for segment, share in line.stations(STATIONS)])),
        push=push,
        push_way=_turn_of(over),
    )


def rocking_force(top: float, legs: float, width: float, height: float) -> float:
    """Return the level push, N, under which a loose top and its loose legs lie down together.

    Masses of the top and of all legs in kg, width and height of one leg in mm.

    >>> round(rocking_force(top=22.4, legs=41.8, width=100, height=700), 1)
    60.7
    """
    return (top + legs / 2) * GRAVITY * width / height


@dataclass(frozen=True)
class Sides:
    """The sides of the polygon of the feet, over which a table tips."""

    normals: Points
    """(n, 2) array: outwards."""
    offsets: NDArray[np.float64]
    """(n,) array: how far out each lies, mm from the centre of the top."""
    inside: NDArray[np.float64]
    """(n,) array: from each in to the weight, mm; negative where that lies outside."""

    @classmethod
    def of(cls, feet: Points, centre: Point) -> Sides:
        """Return those of a convex polygon, (n, 2) mm, anticlockwise, and a weight at `centre`."""
        ways = np.roll(feet, -1, axis=0) - feet
        normals = np.stack([ways[:, 1], -ways[:, 0]], axis=1) / np.hypot(*ways.T)[:, None]
        offsets = (normals * feet).sum(axis=1)
        return cls(normals, offsets, offsets - normals @ np.array(tuple(centre)))

    def reach(self, points: Points) -> NDArray[np.float64]:
        """Return how far points, (p, 2) mm, reach towards each side, (n,) mm."""
        reach: NDArray[np.float64] = (self.normals @ points.T).max(axis=1)
        return reach

    def forces(self, weight: float, places: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the force that tips a weight, N, over each side, (n, p) N.

        It presses so far out towards each side, (n, p) mm.
        """
        outside = places - self.offsets[:, None]
        forces = np.full(outside.shape, math.inf)
        held = np.broadcast_to(weight * np.maximum(self.inside, 0.0)[:, None], outside.shape)
        np.divide(held, outside, out=forces, where=outside > 0)
        forces[self.inside <= 0] = 0.0
        return forces


@lru_cache(maxsize=16)
def pressed_line(outline: Outline, edge: float) -> Path:
    """Return the line along which a force presses: all legs tried under a top share it.

    Where an outline is hollow and too narrow somewhere, it is that of its convex hull: what tips a
    table most lies on both.
    """
    try:
        return outline.parallel(-edge)
    except OutlineError:
        around = Path.through_ring(convex_hull(outline.inner()))
        return parallel_of_path(around, -edge, CURVE)


@lru_cache(maxsize=16)
def _points_of(line: Path) -> Points:
    """Return points of a line, near enough to tell which sides are the weakest."""
    return line.points(_COARSE)


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
