"""Nested convex tops, searched by turn and shape; their place and size are solved inside a box."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import pairwise

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.tolerance import SAME_PLACE
from ..goal import turn_spans
from ..local_search import best_step
from ..wood.edges import Array, turned
from ..wood.round_holes import Disks
from .boxes import Box, Pose, drop_aside, patch_of, split_places
from .lift import Aim, Edges
from .sizing import Sizing
from .tops import CLOSE, FIRST_STEP, ROUGH, Tops
from .wood import Wood

_FIRST_SHARE = 0.3
"""Of the effort, after which boxes to start with wait until they promise more than others: where
edges are many, each takes a hundredth of it."""
_FIRST_TURNS, _FIRST_SHAPES = 8, 9
"""Spans that a half turn and all shapes are cut into at first; any number would do."""
_DEEP = 8
"""Of the deepest cells of a piece, where tops of every turn and shape are tried first."""
_EACH = 3
"""Of so many shapes one is tried there."""
_ALIKE = 1e-6
"""Share of the best by which tops promise the same: those of a panel's mirrored halves do."""
_OFF_GRID = 0.37
"""Where in a span the grain lies at first: not at its end, where it would lie in two spans."""
_SMALL = 0.03
"""Looseness, as an angle, of turns and shapes below which places are cut where they are looser:
half-planes help in boxes that are small every way (cut sooner, boxes are a half more)."""
_HOPELESS, _AT_MOST = 0.3, 4.0
"""Share by which the half-planes of a box gave more than enough, above which those of its parts
are not tried; with each cut in two it is taken to halve. Enough may rise: no more counts."""
_SEVERAL = 200
"""Edges of round holes, beyond which half-planes count a hole as one point."""
_SMALL_HOLE = 0.25
"""Share of a top's radius, below which a hole is met in about one point."""
_SECANTS = 3
"""Steps to that point: slim ovals then lose a hundredth of a percent of their radius at most."""
_ROUNDING = 1e-9
"""Of a score: far above what rounding can take from the value of a linear program."""
_LONGEST_WAIT = 12
"""Boxes that go by at most between two tries to bring a top round what it must hold."""
_ROUNDS = 8
"""Steps in which a top is brought to hold what it must; each squares what is still missing."""
_BESIDE = 0.03
"""Of the half width: tops so close end in the same local best; at a tenth a hexagon did not."""
_LOOKS_A_BOX, _LOOKS_A_PLANE = 50_000, 8
"""Looks at an edge (`Family.looks`) that a box takes at least, and its half-planes of each edge:
as measured."""


