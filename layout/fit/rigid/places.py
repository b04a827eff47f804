"""The maker's own outline at its own size, searched by place and turn.

The unknowns are where the middle of the outline lies and how it is turned. The clearance of a pose
is the least, over the points of the outline, of the point's depth in the wood less its depth in the
outline. Where the outline fits that is the distance from its edge to where the wood ends; where it
does not, it is negative and tells how far the outline oversteps. It changes by no more than the
outline's points move, so every box of poses has a bound: first by a table for thousands of cells
at once (`pose_cells`), then, box by box, by a linear program on what is near (`relaxation`).

The search driver wants positive scores and a share for a gap. So a score is the clearance plus a
base that no overstepping exceeds, and the gap is absolute: what the wish's share is of half the
outline's width, but no less than 0.05 mm.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from ...geometry import Placement, Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ...panel.sound import SoundWood
from ..found import Fit
from ..goal import broken_limit, turn_spans
from ..points import holds_all
from ..wish import Wish
from ..wood.edges import Array
from .ground import Ground
from .local_search import Climber
from .outline import Shape
from .pose_cells import Cells
from .relaxation import bounded, held_in, plain_bound, swing, ways

_LEAST_GAP = 0.05
"""mm: half a division of a good rule."""

_PARENTS = 64
"""Cells that are cut and bounded at once."""

_SHARP = 0.12
"""Slack of a cell, as a share of the outline's reach, below which it is worth a linear program."""

_HELD_STEP = 20.0
"""mm between the points that stand for the edge of what must be held."""


_STEPS = (ROUNDING, CHORD + ROUNDING, PROOF_ALLOWANCE)
"""How far the outline is drawn in, mm, tried in turn."""


@dataclass(slots=True)
class Box:
    """Poses on one piece of wood: cells of one size, or a single one that has been looked into."""

    ground: Ground
    cells: Cells
    sharp: bool = False
    """Whether it is a single cell, bounded by a linear program."""
    hint: Array | None = None
    """(3,) array or None: a pose that may be good."""


_LOOKS_A_BOX, _LOOKS_AN_EDGE, _LOOKS_A_CLIMB = 8_000, 20, 1_500_000
"""Looks at an edge (`Family.looks`) that a box takes, that it takes of each edge, and that a climb
takes: as measured."""


