"""Capsules: turn and straight outside, place and radius inside.

A capsule is a segment, its spine, with a disk swept along it. For a given turn and spine the
largest one about a centre is as thick as the spine is far from the nearest edge. The shape number
p is half the length of the spine, mm.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ..goal import Figure
from ..wood.edges import Array, Segments, turned
from .capsule_lift import CapsuleLift
from .gauge import Met
from .kind import ALONG, Axes, Growth, Kind, Lifted
from .marks import Part, contacts_of, local_of
from .pose import Contacts, Pose

_FIRST_SPANS = 4
"""Of the half straight, in the boxes that a search starts with."""


class CapsuleKind(Kind):
    """Capsules of any straight; the radius is that of their ends."""

    name = "capsule"
    pace = 0.5
    lift: Lifted = CapsuleLift

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
            off = centres @ lines.across.T
            off -= lines.height
            beyond = np.abs(centres @ lines.unit.T - lines.begin + both * along)
            beyond -= lines.half
            np.maximum(beyond, 0.0, out=beyond)
            beyond *= beyond
            beyond += (off + both * across) ** 2
            least: Array = np.minimum(*beyond)
            far, rise = np.abs(start_x - x), start_y - y
            far -= p
            np.maximum(far, 0.0, out=far)
            far *= far
            far += rise * rise
            np.sqrt(np.minimum(least, far, out=least), out=least)
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
        return np.asarray(np.hypot(np.maximum(np.abs(ways[..., 0]) - p, 0.0), ways[..., 1]))

    def slopes(self, p: float, ways: Array) -> Array:
        """Return ways from the spine."""
        return np.stack([ways[:, 0] - np.clip(ways[:, 0], -p, p), ways[:, 1]], axis=1)

    def disk_radii(self, p: float, x: Array, y: Array, radii: Array) -> Array:
        """Return the radii at which tops touch disks, (m, k)."""
        far = np.abs(x)
        far -= p
        np.maximum(far, 0.0, out=far)
        far *= far
        far += y * y
        np.sqrt(far, out=far)
        far -= radii
        return np.maximum(far, 0.0, out=far)

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        ends = np.array(ALONG) * p
        return ends, np.full(len(ends), radius)

    def lengths(self, ways: Array, p: float) -> Array:
        """Return what a radius can change over ways, (m, 2) along and across the turn, mm."""
        return np.asarray(np.hypot(ways[:, 0], ways[:, 1]))

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes, of which the shortest is held.

        The ends of the shortest spine move by at most 2 p sin(δ/2) in a turn by δ.
        """
        return Growth(low, 1.0, 2 * low * math.sin(half_turn / 2), high - low)

    def first_shapes(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return spans that together hold all shapes."""
        cuts = [low + (high - low) * i / _FIRST_SPANS for i in range(_FIRST_SPANS + 1)]
        return [(low, high)] if low == high else list(pairwise(cuts))

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely each end, and the spine between, stands to each edge."""
        p, local = self.shape_of(pose), local_of(pose, edges)
        ends = [round_end(local, sign * p, sign, pose.half_width) for sign in (1.0, -1.0)]
        return contacts_of([*ends, straights(local, -p, p, pose.half_width)], pose)


def round_end(local: Array, at: float, arm: float, radius: float) -> Part:
    """Return how a disk on the long axis stands to each edge.

    It moves by `arm` along that axis for each mm of half length less half width.
    """
    way = local[:, 1] - local[:, 0]
    centre = np.array([at, 0.0])
    square = np.maximum(np.einsum("ij,ij->i", way, way), 1e-30)
    share = np.einsum("ij,ij->i", centre - local[:, 0], way) / square
    foot = local[:, 0] + np.clip(share, 0.0, 1.0)[:, None] * way
    which = np.arange(len(local), dtype=np.intp)
    return parted(foot - centre, foot, np.full(len(local), arm), radius, which)


def straights(local: Array, low: float, high: float, radius: float) -> Part:
    """Return how straight sides, from one place along to another, stand to corners beside them."""
    beside = (local[:, 0, 0] > low) & (local[:, 0, 0] < high)
    foot = local[beside, 0]
    away = np.stack([np.zeros(len(foot)), foot[:, 1]], axis=1)
    which = np.flatnonzero(beside)
    return parted(away, foot, np.zeros(len(foot)), radius, which)


def parted(away: Array, foot: Array, arms: Array, radius: float, which: NDArray[np.intp]) -> Part:
    """Return how what lies a radius off the spine stands to feet that far away from the spine."""
    far = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-9)
    unit = away / far[:, None]
    longer = unit[:, 0] * arms
    return Part(far - radius, unit, longer, 1 - longer, foot, which)
