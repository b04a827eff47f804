"""The capsules of a box by their spines.

A capsule is {c + τ s : |τ| <= 1} with a disk of radius r swept along it; s is the way from its
centre to one end of its spine. Seen in the frame of the box s = (s1, s2), and the unknowns are
s1 − (least s1), s2 and r. An end clear of a line is a half-plane exactly: n·(c ± s) + r <= n·point.

An edge, or a point, outside keeps r at most as far as it lies from c + τ s, whatever τ is. That
distance is convex in the place, so over the rectangle of all places that c + τ s can have it lies
under the plane that lies least above it in the four corners: again a half-plane.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array, Segments
from .aims import Figures
from .boxes import Box
from .lift import Lift
from .relaxation import Edges, Patch, Rows, nearest_all_round, planes_above

_CORNERS = np.array([[-1.0, -1.0], [-1.0, 1.0], [1.0, -1.0], [1.0, 1.0]])
"""Of a square about 0, 0."""


class CapsuleLift(Lift):
    """Capsules by s1 − (least s1), s2 and r."""

    area_of_end = math.pi
    """A top with no spine has so much area, for a radius of 1."""

    def __init__(self, box: Box, patch: Patch) -> None:
        super().__init__(box, patch)
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
        count, end = len(local.ends), np.array([self.middle, 0.0])
        lines = Segments.of(np.concatenate([local.ends - end, local.ends + end]))
        along = np.clip(0.0, lines.begin - lines.half, lines.begin + lines.half)
        feet = along[:, None] * lines.unit + lines.height[:, None] * lines.across
        chosen = nearest_all_round(feet, np.hypot(along, lines.height), places=2)
        corners = local.ends[:, 0]
        corners = corners[(np.abs(corners[:, 0]) < self.middle) & (corners[:, 1] != 0)]
        corners = corners[nearest_all_round(corners, np.abs(corners[:, 1]))]
        idle = np.zeros(len(corners))
        upright, level = np.broadcast_to(np.eye(2)[::-1, None], (2, len(corners), 2))
        parts = [figures[chosen] for figures in lines], (upright, level, corners[:, 1], idle, idle)
        bounds = np.append((local.outermost & (lines.half[:count] > 0))[chosen % count], idle > 0)
        tau = np.append(np.where(chosen < count, 1.0, -1.0), corners[:, 0] / (self.middle or 1.0))
        return self._rows(Segments(*map(np.concatenate, zip(*parts, strict=True))), bounds, tau)

    def _rows(self, lines: Segments, bounds: NDArray[np.bool_], tau: Array) -> Rows:
        """Return rows: the radius is at most how far places on the spine lie from edges.

        That is convex in the place, so it lies below the plane that lies least above it in the
        corners of where the place can be. Of edges that bound all the wood the lines count.
        """
        sides = np.array([self.patch.along, self.patch.across]) + np.abs(tau)[:, None] * np.array(
            [self.longer, self.aside]
        )
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
        return Figures(
            long_over=over + radius,
            long_under=spine + radius,
            wide_over=radius,
            wide_under=radius,
            root_area=(g + self.area_of_end / g) / 2 * thick + 2 / g * over,
            unit_area=1.0,
        )

    def pose(self, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""
        box = self.box
        along, aside = float(step[2]) + self.least, float(step[3])
        lean = math.atan2(aside, along) if along > 0 else 0.0
        return self.turned(lean), min(max(math.hypot(along, aside), box.low), box.high)

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
        box, patch, least = self.box, self.patch, self.least
        rows, limits = [], []
        for sign in (1.0, -1.0):
            way = seen - np.array([sign * self.middle, 0.0])
            far = np.hypot(way[:, 0], way[:, 1])
            n = np.where(far[:, None] > 0, way / np.maximum(far, 1e-12)[:, None], [[sign, 0.0]])
            along = sign * n[:, 0]
            worst = np.minimum(along * least, along * box.high) - np.abs(n[:, 1]) * self.aside
            slack = 2 * np.maximum(-worst, 0.0)
            rows.append(np.column_stack([-n, -sign * n, -self.ends(n)]))
            limits.append(slack - (n * seen).sum(axis=1) + along * least)
        sine, loss = math.sin(box.half_turn), 1 - math.cos(box.half_turn)
        length, span = (box.low + box.high) / 2, (box.high - box.low) / 2
        k = seen[:, 0] / length if length > 0 else np.zeros(len(seen))
        up = np.where(seen[:, 1] >= 0, 1.0, -1.0)
        zero = np.zeros(len(seen))
        rows.append(np.column_stack([zero, -up, zero, -up * k, zero - 1.0]))
        loose = loss * (np.abs(seen[:, 1]) + patch.across)
        loose += sine * (np.abs(seen[:, 0] - k * length) + patch.along + np.abs(k) * span)
        limits.append(loose - np.abs(seen[:, 1]))
        return Rows(np.vstack(rows), np.concatenate(limits))
