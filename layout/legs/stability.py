"""How firmly a stance stands: with the feet, the weights and the edge that the plan tells of.

A search asks this of thousands of stances, so the top is walked once, and curves are polygons.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache, reduce

import numpy as np
from numpy.typing import NDArray

from ..geometry import ORIGIN, Point, Points, Region, array_of
from ..geometry.polygon import convex_hull
from ..geometry.tolerance import CHORD
from ..outlines import Outline
from .foot import Foot
from .heights import SAT_ON
from .tipping import EDGE, GRAVITY, Sides, pressed_line
from .wish import Fixing, LegsWish

IN_A_ROW = 10.0
"""Legs whose middles lie within a strip so narrow, mm, stand in a row (our choice): a floor is not
so flat."""

_EVEN = 16
"""The higher, the less the sides count that are not the weakest."""

_COARSE = 0.05
"""How near feet and edge are followed while stances are compared, mm."""


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


@dataclass(frozen=True)
class Stability:
    """What force at its edge a table stands."""

    wish: LegsWish
    mass: float
    """Of the top, kg."""
    centre: Point
    """Where that is, mm from the middle of the top."""
    edge: Points
    """(n, 2) array: where the force presses, mm."""

    @classmethod
    def under(cls, wish: LegsWish, outline: Outline, mass: float, thickness: float) -> Stability:
        """Return that of a top of a mass, kg, and a thickness, mm."""
        line = outline.path()
        if not counts_at_edge(wish, thickness):
            line = pressed_line(outline, min(EDGE, outline.width / 4))
        edge = convex_hull(line.points(_COARSE))
        return cls(wish, mass, Region.from_rings(outline.inner(_COARSE)).centroid, edge)

    def force(self, middles: Sequence[Point]) -> float:
        """Return the least force at the edge that tips a table on legs with these middles, N.

        Negative where the weight lies outside the feet.
        """
        return float(self._forces(middles).min())

    def evenness(self, middles: Sequence[Point]) -> float:
        """Return a force that grows with the least one, and with those hardly above it, N.

        It has no edges on which a search by small moves would stall.
        """
        forces = self._forces(middles)
        if forces.min() <= 0 or not np.isfinite(forces.min()):
            return float(forces.min())
        return float(forces.min() * ((forces / forces.min()) ** -_EVEN).sum() ** (-1 / _EVEN))

    def _forces(self, middles: Sequence[Point]) -> NDArray[np.float64]:
        held = held_down(self.wish, middles, (self.mass, self.centre), _COARSE)
        sides = Sides.of(held.feet, held.centre)
        if sides.inside.min() <= 0:
            return sides.inside
        return sides.forces(held.mass * GRAVITY, sides.reach(self.edge)[:, None])[:, 0]


@dataclass(frozen=True)
class HeldDown:
    """What tips over which line."""

    feet: Points
    mass: float
    """kg."""
    centre: Point


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
    """Return the table on its feet with all its weight."""
    floor = [wish.on_floor(middle) for middle in middles]
    legs = [(wish.leg_mass, head.midpoint(foot)) for head, foot in zip(middles, floor, strict=True)]
    masses = [top, *legs]
    mass = math.fsum(mass for mass, _ in masses)
    moment = reduce(Point.__add__, (place * own for own, place in masses))
    centre = moment * (1 / mass) if mass else ORIGIN
    return HeldDown(footprint(wish.foot, floor, chord), mass, centre)
