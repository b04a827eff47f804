"""Pieces as found with half-round ends: boxes over both cuts and the height of the ripped side.

Its parts are each greatest where the box lets it reach farthest: that is the bound. A box holds
nothing where the straight part that all its pieces share is blocked, or where no end of the stretch
fits (`end_disks`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

import numpy as np

from ...errors import LayoutError
from ...geometry.polygon import Region
from ...geometry.scalar import last_where
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...panel.sound import SoundWood
from ..families import Entry
from ..wish import Ends as Cut
from ..wish import Goal, Span, Wish
from .band import Stretch
from .end_disks import Ends, part_of, sides_of
from .piece import LOOKS_A_BOX, BandPieces, Cuts
from .square_ends import SquarePieces

_SLACK = 4 * ROUNDING
_SHARE, _FINER, _FINEST = 1 / 16, 2.5, 1e-4
"""The first step as a share of the band, how much finer each is than the one before, and the step,
mm, that it ends with."""
_MOVES = ((0, 0), (1, 1), (-1, -1), (1, 0), (0, -1))
"""How both ends are moved at once, in steps: not at all, along, and in."""
_FINELY = 1e-3
"""Of a step: how near it is found where an end stops fitting."""


@dataclass(frozen=True, slots=True)
class Box:
    """Pieces whose ends and upper side lie in stretches, mm."""

    left: Stretch
    right: Stretch
    top: Stretch


class HalfRoundPieces(BandPieces):
    """The family of pieces with half-round ends on one or two kept edges."""

    rounded = True

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        super().__init__(wood, wish, held)
        self.ends = Ends(self.outer, around=False), Ends(self.inner, around=True)
        self._blocked = cache(self.outer.blocked), cache(self.inner.blocked)
        """Where an end may fit and a piece is blocked; of the second what fits is sure to."""
        self._between = cache(lambda top: sides_of(self.outer, top))
        self._past = cache(self._area_past)

    def first_boxes(self) -> Iterator[Box]:
        """Return the one box of all pieces."""
        if self.tops[0] <= self.tops[1]:
            whole = (self.band.left, self.band.right)
            yield Box(whole, whole, self.tops)

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no piece of the box beats; 0 where there is none."""
        self.looks += LOOKS_A_BOX
        if box.left[0] > box.right[1] or not self._may_be(box):
            return 0.0
        ends = [self._widths(stretch, box.top) for stretch in (box.left, box.right)]
        least, most = (sum(width[i] for width in ends) / 2 for i in (0, 1))
        lengths = self.wish.limits.length
        shortest, longest = box.right[0] - box.left[1], box.right[1] - box.left[0] + most + _SLACK
        may = shortest + least <= lengths.greatest + _SLACK
        if not may or longest < lengths.least - PROOF_ALLOWANCE:
            return 0.0
        if self.wish.goal is Goal.LENGTH:
            return min(longest, lengths.greatest)
        if self.wish.goal is Goal.AREA:
            return self._area(box, ends, enough)
        if shortest < 0:
            return min(width[1] for width in ends)
        return self._widths((box.left[1], box.right[0]), box.top)[2]

    def _area(self, box: Box, ends: list[tuple[float, float, float]], enough: float) -> float:
        """Return an area that no piece of the box exceeds, mm²."""
        wide = self.wide.raised(box.top[1] + ROUNDING)
        whole = max(float(wide.area(box.left[0], box.right[1])), 0.0)
        discs = [math.pi / 8 * width[1] ** 2 for width in ends]
        area = whole + sum(discs)
        if box.left[1] < box.right[0]:
            # the length may be limited: then what both ends add to the part in common is too
            common = box.right[0] - box.left[1]
            most = self.wish.limits.length.greatest - sum(width[0] for width in ends) / 2
            added = max(0.0, most + _SLACK - common) * max(width[1] for width in ends)
            shared = float(wide.area(box.left[1], box.right[0]))
            area = min(area, shared + added + sum(discs))
        if area <= enough:
            return area
        past = [
            min(disc, self._past(way, stretch, box.top, width[1]))
            for way, stretch, disc, width in zip(
                (-1, 1), (box.left, box.right), discs, ends, strict=True
            )
        ]
        return min(area, whole + sum(past))

    def _area_past(self, way: int, stretch: Stretch, top: Stretch, width: float) -> float:
        """Return an area that no end has past its stretch, mm²."""
        discs = self.ends[0].discs(stretch, top)
        radius = width / 2 + discs.off + CHORD
        if radius <= discs.half:
            return 0.0
        return part_of(discs, radius, way, around=True).meet(self._between(top[1])).area

    def _widths(self, stretch: Stretch, top: Stretch) -> tuple[float, float, float]:
        """Return the least and greatest width in a stretch, and the greatest least one, mm."""
        narrow, wide = self.narrow.span(*stretch), self.wide.span(*stretch)
        return narrow[0] + top[0], wide[1] + top[1] + _SLACK, wide[0] + top[1] + _SLACK

    def _may_be(self, box: Box, *, sure: bool = False) -> bool:
        """Return whether the box may hold a piece that fits and keeps the limits of width.

        Or, of a box of no size, whether it is `sure` to fit.
        """
        width, slack = self.wish.limits.width, 0.0 if sure else _SLACK
        if box.left[1] < box.right[0]:
            common = (box.left[1], box.right[0])
            parts = self._blocked[sure](box.top[0])
            inside = (parts[:, 1] > common[0] + slack) & (parts[:, 0] < common[1] - slack)
            # so wide is its widest place at least, and its narrowest at most
            least = self.narrow.span(*common)[1] + box.top[0]
            most = self._widths(common, box.top)[2]
            if inside.any() or not _may_hold(width, least, most):
                return False
        return self._holds_all(box) and all(
            _may_hold(width, *self._widths(own, box.top)[:2])
            and self.ends[sure].may_fit(way, own, box.top)
            for way, own in ((-1, box.left), (1, box.right))
        )

    def _holds_all(self, box: Box) -> bool:
        """Return whether all that must be held may lie between the ends or in their discs."""
        if not len(self.to_hold):
            return True
        for way, stretch in ((-1, box.left), (1, box.right)):
            past = self.to_hold[(self.to_hold[:, 0] - stretch[way > 0]) * way > _SLACK]
            discs = self.ends[0].discs(stretch, box.top)
            reach = self._widths(stretch, box.top)[1] / 2 + discs.off + 2 * CHORD
            if len(past) and np.hypot(*(past - np.array(discs.centre)).T).max() > reach:
                return False
        return not self.ripped or bool(np.all(self.to_hold[:, 1] <= box.top[1] + _SLACK))

    def sample(self, box: Box) -> tuple[float, Cuts] | None:
        """Return the best piece whose ends lie at the ends or the middles of the stretches."""
        (a0, a1), (b0, b1), top = box.left, box.right, box.top[0]
        places = product((a0, (a0 + a1) / 2, a1), (b1, (b0 + b1) / 2, b0))
        tried = [(self.worth(cuts), cuts) for cuts in (Cuts(a, b, top) for a, b in places)]
        best = max(tried, key=lambda found: found[0])
        return best if best[0] > 0 else None

    def worth(self, cuts: Cuts) -> float:
        """Return the score of a piece; 0 where it does not fit or breaks a limit."""
        if not self.can_be(cuts):
            return 0.0
        area = 0.0
        if self.wish.goal is Goal.AREA:
            area = float(self.narrow.raised(cuts.top).area(cuts.left, cuts.right))
            for way, at in ((-1, cuts.left), (1, cuts.right)):
                disc = self.ends[1].discs((at, at), (cuts.top, cuts.top))
                lost = part_of(disc, disc.least, way).minus(self._between(cuts.top))
                area += math.pi / 2 * disc.least**2 - lost.area
        return self.score(cuts, area)

    def can_be(self, cuts: Cuts) -> bool:
        """Return whether a piece fits and keeps the limits."""
        left, right, top = cuts.left, cuts.right, cuts.top
        if left > right:
            return False
        limits, (least, most) = self.wish.limits, self.narrow.raised(top).span(left, right)
        return (
            least > 0
            and limits.width.holds(least, _SLACK)
            and limits.width.holds(most, CHORD)
            and limits.length.holds(self.length(cuts), _SLACK)
            and self._may_be(Box((left, left), (right, right), (top, top)), sure=True)
        )

    def split(self, box: Box) -> Iterator[Box]:
        """Return the halves of a box, cut across its longest stretch."""
        sizes = {name: float(np.ptp(getattr(box, name))) for name in ("left", "right", "top")}
        sizes["top"] *= 2
        name = max(sizes, key=lambda key: sizes[key])
        low, high = getattr(box, name)
        middle = (low + high) / 2
        for half in ((low, middle), (middle, high)):
            yield replace(box, **{name: half})

    def polish(self, score: float, top: Cuts) -> tuple[float, Cuts]:
        """Return a local best, to `_FINEST`: each end is pushed out until it touches."""
        step = (self.band.right - self.band.left) * _SHARE
        while step > _FINEST:
            better, at = False, top
            lifts = (-step, 0.0, step) if self.ripped else (0.0,)
            for lift, (left, right) in product(lifts, _MOVES):
                moved = Cuts(at.left + left * step, at.right + right * step, at.top + lift)
                found = _out(self, _out(self, moved, "right", step), "left", -step)
                worth = self.worth(found)
                if worth > score:
                    score, top, better = worth, found, True
            step /= 1.0 if better and step > 1.0 else _FINER
        return score, top


def _may_hold(width: Span, least: float, most: float) -> bool:
    """Return whether widths that are at least and at most so may keep limits."""
    return most >= width.least - PROOF_ALLOWANCE and least <= width.greatest + PROOF_ALLOWANCE


def _out(pieces: HalfRoundPieces, cuts: Cuts, name: str, step: float) -> Cuts:
    """Return a piece with one end as far out as it gets within a step."""

    def moved(by: float) -> Cuts:
        return replace(cuts, **{name: getattr(cuts, name) + by * step})

    def fits(by: float) -> bool:
        return pieces.can_be(moved(by))

    return moved(last_where(fits, -2.0, 2.0, _FINELY)) if fits(-2.0) else cuts


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the pieces that a wish asks for; raise a `LayoutError` for edges no piece can have."""
    if wish.keeping is None:
        raise LayoutError("a piece as found needs an edge to keep: name one edge, or two opposite")
    pieces = HalfRoundPieces if wish.keeping.ends is Cut.HALF_ROUND else SquarePieces
    family = pieces(wood, wish, held)
    return Entry(family, family.finish)