class OwnPlaces:
    """A family for the search: one outline on one sound wood, at any place and turn allowed."""

    def __init__(
        self,
        wood: SoundWood,
        wish: Wish,
        own: Outline,
        held: Sequence[Region] = (),
        *,
        crossing: bool = False,
        plenty: float = math.inf,
    ) -> None:
        """Make the family; with `crossing` places count too where the outline does not fit.

        A clearance of more than `plenty`, mm, counts as that.
        """
        self.own = own
        self.looks = 0.0
        self.shape = Shape.of(own)
        self.crossing = crossing
        self.plenty = plenty
        self.nearest: tuple[float, Array] | None = None
        """The greatest clearance of those polished, mm, and its pose."""
        self.pad = self.shape.reach if crossing else 0.0
        self.wood, self.wish = wood, wish
        self.spans = turn_spans(wish.limits, self.shape.period)
        least = 0.0 if crossing else self.shape.region.area
        least -= PROOF_ALLOWANCE * self.shape.region.perimeter
        self.grounds = [_ground(piece) for piece in wood.outer.pieces if piece.area >= least]
        """The pieces of wood that may hold the outline."""
        points = [point for part in held for point in _standing_for(part)]
        turns = () if wish.limits.most_turn >= math.pi / 2 else tuple(self.spans)
        to_hold = np.concatenate([np.zeros((0, 2)), *points])
        self.climber = Climber(self.shape, _ground(wood.inner), to_hold, turns)
        diagonal = math.hypot(wood.outer.bounds.width, wood.outer.bounds.height)
        self.base = 2 * (diagonal + self.shape.reach + self.pad)
        """What is added to every clearance, mm."""
        self.gap = max(_LEAST_GAP, wish.gap * own.width / 2) / (self.base + diagonal)
        """How far a bound may stay above what is found, as a share of their sum with the base."""
        self.enough = 0.0 if crossing else (self.base - PROOF_ALLOWANCE) * (1 - self.gap)
        """A score below which nothing is of interest: that of a place which all but fits."""

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes of every place and turn allowed."""
        if broken_limit(self.wish.limits, self.own) and not self.crossing:
            return
        for ground in self.grounds:
            for span in self.spans:
                yield Box(ground, Cells.covering(ground, span, self.shape.reach, self.pad))

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no pose in the box beats; cells that cannot beat `enough` go."""
        self.looks += _LOOKS_A_BOX + _LOOKS_AN_EDGE * len(box.ground.edges)
        return min(self._bound(box, enough), self.base + self.plenty)

    def _bound(self, box: Box, enough: float) -> float:
        if box.sharp:
            return self._sharp_bound(box, enough - self.base)
        box.cells.bound(self.shape, box.ground, enough - self.base)
        self._drop_not_holding(box)
        return max(enough, float(box.cells.most.max(initial=-self.base)) + self.base)

    def sample(self, box: Box) -> tuple[float, Array] | None:
        """Return the score of the pose in the middle of the best cell, or of a better guess."""
        if len(box.cells) == 0:
            return None
        pose = box.cells.middles[0] if box.hint is None else box.hint
        clearance = self.climber.clearance(pose)
        if clearance == -math.inf:
            pose = self.climber.holding(pose, box.cells.slack(self.shape.reach))
            clearance = self.climber.clearance(pose)
        return (clearance + self.base, pose) if clearance > -self.base else None

    def split(self, box: Box) -> Iterator[Box]:
        """Return the eighths of the cells, those of the best cells first; or halves of one cell."""
        cells = box.cells
        if box.sharp:
            yield from (Box(box.ground, part, sharp=True) for part in self._halves(cells))
        elif cells.slack(self.shape.reach) < _SHARP * self.shape.reach:
            for i in range(len(cells)):
                one = Cells(cells.middles[i : i + 1], cells.half, cells.most[i : i + 1])
                yield Box(box.ground, one, sharp=True)
        else:
            for start in range(0, len(cells), _PARENTS):
                yield Box(box.ground, cells.parts(start, start + _PARENTS))

    def polish(self, score: float, top: Array) -> tuple[float, Array]:
        """Return the pose moved to a local best."""
        self.looks += _LOOKS_A_CLIMB
        best = self.climber.climbed(score - self.base, top, self.plenty)
        best = (min(best[0], self.plenty), best[1])
        if self.nearest is None or best[0] > self.nearest[0]:
            self.nearest = best
        fits = self.crossing or best[0] > -PROOF_ALLOWANCE
        return (best[0] + self.base if fits else 0.0), best[1]

    def _sharp_bound(self, box: Box, enough: float) -> float:
        cells, ground = box.cells, box.ground
        pose = cells.middles[0]
        plain = plain_bound(self.shape, ground, pose, cells.half, ground.corners)
        most = min(float(cells.most[0]), plain)
        if most <= enough:
            return most + self.base
        rows = ways(self.shape, ground, pose, cells.half, ground.corners)
        held = held_in(self.shape, self.climber.held, pose, cells.half)
        limit = bounded(self.shape, rows, cells.half, most, held)
        cells.most = np.array([limit.most])
        box.hint = pose + limit.move
        self._drop_not_holding(box)
        return float(cells.most.max(initial=-self.base)) + self.base

    def _halves(self, cells: Cells) -> Iterator[Cells]:
        """Return the cell cut in two across the side that moves the outline most."""
        moves = cells.half * np.array([1.0, 1.0, self.shape.reach])
        axis = int(moves.argmax())
        half = cells.half.copy()
        half[axis] /= 2
        for sign in (-1.0, 1.0):
            middle = cells.middles.copy()
            middle[0, axis] += sign * half[axis]
            yield Cells(middle, half, cells.most)

    def _drop_not_holding(self, box: Box) -> None:
        """Drop the cells in which no pose holds what must be held."""
        held, cells = self.climber.held, box.cells
        if len(held) == 0:
            return
        move = math.hypot(cells.half[0], cells.half[1])
        away = held[None] - cells.middles[:, None, :2]
        cos, sin = np.cos(cells.middles[:, 2:]), np.sin(cells.middles[:, 2:])
        own = np.stack(
            [cos * away[..., 0] + sin * away[..., 1], cos * away[..., 1] - sin * away[..., 0]], -1
        )
        inside = self.shape.inside(own.reshape(-1, 2)).reshape(away.shape[:2])
        most = inside + np.hypot(away[..., 0], away[..., 1]) * swing(cells.half[2]) + move
        keep = most.min(axis=1) >= -PROOF_ALLOWANCE
        cells.middles, cells.most = cells.middles[keep], cells.most[keep]


_ground = lru_cache(maxsize=4)(Ground.of)


def _standing_for(part: Region) -> Iterator[Array]:
    """Yield points of what must be held, (k, 2): those along its edges, or the one point it is."""
    if part.area == 0:
        yield np.array([[*part.bounds.middle]])
    for start, end in part.edges:
        count = max(1, math.ceil(math.hypot(*(end - start)) / _HELD_STEP))
        yield start + np.arange(count)[:, None] / count * (end - start)


def proved(
    own: Outline, placement: Placement, wood: SoundWood, held: Sequence[Region] = ()
) -> Fit | None:
    """Return the outline in a place, proved inside the wood and round what it holds, or None.

    Exact contact cannot be proved with polygons, and an outline of one size cannot be made smaller.
    So where it touches, the outline drawn in all round by a hair is proved inside, and its
    clearance is called 0.
    """
    whole = Region.from_rings(placement.of(own.outer(CHORD)))
    within = Region.from_rings(placement.of(own.inner(CHORD)))
    if not holds_all(within, held):
        return None
    if wood.inner.holds(whole):
        clearance = wood.inner.edge_distance(whole)
    elif any(wood.inner.holds(whole.shrunk(step, around=True)) for step in _STEPS):
        clearance = 0.0
    else:
        return None
    return Fit(own, own, placement, clearance, None, 0, clearance)
