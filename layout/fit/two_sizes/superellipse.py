"""Superellipses of a given exponent: turn and ratio outside, place and size inside.

Turned back and squeezed like an oval's, the wood sees every superellipse of one turn and ratio as a
ball of the n-norm: the largest about a centre is found by the gauge of that ball. The shape number
p is ln(length / width). Where the oval's circle is idle to turn, this ball is not.
"""

from __future__ import annotations

import math

import numpy as np

from ...errors import LayoutError
from ...outlines import Superellipse
from .aims import Figures
from .boxes import Box
from .gauge import PowerBody, gauge_distances
from .kind import Figure
from .oval import OvalKind, squeeze_of
from .pose import Array, Contacts, Pose, turned
from .relaxed import Edges, HalfPlanes, Patch
from .superellipse_bound import (
    superellipse_at,
    superellipse_figures,
    superellipse_half_planes,
    superellipse_held_rows,
)
from .superellipse_contacts import superellipse_contacts

_PARTS = 96
"""Of a quarter of the ball, between which its swelling is bounded."""


class SuperellipseKind(OvalKind):
    """Superellipses of any ratio; the radius is the root of half length times half width."""

    name = "superellipse"

    def __init__(self, exponent: float) -> None:
        self.exponent = exponent
        self._body = PowerBody(exponent)
        self.unit_area = Superellipse(2.0, 2.0, exponent).area
        share = np.sin(np.linspace(0.0, math.pi / 2, _PARTS + 1)) ** 2
        least, most = share[:-1], share[1:]
        self._lean = np.maximum(np.abs(1 - 2 * least), np.abs(1 - 2 * most))
        a, b = 1 - 1 / exponent, 1 / exponent
        self._along = ((1 - most) ** a * least**b, (1 - least) ** a * most**b)
        self._across = (least**a * (1 - most) ** b, most**a * (1 - least) ** b)

    def rim(self, lipping: float) -> tuple[float, float]:
        """Return nothing: the line that far inside a superellipse is none itself."""
        if lipping > 0:
            raise LayoutError("a lipping cannot be bent round a superellipse: leave it out")
        return 0.0, 0.0

    def period(self, p: float) -> float:
        """Return the least turn that brings shape p onto itself."""
        return math.pi / 2 if p == 0 else math.pi

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm² (Dirichlet's integral)."""
        return self.unit_area * half_length * half_width

    def distances(self, turn: float, p: float, edges: Array, centres: Array) -> Array:
        """Return the radii at which superellipses about the centres touch the edges, (m, n)."""
        squeeze = squeeze_of(p)
        return gauge_distances(
            self._body, turned(edges, turn) * squeeze, turned(centres, turn) * squeeze
        )

    def holding(self, turn: float, p: float, points: Array, centres: Array) -> Array:
        """Return the radii at which superellipses about the centres hold all the points, (m,)."""
        away = (turned(points, turn)[None] - turned(centres, turn)[:, None]) * squeeze_of(p)
        radii: Array = self._body.gauge(away).max(axis=1)
        return radii

    def held_rows(self, box: Box, patch: Patch, points: Array) -> tuple[Array, Array]:
        """Return rows by which all tops of a box hold points, seen from the patch."""
        return superellipse_held_rows(self._body, box, points)

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        return self._body.gauge(ways * squeeze_of(p))

    def growth(self, low: float, high: float, half_turn: float) -> tuple[float, float]:
        """Return factor and addend that make a radius for the whole box of that at the anchor.

        From the middle of the box to any other top of it leads a path on which turn and shape
        change evenly. Where x on the ball has |x|ⁿ = 1 − s and |y|ⁿ = s, its norm then grows at
        most at the rate

            κ/2 |1 − 2 s| + δ |e⁻ᵖ (1 − s)ᵃ sᵇ − eᵖ sᵃ (1 − s)ᵇ|,    a = 1 − 1/n, b = 1/n,

        δ and κ being half the spans of turns and of shapes, so it grows at most by the exponential
        of the greatest rate (the logarithmic norm of the map; Dahlquist 1958, from memory). For
        large boxes the norm between the 1-norm and the greatest entry is less (Riesz and Thorin).
        """
        kappa = (high - low) / 2
        rates = [self._swing(p) for p in (low, high)]
        rate = float((kappa / 2 * self._lean + half_turn * np.maximum(*rates)).max())
        sine = math.sin(min(half_turn, math.pi / 2))
        straight, bent = math.exp(kappa / 2), math.exp((low + high) / 2 + kappa / 2) * sine
        return min(math.exp(min(rate, 50.0)), straight + bent), 0.0

    def _swing(self, p: float) -> Array:
        """Return the greatest rate of the turn in each part of the quarter."""
        stretch = math.exp(p)
        one = self._along[1] / stretch - self._across[0] * stretch
        other = self._across[1] * stretch - self._along[0] / stretch
        rates: Array = np.maximum(one, other)
        return rates

    def looseness(self, box: Box) -> tuple[float, float]:
        """Return how far, as angles, the spans of turns and of shapes let contacts wander."""
        if math.isinf(box.high):
            return 0.0, math.inf
        return 2 * box.half_turn * float(self._swing(box.high).max()), (box.high - box.low) / 2

    def half_planes(self, box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
        """Return half-planes that all tops of a box obey whose centres lie in a patch."""
        return superellipse_half_planes(self._body, box, patch, edges, cap)

    def figures(self, box: Box, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops of a box."""
        return superellipse_figures(self.unit_area, box, likely)

    def at(self, box: Box, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        return superellipse_at(box, step)

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely the superellipse stands to each edge."""
        return superellipse_contacts(self._body, pose, edges)
