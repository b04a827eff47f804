"""The ovals of a box as symmetric matrices.

An oval is {c + B s : |s| <= 1} with B symmetric; in the frame of the box B = (b1, b3; b3, b2). It
lies on its side of a line with normal n when n·(point − c) >= |B n|, and |B n| is at least û·B n
for any unit vector û: a half-plane in c and B, sharp where û points along B n.

A point outside the oval is taken with the normal n that parts the two in the middle of the box. For
another oval of the box that normal is off by an angle ψ, seen where the oval is a circle, so
n·(point − c) >= cos ψ |B n| still holds. With e the direction of the point there, β the tangent of
the angle by which it wanders as the centre moves, and N the map from the middle oval's circle to
the other's,

    tan ψ <= |e·NᵀN e⊥| + β |N e⊥|².
"""

from __future__ import annotations

import math

import numpy as np

from ..wood.edges import Array
from .aims import Figures
from .boxes import Box
from .gauge import PowerBody
from .relaxation import Patch, Rows, wandering
from .sight import angle_of
from .squeezed_lift import SqueezedLift


def most_stretch(low: float, high: float, half_turn: float) -> float:
    """Return the most by which the map between the circles of two ovals lengthens anything.

    Of the middle of two shapes and of any between, turned by `half_turn` at most: exp(asinh √u),
    u = cos²δ sinh²(κ/2) + sin²δ sinh²(p + κ/2), δ and κ the half spans.
    """
    p, kappa = (low + high) / 2, (high - low) / 2
    u = (math.cos(half_turn) * math.sinh(kappa / 2)) ** 2
    u += (math.sin(half_turn) * math.sinh(p + kappa / 2)) ** 2
    return math.exp(math.asinh(math.sqrt(u)))


class OvalLift(SqueezedLift):
    """Ovals by b1, b2 and b3."""

    def __init__(self, box: Box, patch: Patch) -> None:
        super().__init__(PowerBody(2.0), box, patch)
        self.sides = np.array([patch.along, patch.across]) * self.squeeze
        self.stretch = most_stretch(box.low, box.high, box.half_turn)

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return rows, with limit 0, that keep B within the turns and ratios, and its bounds."""
        box = self.box
        cos2, sin2 = math.cos(box.half_turn) ** 2, math.sin(box.half_turn) ** 2
        low, high = math.exp(box.low), math.exp(box.high)
        least = (low * cos2 + sin2) / (low * sin2 + cos2)
        rows = [[0.0, 0.0, 1.0, -high, 0.0], [0.0, 0.0, -1.0, least, 0.0]]
        if box.half_turn < math.pi / 4:
            lean = math.tan(2 * box.half_turn) / 2
            rows += [[0.0, 0.0, -lean, lean, 1.0], [0.0, 0.0, -lean, lean, -1.0]]
        long = cap * math.exp(box.high / 2)
        sine = math.sin(min(box.half_turn, math.pi / 2))
        wide = min(cap * math.exp(-box.low / 2) + long * sine * sine, long)
        skew = 0.5 * long * math.sin(min(2 * box.half_turn, math.pi / 2))
        within = Rows(np.array(rows), np.zeros(len(rows)))
        return within, np.array([0.0, 0.0, -skew]), np.array([long, wide, skew])

    def parting(self, way: Array, feet: Array, normal: Array) -> Array:
        """Return cos ψ for each point; 0 where it is not known."""
        distance = np.hypot(way[:, 0], way[:, 1])
        e, box, p = way / distance[:, None], self.box, self.p
        ahead = distance - wandering(e, *self.sides)
        beside = wandering(np.stack([-e[:, 1], e[:, 0]], axis=1), *self.sides)
        kappa, delta = (box.high - box.low) / 2, box.half_turn
        sin, cos = math.sin(delta), math.cos(min(delta, math.pi / 4))
        stretched = 2 * math.sinh(kappa) + 2 * sin * sin * math.sinh(2 * p + kappa)
        sheared = 2 * min(sin, math.sqrt(0.5)) * cos * math.sinh(p + kappa)
        skew = np.abs(e[:, 0] * e[:, 1]) * stretched + np.abs(e[:, 0] ** 2 - e[:, 1] ** 2) * sheared
        known = ahead > 0
        tangent = skew + beside / np.where(known, ahead, 1.0) * self.stretch**2
        return np.where(known, 1 / np.sqrt(1 + tangent * tangent), 0.0)

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area.

        b1 = l cos² + w sin² of the turn from the box's middle, and b2 the other way round. The area
        is π det(B + t): never more than π (tr(M (B + t)) / 2)² for any positive M of determinant 1.
        """
        cos2, sin2 = math.cos(self.box.half_turn) ** 2, math.sin(self.box.half_turn) ** 2
        long, wide, _, one = np.eye(4)
        longest = cap * math.exp(self.box.high / 2)
        g = math.sqrt((likely[1] + lipping) / (likely[0] + lipping))
        return Figures(
            long_over=long / cos2,
            long_under=long,
            wide_over=wide,
            wide_under=wide - longest * sin2 * one,
            root_area=(g * (long + lipping * one) + (wide + lipping * one) / g) / 2,
            unit_area=math.pi,
        )

    def pose(self, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        box = self.box
        b1, b2, b3 = (float(v) for v in step[2:])
        lean, spread = math.atan2(2 * b3, b1 - b2) / 2, math.hypot(2 * b3, b1 - b2)
        total = b1 + b2
        if total <= spread:
            return box.turn, self.p
        p = math.log((total + spread) / (total - spread))
        return self.turned(lean), min(max(p, box.low), box.high)

    def holding(self, unit: Array, normal: Array) -> Array:
        """Return cos ψ, ψ bounding how far B n wanders from where it points in the middle.

        At turn φ and shape p it points to φ + atan(exp(−p) tan(α − φ)), α the direction of n.
        """
        return np.cos(np.minimum(self._wander(angle_of(normal)), math.pi / 2))

    def _wander(self, alpha: Array) -> Array:
        """Return how far, as an angle, B n can point from where it does in the middle."""
        box, delta = self.box, self.box.half_turn

        def lean(shape: float) -> Array:
            return np.arctan2(math.exp(-shape) * np.sin(alpha), np.cos(alpha))

        by_shape = np.maximum(
            *(np.abs(lean(shape) - lean(self.p)) for shape in (box.low, box.high))
        )
        off = np.abs(np.remainder(alpha + math.pi / 2, math.pi) - math.pi / 2)
        least = np.cos(np.minimum(off + delta, math.pi / 2)) ** 2
        most = np.cos(np.maximum(off - delta, 0.0)) ** 2
        thin, thick = math.exp(-box.high), math.exp(-box.low)
        peak = np.clip(np.sqrt(least / np.maximum(1 - least, 1e-300)), thin, thick)
        fastest = peak / (least + peak**2 * (1 - least))
        slowest = np.minimum(*(k / (most + k**2 * (1 - most)) for k in (thin, thick)))
        turning: Array = delta * np.maximum(np.abs(1 - fastest), np.abs(1 - slowest))
        return by_shape + turning

    def reaching(self, normal: Array, unit: Array) -> Array:
        """Return n·(way of the centre) + û·B n as rows."""
        skew = unit[:, 0] * normal[:, 1] + unit[:, 1] * normal[:, 0]
        return np.column_stack([normal, unit * normal, skew])
