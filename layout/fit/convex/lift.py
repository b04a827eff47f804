"""The tops of one box in unknowns in which what they reach is linear: half-planes of them.

The unknowns are the way from the middle of a patch of centres, along the turn of the box and
across, and some numbers of size, shape and turn. Each kind of top has its own.
"""

from __future__ import annotations

from abc import ABC, abstractmethod

import numpy as np

from ..wood.edges import Array, turned
from .aims import Figures
from .boxes import Box
from .relaxation import Edges, HalfPlanes, Patch, Rows


class Lift(ABC):
    """The tops of a box whose centres lie in a patch."""

    def __init__(self, box: Box, patch: Patch) -> None:
        self.box, self.patch = box, patch

    @abstractmethod
    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows that keep tops of at most a radius, mm, clear of edges; more are sharper.

        These are seen from the middle of the patch, along the turn.
        """

    @abstractmethod
    def span(self, cap: float) -> tuple[Rows, Array, Array]:
        """Return what turns, shapes and a greatest radius leave of the shape unknowns.

        Rows of all the unknowns, and the least and greatest shape unknowns.
        """

    @abstractmethod
    def held(self, seen: Array) -> Rows:
        """Return rows by which tops hold points, seen from the middle of the patch.

        A convex top holds a point P when in every direction n it reaches as far as P does:
        ``n·(P − c) <= reach(n)``. One direction gives one half-plane, and the direction in which
        the middle top of the box meets P loses least. The reach of a top is no linear figure of its
        unknowns, but over a small box it lies close under one.
        """

    @abstractmethod
    def figures(self, cap: float, likely: tuple[float, float], lipping: float) -> Figures:
        """Return linear figures for the sizes and the area of the tops."""

    @abstractmethod
    def pose(self, step: Array) -> tuple[float, float]:
        """Return the turn and the shape number of a solution of the half-planes."""

    def turned(self, lean: float) -> float:
        """Return the turn of a top that leans so far off the box's, within its turns."""
        box = self.box
        return box.turn + min(max(lean, -box.half_turn), box.half_turn)

    def planes(self, edges: Edges, cap: float, points: Array) -> HalfPlanes:
        """Return half-planes that tops obey which are clear of edges and hold points, (n, 2)."""
        box, patch = self.box, self.patch
        local = Edges(turned(edges.ends - patch.middle, box.turn), edges.outermost)
        rows, low, high = self.span(cap)
        parts = [self.contacts(local, cap), rows]
        if len(points):
            parts.append(self.held(turned(points - patch.middle, box.turn)))
        place = np.array([patch.along, patch.across])
        every = Rows.joined(*parts)
        return HalfPlanes(*every, np.append(-place, low), np.append(place, high))
