"""Pieces as found: boxes over both ends and the height of the ripped side.

A piece runs from the left end's cut to the right one's, each square or with a half circle on it.
Its parts are each greatest where the box lets it reach farthest: the straight part from the
leftmost to the rightmost cut at the greatest height, the ends where it is widest. That is the
bound. A box holds nothing where the straight part that all its pieces share is blocked, or where
no end of the stretch fits (`ends`).
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import product

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import CHORD, PROOF_ALLOWANCE, ROUNDING
from ...panel.sound import SoundWood
from ..found import Fit
from ..points import held_corners
from ..proof import Drawn, until_proved
from ..wish import Ends as EndCuts
from ..wish import Goal, Wish
from .band import Band, Ground
from .ends import Ends, Stretch, most_area, sides_of
from .local_search import Climber
from .outline import Cuts, clear_of_kept, outline_of, placed_outline
from .profile import Profile

_SLACK = 4 * ROUNDING

_WELL_IN = 0.01
"""mm: more than both polygons of the wood are apart."""

_BESIDE = 0.02
"""Share of the band within which a climb from either of two pieces ends in the same local best."""

_LOOKS_A_BOX = 50_000
"""Looks at an edge (`Family.looks`) that a box takes: as measured."""


@dataclass(slots=True)
class Box:
    """Pieces whose ends and upper side lie in stretches, mm."""

    left: Stretch
    right: Stretch
    top: Stretch

    @property
    def ends(self) -> tuple[tuple[int, Stretch], tuple[int, Stretch]]:
        """Both ends, each with the way that it looks along x."""
        return (-1, self.left), (1, self.right)


class Pieces:
    """The family of pieces on one or two kept edges."""

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> None:
        self.band = band = Band.of(wish)
        self.rounded = wish.keeping is not None and wish.keeping.ends is EndCuts.HALF_ROUND
        """Whether its ends are half round."""
        self.looks = 0.0
        self.wood, self.wish, self.held = wood, wish, held
        self.inner = Ground(band, wood.inner)
        self.outer = self.inner if wood.inner is wood.outer else Ground(band, wood.outer)
        self.narrow, self.wide = band.profile("inside"), band.profile("outside")
        self.to_hold = band.frame.inverse.of(held_corners(held))
        self.ripped = band.upper is None
        self.tops = self._heights() if self.ripped else (0.0, 0.0)
        """From where to where the upper side may be ripped on one kept edge, mm."""
        self.ends = Ends(self.inner, around=True)
        self.outer_ends = Ends(self.outer, around=False)
        self._between = cache(lambda top: sides_of(self.outer, top))
        self._past = cache(self._area_past)
        self._climbed = (0.0, Cuts(math.inf, math.inf, math.inf))

    def _heights(self) -> Stretch:
        limits, lower = self.wish.limits, self.band.lower.bounds
        low = float(lower.bottom) + limits.width.least - CHORD
        high = float(self.outer.wood.bounds.top)
        if limits.width.greatest < math.inf:
            high = min(high, float(lower.top) + limits.width.greatest + CHORD)
        return float(self.to_hold[:, 1].max(initial=low)), high

    def first_boxes(self) -> Iterator[Box]:
        """Return the one box of all pieces."""
        if self.tops[0] <= self.tops[1]:
            whole = (self.band.left, self.band.right)
            yield Box(whole, whole, self.tops)

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no piece of the box beats; 0 where there is none."""
        self.looks += _LOOKS_A_BOX
        if box.left[0] > box.right[1] or not self._may_be(box):
            return 0.0
        ends = [self._widths(stretch, box.top) for _, stretch in box.ends]
        lengths = self.wish.limits.length
        shortest = box.right[0] - box.left[1] + self._add(*(width[0] for width in ends))
        longest = box.right[1] - box.left[0] + self._add(*(width[1] for width in ends)) + _SLACK
        least, greatest = max(lengths.least, 2 * PROOF_ALLOWANCE), lengths.greatest
        if self.wish.goal is Goal.WIDTH and not self.rounded and not len(self.to_hold):
            greatest = least  # all longer ones hold one, no narrower
        if shortest > greatest + _SLACK or longest < least - PROOF_ALLOWANCE:
            return 0.0
        if self.wish.goal is Goal.LENGTH:
            return min(longest, lengths.greatest)
        if self.wish.goal is Goal.WIDTH:
            if box.left[1] > box.right[0]:
                return min(width[1] for width in ends)
            return self._widths((box.left[1], box.right[0]), box.top)[2]
        return self._area(box, ends, enough)

    def _add(self, *widths: float) -> float:
        """Return what ends of some widths add to the length, mm."""
        return sum(widths) / 2 if self.rounded else 0.0

    def _area(self, box: Box, ends: list[tuple[float, float, float]], enough: float) -> float:
        """Return an area that no piece of the box exceeds, mm²."""
        wide = self.raised(self.wide, box.top[1] + ROUNDING)
        whole = max(float(wide.area(box.left[0], box.right[1])), 0.0)
        discs = [math.pi / 8 * width[1] ** 2 if self.rounded else 0.0 for width in ends]
        area = whole + sum(discs)
        if box.left[1] < box.right[0]:
            # the length may be limited: then what both ends add to the part in common is too
            common = box.right[0] - box.left[1]
            most = self.wish.limits.length.greatest - self._add(*(width[0] for width in ends))
            added = max(0.0, most + _SLACK - common) * max(width[1] for width in ends)
            shared = float(wide.area(box.left[1], box.right[0]))
            area = min(area, shared + added + sum(discs))
        if area <= enough or not self.rounded:
            return area
        past = [
            min(disc, self._past(way, stretch, box.top, width[1]))
            for (way, stretch), disc, width in zip(box.ends, discs, ends, strict=True)
        ]
        return min(area, whole + sum(past))

    def _area_past(self, way: int, at: Stretch, top: Stretch, width: float) -> float:
        """Return an area that no end has past its stretch, mm²."""
        return most_area(self._between(top[1]), self.outer_ends.discs(at, top), width / 2, way)

    def _widths(self, stretch: Stretch, top: Stretch) -> tuple[float, float, float]:
        """Return the least and greatest width in a stretch, and the greatest least one, mm."""
        add = top if self.ripped else (0.0, 0.0)
        narrow, wide = self.narrow.span(*stretch), self.wide.span(*stretch)
        return narrow[0] + add[0], wide[1] + add[1] + _SLACK, wide[0] + add[1] + _SLACK

    def _may_be(self, box: Box) -> bool:
        """Return whether the box may hold a piece that fits and keeps the limits of width.

        Its ends are drawn in to what is free at its least height.
        """
        least, greatest = self.wish.limits.width.least, self.wish.limits.width.greatest
        least, greatest = max(least - PROOF_ALLOWANCE, 0.0), greatest + PROOF_ALLOWANCE
        if box.left[1] < box.right[0]:
            common = (box.left[1], box.right[0])
            free = self.outer.run(common, box.top[0], _SLACK)
            if free is None:
                return False
            box.left = (max(box.left[0], free[0] - _SLACK), box.left[1])
            box.right = (box.right[0], min(box.right[1], free[1] + _SLACK))
            widest = self.narrow.span(*common)[1] + (box.top[0] if self.ripped else 0.0)
            if self._widths(common, box.top)[2] < least or widest > greatest:
                return False
        for way, stretch in box.ends:
            narrowest, widest, _ = self._widths(stretch, box.top)
            if widest <= least or narrowest > greatest:
                return False
            if self.rounded and not self.outer_ends.may_fit(way, stretch, box.top):
                return False
        return self._may_hold(box)

    def _may_hold(self, box: Box) -> bool:
        """Return whether all that must be held lies between the ends or in their discs."""
        if not len(self.to_hold):
            return True
        for way, stretch in box.ends:
            far = stretch[1] if way > 0 else stretch[0]
            past = self.to_hold[(self.to_hold[:, 0] - far) * way > _SLACK]
            if len(past) and not self.rounded:
                return False
            discs = self.outer_ends.discs(stretch, box.top)
            reach = self._widths(stretch, box.top)[1] / 2 + discs.off + 2 * CHORD
            away = past - np.array(discs.centre)
            if len(past) and float(np.hypot(away[:, 0], away[:, 1]).max()) > reach:
                return False
        return not self.ripped or bool(np.all(self.to_hold[:, 1] <= box.top[1] + _SLACK))

    def sample(self, box: Box) -> tuple[float, Cuts] | None:
        """Return the best piece whose ends lie all but at the ends of the stretches, or half way.

        It is ripped as low as may be, and the widest is no longer than it must be.
        """
        lefts, rights = (
            (min(low + _WELL_IN, high), (low + high) / 2, max(high - _WELL_IN, low))
            for low, high in (box.left, box.right)
        )
        places = list(product(lefts, rights))
        if self.wish.goal is Goal.WIDTH:
            least = self.wish.limits.length.least
            places += [(a, a + least) for a in lefts] + [(b - least, b) for b in rights]
        pieces = [self._lowest(box, *place) for place in places]
        best = max(((self.worth(cuts), cuts) for cuts in pieces), key=lambda found: found[0])
        return best if best[0] > 0 else None

    def _lowest(self, box: Box, left: float, right: float) -> Cuts:
        """Return a piece between two cuts, ripped as low as box and limits of width allow."""
        low, high = box.top
        if self.ripped and left < right:
            low = max(low, self.wish.limits.width.least - self.narrow.span(left, right)[0])
        return Cuts(left, right, min(low, high))

    def worth(self, cuts: Cuts) -> float:
        """Return the score of a piece; 0 where it does not fit or breaks a limit."""
        if not self.can_be(cuts):
            return 0.0
        if not self.rounded:
            area = self.raised(self.narrow, cuts.top).area(cuts.left, cuts.right)
            return self._score(cuts, float(area))
        path = outline_of(self.band, cuts, rounded=True)
        return 0.0 if path is None else self._score(cuts, path.area)

    def _score(self, cuts: Cuts, area: float) -> float:
        """Return what the goal counts: the area, the length along the axis or the least width."""
        if self.wish.goal is Goal.AREA:
            return area
        if self.wish.goal is Goal.WIDTH:
            return self.raised(self.narrow, cuts.top).span(cuts.left, cuts.right)[0]
        return self._length(cuts)

    def _length(self, cuts: Cuts) -> float:
        """Return how long a piece is over all, mm."""
        profile = self.raised(self.narrow, cuts.top)
        ends = self._add(float(profile.at(cuts.left)), float(profile.at(cuts.right)))
        return cuts.right - cuts.left + ends

    def can_be(self, cuts: Cuts) -> bool:
        """Return whether a piece fits and keeps the limits."""
        if not self.band.left <= cuts.left <= cuts.right <= self.band.right:
            return False
        limits = self.wish.limits
        least, most = self.raised(self.narrow, cuts.top).span(cuts.left, cuts.right)
        fair = limits.width.holds(least, _SLACK) and limits.width.holds(most, CHORD)
        if least <= 0 or not fair or not limits.length.holds(self._length(cuts), _SLACK):
            return False
        if self.inner.run((cuts.left, cuts.right), cuts.top) is None:
            return False
        ends = ((-1, cuts.left), (1, cuts.right)) if self.rounded else ()
        if not all(self.ends.fits(way, x, cuts.top) for way, x in ends):
            return False
        return self._may_hold(Box(*((at, at) for at in (cuts.left, cuts.right, cuts.top))))

    def raised(self, profile: Profile, top: float) -> Profile:
        """Return a profile up to where the upper side is ripped."""
        return profile.raised(top) if self.ripped else profile

    def split(self, box: Box) -> Iterator[Box]:
        """Return the halves of a box, cut across its longest stretch.

        Where a piece goes from end to end of it, what the height leaves open is all that counts.
        """
        sizes = {name: float(np.ptp(getattr(box, name))) for name in ("left", "right", "top")}
        whole = Cuts(box.left[0] + _WELL_IN, box.right[1] - _WELL_IN, box.top[0])
        if self.wish.goal is Goal.AREA and sizes["top"] > 0 and self.can_be(whole):
            sizes["top"] = math.inf
        name = max(sizes, key=lambda key: sizes[key])
        low, high = getattr(box, name)
        for half in ((low, (low + high) / 2), ((low + high) / 2, high)):
            yield replace(box, **{name: half})

    def polish(self, score: float, top: Cuts) -> tuple[float, Cuts]:
        """Return the piece moved to a local best: to the last one where it lies beside that."""
        band = self.band.right - self.band.left
        if score > self._climbed[0] or not top.is_beside(self._climbed[1], _BESIDE * band):
            ways = [("right", 1), ("left", -1)]
            if self.wish.goal is Goal.WIDTH:
                ways = [("top", 1)] if self.ripped else []
            climber = Climber(self.worth, self.can_be, ways, lifts=self.ripped)
            self._climbed = climber.climbed(score, top, band)
        return self._climbed

    def finish(self, top: Cuts) -> Fit | None:
        """Return a piece proved inside the wood and round what it must hold, or None."""

        def drawn_in(by: float) -> Drawn | None:
            smaller = top.drawn_in(by)
            placed = placed_outline(self.band, smaller, rounded=self.rounded)
            if placed is None:
                return None
            outline, placement = placed
            return Drawn(outline, outline, placement, self._score(smaller, outline.area))

        return until_proved(
            drawn_in, self.wood, self.held, lambda whole: clear_of_kept(whole, self.band)
        )
