"""Real tops in the inner polygon, each the largest of its place, turn and shape, and their steps.

And how large one may be with its centre in one of a set of cells: the first bound of every box. A
cell whose middle is closer to an edge than a radius can grow within it is dropped, and the others
are cut until they are small against what the spans of turns and shapes leave open.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ...geometry.tolerance import ROUNDING
from ..local_search import Steps, climbed
from ..wood.edges import Array, blocks
from .boxes import Box, Pose, cell_corners, halve_cells
from .gauge import Met
from .kind import Growth
from .sizing import Sizing
from .wood import Wood

_LOOKS_A_PLACE, _LOOKS_A_CONTACT = 4, 20
"""Looks at an edge (`Family.looks`) that a top that is placed and its contacts take of each edge
beside it: as measured."""
FIRST_STEP, ROUGH, CLOSE, _LAST_STEP = 0.1, 0.01, 1e-4, 1e-7
"""Of the half width; steps smaller than the last change no printed figure. A search goes from the
first to rough ones, to close ones where it comes to a new place; then closing in is quick."""
_NOTHING = 1e-9
"""Of the half width: where no step promises to gain more, mm, the top is at its contacts."""
_MOST_CELLS, _MOST_DISTANCES = 4000, 600_000
"""Cells, and distances to edges, beyond which a box is rather cut than looked at more closely."""
_MOST_STAYING = 0.5
"""Share of the cells that smaller cells could not drop either, above which to cut the box.

