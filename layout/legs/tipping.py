"""Which vertical force near the edge tips the table: an estimate from geometry and weight.

A table tips over a side of the polygon of its feet when the force outside that side turns it more
than its weight inside holds it: P·e = W·d, d from the weight to the side, e from the side out to
the force. ISO 7172:1988 presses 50 mm in from the edge, at the middle of a side, then of the other,
and for odd shapes wherever the table stands least firmly; it states no force to pass. On a narrow
top the force presses a quarter of its width in. Who sits down on a table does so at its very edge:
that force is told too.

A top that lies loose on loose legs does not tip over as one: pushed level each leg turns about the
edge of its foot, and the top rises with their heads, so that they lie down together as the sides of
a parallelogram. By virtual work P·h = (W + w/2)·b, W the top, w all legs, b a leg's width.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache, reduce

import numpy as np
from numpy.typing import NDArray

from ..errors import OutlineError
from ..geometry import ORIGIN, Line, Path, Point, Points, Region, Segment, array_of, first_of_best
from ..geometry.parallel import parallel_of_path
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD, CURVE, ROUNDING
from ..outlines import Outline
from .foot import Foot
from .plan import EdgeForce, Tipping
from .wish import EDGE, SAT_ON, Fixing, LegsWish

Array = NDArray[np.float64]

GRAVITY = 9.80665
"""Standard gravity, m/s² (ISO 80000-3)."""

STATIONS = 72
"""Places round the edge at which the force is given."""

IN_A_ROW = 10.0
"""Legs within a strip so narrow, mm, stand in a row (our choice): a floor is not so flat."""

_ALIKE, _NEAR = 1e-6, 0.01
"""Share of the weight by which two forces may differ and still be alike, and of the least force
within which a side may turn out to be the weakest."""

_COARSE, _ROUGH = 0.01, 0.05
"""How near the edge is followed to tell these, and feet and edge while stances are compared, mm."""


@dataclass(frozen=True)
class HeldDown:
    """A table, or what of it tips, and the polygon of its feet over whose sides it does."""

    feet: Points
    """(n, 2) array: the corners of that convex polygon, anticlockwise, mm from the top's centre."""
    mass: float
    """kg."""
    centre: Point = ORIGIN
    """Where that is, mm from the centre of the top."""

    @cached_property
    def normals(self) -> Points:
        """Unit vectors out over each side, (n, 2)."""
        ways = np.roll(self.feet, -1, axis=0) - self.feet
        normals: Points = np.stack([ways[:, 1], -ways[:, 0]], axis=1) / np.hypot(*ways.T)[:, None]
        return normals

    @cached_property
    def offsets(self) -> Array:
        """How far out each side lies, (n,) mm from the centre of the top."""
        offsets: Array = (self.normals * self.feet).sum(axis=1)
        return offsets

    @cached_property
    def inside(self) -> Array:
        """From each side in to the weight, (n,) mm; negative where that lies outside."""
        inside: Array = self.offsets - self.normals @ np.array(tuple(self.centre))
        return inside

    def least(self, points: Points) -> Array:
        """Return the least force that tips it over each side, (n,) N, among points, (p, 2) mm."""
        return self.forces((self.normals @ points.T).max(axis=1, keepdims=True))[:, 0]

    def forces(self, out: Array) -> Array:
        """Return the force that tips it over each side, N, so far out towards it: (n, p)."""
        outside = out - self.offsets[:, None]
        forces = np.full(outside.shape, math.inf)
        held = self.mass * GRAVITY * np.maximum(self.inside, 0.0)[:, None]
        np.divide(np.broadcast_to(held, outside.shape), outside, out=forces, where=outside > 0)
        forces[self.inside <= 0] = 0.0
        return forces


def tipping_of(outline: Outline, held: HeldDown, height: float) -> Tipping:
    """Return the forces at the edge of a top that tip it, so high above the floor, mm."""
    line, rim = pressed_line(outline), outline.path()
    weight = held.mass * GRAVITY
    alike = _ALIKE * weight

    def forces_at(places: Sequence[Point]) -> list[EdgeForce]:
        forces = held.forces(held.normals @ array_of(places).T).min(axis=0)
        return [EdgeForce(p, float(f)) for p, f in zip(places, forces, strict=True)]

    def least_at(places: Sequence[Point]) -> EdgeForce:
        found = forces_at(places)
        return first_of_best(found, lambda f: -f.force, lambda f: tuple(f.place), tolerance=alike)

    def weakest(pressed: Path) -> EdgeForce:
        about = held.least(pressed.points(_COARSE))
        near = about <= about.min() * (1 + _NEAR) + alike
        return least_at([farthest(pressed, Point.of(n)) for n in held.normals[near]])

    pushes = (weight * np.maximum(held.inside, 0.0) / height).tolist()
    ways = [Point.of(normal) for normal in held.normals]
    over = first_of_best(
        range(len(ways)), lambda k: -pushes[k], lambda k: tuple(ways[k]), tolerance=alike
    )
    up, along, most = Point(0, 1), Point(1, 0), math.pi + ROUNDING
    return Tipping(
        weight,
        pressed_in(outline),
        least=weakest(line),
        at_edge=weakest(rim),
        side=least_at([farthest(line, up), farthest(line, -up)]).force,
        end=least_at([farthest(line, along), farthest(line, -along)]).force,
        around=tuple(forces_at([segment.at(share) for segment, share in line.stations(STATIONS)])),
        push=pushes[over],
        # above −π and up to π: a hair below −x is −x
        push_way=most - (most - ways[over].angle) % math.tau,
    )


