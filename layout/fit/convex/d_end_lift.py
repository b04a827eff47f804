"""Half-planes of D ends: those of the capsules in them, of their corners and the square end."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

import numpy as np

from ..wood.edges import Array
from .capsule_lift import CapsuleLift
from .relaxation import Edges, Rows, nearest_all_round, planes_above
from .sight import outward

_CORNERS = np.array(list(product((-1.0, 1.0), repeat=3)))
"""Of a cube about 0."""


class DEndLift(CapsuleLift):
    """D ends by the unknowns of the capsules in them, and r sin φ."""

    area_of_end = 2 + math.pi / 2

    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return that of the capsules, and what r sin φ is by p sin φ.

        With p and r within Δp and Δr of their middles, p r sin φ is within (r Δp + p Δr) sin δ of
        the one sine times the middle of the other, both ways.
        """
        within, low, high = super().span(cap)
        box, sine = self.box, math.sin(min(self.box.half_turn, math.pi / 2))
        least = min(box.least, cap)
        p, r = (box.low + box.high) / 2, (least + cap) / 2
        loose = sine * (cap * (box.high - box.low) / 2 + box.high * (cap - least) / 2)
        aside = np.array([[0.0, 0.0, 0.0, r, 0.0, -p]]) / max(r, p)
        both = Rows(np.vstack([aside, -aside]), np.full(2, loose / max(r, p)))
        return Rows.joined(within, both), np.append(low, -cap * sine), np.append(high, cap * sine)

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return the rows of the capsules, and of the box behind the middle of the square end."""
        on_hull, n = local.ends[local.outermost], outward(local.ends[local.outermost])
        behind = self._behind(local.ends[:, 0] + np.array([self.middle, 0.0]), cap)
        return Rows.joined(super().contacts(local, cap), *self._corners(on_hull, n), behind)

    def _corners(self, ends: Array, n: Array) -> Iterator[Rows]:
        """Yield rows that keep each corner of the square end within lines.

        It lies at −s + r cos φ (−1, ±1) + r sin φ (∓1, −1); r cos φ is r, or r cos δ.
        """
        for side in (-1.0, 1.0):
            ahead = side * n[:, 1] - n[:, 0]
            ahead *= np.where(ahead > 0, math.cos(self.box.half_turn), 1.0)
            row = np.column_stack([n, -n, ahead, -side * n[:, 0] - n[:, 1]])
            yield Rows(row, np.einsum("ij,ij->i", n, ends[:, 0]) + n[:, 0] * self.least)

    def _behind(self, feet: Array, cap: float) -> Rows:
        """Return rows that keep points, seen from the middle of the square end, off the box there.

        Turned by φ = asin t the radius to one at x, y is at most max(±(y − x t), −x − y t), but for
        small shares of a small angle, and that is convex in the place and t; as t serves r sin φ
        over the middle r.
        """
        sine, loss = math.sin(self.box.half_turn), 1 - math.cos(self.box.half_turn)
        along, across = self.patch.along + self.longer, self.patch.across + self.aside
        x, y = feet.T
        abreast = x + along + loss * (np.abs(x) + along) + (np.abs(y) + across) * sine
        feet = feet[(abreast <= 2 * self.box.low) & feet.any(axis=1)]
        feet = feet[nearest_all_round(feet, np.maximum(np.abs(feet[:, 1]), -feet[:, 0]))]
        sides = np.array([along, across, sine])
        (x, y), at = feet.T[..., None], _CORNERS * sides
        figures = np.maximum(np.abs(y - at[:, 1] - x * at[:, 2]), at[:, 0] - x - y * at[:, 2])
        slopes, level = planes_above(figures, _CORNERS)
        least, wide = min(self.box.least, cap), max(along, across)
        level += wide * sine + loss * (np.abs(feet).max(axis=1) + wide)
        level += np.abs(slopes[:, 2]) * (cap - least) / (cap + least)
        ahead, aside, turn = slopes.T / np.maximum(sides, 1e-12)[:, None]
        level += ahead * (self.middle - self.least)
        turn *= -2 / (cap + least)
        rows = np.column_stack([-ahead, -aside, ahead, aside, np.ones(len(feet)), turn])
        return Rows(rows, level)

    def ends(self, n: Array) -> Array:
        """Return that of the round end, or of the corners behind: |cos ψ| + |sin ψ|."""
        angle, turn = np.arctan2(np.abs(n[:, 1]), n[:, 0]), self.box.half_turn
        corner = 0.75 * math.pi
        off = np.abs(np.clip(corner, angle - turn, angle + turn) - corner)
        return np.where(angle + turn <= math.pi / 2, 1.0, math.sqrt(2) * np.cos(off))
