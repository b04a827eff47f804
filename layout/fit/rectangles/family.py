"""Rounded rectangles, and rectangles: turn and sides searched by boxes, each proved from all sides.

A box is cut down from the gaps between the wood's edges (`gap_bound`), along one axis and the
other, until little or nothing is left; the best rectangle found is polished (`local_search`).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ...geometry.distance import greatest_depth
from ...geometry.polygon import Region, convex_hull
from ...panel.sound import SoundWood
from ..found import Fit
from ..goal import turn_spans
from ..points import firm_corners, held_corners
from ..stand import Stand
from ..wish import Goal, Span, Wish
from ..wood.edges import blocks, diameter
from .boxes import Boxes
from .contacts import Inner, WoodEdges
from .gap_bound import Narrowing
from .hull_bound import cut_by_turn
from .local_search import Polisher
from .offset_wood import Ground, Piece, Recipe
from .sampling import Windows, rectangles
from .sizes import ENDLESS, Sizes

if TYPE_CHECKING:
    from ..convex.wood import Wood

_MOST_CUT = 0.55
"""Of its turn: a box that is left with less by turns alone is not halved as well."""
_SEEDS = 4
_SHARE = 0.2
"""Radii are cut in two where they are to blame for this share of what a bound is too high."""
_MARGIN = 0.1
"""Share by which tops may be wider than two corner radii and be slim at first."""
_FIRST_EFFORT = 0.01
"""Share of the effort that capsules are searched with at first."""
_FAR = 1.05
"""How many times what a top must beat a bound is, above which the ground may be a rough one."""
_HOPE, _FIRST_HOPE = 0.97, 0.94
"""A rectangle found is polished from this share of the best score; and one of the few of the first
look, for of two local bests the higher may start lower."""
_NOTEWORTHY = 1e-9
"""A share by which a score must be better to count as better."""
_WORTH_IT = 0.1
"""Share of the gap by which a look must raise the best score to be followed by another at once."""
_TOUCHES = 0.001
"""mm by which a polished rectangle may still miss a point: it touches it."""
LOOKS_A_BOX, _LOOKS_AN_EDGE = 100_000, 5
"""Looks at an edge (`Family.looks`) that a box takes, and how many of each edge: as measured."""
_PATIENCE, _LONGEST_PAUSE = 1.5, 12.0
"""How much seldomer the next look is after one in vain, and how many boxes go by at most."""
_FIRST_TURNS = 24
"""Boxes that a half turn is cut into at first."""
_HALVINGS = 4
"""How often a box is halved in one step: its parts are all looked at in one sweep."""
_MOST_AT_ONCE = 150_000
"""Edges of boxes that are looked at together: each takes up to 2 KB, in many strips."""


@dataclass(frozen=True, slots=True)
class Box:
    """Rectangles of some turns, places and radii, and a score that none of them beats."""

    bound: float
    recipe: Recipe
    boxes: Boxes
    """One row; none where the bound is too close to the best found to be looked into."""
    piece: Piece
    """Of the ground that they lie in."""


@dataclass(frozen=True, slots=True)
class Slim:
    """Tops hardly wider than two of their radii, and a score that none of them beats."""

    bound: float
    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    widest: float
    """How wide at most, mm: more than two of the greatest radii."""
    effort: float
    """Looks at an edge that a search of their capsules may take."""


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
        self.must_hold, self.held = held, held_corners(held)
        # a core as wide as w holds a disk as wide
        most = greatest_depth(wood.outer) + wish.lipping
        self.ground, self.looks = Ground(wood.outer, wish, self.held, 2 * most), 0.0
        self.radii = radii = radii[0], max(radii[0], min(radii[1], most))
        self.wood, self.wish, self.sown = wood, wish, sown
        low, high = (end - math.pi / 2 for end in turn_spans(wish.limits, math.pi)[0])
        self.half_turn = low, high
        """From where to where x must be turned to have every top once, radians."""
        self._best: tuple[float, Fit] | None = None
        edges = WoodEdges.of(wood.inner.edges, firm_corners(held))
        sizes = Sizes.of(wish, radii[0])
        is_free = wish.limits.most_turn >= math.pi / 2
        turns = (-math.inf, math.inf) if is_free else self.half_turn
        self.tops = Polisher(edges, sizes, radii, turns)
        self.radius = radii[0 if wish.goal is Goal.AREA else 1]
        """That other places are looked for with, mm."""
        self.counts = wish.goal is Goal.AREA or len(self.held) > 0
        """Whether of two tops of one size the sharper may be the better one."""
        self.longest = diameter(convex_hull(wood.outer.corners)) + 2 * wish.lipping
        self._visits, self._next_look, self._pause = 0, 0, 1.0

    def first_boxes(self) -> Iterator[Box | Slim]:
        """Return boxes of all tops, after a first look for good ones."""
        sharpest, (low, high) = self.ground.recipe((self.radii[0], self.radii[0])), self.half_turn
        if self.sown and sharpest.pieces:
            edges = sharpest.coarse_edges
            for top in rectangles(Windows.across(low, high, edges), edges, sharpest, _SEEDS):
                self.take(top, _FIRST_HOPE)
        yield from self.parts(math.inf, self.radii, 2 * self.radii[1] * (1 + _MARGIN))

    def parts(
        self, bound: float, radii: tuple[float, float], nearer: float, widest: float = math.inf
    ) -> Iterator[Box | Slim]:
        """Yield tops of some radii: all from `nearer` to `widest`, mm, wide, and slimmer ones.

        Wide ones are searched with the roundest corners alone where the score does not count them.
        Cores with square corners are never slim. No slim one is worth more than `bound`.
        """
        width, is_square = self.wish.limits.width, radii[1] <= self.wish.lipping
        if nearer <= width.greatest and width.least <= widest:
            wide = radii if self.counts else (radii[1], radii[1])
            widths = Span(0.0 if is_square else nearer, widest)
            yield from self._all_turns(self.ground.recipe(wide, widths, rough=self.target > 0))
        if width.least <= nearer and not is_square:
            sizes = self.ground.recipe((radii[0], radii[0]), Span(0.0, nearer)).sizes
            most = float(sizes.most(np.array(self.longest), np.array(nearer)))
            yield Slim(min(bound, most), radii, nearer, _FIRST_EFFORT * self.wish.most_effort)

    def bound(self, box: Box | Slim, enough: float) -> float:
        """Return a score that no top of the box beats."""
        return box.bound

    def sample(self, box: Box | Slim) -> tuple[float, Fit] | None:
        """Return the best top yet; after looks in vain the next are taken more and more seldom."""
        self._visits += 1
        if isinstance(box, Box) and len(box.boxes) and self._visits >= self._next_look:
            before = self.target
            for top in rectangles(Windows.within(box.boxes), box.piece.edges, box.recipe, 1):
                self.take(top)
            worth_it = self.target > before * (1 + _WORTH_IT * self.wish.gap)
            self._pause = 1.0 if worth_it else min(self._pause * _PATIENCE, _LONGEST_PAUSE)
            self._next_look = self._visits + math.floor(self._pause)
        return self._best

    def split(self, box: Box | Slim) -> Iterable[Box | Slim]:
        """Return the parts of a box, each cut down to what can still be better."""
        if isinstance(box, Slim):
            from .slim import cut

            return cut(self, box)
        recipe, target = box.recipe, self.target
        self.looks += LOOKS_A_BOX
        (least, greatest), corners = recipe.radii, recipe.sizes.corner_area
        if corners(greatest) - corners(least) > _SHARE * (box.bound - target):
            middle = (least + greatest) / 2
            halves = ((least, middle), (middle, greatest))
            fewer = (self.ground.recipe(half, recipe.widths, rough=target > 0) for half in halves)
            return [part for other in fewer for part in self._moved(box, other)]
        plain, piece = self.ground.recipe(recipe.radii, recipe.widths), box.piece
        if box.bound <= _FAR * target and plain.pieces is not recipe.pieces:
            return self._moved(box, plain)
        spans = cut_by_turn(box.boxes, piece.sides, recipe.sizes, recipe.inset, target)
        if len(spans) == 1 and spans.half[0] >= _MOST_CUT * box.boxes.half[0]:
            for _ in range(_HALVINGS):
                spans = spans.halved()
        return self._judged(spans, recipe, piece)

    @cached_property
    def seen(self) -> Wood:
        """The wood as capsules see it; their room is loaded when they are asked for."""
        from ..convex.wood import Wood

        return Wood(self.wood, self.must_hold)

    def polish(self, score: float, top: Fit) -> tuple[float, Fit]:
        """Return the top: samples are polished already."""
        return score, top

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        recipe = Ground(self.wood.inner, self.wish, self.held).recipe((self.radius, self.radius))
        if recipe.pieces:
            edges = np.concatenate([piece.edges for piece in recipe.pieces])
            for top in rectangles(Windows.across(*self.half_turn, edges), edges, recipe):
                yield self.stand(self.tops.trimmed(top))

    def like(self, start: Stand) -> Inner:
        """Return the rectangle where a start stands."""
        return self.tops.begun(start, self.radius)

    def stand(self, top: Inner) -> Stand:
        """Return where a top stands."""
        length, width = self.tops.of_size(top) - 2 * self.wish.lipping
        return Stand(self.tops.score(top, hoped=True), top.placement, float(length), float(width))

    def finished(self, top: Inner, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top."""
        return self.tops.finished(self.wood, top, self.must_hold)

    def _all_turns(self, recipe: Recipe) -> Iterator[Box]:
        """Yield boxes of all turns over each piece of the ground."""
        count = max(1, math.ceil(float(np.ptp(self.half_turn)) / math.pi * _FIRST_TURNS))
        for piece in recipe.pieces:
            whole = Boxes.of_turns(*self.half_turn, count, piece.region.corners)
            yield from self._judged(whole, recipe, piece)

    def bound_by_turns(self, radii: tuple[float, float], widest: float) -> float:
        """Return a score that no slim top beats, by what a first look at all turns leaves."""
        recipe = self.ground.recipe(radii, Span(0.0, widest), slim=True)
        return max((box.bound for box in self._all_turns(recipe)), default=0.0)

    def _moved(self, box: Box, other: Recipe) -> list[Box]:
        """Return boxes of the same tops by another recipe; its inset moves the sides.

        Of the pieces that a top lies in by either the one holds the other.
        """
        boxes, own = box.boxes.widened(box.recipe.inset - other.inset), box.piece.region
        pieces = [p for p in other.pieces if p.region.touches_or_crosses(own)]
        return [part for piece in pieces for part in self._judged(boxes, other, piece)]

    def _judged(self, boxes: Boxes, recipe: Recipe, piece: Piece) -> list[Box]:
        """Return what is left of the boxes, and a closed box for what is not of interest."""
        target = self.target
        # what scores no more than the target, or than limits allow, is closed
        ceiling = float(recipe.sizes.most(np.array(ENDLESS), np.array(ENDLESS)))
        closed = Box(min(target, ceiling), recipe, boxes.take(slice(0)), piece)
        parts = [closed] if target > 0 else []
        self.looks += _LOOKS_AN_EDGE * len(boxes) * len(piece.edges)
        narrowing = Narrowing(recipe, piece.edges, target)
        for some in blocks(len(boxes), len(piece.edges), _MOST_AT_ONCE):
            left, bounds = narrowing.judged(boxes.take(some))
            for row in np.flatnonzero(bounds > target).tolist():
                one = left.take(slice(row, row + 1))
                parts.append(Box(float(bounds[row]), recipe, one, piece))
        return parts

    def take(self, top: Inner, hope: float = _HOPE) -> None:
        """Polish a rectangle that may become the best, and keep it where it does and is proved.

        What is asked for is kept to the last trace, unless what a proof may take off it anyhow is
        worth a good share of the gap.
        """
        tops, found = self.tops, self.tops.fitted(top)
        if found is None or tops.score(clear := found[1], hoped=True) < hope * self._least:
            return
        eased = tops.eased()
        for looser, by in ((tops, _NOTEWORTHY), (eased, _WORTH_IT * self.wish.gap)):
            top = looser.polished(clear)
            better = looser.score(top) > self._least * (1 + by) and looser.missed(top) <= _TOUCHES
            fit = self.finished(top, rests=True) if better else None
            if fit is not None and fit.score > self._least:
                self._best = fit.score, fit
            if not tops.pressed(top):
                break
            clear = top

    @property
    def target(self) -> float:
        """The score that a top must beat to matter: the best found, and the gap allowed above."""
        return self._least / (1 - 0.999 * self.wish.gap)

    @property
    def _least(self) -> float:
        """The score in hand: of the best found, or what the wish says a top must beat."""
        return self._best[0] if self._best else self.wish.beats
