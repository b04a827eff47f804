"""D ends: a half disk before a box, so a capsule whose one end is filled out to its corners.

The radius is that of the round end, and the shape number half the straight of that capsule: so the
middle of the box lies half way along, and the corners at −p − r, ±r. Its half-planes are those of
the capsules in it, of its corners and of the square end.
"""

from __future__ import annotations

import math
from itertools import product

import numpy as np

from ..goal import Figure
from ..wood.edges import Array, turned
from .capsule import CapsuleKind, CapsuleLift
from .gauge import Met
from .kind import Growth
from .lift import Edges, Rows
from .sight import cross_within, nearest_all_round, outward, planes_above

_ROOT = math.sqrt(2)

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
        box, sine = self.box, math.sin(min(self.box.half_turn, math.pi / 4))
        least = min(box.least, cap)
        p, r = box.middle, (least + cap) / 2
        loose = sine * (cap * (box.high - box.low) / 2 + box.high * (cap - least) / 2)
        aside = np.array([[0.0, 0.0, 0.0, r, 0.0, -p]]) / max(r, p)
        both = Rows(np.vstack([aside, -aside]), np.full(2, loose / max(r, p)))
        return Rows.joined(within, both), np.append(low, -cap * sine), np.append(high, cap * sine)

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return the rows of the capsules, and of the box behind the middle of the square end."""
        behind = self._behind(local.starts + np.array([self.middle, 0.0]), cap)
        rows = [self._corners(local, side, cap) for side in (-1.0, 1.0)]
        return Rows.joined(super().contacts(local, cap), *rows, behind)

    def _corners(self, local: Edges, side: float, cap: float) -> Rows:
        """Return rows that keep a corner of the square end within the lines of edges.

        It lies at −s + r cos φ (−1, ±1) + r sin φ (∓1, −1); r cos φ is r, or r cos δ. The line of
        an edge that is not outermost counts where no way to the corner from the middle of the
        square end leads past an end of it.
        """
        cosine, sine = math.cos(self.box.half_turn), math.sin(min(self.box.half_turn, math.pi / 2))
        along, across = self.patch.sides[0] + self.longer, self.patch.sides[1] + self.aside
        behind = _CORNERS[::2, :2] * [along, across] - [self.middle, 0.0]
        least, most = min(self.box.least, cap) * cosine - cap * sine, cap * (1 + sine)
        far = np.array(list(product((-most, -least), (least, most))))
        corners = (behind + far) * [1.0, side]
        counts = local.outermost | cross_within(local.lines, behind, corners)
        lines = local.lines[counts]
        n = outward(lines)
        ahead = side * n[:, 1] - n[:, 0]
        ahead *= np.where(ahead > 0, cosine, 1.0)
        rows = np.column_stack([n, -n, ahead, -side * n[:, 0] - n[:, 1]])
        return Rows(rows, (n * lines[:, 0]).sum(axis=1) + n[:, 0] * self.least)

    def _behind(self, feet: Array, cap: float) -> Rows:
        """Return rows that keep points, seen from the middle of the square end, off the box there.

        Turned by φ = asin t the radius to one at x, y is at most max(±(y − x t), −x − y t), but for
        small shares of a small angle, and that is convex in the place and t; as t serves r sin φ
        over the middle r.
        """
        sine, loss = math.sin(self.box.half_turn), 1 - math.cos(self.box.half_turn)
        along, across = self.patch.sides[0] + self.longer, self.patch.sides[1] + self.aside
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
        return np.where(angle + turn <= math.pi / 2, 1.0, _ROOT * np.cos(off))


class DEndKind(CapsuleKind):
    """D ends of any straight."""

    name = "D end"
    pace = 0.8
    lifted = DEndLift
    periods = (math.tau, math.tau)

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return math.pi / 2 * half_width**2 + 2 * half_width * (2 * half_length - half_width)

    def met(self, turn: float, p: float, edges: Array) -> Met:
        """Return what tells at what radii tops of one turn and straight meet edges.

        Those of the capsules, or of the box to the part of an edge abreast of it: there the radius
        to a point is convex along the edge, least at an end or where it bends, and no less than the
        capsule's over the root of 2.
        """
        seen, capsules = turned(edges, turn), super().met(turn, p, edges)
        ways = seen[:, 1] - seen[:, 0]

        def distances(centres: Array) -> Array:
            radii = np.maximum(capsules(centres), 0.0)
            first = radii.min(axis=1, keepdims=True, initial=math.inf)
            radii /= _ROOT
            which, edge = np.nonzero(radii <= first)
            start, way = seen[edge, 0] - turned(centres, turn)[which], ways[edge]
            (x, y), (run, rise) = start.T, way.T
            gone = np.array([p - x, -y, -x - p - y, y - x - p])
            speed = np.array([run, rise, run + rise, run - rise])
            bends = np.clip(gone / np.where(speed == 0, np.inf, speed), 0.0, 1.0)
            shares = np.vstack([bends, np.zeros_like(x), np.ones_like(x)])
            least = self.needed(p, start + shares[..., None] * way).min(axis=0)
            radii[which, edge] = np.minimum(radii[which, edge] * _ROOT, least)
            return radii

        return distances

    def disk_radii(self, p: float, x: Array, y: Array, radii: Array) -> Array:
        """Return the radii at which tops touch disks: with their end, a side or a corner."""
        near, far = np.sort([np.abs(y), -x - p], axis=0)
        by = np.minimum(far - near, radii)  # all of it: flat on a side, else with a corner
        square = far - (by + np.sqrt(2 * radii**2 - by**2)) / 2
        return np.maximum(np.where(x > p, np.hypot(x - p, y) - radii, square), 0.0)

    def needed(self, p: float, ways: Array) -> Array:
        """Return the radii at which tops reach the ends of ways, (…, 2): by end, side or corner."""
        x, y = ways[..., 0], np.abs(ways[..., 1])
        return np.where(x > p, np.hypot(x - p, y), np.maximum(y, -x - p))

    def slopes(self, p: float, ways: Array) -> Array:
        """Return unit ways to the ends of ways: from the middle of the end, or across a side."""
        beside = np.where(np.abs(ways[:, 1]) > -ways[:, 0] - p, 0.0, 1.0)
        square = np.stack([-beside, (1 - beside) * np.sign(ways[:, 1])], axis=1)
        return np.where(ways[:, :1] > p, super().slopes(p, ways), square)

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes, of which the shortest is held.

        Turned by φ, that of radius r lies clear of its round end by 2 p sin(φ/2) less, and its
        corners, p + r and r from its middle, rise by p sin φ and to r (cos φ + sin φ).
        """
        turn, capsules = min(half_turn, math.pi / 4), super().growth(low, high, half_turn)
        return capsules._replace(factor=math.cos(turn) + math.sin(turn))

    def touch(self, p: float, radius: float, normals: Array, leaning: Array) -> Array:
        """Return where the end or a corner reaches farthest: whichever leaning normals meet."""
        end = radius * normals + np.array([p, 0.0])
        corner = radius * np.sign(leaning * [0.0, 1.0]) - np.array([p + radius, 0.0])
        ahead = (leaning * (end - corner)).sum(axis=1) >= 0
        places: Array = np.where(ahead[:, None], end, corner)
        return places
