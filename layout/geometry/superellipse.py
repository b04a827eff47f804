"""A quarter of a superellipse |x/a|ⁿ + |y/b|ⁿ = 1: its points, directions, bend, length, polygons.

The parameter w runs from 0 at (a, 0) to 1 where both terms are ½, with y in proportion to w, and on
to 2 at (0, b), with x in proportion to 2 − w: points, speed and bend are smooth in it. A chord over
a length s stands about κs²/8 off the curve, so knots are spread evenly by ∫√κ ds; how far each
really stands off is measured, and their number raised until all are near enough.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from .biarcs import Station
from .placement import Points
from .point import Point
from .scalar import peak
from .stepping import Side

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

    def _gradient(self, w: float) -> Point:
        u, v = self.shares(w)
        power = self.exponent - 1
        return Point(u**power / self.a, v**power / self.b)

    def station(self, w: float, distance: float = 0.0) -> Station:
        """Return the point `distance` outside on the normal, mm, and the way on along the curve."""
        normal = self._gradient(w).unit()
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
        """Return how far the curve reaches towards a unit vector, mm: Hölder's dual norm."""
        q = self.exponent / (self.exponent - 1)
        x, y = abs(direction.x) * self.a, abs(direction.y) * self.b
        most = max(x, y)
        return float(most * ((x / most) ** q + (y / most) ** q) ** (1 / q))

    @property
    def length(self) -> float:
        """The length of the quarter, mm, to 1e-10 of it: Gauss-Legendre over both halves."""
        nodes, weights = (row.tolist() for row in np.polynomial.legendre.leggauss(_NODES))
        terms = (
            self.speed(middle + node / 2) * weight / 2
            for middle in (MIDDLE / 2, (MIDDLE + END) / 2)
            for node, weight in zip(nodes, weights, strict=True)
        )
        return math.fsum(terms)

    @property
    def tightest(self) -> float:
        """The parameter where it bends most.

        The curvature rises to one summit and falls again, so the place of the highest of a row of
        values is closed in on.
        """
        steps = 256
        best = max(range(steps + 1), key=lambda i: self.bend(END * i / steps))
        return peak(self.bend, END * max(best - 1, 0) / steps, END * min(best + 1, steps) / steps)


_TABLE = 512
"""Steps of the table by which knots are spread."""

_MOST_ROUNDS = 40


def superellipse_polygon(curve: Quadrant, tolerance: float, side: Side) -> Points:
    """Return a polygon, (n, 2) mm, on one side of the whole curve and within `tolerance` of it."""
    grid, spread = _spread(curve)
    count = max(2.0, spread[-1] / math.sqrt(8 * tolerance))
    for _ in range(_MOST_ROUNDS):
        shares = np.linspace(0.0, spread[-1], math.ceil(count) + 1)
        inner = np.interp(shares[1:-1], spread, grid)
        points, normals = _stations(curve, np.concatenate([[0.0], inner, [END]]))
        tips = _meetings(points, normals)
        worst = float(_off(curve, points, tips, side).max())
        if worst <= tolerance:
            break
        count *= max(1.02, math.sqrt(worst / tolerance))
    quarter = points if side == "inside" else tips
    mirrored = quarter[::-1] * np.array([-1.0, 1.0])
    if side == "inside":  # chords share the ends of the axes, tips lie between them
        quarter, mirrored = quarter[:-1], mirrored[:-1]
    half = np.concatenate([quarter, mirrored])
    return np.concatenate([half, -half])


def _stations(curve: Quadrant, w: Points) -> tuple[Points, Points]:
    """Return the points at n parameters and the unit normals there, (n, 2) each."""
    n, axes = curve.exponent, np.array([curve.a, curve.b])
    small = 0.5 ** (1 / n) * np.minimum(w, END - w)
    other = (1 - small**n) ** (1 / n)
    shares = np.where(w <= MIDDLE, [other, small], [small, other]).T
    slopes = shares ** (n - 1) / axes
    return shares * axes, slopes / np.hypot(slopes[:, :1], slopes[:, 1:])


def _spread(curve: Quadrant) -> tuple[Points, Points]:
    """Return values of the parameter and ∫√κ ds up to each; the normal turns by κ ds."""
    grid = np.linspace(0.0, END, _TABLE + 1)
    points, normals = _stations(curve, grid)
    turned = np.diff(np.arctan2(normals[:, 1], normals[:, 0]))
    paces = np.sqrt(turned * np.hypot(*np.diff(points, axis=0).T))
    return grid, np.concatenate([[0.0], np.cumsum(paces)])


def _meetings(points: Points, normals: Points) -> Points:
    """Return where the tangents of each two neighbours meet, (n − 1, 2)."""
    one, other = normals[:-1], normals[1:]
    sine = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    steps = np.diff(points, axis=0)
    alike = sine <= 1e-12
    along = (steps * other).sum(axis=1) / np.where(alike, 1.0, sine)
    tips = points[:-1] + along[:, None] * np.stack([-one[:, 1], one[:, 0]], axis=1)
    return np.where(alike[:, None], points[:-1] + steps / 2, tips)


def _off(curve: Quadrant, points: Points, tips: Points, side: Side) -> Points:
    """Return distances, mm, that no chord or no tip of two tangents exceeds.

    The curve stands farthest off its chord where it runs parallel to it, which its support tells.
    The tip's distance to the triangle of that place and both ends, which lies inside the curve, is
    no less than that to the curve.
    """
    steps, axes = np.diff(points, axis=0), np.array([curve.a, curve.b])
    out = np.stack([steps[:, 1], -steps[:, 0]], axis=1) / np.hypot(steps[:, :1], steps[:, 1:])
    seen, q = np.maximum(out, 0.0) * axes, curve.exponent / (curve.exponent - 1)
    reach = (seen**q).sum(axis=1) ** (1 / q)  # the dual norm, as `Quadrant.support`
    if side == "inside":
        rises: Points = reach - (out * points[:-1]).sum(axis=1)
        return rises
    touching = axes * (seen / reach[:, None]) ** (q - 1)
    return np.minimum(_to_lines(tips, points[:-1], touching), _to_lines(tips, touching, points[1:]))


def _to_lines(points: Points, starts: Points, ends: Points) -> Points:
    """Return the distance of each point from a stretch of its own, (n,) mm."""
    along = ends - starts
    square = np.maximum((along * along).sum(axis=1), 1e-300)
    shares = np.clip(((points - starts) * along).sum(axis=1) / square, 0.0, 1.0)
    away: Points = np.hypot(*(points - starts - shares[:, None] * along).T)
    return away
