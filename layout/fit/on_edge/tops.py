"""Tops with a long side on a kept edge: one depth is searched, or a depth and a corner radius.

The longest straight that stands on the line at a depth is found exactly; the deeper a top, the
shorter. So the search halves the depths, and where the corner radius is free the radii too, until
the bound of no box is above the best top found (`convex_length`). A finer and finer grid of depths
round that top polishes it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from ...geometry.alike import first_of_best, greatest_first
from ...geometry.placement import Placement
from ...geometry.point import Point
from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from ...geometry.turned_box import half_turn
from ...outlines import Capsule
from ...panel.sound import SoundWood
from ..found import Fit
from ..goal import check
from ..proof import Drawn, until_proved
from ..rectangles.finish import outline
from ..rectangles.sizes import CORNER_LOSS, Sizes
from ..wish import Wish
from .convex_length import bound
from .free_spans import Array
from .ground import Ground, Side
from .line import KeptLine
from .standing import LOOKS_A_BOX, Box, Standing, holds

_NARROWEST = 1e-3
"""mm: no top is narrower."""

_SQUARE = 10 * ROUNDING
"""A corner of a smaller radius than this is square, mm."""

_FIRST = 16
"""Widths that are looked at first."""

_GRIDS = {1: (17, 6.0), 2: (7, 2.5)}
"""Places a side and how much finer each polishing grid is than the one before, for one unknown and
for two."""

_FINEST = 1e-6
"""mm: polishing ends with steps as small as this."""


class KeptTops:
    """The family of tops of one shape on a kept edge."""

    def __init__(
        self, wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()
    ) -> None:
        check(wish)
        self.looks = 0.0
        self.wood, self.wish, self.shape, self.held = wood, wish, shape, held
        self.line = KeptLine.of(wish, shape)
        self.ground = Ground.of(self.line, wood, held)
        self.is_capsule = shape == "capsule"
        span = wish.limits.corner_radius
        fixed = {"rectangle": (0.0, 0.0), "capsule": (0.0, math.inf)}.get(
            shape, (span.least, span.greatest)
        )
        least = Sizes.of(wish, fixed[0])
        self.most = min(self.ground.height, least.greatest[1])
        self.least = max(least.least_width, _NARROWEST)
        self.asked = max(least.asked_width, _NARROWEST)
        self.radii = (fixed[0], max(fixed[0], min(fixed[1], self.most / 2)))
        self.dimensions = 1 if self.is_capsule or self.radii[0] == self.radii[1] else 2

    def first_boxes(self) -> Iterator[Box]:
        """Return the boxes of all widths and radii."""
        if self.least > self.most:
            return
        steps = np.linspace(self.least, self.most, _FIRST + 1)
        for low, high in pairwise(steps):
            yield self._box((float(low), float(high)), self.radii)

    def _box(self, widths: tuple[float, float], radii: tuple[float, float]) -> Box:
        if self.is_capsule:
            return Box(widths, (widths[0] / 2, widths[1] / 2))
        return Box(widths, (radii[0], max(radii[0], min(radii[1], widths[1] / 2))))

    def bound(self, box: Box, enough: float) -> float:
        """Return a score that no top of the box beats; 0 where there is none."""
        self.looks += LOOKS_A_BOX
        return bound(self.ground, self.wish, box, enough)

    def sample(self, box: Box) -> tuple[float, Standing] | None:
        """Return the best top of the box's least width, its corners as round as they may be."""
        return self._best(self.ground.inner, box.widths[0], box.radii[1])

    def _best(self, side: Side, width: float, radius: float) -> tuple[float, Standing] | None:
        """Return the best top of a width and a corner radius, or one trimmed to the limits."""
        radius = width / 2 if self.is_capsule else min(radius, width / 2)
        spans = side.straights(width, radius)
        ends = spans.ends
        if not len(self.ground.held) and len(ends):
            ends = ends[greatest_first(spans.lengths, tolerance=SAME_PLACE)[:1]]
        made = [top for span in ends if (top := self._on(span, width, radius)) is not None]
        scored = [(self.score(top), top) for top in made]
        if not scored:
            return None
        return first_of_best(scored, lambda pair: pair[0] / scored[0][0], tolerance=ROUNDING)

    def _on(self, span: Array, width: float, radius: float) -> Standing | None:
        """Return the top on a span, trimmed; None where limits or what must be held forbid it."""
        limits = self.wish.limits
        straight = float(span[1] - span[0])
        if self.is_capsule:
            # a narrower capsule of the same straight stands inside this one
            over = max(1.0, limits.ratio.least) - 1
            width = min(width, straight / over) if over > 0 else width
            radius = width / 2
        sizes = Sizes.of(self.wish, radius)
        length, width = (
            float(v) for v in sizes.trimmed(np.array(straight + 2 * radius), np.array(width))
        )
        if not sizes.allowed(np.array(length), np.array(width)) or length < width:
            return None
        radius = min(radius, width / 2)
        half = length / 2 - radius
        held = self.ground.firmly
        aim = (
            float(span.mean())
            if not len(held)
            else float(np.ptp(held[:, 0]) / 2 + held[:, 0].min())
        )
        middle = min(max(aim, float(span[0]) + half), float(span[1]) - half)
        top = Standing(middle, length, width, radius)
        return top if holds(top, held) else None

    def score(self, top: Standing) -> float:
        """Return what the goal counts."""
        sizes = Sizes.of(self.wish, top.radius)
        return float(sizes.score(np.array(top.length), np.array(top.width)))

    def split(self, box: Box) -> Iterator[Box]:
        """Return the halves of a box, cut where it says least."""
        (low, high), (least, greatest) = box.widths, box.radii
        wide = self.line.length * (high - low)
        rounder = 2 * high * (greatest - min(least, low / 2))
        rounder += CORNER_LOSS * (greatest**2 - least**2)
        if self.dimensions == 1 or wide >= rounder:
            middle = (low + high) / 2
            yield self._box((low, middle), box.radii)
            yield self._box((middle, high), box.radii)
        else:
            middle = (least + greatest) / 2
            yield self._box(box.widths, (least, middle))
            yield self._box(box.widths, (middle, greatest))

    def polish(self, score: float, top: Standing) -> tuple[float, Standing]:
        """Return the best top of finer and finer grids of widths and radii round this one."""
        count, finer = _GRIDS[self.dimensions]
        step = (self.most - self.least) / _FIRST
        while step > _FINEST:
            offsets = np.linspace(-step, step, count)
            for width, radius in self._round(top, offsets):
                found = self._best(self.ground.inner, width, radius)
                if found is not None and found[0] > score:
                    score, top = found
            step /= finer
        return score, top

    def _round(self, top: Standing, offsets: Array) -> list[tuple[float, float]]:
        """Return the widths and radii of a grid round those of a top, within the limits."""
        widths = {min(max(top.width + float(d), self.least), self.most) for d in offsets}
        radii = {self.radii[1] if self.is_capsule else top.radius}
        if self.dimensions == 2:
            radii = {min(max(top.radius + float(d), self.radii[0]), self.radii[1]) for d in offsets}
        return [(width, radius) for width in sorted(widths) for radius in sorted(radii)]

    def finish(self, top: Standing) -> Fit | None:
        """Return the fit of a top, proved in the wood.

        A top may be found narrower than asked for by what a proof may take off; so it is tried at
        the asked width first, and the proof takes that off it then.
        """
        if top.width < self.asked:
            whole = self._best(self.ground.inner, self.asked, top.radius)
            fit = None if whole is None else self._proved(whole[1])
            if fit is not None:
                return fit
        return self._proved(top)

    def _proved(self, top: Standing) -> Fit | None:
        frame = self.line.frame
        placement = Placement(frame(Point(top.middle, top.width / 2)), half_turn(frame.turn))

        def drawn_in(by: float) -> Drawn:
            width = top.width - 2 * by
            length = max(top.length - 2 * by, width)
            radius = width / 2 if self.is_capsule else min(top.radius, width / 2)
            radius = radius if radius >= _SQUARE else 0.0
            capsule = Capsule(length, width) if self.is_capsule else None
            made = capsule or outline(length, width, radius)
            return Drawn(
                made, made, placement, self.score(Standing(top.middle, length, width, radius))
            )

        return until_proved(drawn_in, self.wood, self.held)
