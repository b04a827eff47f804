"""Rounded rectangles, and rectangles: turn and sides searched by boxes, each proved from all sides.

A box holds the tops of some turns, some places of their sides and some corner radii. It is cut down
from the gaps between the wood's edges (`gap_bound`), first along one axis, then along the
other, until what is left is bounded closely or nothing is; the best rectangle found on the way is
polished to its contacts (`local_search`). What a top must beat is the best one found and the
gap that is allowed above it; boxes that cannot are not looked into again.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.distance import greatest_depth
from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..found import Fit
from ..goal import turn_spans
from ..points import firm_corners, held_corners
from ..wish import Goal, Wish
from ..wood.edges import blocks
from .boxes import Boxes
from .contacts import WoodEdges
from .gaps import Array
from .holding import NOTHING, Points
from .hull_bound import cut_by_turn, relaxed_bound
from .inner import Inner
from .local_search import Polisher
from .narrowing import Narrowing, Sized
from .offset_wood import Piece, Recipe
from .sampling import Windows, rectangles
from .sizes import Sizes

_FIRST_TURNS = 24
"""Boxes that a half turn is cut into at first."""
_HALVINGS = 4
"""How often a box is halved in one step: its parts are all looked at in one sweep."""
_MOST_CUT = 0.55
"""Of its turn: a box that is left with less by turns alone is not halved as well."""
_SEEDS = 4
_ROUGH = 1e-3
"""Of the diagonal: what the first look leaves out, for what is found is made to fit anyhow."""
_SHARE = 0.2
"""Radii are cut in two where they are to blame for this share of what a bound is too high."""
_HOPE = 0.97
"""A rectangle found is polished from this share of the best score; polishing gains a little."""
_FIRST_HOPE = 0.94
"""The same for the few of the first look: of two local bests the higher may start lower."""
_NOTEWORTHY = 1e-9
"""A share by which a score must be better to count as better."""
_WORTH_IT = 0.1
"""Share of the gap by which a look must raise the best score to be followed by another at once."""
_TOUCHES = 0.001
"""mm by which a polished rectangle may still miss a point: it touches it."""
_LOOKS_A_BOX, _LOOKS_AN_EDGE = 100_000, 5
"""Looks at an edge (`Family.looks`) that a box takes, and that each part of it takes of each
edge: as measured."""
_MOST_AT_ONCE = 150_000
"""Edges of boxes that are looked at together: each takes up to 2 KB, in many strips."""
_PATIENCE, _LONGEST_PAUSE = 1.5, 12.0
"""How much seldomer the next look is after one in vain, and how many boxes go by at most."""


@dataclass(frozen=True, slots=True)
class Box:
    """Rectangles of some turns, places and radii, and a score that none of them beats."""

    bound: float
    recipe: Recipe
    boxes: Boxes | None
    """One row; None where the bound is too close to the best found to be looked into."""
    piece: Piece
    """Of the ground that they lie in."""


class RoundedRectangles:
    """The family of rounded rectangles of a span of corner radii on one piece of wood."""

    def __init__(
        self,
        wood: SoundWood,
        wish: Wish,
        radii: tuple[float, float],
        held: Sequence[Region] = (),
        *,
        sown: bool = True,
    ) -> None:
        """Make the family, `sown` with a first look for good ones."""
        self.wood, self.wish, self.radii, self.sown = wood, wish, radii, sown
        self.parts, self.held = held, held_corners(held)
        low, high = turn_spans(wish.limits, math.pi)[0]
        self.half_turn = low - math.pi / 2, high - math.pi / 2
        """From where to where x must be turned to have every top once, radians."""
        self.is_free = wish.limits.most_turn >= math.pi / 2
        edges = WoodEdges.of(wood.inner.edges, firm_corners(held))
        sizes = Sizes.of(wish, radii[0])
        turns = (-math.inf, math.inf) if self.is_free else self.half_turn
        self.polisher = Polisher(edges, sizes, wish.lipping, radii, turns)
        # a core as wide as w holds a disk as wide
        self.widest = 2 * (greatest_depth(wood.outer) + wish.lipping)
        self._recipes: dict[tuple[float, float, bool, float], Recipe] = {}
        self._best: tuple[float, Fit] | None = None
        self.looks = 0.0
        self._visits, self._next_look, self._pause = 0, 0, 1.0

    def first_boxes(self) -> Iterator[Box]:
        """Return boxes of all tops, after a first look for good ones."""
        sharpest = self._recipe(self.radii[0], self.radii[0])
        if self.sown and sharpest.pieces:
            self._sow(sharpest)
        yield from self._every_top()

    def _every_top(self) -> Iterator[Box]:
        """Yield boxes of all tops.

        Where the score does not count the corners, of two tops of one size the rounder lies in the
        other; so tops wide enough for the greatest radius need be searched with that one alone,
        unless they must hold what only the sharper one may.
        """
        counts = self.wish.goal is Goal.AREA or len(self.held) > 0
        least = self.radii[0 if counts else 1]
        yield from self._all_turns(self._recipe(least, self.radii[1]))
        if self.wish.limits.width.least < 2 * self.radii[1] and self.radii[0] < self.radii[1]:
            yield from self._all_turns(self._recipe(*self.radii, narrow=True))

    def _all_turns(self, recipe: Recipe) -> Iterator[Box]:
        """Yield boxes of all turns over each piece of the ground."""
        low, high = self.half_turn
        count = max(1, math.ceil((high - low) / math.pi * _FIRST_TURNS))
        for piece in recipe.pieces:
            whole = Boxes.of_turns(low, high, count, piece.region.corners)
            most = whole.x[0, 3] - whole.x[0, 0] + 2 * recipe.inset
            if recipe.sizes.most(most, most) > self._target:
                suited = self._suited(recipe, whole)
                yield from self._moved(Box(math.inf, recipe, whole, piece), suited)
            else:
                yield self._closed(recipe, piece)

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats."""
        return box.bound

    def sample(self, box: Box) -> tuple[float, Fit] | None:
        """Return the best top yet, where a look at the middle of the box finds a better one.

        While looks find nothing better they are taken more and more seldom.
        """
        self._visits += 1
        if box.boxes is not None and self._visits >= self._next_look:
            before = self._target
            for top in self.found(Windows.within(box.boxes), box.piece.edges, box.recipe, 1):
                self._try(top)
            worth_it = self._target > before * (1 + _WORTH_IT * self.wish.gap)
            self._pause = 1.0 if worth_it else min(self._pause * _PATIENCE, _LONGEST_PAUSE)
            self._next_look = self._visits + math.floor(self._pause)
        return self._best

    def split(self, box: Box) -> Iterable[Box]:
        """Return the parts of a box, each cut down to what can still be better."""
        if box.boxes is None:
            return []
        recipe, target = box.recipe, self._target
        self.looks += _LOOKS_A_BOX
        if recipe.looseness > _SHARE * (box.bound - target):
            least, greatest = recipe.radii
            middle = (least + greatest) / 2
            halves = ((least, middle), (middle, greatest))
            fewer = [self._recipe(*half, narrow=recipe.narrow) for half in halves]
            return [b for other in fewer for b in self._moved(box, other)]
        suited = self._suited(recipe, box.boxes)
        if suited.growth != recipe.growth:
            return self._moved(box, suited)
        plain = self._recipe(*recipe.radii, narrow=recipe.narrow)
        piece, own = box.piece, plain.at(box.piece)
        bare, whole = (plain, own[0]) if len(own) == 1 else (recipe, piece)
        parts = cut_by_turn(box.boxes, whole.sides, bare.sizes, bare.inset, target)
        if len(parts) == 1 and parts.half[0] >= _MOST_CUT * box.boxes.half[0]:
            if relaxed_bound(parts, piece.sides, recipe.sizes, recipe.inset) <= target:
                return [self._closed(recipe, piece)]
            for _ in range(_HALVINGS):
                parts = parts.halved()
        return self._judged(parts, recipe, piece)

    def _suited(self, recipe: Recipe, boxes: Boxes) -> Recipe:
        """Return the recipe that shrinks the wood as much as a box, the first one, sees gaps by."""
        narrowing = Narrowing(np.zeros((0, 4)), recipe.sizes, recipe.inset, self._target)
        wide, high = (float(v[0]) for v in narrowing.needed(Sized.by_windows(boxes)))
        wide += 2 * (recipe.inset - self._recipe(*recipe.radii, narrow=recipe.narrow).inset)
        high = max(high, float(boxes.y[0, 2] - boxes.y[0, 1]))
        growth = recipe.suited_growth(high / 2, float(boxes.half[0]), wide)
        return self._recipe(*recipe.radii, narrow=recipe.narrow, growth=growth)

    def _moved(self, box: Box, other: Recipe) -> list[Box]:
        """Return boxes of the same tops by another recipe; its inset moves the sides."""
        assert box.boxes is not None
        moved = box.recipe.inset - other.inset
        boxes = box.boxes.widened(moved, moved)
        return [b for piece in other.at(box.piece) for b in self._judged(boxes, other, piece)]

    def polish(self, score: float, top: Fit) -> tuple[float, Fit]:
        """Return the top: samples are polished already."""
        return score, top

    def _judged(self, boxes: Boxes, recipe: Recipe, piece: Piece) -> list[Box]:
        """Return what is left of the boxes, and a closed box for what is not of interest."""
        target = self._target
        parts = [self._closed(recipe, piece)] if target > 0 else []
        edges, about = piece.edges, (recipe.sizes, recipe.inset, target)
        self.looks += _LOOKS_AN_EDGE * len(boxes) * len(edges)
        narrowing = Narrowing(edges, *about, self._must(recipe), recipe.left)
        every = np.arange(len(boxes))
        for some in blocks(len(boxes), len(edges), _MOST_AT_ONCE):
            left, bounds = narrowing.judged(boxes.take(every[some]))
            for row in np.flatnonzero(bounds > target):
                parts.append(Box(float(bounds[row]), recipe, left.take(np.array([row])), piece))
        return parts

    def _closed(self, recipe: Recipe, piece: Piece) -> Box:
        """Return a box for tops that are no better than the target, nor than limits allow."""
        return Box(min(self._target, recipe.sizes.ceiling), recipe, None, piece)

    @property
    def _target(self) -> float:
        """The score that a top must beat to matter: the best found, and the gap allowed above."""
        return self._least / (1 - 0.999 * self.wish.gap)

    @property
    def _least(self) -> float:
        """The score in hand: of the best found, or what the wish says a top must beat."""
        return self._best[0] if self._best else self.wish.beats

    def _recipe(
        self, least: float, greatest: float, *, narrow: bool = False, growth: float = 0.0
    ) -> Recipe:
        key = (least, greatest, narrow, growth)
        if key not in self._recipes:
            made = Recipe.of(self.wood.outer, self.wish, key[:2], narrow=narrow, growth=growth)
            self._recipes[key] = replace(made, sizes=replace(made.sizes, widest=self.widest))
        return self._recipes[key]

    def _must(self, recipe: Recipe) -> Points:
        """Return what the rectangles of a recipe must hold, with the sharpest of its corners."""
        if len(self.held) == 0:
            return NOTHING
        radius, lipping = recipe.radii[0], self.wish.lipping
        return Points(self.held, recipe.inset - max(radius, lipping), max(radius - lipping, 0.0))

    def _sow(self, recipe: Recipe) -> None:
        """Try the best rectangles of a coarse look.

        And where no strip is seen, tops two corner radii long and wide, least, middling and
        greatest turned, well within the largest piece of the ground.
        """
        edges, (low, high) = _coarse(recipe.ground), self.half_turn
        for top in self.found(Windows.across(low, high, edges), edges, recipe, _SEEDS):
            self._try(top, _FIRST_HOPE)
        if self._best is None and recipe.radii[1] > 0:
            place = np.array([*recipe.ground.pieces[0].inner_point])
            for turn in (low, (low + high) / 2, high):  # each grows, and none tells how far
                self._try(Inner(turn, place, np.zeros(2), recipe.radii[1]), hope=0.0)

    def found(
        self, windows: Windows, edges: Array, recipe: Recipe, most: int | None = None
    ) -> list[Inner]:
        """Return rectangles in gaps, each with its length along y where its turn is free."""
        must, radius = self._must(recipe), recipe.radii[0 if recipe.narrow else 1]
        tops = rectangles(windows, edges, recipe.sizes, recipe.inset, must, most)
        tops = [replace(top, radius=radius) for top in tops]
        return [top.upright() for top in tops] if self.is_free else tops

    def _try(self, top: Inner, hope: float = _HOPE) -> None:
        """Polish a rectangle that may become the best, and keep it where it does and is proved.

        What is asked for is kept to the last trace, unless what a proof may take off it anyhow is
        worth a good share of the gap.
        """
        polisher, found = self.polisher, self.polisher.fitted(top)
        if found is None or polisher.promise(clear := found[1]) < hope * self._least:
            return
        eased = replace(polisher, sizes=polisher.sizes.eased())
        for looser, by in ((polisher, _NOTEWORTHY), (eased, _WORTH_IT * self.wish.gap)):
            top = looser.polished(clear)
            better = looser.score(top) > self._least * (1 + by) and looser.missed(top) <= _TOUCHES
            fit = polisher.finished(self.wood, top, self.parts) if better else None
            if fit is not None and fit.score > self._least:
                self._best = fit.score, fit
            if not polisher.pressed(top):
                break
            clear = top


def _coarse(region: Region) -> Array:
    """Return the edges of a region, (e, 4), with details left out."""
    bounds = region.bounds
    simpler = region.simplified(_ROUGH * math.hypot(bounds.width, bounds.height)).edges
    return (simpler if len(simpler) else region.edges).reshape(-1, 4)
