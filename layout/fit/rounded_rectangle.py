"""Rounded rectangles, and rectangles: turn and sides searched by boxes, each proved from all sides.

A top with corner radius ρ lies in the wood where its inner rectangle, the line of its corner
centres, lies in the wood shrunk by ρ. So the search is for the best upright rectangle at any turn.
With a lipping t only the core must lie in the wood: its radius is ρ − t, or nothing where the
lipping is thicker, and its inner rectangle lies max(ρ, t) inside the finished top.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from ..geometry.placement import Placement
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ..outlines import Outline, Rectangle, RoundedRectangle
from ..panel.sound import SoundWood
from .found import Fit
from .gaps import Array
from .rectangle_bound import narrowed_along
from .rectangle_near import near_edges
from .rectangle_boxes import Boxes
from .rectangle_contacts import WoodEdges
from .rectangle_polish import Held, Polisher
from .rectangle_sample import Found, Windows, rectangles
from .rectangle_sizes import Sizes
from .wish import Wish

_FIRST_TURNS = 24
_SEED_TURNS = 16
_SEED_LEVELS = 9
_SEEDS = 4
_SEED_EDGES = 120
"""As many edges as a first look takes in; more are simplified, for what it finds is made to fit."""
_HALVINGS = 4
_HOPE = 0.97
"""A rectangle found is polished from this share of the best score; polishing gains a little."""
_NOTEWORTHY = 1e-9
"""A share by which a score must be better to count as better."""
_PATIENCE, _LONGEST_PAUSE = 1.5, 12.0
"""How much seldomer the next look is after one in vain, and how many boxes go by at most."""
_HEIGHTS = (0.5, 0.0, 1.0)
_REDUCTIONS = (
    (0.0, CHORD),
    (ROUNDING, CHORD),
    (CHORD / 10 + ROUNDING, CHORD / 10),
    (PROOF_ALLOWANCE / 2, CHORD),
)
"""By how much the sides are drawn in for a proof, mm, and how far its polygon may stand out."""
_SAGITTA = 0.05
"""mm that the wood shrunk for a bound may keep too much at round corners."""


@dataclass(frozen=True, slots=True)
class Box:
    """Rectangles of some turns and places, and a score that none of them beats.

    Attributes
    ----------
    bound : float
    boxes : Boxes or None
        One row; None where the bound is too close to the best found to be looked into.
    edges : (e, 4) array
        The edges that can matter to them.
    """

    bound: float
    boxes: Boxes | None
    edges: Array


class RoundedRectangles:
    """The family of rounded rectangles of one corner radius on one piece of wood."""

    def __init__(self, wood: SoundWood, wish: Wish, radius: float) -> None:
        self.wood, self.wish, self.radius = wood, wish, radius
        self.sizes = Sizes.of(wish, radius)
        self.turns = _turns(wish)
        self.polisher = Polisher(
            WoodEdges.of(wood.inner.edges), self.sizes, wish.lipping, (radius, radius), self.turns
        )
        self.inset = self.polisher.inset(radius)
        clearance = self.polisher.clearance(radius)
        self.ground = _shrunk(wood.outer, clearance)
        self.edges = self.ground.edges.reshape(-1, 4)
        self._best: tuple[float, Fit] | None = None
        self._visits, self._next_look, self._pause = 0, 0, 1.0

    def first_boxes(self) -> Iterable[Box]:
        """Return boxes of all turns over the whole wood, after a first look for good tops."""
        if len(self.edges) == 0:
            return []
        for seed in self._seeds():
            self._try(seed)
        corners = self.edges[:, :2]
        middle = (corners.max(axis=0) + corners.min(axis=0)) / 2
        reach = float(np.hypot(*(corners - middle).T).max()) + ROUNDING
        low, high = self.turns if math.isfinite(self.turns[0]) else (0.0, math.pi)
        count = max(1, math.ceil((high - low) / math.pi * _FIRST_TURNS))
        half = (high - low) / (2 * count)
        window = np.tile([-reach, reach, -reach, reach], (count, 1))
        turn = low + half * np.arange(1, 2 * count, 2, dtype=np.float64)
        return self._bounded(
            Boxes(turn, np.full(count, half), np.tile(middle, (count, 1)), window, window.copy()),
            self.edges,
        )

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats."""
        return box.bound

    def sample(self, box: Box) -> tuple[float, Fit] | None:
        """Return the best top yet, where a look at the middle of the box finds a better one.

        While looks find nothing better they are taken more and more seldom.
        """
        self._visits += 1
        if box.boxes is not None and len(box.edges) and self._visits >= self._next_look:
            windows = Windows.within(box.boxes)
            found = rectangles(windows, box.edges, self.sizes, self.inset, 1)
            better = [self._try(held) for held in self._held(found)]
            self._pause = 1.0 if any(better) else min(self._pause * _PATIENCE, _LONGEST_PAUSE)
            self._next_look = self._visits + math.floor(self._pause)
        return self._best

    def split(self, box: Box) -> Iterable[Box]:
        """Return the parts of a box, each cut down to what can still be better."""
        if box.boxes is None:
            return []
        parts = box.boxes
        for _ in range(_HALVINGS):
            parts = parts.halved()
        return self._bounded(parts, near_edges(box.boxes, box.edges))

    def polish(self, score: float, top: Fit) -> tuple[float, Fit]:
        """Return the top: samples are polished already."""
        return score, top

    @property
    def _target(self) -> float:
        """What a top must beat to matter: the best found and the gap allowed."""
        return self._best[0] / (1 - 0.999 * self.wish.gap) if self._best else 0.0

    def _bounded(self, boxes: Boxes, edges: Array) -> list[Box]:
        """Return the boxes cut down along both axes, with their bounds."""
        target = self._target
        if len(edges) == 0:
            return []
        wide, high = boxes.x[:, 3] - boxes.x[:, 0], boxes.y[:, 3] - boxes.y[:, 0]
        for height in _HEIGHTS:
            boxes, wide, high = self._fitting(boxes, wide, high, target)
            boxes = boxes.recentred()
            needed = self._needed(wide, high, target)[0]
            across = narrowed_along(boxes, edges, needed, height)
            boxes, high = across.boxes, high[across.parent]
            wide = np.minimum(across.width, wide[across.parent])
            boxes, wide, high = self._fitting(boxes, wide, high, target)
            boxes = boxes.recentred().quarter_turned()
            needed = self._needed(wide, high, target)[1]
            along = narrowed_along(boxes, edges, needed, height)
            boxes, wide = along.boxes.quarter_turned_back(), wide[along.parent]
            high = np.minimum(along.width, high[along.parent])
        boxes, wide, high = self._fitting(boxes, wide, high, target)
        bounds = self.sizes.most(high + 2 * self.inset, wide + 2 * self.inset)
        parts = [
            Box(float(bounds[i]), boxes.take(np.array([i])), edges)
            for i in range(len(boxes))
            if bounds[i] > target
        ]
        if target > 0:
            parts.append(Box(target, None, edges))
        return parts

    def _needed(self, wide: Array, high: Array, target: float) -> tuple[Array, Array]:
        """Return the least width and height of inner rectangles that are of interest."""
        inset = 2 * self.inset
        long, broad = self.sizes.needed(high + inset, wide + inset, target)
        return np.maximum(broad - inset, 0.0), np.maximum(long - inset, 0.0)

    def _fitting(
        self, boxes: Boxes, wide: Array, high: Array, target: float
    ) -> tuple[Boxes, Array, Array]:
        """Return what is left of boxes of rectangles that are at most `wide` and `high`."""
        boxes = boxes.narrowed(*self._needed(wide, high, target))
        rows = boxes.possible()
        return boxes.take(rows), wide[rows], high[rows]

    def _seeds(self) -> list[Held]:
        """Return a few good rectangles from a coarse look at the turns of the edges and others."""
        edges = _coarse(self.ground)
        low, high = self.turns if math.isfinite(self.turns[0]) else (0.0, math.pi)
        even = low + (high - low) * np.arange(_SEED_TURNS) / _SEED_TURNS
        way = edges[:, 2:] - edges[:, :2]
        longest = np.argsort(-np.hypot(way[:, 0], way[:, 1]), kind="stable")[:_SEED_TURNS]
        along = np.arctan2(way[longest, 1], way[longest, 0])
        along = np.concatenate([along, along + math.pi / 2])
        along = low + (along - low) % math.pi
        turns = np.unique(np.concatenate([even, along[along <= high]]).round(12))
        windows = Windows.across(turns, _SEED_LEVELS, edges)
        return self._held(rectangles(windows, edges, self.sizes, self.inset, _SEEDS))

    def _held(self, found: Found) -> list[Held]:
        """Return the rectangles found, each with its length along y where its turn is free."""
        held = []
        for turn, pivot, sides in zip(
            found.frames.turn, found.frames.pivot, found.sides, strict=True
        ):
            lies = sides[1] - sides[0] > sides[3] - sides[2] and math.isinf(self.turns[0])
            if lies:
                turn, sides = turn + math.pi / 2, np.array([*sides[2:], -sides[1], -sides[0]])
            held.append(Held(float(turn), pivot, sides, self.radius))
        return held

    def _try(self, held: Held) -> bool:
        """Polish a rectangle that may become the best, and keep it where it does."""
        clear = self.polisher.fitted(held)
        if clear is None:
            return False
        least = self._best[0] if self._best else -math.inf
        if self.polisher.promise(clear) < _HOPE * least:
            return False
        polished = self.polisher.polished(clear)
        if self.polisher.score(polished) <= least * (1 + _NOTEWORTHY):
            return False
        fit = finished(self.wood, self.polisher, self.polisher.straightened(polished))
        if fit is None or fit.score <= least:
            return False
        self._best = fit.score, fit
        return True


