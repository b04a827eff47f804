"""A peer for the search with proof: a general optimiser on the same question, one size exact.

For a place, a turn and one more number the largest top follows in closed form from the edges of the
wood, for many such at once. What is left, two to four unknowns, is sought by differential evolution
(Storn and Price 1997) as scipy has it, then by the simplex of Nelder and Mead (1965). Nothing here
knows how the library searches; it reads only a panel's edges, (n, 2, 2) mm.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Score = Callable[[Array, Array], Array]
"""From lengths and widths, mm, to what the goal counts; negative by how much a limit is missed."""

MOST_RATIO = 60.0
"""Of an oval, length over width: more than any panel here gives."""


@dataclass(frozen=True)
class Seen:
    """Edges as seen from many poses: their ends, (pose, edge) each, length along x."""

    u0: Array
    v0: Array
    u1: Array
    v1: Array

    @classmethod
    def of(cls, edges: Array, x: Array, y: Array, turn: Array) -> Seen:
        """Return the edges in the frames of tops at (x, y) with their length along `turn`."""
        cos, sin = np.cos(turn)[:, None], np.sin(turn)[:, None]
        ends = []
        for end in (0, 1):
            away_x, away_y = edges[:, end, 0] - x[:, None], edges[:, end, 1] - y[:, None]
            ends += [away_x * cos + away_y * sin, away_y * cos - away_x * sin]
        return cls(*ends)

    def squeezed(self, stretch: Array) -> Seen:
        """Return them with lengths divided and widths multiplied by a factor for each pose."""
        s = stretch[:, None]
        return Seen(self.u0 / s, self.v0 * s, self.u1 / s, self.v1 * s)

    def depth(self) -> Array:
        """Return how deep within the wood each origin lies, mm; negative outside it."""
        du, dv = self.u1 - self.u0, self.v1 - self.v0
        along = np.clip(-(self.u0 * du + self.v0 * dv) / (du * du + dv * dv), 0.0, 1.0)
        away = np.sqrt(((self.u0 + along * du) ** 2 + (self.v0 + along * dv) ** 2).min(axis=1))
        crosses = (self.v0 > 0) != (self.v1 > 0)
        ahead = np.where(crosses, self.u0 - self.v0 * du / np.where(dv == 0, 1.0, dv), -1.0) > 0
        signed: Array = np.where(crosses & ahead, 1, 0).sum(axis=1) % 2 * 2.0 - 1.0
        return signed * away

    def straight(self, half: Array, radius: Array) -> Array:
        """Return half the greatest length of a core that stays a radius away from every edge.

        The core is a rectangle of the given half width about the origin. An edge point (u, v) with
        w = max(|v| − half, 0) below the radius stops it at |u| − √(radius² − w²). Along an edge
        that is convex, so it is least at an end, where w leaves 0, where u = 0, or where the round
        corner touches: there w = radius · |du| / √(du² + dv²).
        """
        du, dv = self.u1 - self.u0, self.v1 - self.v0
        b, r = half[:, None], radius[:, None]
        slope = np.where(np.abs(dv) < 1e-12, 1e-12, dv)
        ends = (-b - r - self.v0) / slope, (b + r - self.v0) / slope
        first = np.maximum(np.minimum(*ends), 0.0)
        last = np.minimum(np.maximum(*ends), 1.0)
        touch = b + r * np.abs(du) / np.hypot(du, dv)
        level = np.where(np.abs(du) < 1e-12, 1e-12, du)
        least = np.full(du.shape, np.inf)
        at = [first, last, -self.u0 / level]
        at += [(v - self.v0) / slope for v in (b, -b, touch, -touch)]
        for share in at:
            t = np.clip(share, first, last)
            w = np.maximum(np.abs(self.v0 + t * dv) - b, 0.0)
            free = np.abs(self.u0 + t * du) - np.sqrt(np.maximum(r * r - w * w, 0.0))
            np.minimum(least, free, out=least)
        most: Array = np.where(first <= last, least, np.inf).min(axis=1)
        return most


@dataclass(frozen=True)
class Question:
    """One family on one panel.

    Attributes
    ----------
    edges : (n, 2, 2) array
        Of the wood, mm.
    shape : str
        A family's name.
    score : callable
        What counts, of length and width.
    corner : float
        The radius of a rounded rectangle's corners, mm.
    wanted : tuple of two floats or None
        No top need be larger than this.
    least_width : float
        Where a top of one width is sought, mm.
    """

    edges: Array
    shape: str
    score: Score
    corner: float = 0.0
    wanted: tuple[float, float] | None = None
    least_width: float = 0.0

    @property
    def spans(self) -> list[tuple[float, float]]:
        """The spans of the unknowns: place, turn, and half a width or the log of a ratio."""
        low, high = self.edges.min(axis=(0, 1)), self.edges.max(axis=(0, 1))
        place = [(float(low[i]), float(high[i])) for i in (0, 1)]
        half = float(np.hypot(*(high - low))) / 2
        if self.shape == "circle":
            return place
        if self.shape == "oval":
            return [*place, (0.0, math.pi), (0.0, math.log(MOST_RATIO))]
        return [*place, (0.0, math.pi), (max(self.corner, self.least_width / 2, 1e-3), half)]

    def sizes(self, x: Array) -> tuple[Array, Array, Array]:
        """Return, of poses (unknown, pose), how deep they lie and the largest length and width."""
        turn = x[2] if len(x) > 2 else np.zeros(x.shape[1])
        seen = Seen.of(self.edges, x[0], x[1], turn)
        if self.shape in ("circle", "oval"):
            stretch = np.exp(np.maximum(x[3], 0.0) / 2) if len(x) > 3 else np.ones(x.shape[1])
            depth = seen.squeezed(stretch).depth()
            radius = np.maximum(depth, 0.0)
            if self.wanted is not None:
                near = (self.wanted[0] * stretch + self.wanted[1] / stretch) / 2
                radius = np.minimum(radius, near / (stretch**2 + stretch**-2))
            return depth, 2 * radius * stretch, 2 * radius / stretch
        half, least = x[3], self.spans[3][0]
        radius = half if self.shape == "capsule" else np.full(len(half), self.corner)
        straight = seen.straight(half - radius, radius)
        length = 2 * (straight + radius)
        if self.wanted is not None:
            length = np.minimum(length, np.maximum(self.wanted[0], 2 * half))
        depth = seen.depth()
        depth = np.where(straight < 0, np.minimum(depth, 0.0) - half, depth)
        return np.where(half < least, half - least, depth), length, 2 * half

    def values(self, x: Array) -> Array:
        """Return what is to be made small: minus the score, or how far a pose is from fitting."""
        x = x if x.ndim == 2 else x[:, None]
        depth, length, width = self.sizes(x)
        with np.errstate(invalid="ignore"):
            score = self.score(length, width)
        values: Array = np.where(depth > 0, -score, -depth)
        return values


@dataclass(frozen=True)
class Peer:
    """What the general optimiser found: no bound, for it has none."""

    score: float
    length: float
    width: float
    unknowns: Array


def found_by_evolution(question: Question, seed: int, generations: int = 300) -> Peer:
    """Return the best top that one run of differential evolution with a polish comes to."""
    from scipy.optimize import differential_evolution

    spans = question.spans
    run = differential_evolution(
        question.values,
        spans,
        maxiter=generations,
        popsize=15,
        tol=1e-6,
        rng=seed,
        polish=False,
        vectorized=True,
        updating="deferred",
    )
    best = polished(question, run.x)
    _, length, width = question.sizes(best[:, None])
    return Peer(-float(question.values(best)[0]), float(length[0]), float(width[0]), best)


def polished(question: Question, start: Array, tries: int = 600) -> Array:
    """Return unknowns that the simplex of Nelder and Mead comes to from some, never worse ones."""
    from scipy.optimize import minimize

    scale = np.array([high - low for low, high in question.spans])
    corners = np.vstack([np.zeros(len(scale)), np.eye(len(scale)) * 1e-3 * scale]) + start
    run = minimize(
        lambda x: float(question.values(x)[0]),
        start,
        method="Nelder-Mead",
        options={"initial_simplex": corners, "xatol": 1e-4, "fatol": 1e-6, "maxfev": tries},
    )
    better = run.fun <= float(question.values(start)[0])
    return np.asarray(run.x if better else start, dtype=np.float64)


def area_score(shape: str, corner: float = 0.0) -> Score:
    """Return the area of a shape by its length and width."""
    lost = (4 - math.pi) * corner**2
    areas: dict[str, Score] = {
        "circle": lambda length, width: math.pi / 4 * length * width,
        "oval": lambda length, width: math.pi / 4 * length * width,
        "capsule": lambda length, width: (length - width) * width + math.pi / 4 * width**2,
        "rectangle": lambda length, width: length * width,
        "rounded rectangle": lambda length, width: length * width - lost,
    }
    return areas[shape]
