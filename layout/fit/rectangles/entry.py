"""The families of rectangles that are searched, and other places for a rectangle."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ...geometry import Placement, Point, Region
from ...panel.sound import SoundWood
from ..families import Entry
from ..found import Fit
from ..stand import Stand
from ..wish import ROUNDED, Goal, Span, Wish
from .contacts import Inner
from .family import RoundedRectangles
from .offset_wood import Ground
from .sampling import Windows, rectangles


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the rectangles of a shape."""
    family = family_of(wood, wish, shape, held)
    return Entry(family, lambda fit: fit, RectanglesElsewhere(family))  # proved when found


def family_of(
    wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()
) -> RoundedRectangles:
    """Return the family of a shape on the sound wood; one with square corners has radius 0.

    The longest top is no wider than it must be, unless its ratio is limited: a narrower one with
    corners as round as may be lies in it. So the radius is known, unless it must hold something.
    """
    limits = wish.limits
    span = limits.corner_radius if shape == ROUNDED else Span(0.0, 0.0)
    least, greatest = span.least, span.greatest
    if wish.goal is Goal.LENGTH and math.isinf(limits.ratio.greatest) and not held:
        least = greatest = min(greatest, max(least, limits.width.least / 2))
    return RoundedRectangles(wood, wish, (least, greatest), held)


class RectanglesElsewhere:
    """Looks for other places on one piece of wood."""

    def __init__(self, family: RoundedRectangles) -> None:
        self.family, self.wish, self.tops = family, family.wish, family.polisher
        self.radius = family.radii[0 if self.wish.goal is Goal.AREA else 1]

    def starts(self) -> Iterator[Stand]:
        """Yield the rectangles in the gaps of strips across the wood, at some turns, best first."""
        family = self.family
        ground = Ground(family.wood.inner, self.wish, family.held)
        recipe = ground.recipe((self.radius, self.radius))
        if not recipe.pieces:
            return
        edges = np.concatenate([piece.edges for piece in recipe.pieces])
        windows = Windows.across(*family.half_turn, edges)
        for top in rectangles(windows, edges, recipe):
            yield self.stand(self.tops.trimmed(top))

    def like(self, start: Stand) -> Inner:
        """Return the rectangle where a start stands."""
        return self.tops.begun(start.placement, start.length, start.width, self.radius)

    def stand(self, top: Inner) -> Stand:
        """Return where a top stands."""
        t = self.wish.lipping
        placement = Placement(Point.of(top.centre), top.turn + math.pi / 2)
        length, width = self.tops.of_size(top).tolist()
        return Stand(self.tops.score(top, hoped=True), placement, length - 2 * t, width - 2 * t)

    def finished(self, top: Inner, *, rests: bool) -> Fit | None:
        """Return the proved fit of a top."""
        return self.tops.finished(self.family.wood, top, self.family.must_hold)
