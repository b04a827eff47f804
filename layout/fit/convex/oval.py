"""Ovals: turn and ratio outside, place and size inside.

Turn the wood back by the oval's turn, squeeze it along the oval's length and stretch it across by
the root of the ratio: areas stay, and every oval of that turn and ratio becomes a circle. So the
best of them is the largest circle in the mapped wood. The shape number p is ln(length / width).
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np

from ..goal import Figure
from ..wood.edges import Array
from .gauge import PowerBody
from .kind import ALONG, Axes, Growth, Kind, Lifted
from .marks import contacts_of, first_met, local_of
from .oval_lift import OvalLift, most_stretch
from .pose import Contacts, Pose

_FIRST_SPAN = 1.0
"""Of the logarithm of the ratio, in the boxes that a search starts with."""


class OvalKind(Kind):
    """Ovals of any ratio; the radius is the root of half length times half width."""

    name = "oval"
    pace = 0.35
    body: PowerBody = PowerBody(2.0)
    lift: Lifted = OvalLift

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

    def squeeze(self, p: float) -> Array:
        """Return by what the plane is multiplied for ovals of shape p to become circles."""
        return np.array([math.exp(-p / 2), math.exp(p / 2)])

    def disks(self, p: float, radius: float) -> tuple[Array, Array]:
        """Return places along the long axis, and radii, of disks that a top holds, mm."""
        long, wide = self.sizes(p, radius)
        spread = 1 - math.exp(-2 * p)
        ends = [(x * long * spread, wide * math.sqrt(1 - x * x * spread)) for x in ALONG]
        return np.array([x for x, _ in ends]), np.array([r for _, r in ends])

    def growth(self, low: float, high: float, half_turn: float) -> Growth:
        """Return how a radius follows for all between these shapes and so far turned.

        An oval of the box holds the middle one divided by what the map between them stretches.
        """
        return Growth((low + high) / 2, most_stretch(low, high, half_turn), 0.0)

    def first_shapes(self, low: float, high: float) -> list[tuple[float, float]]:
        """Return spans that together hold all shapes."""
        cuts = [low, *np.arange(low + _FIRST_SPAN, high, _FIRST_SPAN).tolist(), high]
        return list(pairwise(cuts))

    def contacts(self, pose: Pose, edges: Array) -> Contacts:
        """Return where and how closely the oval stands to each edge.

        Seen in the frame where the oval is the unit circle, the nearest point of an edge lies at
        ρ; the way left to it is close to (ρ − 1) over the slope of ρ.
        """
        return contacts_of([first_met(self.body, pose, local_of(pose, edges))], pose)
