"""Tops that are one body, squeezed and turned: how they stand to the edges round them."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ..wood.edges import Array, turned
from .boxes import Box, Patch
from .gauge import nearest_places
from .lift import Edges, Lift, Rows
from .sight import angle_of, facing, near_angle, nearest_all_round, outward, stays_between

if TYPE_CHECKING:
    from .kind import Kind

_HAIR = 1e-9
"""Radians by which spans of turns are widened, so that rounding cannot leave a corner out."""


class BodyLift(Lift):
    """Tops of such a kind, in whichever unknowns."""

    def __init__(self, kind: Kind, box: Box, patch: Patch) -> None:
        super().__init__(kind, box, patch)
        self.body, self.p = kind.body, box.middle
        self.squeeze = kind.squeeze(self.p)

    @abstractmethod
    def line_rows(self, normal: Array, points: Array) -> Rows:
        """Return rows that keep tops within lines through points, with unit normals out of them."""

    @abstractmethod
    def point_rows(self, places: Array, cap: float) -> Rows:
        """Return rows that keep tops clear of points, given as the body sees them, (n, 2)."""

    def contacts(self, local: Edges, cap: float) -> Rows:
        """Return rows for each of the nearest edges all round: of its line, or of a point."""
        places = nearest_places(self.body, local.ends * self.squeeze)
        chosen = nearest_all_round(places, self.body.gauge(places))
        ends, places, normal = local.ends[chosen], places[chosen], facing(local.ends[chosen])
        bound = local.outermost[chosen] & (ends[:, 0] != ends[:, 1]).any(axis=1)
        normal[bound] = outward(ends[bound])
        lines = bound | self._lies_along(ends, normal)
        points = ~lines & (np.hypot(places[:, 0], places[:, 1]) > 1e-6)
        rows = self.line_rows(normal[lines], ends[lines, 0])
        return Rows.joined(rows, self.point_rows(places[points], cap))

    def _lies_along(self, local: Array, normal: Array) -> NDArray[np.bool_]:
        """Return which edges a top of the box can only touch between their ends.

        Seen in the frame of the top the touching point turns as the normal does, and one way with
        the shape.
        """
        delta, lean, slides = self.box.half_turn + _HAIR, angle_of(normal), []
        for side in (-1.0, 1.0):
            seen, off = turned(normal, -side * delta), []
            for p in {self.box.low, self.box.high}:
                squeeze = self.kind.squeeze(p)
                place = self.body.touch(seen / squeeze).places / squeeze
                off.append(side * (near_angle(angle_of(place), lean) - lean))
            slides.append(side * (np.max(off, axis=0) + delta))
        return stays_between(local, normal, (slides[0], slides[1]), self.patch)