def _turns(wish: Wish) -> tuple[float, float]:
    """Return the least and greatest turn of the short axis; infinite where any will do."""
    limits = wish.limits
    if limits.most_turn >= math.pi / 2:
        return -math.inf, math.inf
    middle = limits.grain - math.pi / 2
    return middle - limits.most_turn, middle + limits.most_turn


def _shrunk(region: Region, by: float) -> Region:
    """Return a region that holds all points `by` inside, with few edges at its round corners."""
    by = max(by - 10 * ROUNDING, 0.0)
    step = math.acos(max(1 - _SAGITTA / by, 0.0)) if by > 0 else 1.0
    return region.shrunk(by, around=True, segments=math.ceil(math.pi / 4 / step))


def _coarse(region: Region) -> Array:
    """Return the edges of a region, (e, 4), with details left out where it has very many."""
    bounds = region.bounds
    tolerance = 1e-4 * math.hypot(bounds.width, bounds.height)
    edges = region.edges
    while len(edges) > _SEED_EDGES:
        tolerance *= 2
        simpler = region.simplified(tolerance).edges
        if len(simpler) == 0:
            break
        edges = simpler
    return edges.reshape(-1, 4)


def finished(wood: SoundWood, polisher: Polisher, held: Held) -> Fit | None:
    """Return the top trimmed to the limits and proved inside the wood; None if it is too small.

    Its core's outer polygon is held against the inner polygon of the wood. A core that touches is
    made smaller by the little that its polygon stands out at round corners.
    """
    held = polisher.trimmed(held)
    score = polisher.score(held)
    if score == -math.inf:
        return None
    long_axis = -math.remainder(-held.turn - math.pi / 2, math.pi)
    if long_axis == -math.pi / 2:
        long_axis = math.pi / 2
    placement = Placement(Point(*(float(v) for v in held.centre)), long_axis)
    for reduced, stand_out in _REDUCTIONS:
        smaller = held.drawn_in(reduced)
        length, width = polisher.length(smaller), polisher.width(smaller)
        t = polisher.lipping
        core = _outline(length - 2 * t, width - 2 * t, polisher.clearance(held.radius))
        outer = Region.from_rings(placement.of(core.outer(stand_out)))
        if wood.inner.holds(outer):
            outline = _outline(length, width, held.radius)
            return Fit(outline, core, placement, polisher.score(smaller), None, 0)
    return None


def _outline(length: float, width: float, radius: float) -> Outline:
    width = min(width, length)
    if radius == 0:
        return Rectangle(length, width)
    return RoundedRectangle.with_radius(length, width, min(radius, width / 2))


def rounded_rectangle_family(wood: SoundWood, wish: Wish) -> RoundedRectangles:
    """Return the family of rounded rectangles on the sound wood, within the limits of the wish."""
    return RoundedRectangles(wood, wish, wish.limits.corner_radius.least)


def rectangle_family(wood: SoundWood, wish: Wish) -> RoundedRectangles:
    """Return the family of rectangles with square corners."""
    return RoundedRectangles(wood, wish, 0.0)
