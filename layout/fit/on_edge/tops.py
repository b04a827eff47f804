"""Tops with a long side on a kept edge: one depth is searched, or a depth and a corner radius.

The longest straight that stands on the line at a depth is found exactly. A top holds every narrower
one with the same straight, and every rounder one of the same length. So for widths [w₀, w₁] and
radii [ρ₀, ρ₁] each has its straight in a span that is free at width w₀ and radius min(ρ₁, w₀/2): it
is no longer than the span and 2ρ₁, and no wider than w₁.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

import numpy as np

from ...geometry import Placement, Point, Region, first_of_best
from ...geometry.alike import greatest_first
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from ...geometry.turned_box import half_turn
from ...outlines import Capsule
from ...panel.sound import SoundWood
from ..families import Entry
from ..found import Fit
from ..goal import Ends, check
from ..points import firm_corners, held_corners
from ..proof import Drawn, until_proved
from ..rectangles.contacts import missed, outline
from ..rectangles.sizes import CORNER_LOSS, Sizes
from ..wish import Wish
from ..wood.edges import Array
from .line import KeptLine, Side

_SLACK = 16 * ROUNDING
"""What rounding may do to a length, mm."""
_LOOKS_A_BOX = 10_000
"""Looks at an edge (`Family.looks`) that a box takes: as measured."""
_SQUARE = 10 * ROUNDING
"""A corner of a smaller radius than this is square, mm."""
_FIRST = 16
"""Widths that are looked at first."""
_GRIDS = {True: (17, 6.0), False: (7, 2.5)}
"""Places a side and how much finer each polishing grid is than the one before, for tops that their
width settles and others."""
_FINEST = 1e-6
"""mm: polishing ends with steps as small as this."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A rectangle with round corners whose lower side lies on y = 0."""

    middle: float
    """Where its middle lies along the line, mm."""
    length: float
    width: float
    radius: float
    """mm; a capsule's radius is half its width."""

    def holds(self, points: Array) -> bool:
        """Return whether it holds all the points, (n, 2) mm in the frame of its line."""
        half = np.array([self.length, self.width]) / 2
        off = points - np.array([self.middle, half[1]])
        return missed(off, half - self.radius, self.radius) == 0.0


@dataclass(frozen=True, slots=True)
class Box:
    """Tops of some widths and corner radii, mm, from the least to the greatest."""

    widths: Ends
    radii: Ends