def pressed_in(outline: Outline) -> float:
    """Return how far in from the edge the force presses, mm."""
    return min(EDGE, outline.width / 4)


@lru_cache(maxsize=16)
def pressed_line(outline: Outline) -> Path:
    """Return the line along which a force presses; of a hollow top too narrow, that of its hull."""
    edge = pressed_in(outline)
    try:
        return outline.parallel(-edge)
    except OutlineError:
        around = Path.through_ring(convex_hull(outline.inner()))
        return parallel_of_path(around, -edge, CURVE)


def farthest(line: Path, way: Point) -> Point:
    """Return the farthest point of a closed line one way, of a straight the middle."""
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
    u, v = segment.axes
    ahead = (math.atan2(v.dot(way), u.dot(way)) - segment.from_angle) % math.tau
    share = (ahead if segment.sweep > 0 else ahead - math.tau) / segment.sweep
    return [*ends, segment.at(share)] if share <= 1 else ends


def footprint(foot: Foot, middles: Sequence[Point], chord: float = CHORD) -> Points:
    """Return the convex polygon round all feet, (n, 2) mm, anticlockwise; it lies inside theirs."""
    own = _print_of(foot, chord)
    return convex_hull((array_of(middles)[:, None] + own[None]).reshape(-1, 2))


@lru_cache(maxsize=16)
def _print_of(foot: Foot, chord: float) -> Points:
    return foot.outside().points(chord)


def counts_at_edge(wish: LegsWish, thickness: float) -> bool:
    """Return whether the load is held against a force at the very edge of such a table."""
    return wish.height + thickness <= SAT_ON


def held_down(
    wish: LegsWish, middles: Sequence[Point], top: tuple[float, Point], chord: float = CHORD
) -> HeldDown:
    """Return what tips: the table over its feet, or a loose top alone over the legs it lies on."""
    if wish.fixing is Fixing.LOOSE:
        return HeldDown(footprint(wish.on_top, middles, chord), *top)
    return whole_table(wish, middles, top, chord)


def whole_table(
    wish: LegsWish, middles: Sequence[Point], top: tuple[float, Point], chord: float = CHORD
) -> HeldDown:
    """Return the table on its feet with all its weight; of the top its mass, kg, and its centre."""
    floor = [wish.on_floor(middle) for middle in middles]
    legs = [(wish.leg_mass, head.midpoint(foot)) for head, foot in zip(middles, floor, strict=True)]
    mass = math.fsum(own for own, _ in (top, *legs))
    moment = reduce(Point.__add__, (place * own for own, place in (top, *legs)))
    centre = moment * (1 / mass) if mass else ORIGIN
    return HeldDown(footprint(wish.foot, floor, chord), mass, centre)


@dataclass(frozen=True)
class Stability:
    """What force at its edge a table stands; of thousands of stances the top is walked once."""

    wish: LegsWish
    top: tuple[float, Point]
    """Its mass, kg, and where its centre is, mm from the middle of the top."""
    edge: Points
    """(n, 2) array: where the force presses, mm."""

    @classmethod
    def under(cls, wish: LegsWish, outline: Outline, mass: float, thickness: float) -> Stability:
        """Return that of a top of a mass, kg, and a thickness, mm."""
        at_edge = counts_at_edge(wish, thickness)
        line = outline.path() if at_edge else pressed_line(outline)
        centre = Region.from_rings(outline.inner(_ROUGH)).centroid
        return cls(wish, (mass, centre), convex_hull(line.points(_ROUGH)))

    def force(self, middles: Sequence[Point]) -> float:
        """Return the least force, N, that tips a table on such legs; below 0, it tips by itself."""
        return float(self._forces(middles).min())

    def evenness(self, middles: Sequence[Point]) -> float:
        """Return a force that grows with the least and those near it: no search stalls."""
        forces = self._forces(middles)
        least, even = float(forces.min()), 16  # the higher, the less other sides count
        if least <= 0 or not math.isfinite(least):
            return least
        return least * float(((forces / least) ** -even).sum() ** (-1 / even))

    def _forces(self, middles: Sequence[Point]) -> Array:
        held = held_down(self.wish, middles, self.top, _ROUGH)
        return held.inside if held.inside.min() <= 0 else held.least(self.edge)
