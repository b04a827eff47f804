"""Capsules: turn and straight outside, place and radius inside.

A capsule is a segment, its spine, with a disk swept along it. For a given turn and spine the
largest one about a centre is as thick as the spine is far from the nearest edge. The shape number
p is half the length of the spine, mm.

Seen in the frame of a box a capsule is {c + τ s : |τ| <= 1} with a disk of radius r swept along it;
s = (s1, s2) is the way from its centre to one end of its spine, and the unknowns are
s1 − (least s1), s2 and r. An end clear of a line is a half-plane exactly: n·(c ± s) + r <= n·point.
An edge, or a point, outside keeps r at most as far as it lies from c + τ s, whatever τ is. That
distance is convex in the place, so over the rectangle of all places that c + τ s can have it lies
under the plane that lies least above it in the four corners: again a half-plane.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..goal import Figure
from ..wood.edges import Array, Segments, turned
from .boxes import Box, Patch, Pose
from .gauge import Met, PowerBody
from .kind import Axes, Growth, Kind
from .lift import Edges, Figures, Lift, Rows
from .sight import nearest_all_round, planes_above

_CORNERS = np.array([[-1.0, -1.0], [-1.0, 1.0], [1.0, -1.0], [1.0, 1.0]])
"""Of a square about 0, 0."""


class CapsuleLift(Lift):
    """Capsules by s1 − (least s1), s2 and r."""

    area_of_end = math.pi
    """A top with no spine has so much area, for a radius of 1."""

    def __init__(self, kind: Kind, box: Box, patch: Patch) -> None:
        super().__init__(kind, box, patch)
        self.least = box.low * math.cos(box.half_turn)
        """The least s1, mm."""
        self.middle = (self.least + box.high) / 2
        self.longer = (box.high - self.least) / 2
        self.aside = box.high * math.sin(box.half_turn)
        """The middle of s1, and how far s1 and s2 wander from it and from 0, mm."""

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return what keeps the spine within the turns, and the bounds of spine and radius."""
        lean = math.tan(self.box.half_turn)
        rows = np.array([[0.0, 0.0, -lean, 1.0, 0.0], [0.0, 0.0, -lean, -1.0, 0.0]])
        low = np.array([0.0, -self.aside, 0.0])
        high = np.array([self.box.high - self.least, self.aside, cap])
        return Rows(rows, np.full(2, lean * self.least)), low, high

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows for both ends of the spine, and for corners beside what lies between."""
        count, end, corners = len(local.lines), np.array([self.middle, 0.0]), local.starts
        corners = corners[(np.abs(corners[:, 0]) < self.middle) & (corners[:, 1] != 0)]
        corners = corners[nearest_all_round(corners, np.abs(corners[:, 1]))]
        beside = np.repeat((corners * [0.0, 1.0])[:, None], 2, axis=1)
        lines = Segments.of(np.concatenate([local.lines - end, local.lines + end, beside]))
        tau = np.append(np.repeat([1.0, -1.0], count), corners[:, 0] / (self.middle or 1.0))
        bounds = np.resize(local.outermost, len(tau)) & (lines.half > 0)
        along = np.clip(0.0, lines.begin - lines.half, lines.begin + lines.half)
        feet = along[:, None] * lines.unit + lines.height[:, None] * lines.across
        far, ends = np.hypot(along, lines.height), slice(0, 2 * count)
        chosen = nearest_all_round(feet[ends], far[ends], places=2)
        chosen = np.append(chosen, np.arange(2 * count, len(tau)))
        lines = Segments(*(figures[chosen] for figures in lines))
        return self._rows(lines, bounds[chosen], tau[chosen])

    def _rows(self, lines: Segments, bounds: NDArray[np.bool_], tau: Array) -> Rows:
        """Return rows: the radius is at most how far places on the spine lie from edges.

        That is convex in the place, so it lies below the plane that lies least above it in the
        corners of where the place can be. Of edges that bound all the wood the lines count.
        """
        sides = self.patch.sides + np.abs(tau)[:, None] * np.array([self.longer, self.aside])
        corners = sides[:, None] * _CORNERS
        away = np.einsum("nij,nj->ni", corners, lines.across) - lines.height[:, None]
        along = np.einsum("nij,nj->ni", corners, lines.unit) - lines.begin[:, None]
        beyond = np.maximum(np.abs(along) - lines.half[:, None], 0.0)
        far = np.where(bounds[:, None], away, np.hypot(away, beyond))
        slopes, level = planes_above(far, _CORNERS)
        normal = -slopes / np.maximum(sides, 1e-9)
        rows = np.column_stack([normal, tau[:, None] * normal, np.ones(len(tau))])
        return Rows(rows, level + tau * normal[:, 0] * (self.middle - self.least))

    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return figures for the half sizes and the area.

        The spine's half length p lies between s1 and s1 / cos δ. The area is ρ (π ρ + 4 p) with the
        finished radius ρ: a product, so never more than the square of half
        (g ρ + (π ρ + 4 p) / g).
        """
        spine, _, radius, one = np.eye(4)
        spine += self.least * one
        over, thick = spine / math.cos(self.box.half_turn), radius + lipping * one
        round_end = max(likely[1] + lipping, 1e-9)
        g = math.sqrt(self.area_of_end + 4 * (likely[0] - likely[1]) / round_end)
        root = (g + self.area_of_end / g) / 2 * thick + 2 / g * over
        return Figures(np.stack([over + radius, radius]), np.stack([spine + radius, radius]), root)

    def pose(self, step: Array) -> tuple[float, float]:
        """Return how far a solution of the half-planes leans off the box's turn, and its shape."""
        along, aside = float(step[2]) + self.least, float(step[3])
        return math.atan2(aside, along) if along > 0 else 0.0, math.hypot(along, aside)

    def ends(self, n: Array) -> Array:
        """Return how many radii, at most, an end reaches along normals, (k, 2), from its centre."""
        return np.ones(len(n))

    def held(self, seen: Array) -> Rows:
        """Return rows by which the capsules hold points.

        A capsule, spine ±s and radius r, reaches r + |n·s|. Where the sign of n·s is known that is
        linear; where it may change, twice its other part is added. Beside the spine the distance to
        its line is taken: with sin φ = s2 / p, ``(Y − c2) cos φ <= r + (X − c1) s2 / p``, where the
        quotient differs little from its middle one.
        """
        box, (reach, rise), parts = self.box, self.patch.sides, []
        for sign in (1.0, -1.0):
            way = seen - np.array([sign * self.middle, 0.0])
            far = np.hypot(way[:, 0], way[:, 1])
            n = np.where(far[:, None] > 0, way / np.maximum(far, 1e-12)[:, None], [[sign, 0.0]])
            along = sign * n[:, 0]
            worst = np.minimum(along * self.least, along * box.high) - np.abs(n[:, 1]) * self.aside
            slack = 2 * np.maximum(-worst, 0.0)
            rows = np.column_stack([-n, -sign * n, -self.ends(n)])
            parts.append(Rows(rows, slack - (n * seen).sum(axis=1) + along * self.least))
        sine, loss = math.sin(box.half_turn), 1 - math.cos(box.half_turn)
        length, span, zero = box.middle, (box.high - box.low) / 2, np.zeros(len(seen))
        k = seen[:, 0] / length if length > 0 else zero
        up = np.where(seen[:, 1] >= 0, 1.0, -1.0)
        loose = loss * (np.abs(seen[:, 1]) + rise)
        loose += sine * (np.abs(seen[:, 0] - k * length) + reach + np.abs(k) * span)
        rows = np.column_stack([zero, -up, zero, -up * k, zero - 1.0])
        return Rows.joined(*parts, Rows(rows, loose - np.abs(seen[:, 1])))