class TwoSizes(Tops):
    """A family for the search: one kind of outline on one piece of wood."""

    def __init__(self, wood: Wood, sizing: Sizing) -> None:
        super().__init__(wood, sizing)
        self._wait, self._vain = 0, 0
        self._climbed = (0.0, Pose(*[math.inf] * 5))

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes of every turn and shape allowed, with coarse cells over the whole wood."""
        low, high = self.shapes
        if low > high:
            return
        shapes = np.linspace(low, high, 1 + (_FIRST_SHAPES if low < high else 1)).tolist()
        boxes, promises = list[Box](), list[float]()
        for piece in self.wood.pieces:
            disks = piece.disks if self.kind.takes_disks else Disks.none()
            near = np.setdiff1d(piece.edges, disks.edges)
            for turn, half_turn in self.turns(high):
                centres, half = piece.cells(turn)
                inside = centres[self.wood.inner.holds_points(centres)]
                deep = inside[
                    greatest_first(self.wood.depths.most(inside), tolerance=SAME_PLACE)[:_DEEP]
                ]
                clear = np.zeros(len(centres), dtype=bool)
                for i, span in enumerate(pairwise(shapes)):
                    spans = (turn, half_turn, *span)
                    box = Box(*spans, centres, turn, half, clear, near, disks, waits=True)
                    tried = i % _EACH == len(shapes) // 2 % _EACH
                    boxes.append(box)
                    promises.append(self._promise(box, deep) if tried else 0.0)
        promised = np.array(promises)
        order = greatest_first(promised, tolerance=_ALIKE * float(promised.max(initial=0.0)))
        yield from (boxes[i] for i in order)

    def _promise(self, box: Box, centres: Array) -> float:
        """Return what the best of the tops in the middle of a box about some centres is worth."""
        if not len(centres):
            return 0.0
        edges = self.wood.outer_edges[box.edges]
        radii = self.kind.distances(box.turn, box.middle, edges, centres)
        self.looks += self.kind.pace * radii.size
        sizes = self.sizing.best(box.middle, float(radii.min(axis=1).max()))
        return 0.0 if sizes is None else float(self.sizing.score(*sizes))

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
        box.waits = box.waits and self.looks > _FIRST_SHARE * self.sizing.wish.most_effort
        if box.waits:  # what the deepest place of the wood allows, at no cost
            radius = self.wood.depths.greatest / self.kind.disks(box.high, 1.0)[1].max()
            return float(self.sizing.upper(box.low, box.high, np.array([radius]))[0])
        self.looks += _LOOKS_A_BOX
        first = self.bound_by_cells(box, enough)
        box.hopeless /= 2
        if first <= enough or box.hopeless > _HOPELESS:
            return first
        most = min(first, self._bound_by_half_planes(box, enough))
        while drop_aside(box) and most > enough:
            most = min(most, self._bound_by_half_planes(box, enough))
        box.hopeless = min(most / enough - 1, _AT_MOST) if enough > 0 else 0.0
        return max(most, enough)  # cells were dropped that may be worth as much

    def _bound_by_half_planes(self, box: Box, enough: float) -> float:
        wish, patch = self.sizing.wish, patch_of(box)
        edges = self._edges(box, patch.middle)
        self.looks += self.kind.pace * _LOOKS_A_PLANE * len(edges.starts)
        likely = self.kind.sizes(box.middle, max(box.radius, 1e-6))
        lift = self.kind.lift(box, patch)
        figures = lift.figures(box.most, likely, wish.lipping)
        limits = figures.within(self.sizing.half_planes)
        planes = lift.planes(edges, box.most, self.wood.held, limits)
        value, step, places = planes.best(Aim.of(wish, figures, self.sizing.rim, likely))
        box.places = places(enough) if value > enough > 0 else None
        lean, shape = lift.pose(step)
        turn = box.turn + min(max(lean, -box.half_turn), box.half_turn)
        centre = patch.middle + turned(step[None, :2], -box.turn)[0]
        box.hint = centre, turn, min(max(shape, box.low), box.high)
        return value * (1 + _ROUNDING)

    def _edges(self, box: Box, middle: Array) -> Edges:
        """Return what tops of a box about a middle can meet: of many holes but a point each."""
        small = box.disks.radii < _SMALL_HOLE * box.likely_radius
        holes = box.disks.take(small)
        few, near = len(holes.edges) <= _SEVERAL, box.edges
        if not few:
            near = np.concatenate([box.near, box.disks.take(~small).edges])
        starts, lines = self.wood.outer_edges[near, 0], self.wood.outer_lines[near]
        edges = Edges(starts, lines, self.wood.outermost[near])
        if few:
            return edges
        ways = turned(holes.places - middle, box.turn)
        points = self.kind.first_points(box.middle, ways, holes.radii, secants=_SECANTS)
        points = middle + turned(points, -box.turn)
        return Edges(
            np.concatenate([edges.starts, points]),
            np.concatenate([edges.lines, np.repeat(points[:, None], 2, axis=1)]),
            np.append(edges.outermost, np.zeros(len(points), dtype=bool)),
        )

    def sample(self, box: Box) -> tuple[float, Pose] | None:
        """Return the better top of two: at the best cell, and where the half-planes point.

        Where neither fits, or the second does not hold what it must, one near by may.
        """
        if box.waits:
            return self.placed(self.wood.depths.deepest, box.turn, box.low)
        best = self.placed(box.spot, box.turn, box.middle)
        if box.hint is not None:
            other = self.placed(*box.hint)
            if other is None and (best is None or len(self.wood.held)):
                other = self._brought_in(box)
            if other is not None and (best is None or other[0] > best[0]):
                return other
        return best

    def _brought_in(self, box: Box) -> tuple[float, Pose] | None:
        """Return a top near the half-planes' one that fits and holds what it must, if any is met.

        Looked for the more seldom the longer it is in vain.
        """
        self._wait -= 1
        if self._wait > 0:
            return None
        assert box.hint is not None
        self._vain = self._wait = min(self._vain + 1, _LONGEST_WAIT)
        (x, y), turn, p = box.hint
        top = Pose(float(x), float(y), turn, *self.kind.sizes(p, box.likely_radius))
        trust = FIRST_STEP * top.half_width
        for _ in range(_ROUNDS):
            top = self.moved(top, best_step(self, top, trust)[0])
            if min(top[3:]) <= 0:
                return None
            found = self.fitted(top)
            if found is not None:
                self._vain = self._wait = 0
                return found
        return None

    def split(self, box: Box) -> Iterable[Box]:
        """Return two halves of the box: of its turns, shapes or places, whichever is loosest."""
        if box.waits:  # it is looked into first
            return [box.part(waits=False)]
        # how far, as angles, the spans of turns and of shapes let contacts wander
        kind, radius = self.kind, box.likely_radius
        turn = kind.growth(box.high, box.high, box.half_turn)
        shape = kind.growth(box.low, box.high, 0.0)
        turning = 2 * math.log(turn.factor) + turn.addend / radius
        shaping = 2 * math.log(shape.factor) + (shape.addend + shape.drift / 2) / radius
        placing = kind.lengths(np.diag(patch_of(box).sides), box.middle) / radius
        if max(turning, shaping) < _SMALL and max(placing) > max(turning, shaping):
            return split_places(box, along=bool(placing[0] > placing[1]))
        if turning > shaping:
            half = box.half_turn / 2
            return [box.part(turn=box.turn + side * half, half_turn=half) for side in (-1, 1)]
        return [box.part(high=box.middle), box.part(low=box.middle)]

    def polish(self, score: float, top: Pose) -> tuple[float, Pose]:
        """Return a local best reached from a top; the last one, where the top comes beside that."""
        for first, last in pairwise((FIRST_STEP, ROUGH, CLOSE)):
            best, beside = self._climbed
            far = np.abs(np.subtract(top, beside)) * [1.0, 1.0, top.half_length, 1.0, 1.0]
            if score <= best and far.max() < _BESIDE * top.half_width:
                return self._climbed
            score, top = self.polished(score, top, first=first, last=last)
        self._climbed = score, top
        return self._climbed
