"""A quarter of a superellipse |x/a|ⁿ + |y/b|ⁿ = 1: its points, directions, bend and length.

Near the long axis y is a good parameter and x is not, near the short axis the other way round. So
the parameter w runs from 0 at (a, 0) to 1 where both terms are ½, with y in proportion to w, and on
to 2 at (0, b), with x in proportion to 2 − w. Points, speed and bend are smooth in it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from .biarcs import Station
from .point import Point
from .scalar import peak

MIDDLE, END = 1.0, 2.0
"""The parameter where both terms are ½, and at the end of the short axis."""

_NODES = 96
"""Gauss points an eighth of the curve: 1e-11 of its length at exponents 2 to 20, 20 : 1 slim."""


@dataclass(frozen=True, slots=True)
class Quadrant:
    """The quarter of a superellipse between the positive half-axes, run anticlockwise."""

    a: float
    b: float
    """Half-axes along x and y, mm."""
    exponent: float
    """At least 2: at 2 it is an ellipse."""

    def shares(self, w: float) -> tuple[float, float]:
        """Return x/a and y/b."""
        n = self.exponent
        small = 0.5 ** (1 / n) * (w if w <= MIDDLE else END - w)
        other = (1 - small**n) ** (1 / n)
        return (other, small) if w <= MIDDLE else (small, other)

    def at(self, w: float) -> Point:
        """Return a point of the curve, mm."""
        u, v = self.shares(w)
        return Point(self.a * u, self.b * v)

    def normal(self, w: float) -> Point:
        """Return the unit vector that points outwards."""
        return self._gradient(w).unit()

    def _gradient(self, w: float) -> Point:
        u, v = self.shares(w)
        power = self.exponent - 1
        return Point(u**power / self.a, v**power / self.b)

    def station(self, w: float, distance: float = 0.0) -> Station:
        """Return the point `distance` outside on the normal, mm, and the way on along the curve."""
        normal = self.normal(w)
        return Station(self.at(w) + normal * distance, normal.left)

    def bend(self, w: float) -> float:
        """Return the curvature, 1/mm: (n−1)(uv)ⁿ⁻²/(a²b²|∇|³), u and v the shares."""
        u, v = self.shares(w)
        n, steep = self.exponent, self._gradient(w).norm
        # 0⁰ is 1 at exponent 2, whose ends bend like those of any ellipse
        return (n - 1) * math.pow(u * v, n - 2) / (self.a * self.b) ** 2 / steep**3

    def speed(self, w: float) -> float:
        """Return how fast the point runs as w grows, mm."""
        gradient = self._gradient(w)
        scale = math.pow(0.5, 1 / self.exponent)
        if w <= MIDDLE:
            return self.b * scale * gradient.norm / gradient.x
        return self.a * scale * gradient.norm / gradient.y

    def support(self, direction: Point) -> float:
        """Return how far the whole curve reaches towards a unit vector, mm: the dual norm.

        By Hölder's inequality max x·d = (|a dₓ|^q + |b d_y|^q)^(1/q) with 1/n + 1/q = 1.
        """
        q = self.exponent / (self.exponent - 1)
        x, y = abs(direction.x) * self.a, abs(direction.y) * self.b
        most = max(x, y)
        return float(most * ((x / most) ** q + (y / most) ** q) ** (1 / q))

    @property
    def length(self) -> float:
        """The length of the quarter, mm, to 1e-10 of it: Gauss-Legendre over both halves."""
        shares, weights = _gauss(_NODES)
        halves = (
            (start + share, weight)
            for start in (0.0, MIDDLE)
            for share, weight in zip(shares, weights, strict=True)
        )
        return math.fsum(self.speed(w) * weight for w, weight in halves)

    @property
    def tightest(self) -> float:
        """The parameter where it bends most.

        The curvature rises to one summit and falls again, so the place of the highest of a row of
        values is closed in on.
        """
        steps = 256
        best = max(range(steps + 1), key=lambda i: self.bend(END * i / steps))
        return peak(self.bend, END * max(best - 1, 0) / steps, END * min(best + 1, steps) / steps)


@cache
def _gauss(count: int) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return shares of an interval of length 1 and their weights."""
    nodes, weights = np.polynomial.legendre.leggauss(count)
    return tuple((float(x) + 1) / 2 for x in nodes), tuple(float(w) / 2 for w in weights)