Where no middle holds any top yet, cells are only made smaller: they may stay for what the box's
turns add alone, and then a bound that comes from their width falls with no cut of the box."""
_FEW = 64
"""Cells, below which they are cut in four: so few take no longer than half as many."""
_SHALLOW = 16
"""Edges and holes, beyond which cells are first looked up in the table of depths, or for several
disks in a top."""
_DEAR = 10.0
"""How much dearer a millimetre is that a top does not reach to what it must hold."""
_LOOKS_A_DISK = 0.8
"""Looks at an edge (`Family.looks`) that a round hole takes at least: as measured."""
_SURE = 0.85
"""Share of a radius that touches a round hole which is surely needed: the rest is what its point
towards the middle may be off, and a hole that is dropped too soon is never seen again."""
_EXACT = 1e-6
"""What rounding may do to a depth, mm, with a wide margin."""


class Tops:
    """Tops of one kind on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        self.wood, self.kind = wood, sizing.kind
        self.sizing = replace(sizing, longest=wood.diameter / 2)
        self.shapes = low, high = self.sizing.shapes
        self.is_one_shape = low == high
        self.looks = 0.0
        self._least_radius = lru_cache(maxsize=64)(self.sizing.least_radius)

    def placed(self, centre: Array, turn: float, p: float) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of a place, turn and shape, if any fits."""
        if not self.wood.inner.holds_points(centre[None])[0]:
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

    def fitted(self, top: Pose) -> tuple[float, Pose] | None:
        """Return the score and size of the best top of the place, turn and shape of one."""
        if min(top[3:]) <= 0:
            return None
        return self.placed(np.array(top[:2]), top.turn, self.kind.shape_of(top))

    def _radius(self, centre: Array, turn: float, p: float) -> float:
        """Return that of the largest top of a place, turn and shape in the inner polygon."""
        near = self.wood.around.nearest(centre)
        radius = float(self.kind.distances(turn, p, near, centre[None]).min())
        if len(near) < len(self.wood.inner_edges):
            near = self.wood.around.within(centre, turn, self.kind.box(p, radius + ROUNDING))
            radius = float(self.kind.distances(turn, p, near, centre[None]).min(initial=radius))
        self.looks += self.kind.pace * _LOOKS_A_PLACE * len(near) + len(self.wood.inner_edges) / 4
        return radius

    def near(self, top: Pose, by: float) -> Array:
        """Return the edges within `by`, mm, of a top."""
        along, across = self.kind.box(self.kind.shape_of(top), self.kind.radius_of(top))
        return self.wood.around.within(np.array(top[:2]), top.turn, (along + by, across + by))

    def polished(
        self, score: float, top: Pose, *, first: float = FIRST_STEP, last: float = _LAST_STEP
    ) -> tuple[float, Pose]:
        """Return a local best reached from a top, never a worse one, by steps down to `last`."""
        steps = first * top.half_width, last * top.half_width
        return climbed(self, (score, top), steps, nothing=_NOTHING * top.half_width)

    def moved(self, top: Pose, step: Array) -> Pose:
        """Return the top after a step."""
        return Pose(*(float(v) for v in np.array(top) + self.moves(top) @ step))

    def steps(self, top: Pose, trust: float) -> Steps:
        """Return the steps of at most `trust`, mm."""
        edges = self.near(top, reach := 6 * trust + 1e-3 * top.half_width)
        self.looks += self.kind.pace * _LOOKS_A_CONTACT * len(edges)
        (clear, slopes), moves = self.kind.contacts(top, edges, self.wood.firmly), self.moves(top)
        close, planes = clear < reach, self.sizing.half_planes
        rows = np.vstack([-slopes[close] @ moves, planes[:, :2] @ moves[3:]])
        limits = np.append(clear[close], planes[:, 2] - planes[:, :2] @ top[3:])
        gain = self.sizing.slopes(*top[3:]) @ moves[3:]
        gain /= np.abs(gain).max() or 1.0
        return Steps(gain, rows, limits, *self.reach(top, trust))

    def moves(self, top: Pose) -> Array:
        """Return how the five numbers of a top change with each unknown of a step, as columns.

        A turn is counted at the end of the top; where the shape is given, both sizes are one
        unknown.
        """
        moves = np.diag([1.0, 1.0, 1 / top.half_length, 1.0, 1.0])
        if not self.is_one_shape:
            return moves
        axes = self.kind.axes(self.kind.shape_of(top))
        moves[4, 3] = axes.widens / axes.lengthens
        return moves[:, :4]

    def reach(self, top: Pose, trust: float) -> tuple[Array, Array]:
        """Return the least and greatest steps; a turn is counted at the end of the top."""
        high = np.full(4 if self.is_one_shape else 5, trust)
        low = -high
        limits = self.sizing.wish.limits
        period = self.kind.period(self.shapes[1])
        if period == 0:
            low[2] = high[2] = 0.0
        elif limits.most_turn < min(math.pi, period) / 2:
            ends = np.array([-limits.most_turn, limits.most_turn]) - limits.off_grain(top.turn)
            low[2], high[2] = np.clip(ends * top.half_length, [-trust, 0.0], [0.0, trust])
        return low, high

    def bound_by_cells(self, box: Box, enough: float) -> float:
        """Return the bound that the cells give, with those left out that give less than enough."""
        kind, gap = self.kind, self.sizing.wish.gap
        growth = kind.growth(box.low, box.high, box.half_turn)
        anchor, factor, addend, drift = growth
        box.least = needed = self._least_radius(box.low, box.high, self.wood.diameter, enough)
        if math.isinf(needed):
            return enough
        along, depth = kind.disks(anchor, (needed - addend) / factor)
        spine = along[:, None] * np.array([math.cos(box.turn), math.sin(box.turn)])
        met = kind.met(box.turn, anchor, self.wood.outer_edges[box.near])
        while True:
            if len(along) > 1 or len(box.near) + len(box.disks.radii) > _SHALLOW:
                missing = depth - self.wood.depths.most(box.centres[:, None] + spine)
                box.keep(missing.max(axis=1) <= math.hypot(*box.half) + _EXACT)
            distances = self._distances(box, anchor, met)
            corners = cell_corners(box)
            reach = float(kind.lengths(corners, anchor).max())
            signed, left = self._kept(box, growth, distances, reach)
            if not len(signed):
                return enough
            # what shapes add is worth as much as they change the radius, as a share of it
            loose = (factor - 1 + drift / max(box.high, 1e-9)) * box.radius + addend
            fine = max(loose / 8, box.fine * math.sqrt(gap) * box.radius)
            stays = signed * factor + addend > needed
            most_cells = min(_MOST_CELLS, _MOST_DISTANCES / max(distances.shape[1], 1))
            if (
                (reach <= fine and stays.any())
                or (stays.mean() > _MOST_STAYING and signed.max() > 0)
                or 2 * len(stays) > most_cells
            ):
                box.near = left
                if len(firm := self.wood.firmly):
                    lacks = kind.holding(box.turn, box.middle, firm, box.centres) - signed
                    signed = signed - _DEAR * np.maximum(lacks, 0.0)
                box.spot = box.centres[int(np.argmax(signed))]
                return float(self.sizing.upper(box.low, box.high, np.array([box.most]))[0])
            sides = np.array([corners[0] + corners[1], corners[0] - corners[1]])
            longer = bool(np.subtract(*kind.lengths(sides, anchor)) >= 0)
            halve_cells(box, along=longer)
            if len(box.centres) < _FEW and reach > 2 * fine:
                halve_cells(box, along=not longer)

    def _kept(
        self, box: Box, growth: Growth, distances: Array, reach: float
    ) -> tuple[Array, NDArray[np.intp]]:
        """Drop cells and holes that cannot matter; return the radii of the rest, and their edges.

        `reach` is how far the middle of a cell can lie from its corners, as radii are measured.
        """
        _, factor, addend, drift = growth
        least = distances.min(axis=1, initial=math.inf)
        # how deep in a disk a middle lies is not known
        deep = np.minimum(least, 0.0) if len(box.disks.radii) else -np.abs(least)
        outside = ~box.clear & ((least + reach) * factor + addend > box.least)
        outside[outside] = ~self.wood.outer.holds_points(box.centres[outside])
        signed = np.where(outside, deep, least)
        most = (signed + reach) * factor + addend
        # what crosses an edge with its middle may lie clear of it at another turn
        keep = (most > box.least) & ((signed > -reach) | (least < 0))
        if len(self.wood.held):
            keep &= self.kind.held_radii(box, self.wood.held, reach) <= most
        slack = reach + factor * factor * (least + reach) + 2 * addend + drift
        sure = distances * np.repeat([1.0, _SURE], [len(box.near), len(box.disks.radii)])
        matter = np.any(sure <= np.where(keep, slack, -np.inf)[:, None], axis=0)
        near, holes = np.split(matter, [len(box.near)])
        box.disks = box.disks.take(holes)
        box.clear = box.clear | (signed > reach)
        box.keep(keep)
        signed = signed[keep]
        box.most = float(most[keep].max(initial=0.0))
        box.radius = max(float(signed.max(initial=0.0)), box.least)
        return signed, box.near[near]

    def _distances(self, box: Box, p: float, met: Met) -> Array:
        """Return the radii at which tops in the cells touch the edges, and then the disks."""
        edges, disks, pace = len(box.near), box.disks, self.kind.pace
        radii = np.empty((len(box.centres), edges + len(disks.radii)))
        looks = pace * edges + max(pace, _LOOKS_A_DISK) * len(disks.radii)
        self.looks += len(box.centres) * looks
        for some in blocks(*radii.shape):
            centres = box.centres[some]
            radii[some, :edges] = met(centres)
            if len(disks.radii):
                ways = disks.ways(box.turn, centres)
                radii[some, edges:] = self.kind.disk_radii(p, *ways, disks.radii)
        return radii
