"""Ovals: turn and ratio outside, place and size inside.

Turn the wood back by the oval's turn, squeeze it along the oval's length and stretch it across by
the root of the ratio: areas stay, and every oval of that turn and ratio becomes a circle. So the
best of them is the largest circle in the mapped wood. The shape number p is ln(length / width).
"""

from __future__ import annotations

import math

import numpy as np

from ..wish import Wish
from .aims import Figures
from .boxes import Box
from .gauge import PowerBody, disk_factors
from .kind import Axes, Figure, Kind
from .oval_bound import oval_at, oval_figures, oval_half_planes, oval_held_rows
from .pose import Array, Contacts, Pose, segment_distances, turned
from .relaxed import Edges, HalfPlanes, Patch

_FIRST_SPAN = 1.0
"""Of the logarithm of the ratio, in the boxes that a search starts with."""


_ALONG = (-1.0, -0.5, 0.0, 0.5, 1.0)
"""Where along its axis a top is held against the depths of the wood."""


class OvalKind(Kind):
    """Ovals of any ratio; the radius is the root of half length times half width."""

    name = "oval"
    pace = 0.35
    _body = PowerBody(2.0)

    def axes(self, p: float) -> Axes:
        """Return how the half sizes grow: by the root of the ratio, and by one over it."""
        stretch = math.exp(p / 2)
        return Axes(0.0, stretch, 0.0, 1 / stretch)

    def shape_of(self, pose: Pose) -> float:
        """Return the logarithm of the ratio."""
        return max(0.0, math.log(pose.half_length / pose.half_width))

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return math.pi * half_length * half_width

    def distances(self, turn: float, p: float, edges: Array, centres: Array) -> Array:
        """Return the radii at which ovals about the centres touch the edges, (m, n)."""
        squeeze = squeeze_of(p)
        seen = turned(edges, turn) * squeeze
        return segment_distances(seen[:, 0], seen[:, 1], turned(centres, turn) * squeeze)

    def holding(self, turn: float, p: float, points: Array, centres: Array) -> Array:
        """Return the radii at which ovals about the centres hold all the points, (m,)."""
        squeeze = squeeze_of(p)
        seen, middles = turned(points, turn) * squeeze, turned(centres, turn) * squeeze
        away = seen[None] - middles[:, None]
        radii: Array = np.hypot(away[..., 0], away[..., 1]).max(axis=1)
        return radii

    def held_rows(self, box: Box, patch: Patch, points: Array) -> tuple[Array, Array]:
        """Return rows by which all tops of a box hold points, seen from the patch."""
        return oval_held_rows(box, patch, points)

    def disk_radii(self, p: float, ways: Array, radii: Array) -> Array:
        """Return at least the radii at which tops touch disks, (m, k)."""
        return disk_factors(self._body, squeeze_of(p), ways, radii)

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        long, wide = self.sizes(p, radius)
        spread = 1 - math.exp(-2 * p)
        ends = [(x * long * spread, wide * math.sqrt(1 - x * x * spread)) for x in _ALONG]
        return np.array([x for x, _ in ends]), np.array([r for _, r in ends])

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        far: Array = np.hypot(ways[:, 0] * math.exp(-p / 2), ways[:, 1] * math.exp(p / 2))
        return far

    def period(self, p: float) -> float:
        """Return the least turn that brings shape p onto itself; 0 where any turn does."""
        return 0.0 if p == 0 else math.pi

    def anchor(self, low: float, high: float) -> float:
        """Return the shape that stands for all between `low` and `high`."""
        return (low + high) / 2

    def growth(self, low: float, high: float, half_turn: float) -> tuple[float, float]:
        """Return factor and addend that make a radius for the whole box of that at the anchor.

        With u = cos²δ sinh²(κ/2) + sin²δ sinh²(p + κ/2), δ and κ the half sides of the box, an oval
        of the box holds the middle one scaled by exp(−asinh √u).
        """
        across, along = self._looseness(low, high, half_turn)
        return math.exp(math.asinh(math.sqrt(across + along))), 0.0

    def _looseness(self, low: float, high: float, half_turn: float) -> tuple[float, float]:
        kappa = (high - low) / 2
        return (
            (math.cos(half_turn) * math.sinh(kappa / 2)) ** 2,
            (math.sin(half_turn) * math.sinh((low + high) / 2 + kappa / 2)) ** 2,
        )

    def looseness(self, box: Box) -> tuple[float, float]:
        """Return how far, as angles, the spans of turns and of shapes let contacts wander."""
        across, along = self._looseness(box.low, box.high, box.half_turn)
        return 2 * math.sqrt(along), 2 * math.sqrt(across)

    def across(self, p: float, patch: Patch, radius: float) -> tuple[float, float]:
        """Return how far, as angles, the patch lets contacts wander, along and across."""
        return patch.along * math.exp(-p / 2) / radius, patch.across * math.exp(p / 2) / radius

    def shape_span(self, wish: Wish) -> tuple[float, float]:
        """Return the least and greatest ln(length / width) of a core within the limits."""
        limits, t = wish.limits, 2 * wish.lipping
        low = _ratio(limits.length.least - t, limits.width.greatest - t)
        high = _ratio(limits.length.greatest - t, limits.width.least - t)
        if t == 0:
            high = min(high, limits.ratio.greatest)
        least = max(low, limits.ratio.least, 1.0)
        return math.log(least), math.log(high) if math.isfinite(high) else math.inf

    def first_shapes(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return spans that together hold all shapes; the last may be endless."""
        if high - low <= _FIRST_SPAN:
            return [(low, high)]
        spans = [(low, low + _FIRST_SPAN), (low + _FIRST_SPAN, min(high, low + 2 * _FIRST_SPAN))]
        return [*spans, (spans[-1][1], high)] if high > spans[-1][1] else spans

    def half_planes(self, box: Box, patch: Patch, edges: Edges, cap: float) -> HalfPlanes:
        """Return half-planes that all tops of a box obey whose centres lie in a patch."""
        return oval_half_planes(box, patch, edges, cap)

    def figures(self, box: Box, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops of a box."""
        return oval_figures(box, cap, likely, lipping)

    def at(self, box: Box, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        return oval_at(box, step)

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely the oval stands to each edge.

        Seen in the frame where the oval is the unit circle, the nearest point of an edge lies at
        ρ; the way left to it is close to (ρ − 1) over the slope of ρ.
        """
        axes = np.array([pose.half_length, pose.half_width])
        local = turned(edges - np.array([pose.x, pose.y]), pose.turn)
        seen = local / axes
        way = seen[:, 1] - seen[:, 0]
        share = -np.einsum("ij,ij->i", seen[:, 0], way) / np.maximum(
            np.einsum("ij,ij->i", way, way), 1e-30
        )
        share = np.clip(share, 0.0, 1.0)[:, None]
        foot = seen[:, 0] + share * way
        rho = np.maximum(np.hypot(foot[:, 0], foot[:, 1]), 1e-9)
        unit = foot / rho[:, None]
        reach = unit / axes
        steep = np.hypot(reach[:, 0], reach[:, 1])
        q = foot * axes
        cos, sin = math.cos(pose.turn), math.sin(pose.turn)
        slopes = np.stack(
            [
                -(reach[:, 0] * cos - reach[:, 1] * sin),
                -(reach[:, 0] * sin + reach[:, 1] * cos),
                reach[:, 0] * q[:, 1] - reach[:, 1] * q[:, 0],
                -unit[:, 0] * foot[:, 0] / pose.half_length,
                -unit[:, 1] * foot[:, 1] / pose.half_width,
            ],
            axis=1,
        )
        places = edges[:, 0] + share * (edges[:, 1] - edges[:, 0])
        return Contacts(
            (rho - 1) / steep, slopes / steep[:, None], places, np.arange(len(edges), dtype=np.intp)
        )


def _ratio(length: float, width: float) -> float:
    if length <= 0 or math.isinf(width):
        return 0.0
    return math.inf if width <= 0 or math.isinf(length) else length / width


def squeeze_of(p: float) -> Array:
    """Return by what the plane is multiplied for ovals of shape p to become circles."""
    return np.array([math.exp(-p / 2), math.exp(p / 2)])
