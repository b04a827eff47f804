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
_HALVINGS = 3
_HEIGHTS = (0.5, 0.0, 1.0)
_STAND_OUT = CHORD / 10
"""mm that the polygon of a proof may stand out at round corners."""
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
    """

    bound: float
    boxes: Boxes | None


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
        self.edges = _shrunk(wood.outer, clearance).edges.reshape(-1, 4)
        self._best: tuple[float, Fit] | None = None
        self._offered = False

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
            Boxes(turn, np.full(count, half), np.tile(middle, (count, 1)), window, window.copy())
        )

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats."""
        return box.bound

    def sample(self, box: Box) -> tuple[float, Fit] | None:
        """Return the best top yet, where a look at the middle of the box finds a better one."""
        if box.boxes is not None:
            windows = Windows.within(box.boxes)
            if len(windows.bottom):
                found = rectangles(windows, self.edges, self.sizes, self.inset, 1)
                for held in self._held(found):
                    self._try(held)
        return self._best

    def split(self, box: Box) -> Iterable[Box]:
        """Return the parts of a box, each cut down to what can still be better."""
        if box.boxes is None:
            return []
        parts = box.boxes
        for _ in range(_HALVINGS):
            parts = parts.halved()
        return self._bounded(parts)

    def polish(self, score: float, top: Fit) -> tuple[float, Fit]:
        """Return the top: samples are polished already."""
        return score, top

    @property
    def _target(self) -> float:
        """What a top must beat to matter: the best found and the gap allowed."""
        return self._best[0] / (1 - 0.999 * self.wish.gap) if self._best else 0.0

    def _bounded(self, boxes: Boxes) -> list[Box]:
        """Return the boxes cut down along both axes, with their bounds."""
        target = self._target
        wide, high = boxes.x[:, 3] - boxes.x[:, 0], boxes.y[:, 3] - boxes.y[:, 0]
        for height in _HEIGHTS:
            boxes, wide, high = self._fitting(boxes, wide, high, target)
            boxes = boxes.recentred()
            needed = self._needed(wide, high, target)[0]
            across = narrowed_along(boxes, self.edges, needed, height)
            boxes, high = across.boxes, high[across.parent]
            wide = np.minimum(across.width, wide[across.parent])
        for height in _HEIGHTS:
            boxes, wide, high = self._fitting(boxes, wide, high, target)
            boxes = boxes.recentred().quarter_turned()
            needed = self._needed(wide, high, target)[1]
            along = narrowed_along(boxes, self.edges, needed, height)
            boxes, wide = along.boxes.quarter_turned_back(), wide[along.parent]
            high = np.minimum(along.width, high[along.parent])
        boxes, wide, high = self._fitting(boxes, wide, high, target)
        bounds = self.sizes.most(high + 2 * self.inset, wide + 2 * self.inset)
        parts = [
            Box(float(bounds[i]), boxes.take(np.array([i])))
            for i in range(len(boxes))
            if bounds[i] > target
        ]
        if target > 0:
            parts.append(Box(target, None))
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
        low, high = self.turns if math.isfinite(self.turns[0]) else (0.0, math.pi)
        even = low + (high - low) * np.arange(_SEED_TURNS) / _SEED_TURNS
        way = self.edges[:, 2:] - self.edges[:, :2]
        longest = np.argsort(-np.hypot(way[:, 0], way[:, 1]), kind="stable")[:_SEED_TURNS]
        along = np.arctan2(way[longest, 1], way[longest, 0])
        along = np.concatenate([along, along + math.pi / 2])
        along = low + (along - low) % math.pi
        turns = np.unique(np.concatenate([even, along[along <= high]]).round(12))
        windows = Windows.across(turns, _SEED_LEVELS, self.edges)
        return self._held(rectangles(windows, self.edges, self.sizes, self.inset, _SEEDS))

    def _held(self, found: Found) -> list[Held]:
        return [
            Held(float(found.frames.turn[i]), found.frames.pivot[i], found.sides[i], self.radius)
            for i in range(len(found.score))
        ]

    def _try(self, held: Held) -> None:
        """Polish a rectangle that may be better than the best, and keep it where it is."""
        clear = self.polisher.fitted(held)
        if clear is None:
            return
        if self._best is not None and self.polisher.score(clear) <= self._best[0]:
            return
        fit = finished(self.wood, self.polisher, self.polisher.polished(clear))
        if fit is not None and (self._best is None or fit.score > self._best[0]):
            self._best = fit.score, fit


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


def finished(wood: SoundWood, polisher: Polisher, held: Held) -> Fit | None:
    """Return the top trimmed to the limits and proved inside the wood; None if it is too small.

    Its core's outer polygon is held against the inner polygon of the wood. A core that touches is
    made smaller by the little that its polygon stands out at round corners.
    """
    held = polisher.trimmed(held)
    score = polisher.score(held)
    if score == -math.inf:
        return None
    long_axis = math.remainder(held.turn + math.pi / 2, math.pi)
    placement = Placement(Point(*(float(v) for v in held.centre)), long_axis)
    for reduced in (0.0, ROUNDING, _STAND_OUT + ROUNDING, PROOF_ALLOWANCE / 2):
        smaller = held.drawn_in(reduced)
        length, width = polisher.length(smaller), polisher.width(smaller)
        t = polisher.lipping
        core = _outline(length - 2 * t, width - 2 * t, polisher.clearance(held.radius))
        outer = Region.from_rings(placement.of(core.outer(_STAND_OUT)))
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