class CapsuleKind(Kind):
    """Capsules of any straight; the radius is that of their ends."""

    name = "capsule"
    pace = 0.5
    body = PowerBody(2.0)
    lifted: type[CapsuleLift] = CapsuleLift

    def axes(self, p: float) -> Axes:
        """Return how the half sizes grow: both as the radius does, from the spine's."""
        return Axes(p, 1.0, 0.0, 1.0)

    def shape_of(self, pose: Pose) -> float:
        """Return half the straight, mm."""
        return max(0.0, pose.half_length - pose.half_width)

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return math.pi * half_width**2 + 4 * half_width * (half_length - half_width)

    def met(self, turn: float, p: float, edges: Array) -> Met:
        """Return what tells how far spines of one turn lie from the edges, mm.

        Either an end of the spine is nearest to an edge, or an end of the edge to the spine. They
        cross where either has the other's ends on both its sides: until one of these four ends has
        come to the other line they go on crossing, and the least of its ways counts as negative.
        """
        lines, frame = Segments.of(edges), turned(np.eye(2), turn)
        if p == 0:
            return lines.distances
        arm, both = p * frame[:, 0], np.array([[[1.0]], [[-1.0]]])
        across, along = lines.across @ arm, lines.unit @ arm
        (start_x, start_y), (end_x, end_y) = (edges @ frame).transpose(1, 2, 0)

        def distances(centres: Array) -> Array:
            x, y = turned(centres, turn).T[..., None]
            off, middle = lines.seen(centres)
            beyond = np.maximum(np.abs(middle + both * along) - lines.half, 0.0)
            least: Array = np.minimum(*(beyond * beyond + (off + both * across) ** 2))
            far, rise = np.maximum(np.abs(start_x - x) - p, 0.0), start_y - y
            np.sqrt(np.minimum(least, far * far + rise * rise), out=least)
            rise *= end_y - y
            which, edge = np.nonzero((rise < 0) & (np.abs(off) < np.abs(across)))
            if len(edge):
                beside = np.maximum(np.abs(end_x[edge] - x[which, 0]) - p, 0.0)
                far_end = np.hypot(beside, end_y[edge] - y[which, 0])
                least[which, edge] = -np.minimum(least[which, edge], far_end)
            return least

        return distances

    def needed(self, p: float, ways: Array) -> Array:
        """Return how far from the spine the ends of the ways lie, (…) mm."""
        far: Array = np.hypot(np.maximum(np.abs(ways[..., 0]) - p, 0.0), ways[..., 1])
        return far

    def slopes(self, p: float, ways: Array) -> Array:
        """Return unit ways from the spine to the ends of ways, (k, 2); none to what lies in it."""
        away = ways - np.clip(ways, [-p, 0.0], [p, 0.0])
        unit: Array = away / np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-9)[:, None]
        return unit

    def disk_radii(self, p: float, x: Array, y: Array, radii: Array) -> Array:
        """Return the radii at which tops touch disks, (m, k)."""
        far = np.maximum(np.abs(x) - p, 0.0)
        return np.maximum(np.sqrt(far * far + y * y) - radii, 0.0)

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes, of which the shortest is held.

        The ends of the shortest spine move by at most 2 p sin(δ/2) in a turn by δ.
        """
        return Growth(low, 1.0, 2 * low * math.sin(half_turn / 2), high - low)

    def touch(self, p: float, radius: float, normals: Array, leaning: Array) -> Array:
        """Return where ends reach farthest along unit normals: those that leaning ones meet."""
        return radius * normals + p * np.sign(leaning * [1.0, 0.0])