class KeptTops:
    """The family of tops of one shape on a kept edge."""

    def __init__(
        self, wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()
    ) -> None:
        check(wish)
        self.looks = 0.0
        self.wood, self.wish, self.held = wood, wish, held
        self.line = KeptLine.of(wish, shape)
        self.outer = Side.of(wood.outer, self.line)
        self.inner = self.outer if wood.inner is wood.outer else Side.of(wood.inner, self.line)
        self.must, self.firmly = (
            self.line.frame.inverse.of(of(held)) for of in (held_corners, firm_corners)
        )
        """What tops must hold, (h, 2), and what one found must, (f, 2), so that it still does once
        it is drawn in for its proof."""
        self.is_capsule = shape == "capsule"
        span = wish.limits.corner_radius
        fixed = {"rectangle": (0.0, 0.0), "capsule": (0.0, math.inf)}
        sharpest, roundest = fixed.get(shape, (span.least, span.greatest))
        least = Sizes.of(wish, sharpest)
        self.most = min(float(self.outer.edges[:, :, 1].max(initial=0.0)), least.greatest[1])
        self.least, self.asked = least.least[1], least.asked[1]
        self.radii = (sharpest, max(sharpest, min(roundest, self.most / 2)))
        self.by_width = self.is_capsule or self.radii[0] == self.radii[1]
        """Whether its width settles a top."""

    def first_boxes(self) -> Iterator[Box]:
        """Return the boxes of all widths and radii."""
        if self.least <= self.most:
            for ends in pairwise(np.linspace(self.least, self.most, _FIRST + 1).tolist()):
                yield self._box(ends, self.radii)

    def _box(self, widths: Ends, radii: Ends) -> Box:
        if self.is_capsule:
            return Box(widths, (widths[0] / 2, widths[1] / 2))
        return Box(widths, (radii[0], max(radii[0], min(radii[1], widths[1] / 2))))

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats; 0 where there is none."""
        self.looks += _LOOKS_A_BOX
        (low, high), (least, greatest) = box.widths, box.radii
        spans = self.outer.straights(low, min(greatest, low / 2))
        middles, lengths = spans.mean(axis=1), np.ptp(spans, axis=1) + 2 * greatest + _SLACK
        must = self.must + np.array([0.0, _SLACK])
        around = (
            Standing(float(middle), float(length) + _SLACK, high + 2 * _SLACK, least)
            for middle, length in zip(middles, lengths, strict=True)
        )
        lengths = lengths[np.array([top.holds(must) for top in around], dtype=np.bool_)]
        most = Sizes.of(self.wish, least).most(lengths, np.full_like(lengths, high + _SLACK))
        return float(most.max(initial=0.0))

    def sample(self, box: Box) -> tuple[float, Standing] | None:
        """Return the best top of the box's least width, its corners as round as they may be."""
        return self._best(box.widths[0], box.radii[1])

    def _best(self, width: float, radius: float) -> tuple[float, Standing] | None:
        """Return the best top of a width and a corner radius, or one trimmed to the limits."""
        radius = width / 2 if self.is_capsule else min(radius, width / 2)
        ends = self.inner.straights(width, radius)
        if not len(self.must) and len(ends):
            ends = ends[greatest_first(ends[:, 1] - ends[:, 0], tolerance=SAME_PLACE)[:1]]
        made = [top for span in ends if (top := self._on(span, width, radius)) is not None]
        scored = [(self.score(top), top) for top in made]
        if not scored:
            return None
        return first_of_best(scored, lambda pair: pair[0] / scored[0][0], tolerance=ROUNDING)

    def _on(self, span: Array, width: float, radius: float) -> Standing | None:
        """Return the top on a span, trimmed; None where limits or what must be held forbid it."""
        straight, over = float(span[1] - span[0]), max(1.0, self.wish.limits.ratio.least) - 1
        if self.is_capsule:
            # a narrower capsule of the same straight stands inside this one
            width = min(width, straight / over) if over > 0 else width
            radius = width / 2
        sizes = Sizes.of(self.wish, radius)
        most = np.array(straight + 2 * radius), np.array(width)
        if sizes.most(*most) == -math.inf:
            return None
        length, width = (float(size) for size in sizes.trimmed(*most))
        radius = min(radius, width / 2)
        along = self.firmly[:, 0] if len(self.firmly) else span
        half = length / 2 - radius
        middle = min(max((along.min() + along.max()) / 2, span[0] + half), span[1] - half)
        top = Standing(float(middle), length, width, radius)
        return top if top.holds(self.firmly) else None

    def score(self, top: Standing) -> float:
        """Return what the goal counts."""
        sizes = Sizes.of(self.wish, top.radius)
        return float(sizes.score(np.array(top.length), np.array(top.width)))

    def split(self, box: Box) -> Iterator[Box]:
        """Return the halves of a box, cut where it says least."""
        (low, high), (least, greatest) = box.widths, box.radii
        rounder = 2 * high * (greatest - min(least, low / 2))
        rounder += CORNER_LOSS * (greatest**2 - least**2)
        middle = (low + high) / 2, (least + greatest) / 2
        if self.by_width or self.line.length * (high - low) >= rounder:
            yield self._box((low, middle[0]), box.radii)
            yield self._box((middle[0], high), box.radii)
        else:
            yield self._box(box.widths, (least, middle[1]))
            yield self._box(box.widths, (middle[1], greatest))

    def polish(self, score: float, top: Standing) -> tuple[float, Standing]:
        """Return the best top of finer and finer grids of widths and radii round this one."""
        count, finer = _GRIDS[self.by_width]
        step = (self.most - self.least) / _FIRST
        while step > _FINEST:
            offsets = np.linspace(-step, step, count)
            widths = np.unique(np.clip(top.width + offsets, self.least, self.most))
            radii = np.unique(np.clip(top.radius + offsets * (not self.by_width), *self.radii))
            for width, radius in product(widths.tolist(), radii.tolist()):
                found = self._best(width, radius)
                if found is not None and found[0] > score:
                    score, top = found
            step /= finer
        return score, top

    def finish(self, top: Standing) -> Fit | None:
        """Return the fit of a top, proved in the wood.

        A top may be found narrower than asked for by what a proof may take off; so it is tried at
        the asked width first, and the proof takes that off it then.
        """
        whole = self._best(self.asked, top.radius) if top.width < self.asked else None
        fit = None if whole is None else self._proved(whole[1])
        return self._proved(top) if fit is None else fit

    def _proved(self, top: Standing) -> Fit | None:
        frame = self.line.frame
        placement = Placement(frame(Point(top.middle, top.width / 2)), half_turn(frame.turn))

        def drawn_in(by: float) -> Drawn:
            width = top.width - 2 * by
            length = max(top.length - 2 * by, width)
            radius = width / 2 if self.is_capsule else min(top.radius, width / 2)
            radius = radius if radius >= _SQUARE else 0.0
            made = Capsule(length, width) if self.is_capsule else outline(length, width, radius)
            smaller = Standing(top.middle, length, width, radius)
            return Drawn(made, made, placement, self.score(smaller))

        return until_proved(drawn_in, self.wood, self.held)


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the tops of a shape."""
    family = KeptTops(wood, wish, shape, held)
    return Entry(family, family.finish)
