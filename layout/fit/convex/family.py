"""Tops of two sizes, searched by turn and shape; their place and size are solved inside a box.

A box holds all tops whose turn and shape number lie in two spans and whose centre lies in one of a
set of square cells. Within it the largest radius is proved: no radius grows faster, as the centre
moves, than the kind of outline allows, so a cell whose middle is too close to an edge is dropped,
and the others are cut in four until they are small against what the spans leave open. Cells and
edges that can no longer matter are not looked at again in the smaller boxes.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray

from ..goal import turn_spans
from ..wood.edges import Array, blocks, turned
from ..wood.round_holes import Disks
from .aims import aim_of, within_limits
from .boxes import Box, cell_corners, drop_aside, halve_cells, patch_of, split_places
from .gauge import Met
from .pose import Pose
from .relaxation import Edges
from .sizing import Sizing
from .tops import CLOSE, Tops
from .wood import Wood

_MOST_CELLS, _MOST_DISTANCES = 4000, 600_000
"""Cells, and distances to edges, beyond which a box is rather cut than looked at more closely."""

_MOST_STAYING = 0.5
"""Share of the cells that smaller cells could not drop either, above which to cut the box.

Where no middle holds any top yet, cells are only made smaller: they may stay for what the box's
turns add alone, and then a bound that comes from their width falls with no cut of the box."""

_FIRST_SHARE = 0.3
"""Of the effort, after which boxes to start with wait until they promise more than others: where
edges are many, each takes a hundredth of it."""

_FIRST_TURNS = 8
"""Spans that a half turn is cut into at first; any number would do."""

_OFF_GRID = 0.37
"""Where in a span the grain lies at first: not at its end, where it would lie in two spans."""

_SMALL = 0.03
"""Looseness, as an angle, of turns and shapes below which places are cut where they are looser:
half-planes help in boxes that are small every way (cut sooner, boxes are a half more)."""

_HOPELESS, _AT_MOST = 0.3, 4.0
"""Share by which the half-planes of a box gave more than enough, above which those of its parts
are not tried; with each cut in two it is taken to halve. Enough may rise: no more counts."""

_ROUNDING = 1e-9
"""Of a score: far above what rounding can take from the value of a linear program."""

_DEAR = 10.0
"""How much dearer a millimetre is that a top does not reach to what it must hold."""

_LONGEST_WAIT = 12
"""Boxes that go by at most between two tries to bring a top round what it must hold."""

_LOOKS_A_BOX, _LOOKS_A_PLANE, _LOOKS_A_DISK = 50_000, 8, 0.8
"""Looks at an edge (`Family.looks`) that a box takes at least, its half-planes of each edge, and
a round hole at least: as measured."""

_BESIDE = 0.03
"""Of the half width: tops so close end in the same local best; at a tenth a hexagon did not."""

_EXACT = 1e-6
"""What rounding may do to a depth, mm, with a wide margin."""


class TwoSizes(Tops):
    """A family for the search: one kind of outline on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        super().__init__(wood, sizing)
        self._wait, self._vain = 0, 0
        self._climbed = (0.0, Pose(*[math.inf] * 5))

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes of every turn and shape allowed, with coarse cells over the whole wood."""
        low, high = self.sizing.shapes
        high = self.kind.longest_shape(high, self.wood.diameter)
        if low > high:
            return
        for piece in self.wood.pieces:
            disks = piece.disks if self.kind.takes_disks else Disks.none()
            near = np.setdiff1d(piece.edges, disks.edges)
            for turn, half_turn in self.turns(high):
                centres, half = piece.cells(turn)
                clear = np.zeros(len(centres), dtype=bool)
                for span in self.kind.first_shapes(low, high):
                    shapes = (turn, half_turn, *span)
                    yield Box(*shapes, centres, turn, half, clear, near, disks, waits=True)

    def turns(self, high: float) -> list[tuple[float, float]]:
        """Return the middles and halves of the spans of turns of a shape, radians."""
        limits = self.sizing.wish.limits
        period = self.kind.period(high)
        if period == 0:
            return [(0.0, 0.0)]
        spans = turn_spans(limits, period)
        half_span = (spans[0][1] - spans[0][0]) / 2
        count = max(1, math.ceil(half_span / (math.pi / 2) * _FIRST_TURNS - 1e-9))
        half = half_span / count
        starts = [low for low, _ in spans]
        if limits.most_turn >= min(math.pi, period) / 2:
            starts = [limits.grain - 2 * _OFF_GRID * half]
        return [(start + (2 * i + 1) * half, half) for start in starts for i in range(count)]

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats, or `enough` where that is higher."""
        looked_for = _FIRST_SHARE * self.sizing.wish.most_effort
        box.waits = box.waits and self.looks > looked_for and not math.isinf(box.high)
        if box.waits:
            return self._bound_by_depth(box)
        if math.isinf(box.high):
            return self.sizing.upper_of_tail(box.low, self.wood.diameter / 2)
        self.looks += _LOOKS_A_BOX
        first = self._bound_by_cells(box, enough)
        box.hopeless /= 2
        if first <= enough or box.hopeless > _HOPELESS:
            return first
        most = min(first, self._bound_by_half_planes(box, enough))
        while drop_aside(box) and most > enough:
            most = min(most, self._bound_by_half_planes(box, enough))
        box.hopeless = min(most / enough - 1, _AT_MOST) if enough > 0 else 0.0
        return max(most, enough)  # cells were dropped that may be worth as much

    def _bound_by_depth(self, box: Box) -> float:
        """Return the bound that the deepest place of the wood gives, at no cost."""
        slimmest = float(self.kind.disks(box.high, 1.0)[1].max())
        return self.sizing.upper_of_any(
            box.low, box.high, self.wood.depths.greatest / slimmest, self.wood.diameter / 2
        )

    def _bound_by_cells(self, box: Box, enough: float) -> float:
        """Return the bound that the cells give, with those left out that give less than enough."""
        anchor, factor, addend = self.kind.growth(box.low, box.high, box.half_turn)
        drift = self.kind.drift(box)
        needed = self.sizing.least_radius(box.low, box.high, self.wood.diameter, enough)
        core = self.kind.disks(anchor, (needed - addend) / factor)
        met = self.kind.met(box.turn, anchor, self.wood.outer_edges[box.near])
        while True:
            self._drop_shallow(box, core)
            if not len(box.centres):
                return enough
            distances = self._distances(box, anchor, met)
            least = distances.min(axis=1)
            corners = cell_corners(box)
            reach = float(self.kind.lengths(corners, anchor).max())
            # how deep in a disk a middle lies is not known
            deep = np.minimum(least, 0.0) if len(box.disks.radii) else -np.abs(least)
            signed = np.where(self._outside(box), deep, least)
            most = (signed + reach) * factor + addend
            # what crosses an edge with its middle may lie clear of it at another turn
            keep = (most > needed) & ((signed > -reach) | (least < 0))
            if len(self.wood.held):
                held = self.kind.held_radii(box, self.wood.held, reach)
                keep &= held <= most
            if not keep.any():
                return enough
            slack = reach + factor * factor * (least + reach) + 2 * addend + drift
            matter = (distances <= np.where(keep, slack, -np.inf)[:, None]).any(axis=0)
            near, disks = np.split(matter, [len(box.near)])
            box.disks = box.disks.take(disks)
            if not near.all():
                box.near = box.near[near]
                met = self.kind.met(box.turn, anchor, self.wood.outer_edges[box.near])
            box.centres, box.clear = box.centres[keep], (box.clear | (signed > reach))[keep]
            signed = signed[keep]
            box.most, box.radius = float(most[keep].max()), max(float(signed.max()), needed)
            box.least = needed
            loose = (factor - 1) * box.radius + addend + self.kind.shape_slack(box)
            fine = max(loose / 8, box.fine * math.sqrt(self.sizing.wish.gap) * box.radius)
            stays = signed * factor + addend > needed
            if (
                (reach <= fine and stays.any())
                or (stays.mean() > _MOST_STAYING and signed.max() > 0)
                or 2 * len(stays) > min(_MOST_CELLS, _MOST_DISTANCES / max(len(near), 1))
            ):
                box.spot = box.centres[int(np.argmax(signed - self._lack(box, signed)))]
                return float(self.sizing.upper(box.low, box.high, np.array([box.most]))[0])
            sides = np.array([corners[0] + corners[1], corners[0] - corners[1]])
            halve_cells(box, along=bool(np.subtract(*self.kind.lengths(sides, anchor)) >= 0))

    def _distances(self, box: Box, p: float, met: Met) -> Array:
        """Return the radii at which tops in the cells touch the edges, and then the disks."""
        edges, disks, pace = len(box.near), box.disks, self.kind.pace
        count = edges + len(disks.radii)
        looks = pace * edges + max(pace, _LOOKS_A_DISK) * (count - edges)
        self.looks += len(box.centres) * looks
        radii = np.empty((len(box.centres), count))
        for some in blocks(*radii.shape):
            centres = box.centres[some]
            radii[some, :edges] = met(centres)
            if len(disks.radii):
                ways = disks.ways(box.turn, centres)
                radii[some, edges:] = self.kind.disk_radii(p, *ways, disks.radii)
        return radii

    def _drop_shallow(self, box: Box, core: tuple[Array, Array]) -> None:
        """Drop the cells where disks that every good top holds lie deeper than the wood goes."""
        direction = np.array([math.cos(box.turn), math.sin(box.turn)])
        places = box.centres[:, None] + core[0][:, None] * direction
        missing = core[1] - self.wood.depths.most(places)
        deep = missing.max(axis=1) <= math.hypot(*box.half) + _EXACT
        box.centres, box.clear = box.centres[deep], box.clear[deep]

    def _bound_by_half_planes(self, box: Box, enough: float) -> float:
        wish, patch, near = self.sizing.wish, patch_of(box), box.edges
        self.looks += self.kind.pace * _LOOKS_A_PLANE * len(near)
        likely = self.kind.sizes((box.low + box.high) / 2, max(box.radius, 1e-6))
        edges = Edges(self.wood.outer_edges[near], self.wood.outermost[near])
        lift = self.kind.lift(box, patch)
        figures = lift.figures(box.most, likely, wish.lipping)
        planes = lift.planes(edges, box.most, self.wood.held)
        planes = within_limits(planes, figures, self.sizing.half_planes)
        value, step, places = planes.best(aim_of(figures, wish, self.sizing.rim, likely))
        box.places = places(enough) if value > enough > 0 else None
        way = turned(step[None, :2], -box.turn)[0]
        box.hint = (patch.middle + way, *lift.pose(step))
        return value * (1 + _ROUNDING)

    def _lack(self, box: Box, radii: Array) -> Array:
        """Return how much less a top in each cell promises for what it must hold and does not."""
        if not len(self.wood.held):
            return np.zeros(len(radii))
        p = (box.low + box.high) / 2
        needed = self.kind.holding(box.turn, p, self.wood.firmly, box.centres)
        lack: Array = _DEAR * np.maximum(needed - radii, 0.0)
        return lack

    def _outside(self, box: Box) -> NDArray[np.bool_]:
        """Return which cells have their middle outside the wood."""
        outside = ~box.clear
        outside[outside] = ~self.wood.holds_points(box.centres[outside])
        return outside

    def sample(self, box: Box) -> tuple[float, Pose] | None:
        """Return the better top of two: at the best cell, and where the half-planes point.

        Where neither fits, or the second does not hold what it must, one near by may.
        """
        if math.isinf(box.high):
            return None
        if box.waits:
            return self.placed(self.wood.depths.deepest, box.turn, box.low)
        best = self.placed(box.spot, box.turn, (box.low + box.high) / 2)
        if box.hint is not None:
            other = self.placed(*box.hint)
            if other is None and (best is None or len(self.wood.held)):
                other = self._brought_in(box)
            if other is not None and (best is None or other[0] > best[0]):
                return other
        return best

    def _brought_in(self, box: Box) -> tuple[float, Pose] | None:
        """Return a top near the half-planes' one that fits and holds what it must.

        Looked for the more seldom the longer it is in vain.
        """
        self._wait -= 1
        if self._wait > 0:
            return None
        assert box.hint is not None
        (x, y), turn, p = box.hint
        sizes = self.kind.sizes(p, box.likely_radius)
        found = self.brought_in(Pose(float(x), float(y), turn, *sizes))
        self._vain = 0 if found is not None else min(self._vain + 1, _LONGEST_WAIT)
        self._wait = self._vain
        return found

    def split(self, box: Box) -> Iterable[Box]:
        """Return two halves of the box: of its turns, shapes or places, whichever is loosest."""
        if box.waits:  # it is looked into first
            return [box.part(waits=False)]
        turning, shaping = self.kind.looseness(box)
        cut = box.low + 1.0 if math.isinf(box.high) else (box.low + box.high) / 2
        patch = patch_of(box)
        sides = self.kind.lengths(np.diag([patch.along, patch.across]), cut)
        placing = sides / box.likely_radius
        if max(turning, shaping) < _SMALL and max(placing) > max(turning, shaping):
            return split_places(box, patch, along=bool(placing[0] > placing[1]))
        if turning > shaping:
            half = box.half_turn / 2
            return [box.part(turn=box.turn + side * half, half_turn=half) for side in (-1, 1)]
        return [box.part(high=cut), box.part(low=cut)]

    def polish(self, score: float, top: Pose) -> tuple[float, Pose]:
        """Return a local best reached from a top; the last one, where the top lies beside that."""
        far = np.abs(np.subtract(top, self._climbed[1])) * [1.0, 1.0, top.half_length, 1.0, 1.0]
        if score > self._climbed[0] or far.max() >= _BESIDE * top.half_width:
            self._climbed = self.polished(score, top, last=CLOSE)
        return self._climbed
