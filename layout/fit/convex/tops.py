"""Real tops in the inner polygon, each the largest of its place, turn and shape.

Of thousands of edges only those are looked at that can come into the way.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...geometry.tolerance import ROUNDING
from ..wood.edges import Array
from .pose import Contacts, Pose
from .sizing import Sizing
from .wood import Wood

_LOOKS_A_PLACE, _LOOKS_A_CONTACT = 4, 20
"""Looks at an edge (`Family.looks`) that a top that is placed and its contacts take of each edge
beside it: as measured."""


class Tops:
    """Tops of one kind on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        self.wood, self.kind = wood, sizing.kind
        self.sizing = replace(sizing, longest=wood.diameter / 2)
        self.looks = 0.0

    def placed(self, centre: Array, turn: float, p: float) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of a place, turn and shape, if any fits."""
        if not self.wood.holds_points(centre[None], inner=True)[0]:
            return None
        radius = self._radius(centre, turn, p)
        sizes = self.sizing.best(p, radius)
        if sizes is None:
            return None
        if len(self.wood.held):
            needed = self.kind.holding(turn, p, self.wood.firmly, centre[None])[0] - ROUNDING
            if self.kind.sizes(p, needed)[1] > sizes[1]:
                return None
        pose = Pose(float(centre[0]), float(centre[1]), turn, *sizes)
        return self.sizing.score(*sizes), pose

    def _radius(self, centre: Array, turn: float, p: float) -> float:
        """Return that of the largest top of a place, turn and shape in the inner polygon."""
        near = self.wood.around.nearest(centre)
        radius = float(self.kind.distances(turn, p, near, centre[None]).min())
        if len(near) < len(self.wood.inner_edges):
            near = self.wood.around.within(centre, turn, self.kind.box(p, radius + ROUNDING))
            radius = float(self.kind.distances(turn, p, near, centre[None]).min(initial=radius))
        self.looks += self.kind.pace * _LOOKS_A_PLACE * len(near) + len(self.wood.inner_edges) / 4
        return radius

    def contacts(self, top: Pose, by: float) -> Contacts:
        """Return the contacts of a top with the edges that come within `by`, mm, of it."""
        edges = self.near(top, 0.0, by)
        self.looks += self.kind.pace * _LOOKS_A_CONTACT * len(edges)
        return self.kind.contacts(top, edges)

    def near(self, top: Pose, larger: float, by: float = 0.0) -> Array:
        """Return the edges within `by`, mm, of a top whose radius is so much larger, mm."""
        shape = self.kind.shape_of(top)
        radius = self.kind.radius_of_width(shape, top.half_width) + larger
        along, across = self.kind.box(shape, radius)
        return self.wood.around.within(
            np.array([top.x, top.y]), top.turn, (along + by, across + by)
        )
