"""The maker's own outline at its own size, searched by place and turn.

The clearance of a pose changes by no more than the outline's points move, so every box of poses has
a bound: first by a table for thousands of cells at once, then, box by box, by a linear program on
what is near (`bounds`). A score is the clearance plus a base that no
overstepping exceeds, for the driver wants positive ones.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

import numpy as np

from ...errors import LayoutError
from ...geometry import Placement, Region
from ...geometry.scalar import last_where
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...outlines import Outline
from ...panel.sound import SoundWood
from ...units import Tape
from ..branch_and_bound import search
from ..families import Entry, is_longer_than
from ..found import Fit
from ..goal import broken_limit, turn_spans
from ..local_search import best_step
from ..points import holds_all
from ..stand import Stand
from ..wish import Wish
from ..wood.edges import Array
from .bounds import Cells, bounded, held_in
from .laid import Ground, Laid, Shape

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
_LOOKS_A_BOX, _LOOKS_AN_EDGE, _LOOKS_A_CLIMB = 8_000, 20, 1_500_000
"""Looks at an edge (`Family.looks`) that a box takes, that it takes of each edge, and that a climb
takes: as measured."""
_TURNS, _ALONG = 12, 10
"""Turns that a whole turn is tried at for second opinions, fewer where it looks the same before or
limits hold it; and places along the longer side of the wood."""
_MOST_CROSSED = 0.1
"""Share of the outline's reach by which a rough place may cross an edge: climbing mends that."""
_LEAST = 10.0
"""Percentage of its size down to which an outline that fits nowhere is tried."""

_ground = lru_cache(maxsize=4)(Ground.of)


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the places of the maker's own outline, or the largest of its form."""
    if wish.own is None:
        raise LayoutError("a top of the maker's own outline needs that outline: say its points")
    if wish.lipping:
        raise LayoutError(
            f"a lipping of {wish.lipping:g} mm cannot be put round an outline of the maker's own: "
            "draw the core and leave the lipping out"
        )
    if wish.scaled:
        from ..convex.entry import make as make_scaled

        return make_scaled(wood, wish, shape, held)
    family = OwnPlaces(wood, wish, wish.own, held)
    return Entry(family, family.finished, family, family.base, family.gap, family.enough)


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
        self.wood, self.wish, self.own, self.held = wood, wish, own, held
        self.crossing, self.plenty = crossing, plenty
        self.looks = 0.0
        self.shape = shape = Shape.of(own)
        self.nearest: tuple[float, Array] | None = None
        """The greatest clearance of those polished, mm, and its pose."""
        self.pad = shape.reach if crossing else 0.0
        self.spans = turn_spans(wish.limits, shape.period)
        least = 0.0 if crossing else shape.region.area
        least -= PROOF_ALLOWANCE * shape.region.perimeter
        pieces = [piece for piece in wood.outer.pieces if piece.area >= least]
        self.laid = [Laid(shape, _ground(piece)) for piece in pieces]
        """The outline on each piece of wood that may hold it."""
        points = [np.zeros((0, 2)), *(_standing_for(part) for part in held)]
        turns = () if wish.limits.most_turn >= math.pi / 2 else tuple(self.spans)
        self.tops = Laid(shape, _ground(wood.inner), np.concatenate(points), turns)
        diagonal = math.hypot(wood.outer.bounds.width, wood.outer.bounds.height)
        self.base = 2 * (diagonal + shape.reach + self.pad)
        """What is added to every clearance, mm."""
        self.gap = max(_LEAST_GAP, wish.gap * own.width / 2) / (self.base + diagonal)
        """How far a bound may stay above what is found, as a share of their sum with the base."""
        self.enough = 0.0 if crossing else (self.base - PROOF_ALLOWANCE) * (1 - self.gap)
        """A score below which nothing is of interest: that of a place which all but fits."""

    def first_boxes(self) -> Iterable[Cells]:
        """Return boxes of every place and turn allowed."""
        if broken_limit(self.wish.limits, self.own) and not self.crossing:
            return
        for laid in self.laid:
            yield from (Cells.covering(laid, span, self.pad) for span in self.spans)

    def bound(self, box: Cells, enough: float) -> float:
        """Return a score that no pose in the box beats; cells that cannot beat `enough` go."""
        self.looks += _LOOKS_A_BOX + _LOOKS_AN_EDGE * len(box.laid.ground.edges)
        (self._bound_closely if box.sharp else Cells.bound)(box, enough - self.base)
        box.drop_not_holding(self.tops.held)
        most = float(box.most.max(initial=-self.base)) + self.base
        return min(most if box.sharp else max(enough, most), self.base + self.plenty)

    def _bound_closely(self, box: Cells, enough: float) -> None:
        pose, most = box.middles[0], float(box.most[0])
        most = min(most, box.laid.clear(pose, box.play) + ROUNDING)
        if most > enough:
            held = held_in(box.laid, self.tops.held, pose, box.half)
            most, move = bounded(box.laid, pose, box.half, most, held)
            box.hint = pose + move
        box.most = np.array([most])

    def sample(self, box: Cells) -> tuple[float, Array] | None:
        """Return the score of the pose in the middle of the best cell, or of a better guess."""
        if len(box) == 0:
            return None
        pose = box.middles[0] if box.hint is None else box.hint
        clearance = self.tops.clearance(pose)
        if clearance == -math.inf:
            pose = self.tops.moved(pose, best_step(self.tops, pose, self._slack(box))[0])
            clearance = self.tops.clearance(pose)
        return (clearance + self.base, pose) if clearance > -self.base else None

    def split(self, box: Cells) -> Iterator[Cells]:
        """Return the eighths of the cells, those of the best cells first; or halves of one cell."""
        if box.sharp:
            return box.halves()
        if self._slack(box) < _SHARP * self.shape.reach:
            return box.singles()
        return box.eighths(_PARENTS)

    def _slack(self, box: Cells) -> float:
        """Return how far a cell lets a point of the top move, mm."""
        return box.play.middle + box.play.swing * self.shape.reach

    def polish(self, score: float, top: Array) -> tuple[float, Array]:
        """Return the pose moved to a local best."""
        self.looks += _LOOKS_A_CLIMB
        clearance, pose = self.tops.climbed(top, self.plenty)
        clearance = min(clearance, self.plenty)
        if self.nearest is None or clearance > self.nearest[0]:
            self.nearest = clearance, pose
        fits = self.crossing or clearance > -PROOF_ALLOWANCE
        return (clearance + self.base if fits else 0.0), pose

    def starts(self) -> Iterator[Stand]:
        """Yield places and turns where the outline all but fits, on a grid over the wood."""
        bounds = self.wood.outer.bounds
        step = max(bounds.width, bounds.height) / _ALONG
        xs = np.arange(bounds.left + step / 2, bounds.right, step)
        ys = np.arange(bounds.bottom + step / 2, bounds.top, step)
        for low, high in self.spans:
            turns = np.linspace(low, high, max(1, math.ceil((high - low) / math.tau * _TURNS)) + 1)
            for turn, x, y in np.stack(np.meshgrid(turns, xs, ys, indexing="ij"), -1).reshape(
                -1, 3
            ):
                start = self.stand(np.array([x, y, turn]))
                if start.score >= -_MOST_CROSSED * self.shape.reach:
                    yield start

    def like(self, start: Stand) -> Array:
        """Return the pose where a start stands."""
        turn = start.placement.turn
        return np.array([*(start.placement.centre + self.shape.middle.turned(turn)), turn])

    def stand(self, top: Array) -> Stand:
        """Return where the outline stands."""
        place = self.shape.placement(top)
        return Stand(self.tops.clearance(top), place, self.own.length, self.own.width)

    def finished(self, top: Array, *, rests: bool = True) -> Fit | None:
        """Return the proved fit of a pose."""
        return proved(self.own, self.shape.placement(top), self.wood, self.held)


