"""Ovals: turn and ratio outside, place and size inside.

Turn the wood back by the oval's turn, squeeze it along the oval's length and stretch it across by
the root of the ratio: areas stay, and every oval of that turn and ratio becomes a circle. So the
best of them is the largest circle in the mapped wood. The shape number p is ln(length / width).

The ovals of a box are symmetric matrices: one is {c + B s : |s| <= 1}, in the frame of the box
B = (b1, b3; b3, b2). It lies on its side of a line with normal n when n·(point − c) >= |B n|, and
|B n| is at least û·B n for any unit vector û: a half-plane in c and B, sharp where û points along
B n in the middle of the box.

A point P outside is taken with the normal n that parts the two in the middle of the box. Seen from
another top of the box, as a unit ball of M (of an oval B, but for a turn), P lies at z = M⁻¹(P − c)
and the normal is u = Mᵀn. With ψ = u·z / (‖u‖ ‖z‖), the one norm dual to the other,

    n·(P − c) = u·z >= ψ ‖u‖.

ψ is 1 where u is the normal of the ball towards z. For a given z it falls as u turns away to either
side, and the same for a given u, so that over spans of both it is least where both are at an end.
"""

from __future__ import annotations

import math

import numpy as np

from ..goal import Figure
from ..wood.edges import Array
from .boxes import Pose
from .gauge import PowerBody
from .kind import Axes, Growth, Kind
from .lift import BodyLift, Figures, Rows
from .sight import angle_of, directions, near_angle

_WIDE = 1.2
"""Angle, radians, by which a contact may wander before its half-plane says next to nothing."""


class OvalLift(BodyLift):
    """Ovals by b1, b2 and b3."""

    kind: OvalKind
    body: PowerBody

    def line_rows(self, normal: Array, points: Array) -> Rows:
        """Return rows that keep tops within lines, by the place that touches in the middle."""
        touching = self.body.touch(normal / self.squeeze).places
        return Rows(self.reaching(normal, touching), (normal * points).sum(axis=1))

    def point_rows(self, places: Array, cap: float) -> Rows:
        """Return rows that keep tops clear of points."""
        unit, normal = self._towards(places)
        feet = places / self.squeeze
        share = self.parting(feet, normal)
        use = share > 0
        rows = self.reaching(normal[use], unit[use] * share[use, None])
        return Rows(rows, (normal[use] * feet[use]).sum(axis=1))

    def held(self, seen: Array) -> Rows:
        """Return rows by which the tops hold points.

        A top reaches as far along a normal as the place of the ball that lies farthest, so at most
        as any place does over its least share.
        """
        seen = seen[seen.any(axis=1)]
        unit, normal = self._towards(seen * self.squeeze)
        share = self.holding(unit, normal)
        use = share > math.cos(_WIDE)
        rows = self.reaching(normal[use], unit[use] / share[use, None])
        return Rows(-rows, -(normal[use] * seen[use]).sum(axis=1))

    def _towards(self, places: Array) -> tuple[Array, Array]:
        """Return the place of the ball towards each place that it sees, and unit normals there."""
        unit = places / self.body.gauge(places)[:, None]
        normal = self.body.normals(unit) * self.squeeze
        normal /= np.hypot(normal[:, 0], normal[:, 1])[:, None]
        return unit, normal

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

    def parting(self, feet: Array, normal: Array) -> Array:
        """Return the least ψ for each point and its normal; 0 where none is known.

        u·z is cos(α − β), α and β being the directions of n and P − c, whatever the top, and u × z
        is cosh p sin(α − β) − sinh p sin(α + β − 2φ).
        """
        *seen, known = directions(self.patch, feet)
        alpha, box, beta = angle_of(normal), self.box, np.array(seen)
        off = np.abs(np.remainder(alpha + beta + math.pi / 2, math.tau) - math.pi)
        swing = np.array([[[-2.0]], [[2.0]]]) * box.half_turn
        sines, p = np.cos(np.clip(off + swing, 0.0, math.pi)), np.array([box.low, box.high])
        p, ahead = p[:, None, None, None], np.cos(alpha - beta)
        cross = np.abs(np.cosh(p) * np.sin(alpha - beta) - np.sinh(p) * sines).max(axis=(0, 1))
        psi: Array = np.where(known & (ahead > 0), ahead / np.hypot(ahead, cross), 0.0).min(axis=0)
        return psi

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area.

        b1 = l cos² + w sin² of the turn from the box's middle, and b2 the other way round. The area
        is π det(B + t): never more than π (tr(M (B + t)) / 2)² for any positive M of determinant 1.
        """
        cos2, sin2 = math.cos(self.box.half_turn) ** 2, math.sin(self.box.half_turn) ** 2
        long, wide, _, one = np.eye(4)
        thin = wide - cap * math.exp(self.box.high / 2) * sin2 * one
        g = math.sqrt((likely[1] + lipping) / (likely[0] + lipping))
        root = (g * (long + lipping * one) + (wide + lipping * one) / g) / 2
        root *= math.sqrt(self.kind.unit_area)
        return Figures(np.stack([long / cos2, wide]), np.stack([long, thin]), root)

    def pose(self, step: Array) -> tuple[float, float]:
        """Return how far a solution of the half-planes leans off the box's turn, and its shape."""
        b1, b2, b3 = (float(v) for v in step[2:])
        spread, total = math.hypot(2 * b3, b1 - b2), b1 + b2
        if total <= spread:
            return 0.0, self.p
        p = math.log((total + spread) / (total - spread))
        return math.atan2(2 * b3, b1 - b2) / 2, p

    def holding(self, unit: Array, normal: Array) -> Array:
        """Return cos ψ, ψ bounding how far B n wanders from where it points in the middle.

        At turn φ and shape p it points to φ + atan(exp(−p) tan(α − φ)), α the direction of n. That
        turns one way with p, and back again with φ where tan²(α − φ) = exp p.
        """
        alpha, middle, delta = angle_of(normal), angle_of(unit), self.box.half_turn
        ends, wander = np.full(len(alpha), delta), np.zeros(len(alpha))
        for p in (self.box.low, self.box.high):
            steep = alpha + np.array([[-1.0], [1.0]]) * math.atan(math.exp(p / 2))
            back = np.remainder(steep + math.pi / 2, math.pi) - math.pi / 2
            for turn in (-ends, ends, *np.clip(back, -delta, delta)):
                lean = np.arctan2(math.exp(-p) * np.sin(alpha - turn), np.cos(alpha - turn))
                wander = np.maximum(wander, np.abs(near_angle(turn + lean, middle) - middle))
        return np.cos(np.minimum(wander, math.pi / 2))

    def reaching(self, normal: Array, unit: Array) -> Array:
        """Return n·(way of the centre) + û·B n as rows."""
        skew = unit[:, 0] * normal[:, 1] + unit[:, 1] * normal[:, 0]
        return np.column_stack([normal, unit * normal, skew])


