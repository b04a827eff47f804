"""D ends: a half disk before a box, so a capsule whose one end is filled out to its corners.

The radius is that of the round end, and the shape number half the straight of that capsule: so the
middle of the box lies half way along, and the corners at −p − r, ±r.
"""

from __future__ import annotations

import math

import numpy as np

from ..goal import Figure
from ..wood.edges import Array, turned
from .capsule import CapsuleKind, parted, round_end, straights
from .d_end_lift import DEndLift
from .gauge import Met
from .kind import Growth
from .marks import contacts_of, local_of, marks_before
from .pose import Contacts, Pose

_ROOT = math.sqrt(2)


class DEndKind(CapsuleKind):
    """D ends of any straight."""

    name = "D end"
    pace = 0.8
    lift = DEndLift
    periods = (math.tau, math.tau)

    def area(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return the area, mm²."""
        return math.pi / 2 * half_width**2 + 2 * half_width * (2 * half_length - half_width)

    def met(self, turn: float, p: float, edges: Array) -> Met:
        """Return what tells at what radii tops of one turn and straight meet edges.

        Those of the capsules, or of the box to the part of an edge abreast of it: there the radius
        to a point, max(|y|, −x − p), is convex along the edge and least at an end or where it
        bends. It is no less than the capsule's over the root of 2.
        """
        seen, capsules = turned(edges, turn), super().met(turn, p, edges)
        ways = seen[:, 1] - seen[:, 0]

        def distances(centres: Array) -> Array:
            radii = np.maximum(capsules(centres), 0.0)
            first = radii.min(axis=1, keepdims=True, initial=math.inf)
            radii /= _ROOT
            which, edge = np.nonzero(radii <= first)
            (x, y), (run, rise) = (seen[edge, 0] - turned(centres, turn)[which]).T, ways[edge].T
            x = x - p
            ahead = _share(-x, run)  # where the edge passes from the box to the disk
            low = np.where(run < 0, np.maximum(ahead, 0.0), 0.0)
            high = np.where(run > 0, np.minimum(ahead, 1.0), 1.0)
            back = x + 2 * p
            bends = (_share(-y, rise), _share(-back - y, run + rise), _share(y - back, run - rise))
            shares = np.array([low, high, *(np.clip(bend, low, high) for bend in bends)])
            least = np.maximum(np.abs(y + shares * rise), -back - shares * run).min(axis=0)
            abreast = (low <= high) & (x + low * run <= 1e-9)
            met = radii[which, edge] * _ROOT
            radii[which, edge] = np.where(abreast, np.minimum(met, least), met)
            return radii

        return distances

    def disk_radii(self, p: float, x: Array, y: Array, radii: Array) -> Array:
        """Return the radii at which tops touch disks: with their end, a side or a corner."""
        near, far = np.sort([np.abs(y), -x - p], axis=0)
        by = np.minimum(far - near, radii)  # all of it: flat on a side, else with a corner
        square = far - (by + np.sqrt(2 * radii**2 - by**2)) / 2
        return np.maximum(np.where(x > p, np.hypot(x - p, y) - radii, square), 0.0)

    def slopes(self, p: float, ways: Array) -> Array:
        """Return ways from the middle of the round end, or square to the side that is met."""
        x, y = ways[:, 0], ways[:, 1]
        behind = -x - p > np.abs(y)
        return np.stack([np.where(behind, x, np.maximum(x - p, 0.0)), np.where(behind, 0.0, y)], 1)

    def needed(self, p: float, ways: Array) -> Array:
        """Return the radii at which tops reach the ends of ways, (…, 2): by end, side or corner."""
        x, y = ways[..., 0], np.abs(ways[..., 1])
        return np.where(x > p, np.hypot(x - p, y), np.maximum(y, -x - p))

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes, of which the shortest is held.

        Turned by φ, that of radius r lies clear of its round end by 2 p sin(φ/2) less, and its
        corners, p + r and r from its middle, rise by p sin φ and to r (cos φ + sin φ).
        """
        turn = min(half_turn, math.pi / 4)
        return Growth(
            low, math.cos(turn) + math.sin(turn), 2 * low * math.sin(half_turn / 2), high - low
        )

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return how the round end, the sides, the corners and the square end stand to edges."""
        p, (half_length, half_width) = self.shape_of(pose), pose[3:]
        local = local_of(pose, edges)
        left = self.distances(0.0, p, local, np.zeros((1, 2)))[0] - half_width
        corners = [np.full((len(local), 2), (-half_length, y)) for y in (-half_width, half_width)]
        behind = np.flatnonzero((local[:, 0, 0] < -p) & (np.abs(local[:, 0, 1]) < half_width))
        foot, arms = local[behind, 0], np.full(len(behind), -1.0)
        parts = [
            round_end(local, p, 1.0, half_width),
            straights(local, -half_length, p, half_width),
            parted((foot + np.array([p, 0.0])) * [1.0, 0.0], foot, arms, half_width, behind),
            *(marks_before(local, corner, pose, left) for corner in corners),
        ]
        return contacts_of(parts, pose)


def _share(way: Array, speed: Array) -> Array:
    """Return after what share of an edge a way is gone; 0 where it does not change."""
    return np.where(speed == 0, 0.0, way / np.where(speed == 0, 1.0, speed))