def _standing_for(part: Region) -> Array:
    """Return points of what must be held, (k, 2): those along its edges, or the one point it is."""
    points = [np.array([[*part.bounds.middle]])] if part.area == 0 else []
    for start, end in part.edges:
        count = max(1, math.ceil(math.dist(start, end) / _HELD_STEP))
        points.append(start + np.arange(count)[:, None] / count * (end - start))
    return np.concatenate(points)


def proved(
    own: Outline, placement: Placement, wood: SoundWood, held: Sequence[Region] = ()
) -> Fit | None:
    """Return the outline in a place, proved inside the wood and round what it holds, or None.

    Exact contact cannot be proved with polygons, and an outline of one size cannot be made smaller.
    So where it touches, the outline drawn in all round by a hair is proved inside, and its
    clearance is called 0.
    """
    if not holds_all(Region.from_rings(placement.of(own.inner(CHORD))), held):
        return None
    whole = Region.from_rings(placement.of(own.outer(CHORD)))
    if wood.inner.holds(whole):
        clearance = wood.inner.edge_distance(whole)
    elif any(wood.inner.holds(whole.shrunk(step, around=True)) for step in _STEPS):
        clearance = 0.0
    else:
        return None
    return Fit(own, own, placement, clearance, None, 0, clearance)


def own_reason(wood: SoundWood, wish: Wish, own: Outline, tape: Tape) -> str:
    """Return why the maker's own outline fits nowhere at its own size, in one line."""
    size = f"the {own.name} of {tape.figure(own.length)} × {tape.measure(own.width)}"
    broken = broken_limit(wish.limits, own)
    if broken:
        return f"{size} {broken}: loosen that limit, or draw it in another size"
    if is_longer_than(wood.outer, own):
        return f"{size} reaches farther than the sound wood at its longest: draw it smaller"
    held = [Region.at(point) for point in wish.covers]
    family = OwnPlaces(wood, wish, own, held, crossing=True)
    found = search(
        family,
        gap=family.gap,
        most_steps=wish.most_steps,
        most_looks=wish.most_effort / 2,  # the search itself took its share
        enough=family.enough,
    )
    least, lack = ((family.base - score) * 10 for score in (found.bound, found.score))
    if found.top is None or least <= 0:
        return f"no place for {size} was found that keeps clear of all that its edge may not cross"
    lacks = tape.exact(math.ceil(lack - 1e-6) / 10, 1)
    words = (
        f"{size} fits nowhere in the sound wood: at the best place it lacks {lacks} {tape.unit}, "
        f"and no place lacks less than {tape.exact(math.floor(least) / 10, 1)} {tape.unit}"
    )
    share = _share_that_fits(own, found.top, wood, family.tops)
    smaller = f"draw it at {share:.0%} of its size, which fits, or " if share else ""
    return f"{words}; {smaller}lower a margin or clearance"


def _share_that_fits(own: Outline, pose: Array, wood: SoundWood, tops: Laid) -> float:
    """Return about the largest percentage at which a copy fits near a pose; 0 where none does."""

    def fits(percent: float) -> bool:
        share = int(percent) / 100
        copy = own.resized(own.length * share, own.width * share)
        laid = Laid(Shape.of(copy), tops.ground, spans=tops.spans)
        return proved(copy, laid.shape.placement(laid.climbed(pose)[1]), wood) is not None

    return int(last_where(fits, _LEAST, 100.0, within=0.5)) / 100 if fits(_LEAST) else 0.0