class OvalKind(Kind):
    """Ovals of any ratio; the radius is the root of half length times half width."""

    name = "oval"
    pace = 0.35
    body: PowerBody = PowerBody(2.0)
    lifted: type[OvalLift] = OvalLift
    leans: tuple[float, ...] = (0.0,)
    unit_area = math.pi
    """Of one 2 long and 2 wide."""

    def axes(self, p: float) -> Axes:
        """Return how the half sizes grow: by the root of the ratio, and by one over it."""
        stretch = math.exp(p / 2)
        return Axes(0.0, stretch, 0.0, 1 / stretch)

    def shape_of(self, pose: Pose) -> float:
        """Return the logarithm of the ratio."""
        return max(0.0, math.log(pose.half_length / pose.half_width))

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return self.unit_area * half_length * half_width

    def squeeze(self, p: float) -> Array:
        """Return by what the plane is multiplied for ovals of shape p to become circles."""
        return np.array([math.exp(-p / 2), math.exp(p / 2)])

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes and so far turned.

        A top of the box holds the middle one divided by what the map between them stretches. For
        ovals that is exp(asinh √u), u = cos²δ sinh²(κ/2) + sin²δ sinh²(p + κ/2), δ and κ being half
        the spans of turns and of shapes. For balls of the n-norm it is at most that and the
        greatest sum of a row, raised to the powers 2/n and 1 − 2/n (Riesz and Thorin).
        """
        p, kappa, share = (low + high) / 2, (high - low) / 2, 2 / self.body.exponent
        u = (math.cos(half_turn) * math.sinh(kappa / 2)) ** 2
        u += (math.sin(half_turn) * math.sinh(p + kappa / 2)) ** 2
        sine = math.sin(min(half_turn, math.pi / 2))
        row = math.exp(kappa / 2) + math.exp(p + kappa / 2) * sine
        return Growth(p, math.exp(math.asinh(math.sqrt(u)) * share) * row ** (1 - share), 0.0)
