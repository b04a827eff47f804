"""The families of rectangles that are searched: with round corners and with square ones."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...geometry.polygon import Region
from ...panel.sound import SoundWood
from ..entry import Entry
from ..found import Fit
from ..wish import Goal, Wish
from .alternatives import RectanglesElsewhere
from .family import RoundedRectangles


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the rectangles of a shape."""
    found = rectangle_family if shape == "rectangle" else rounded_rectangle_family
    family = found(wood, wish, held)
    return Entry(family, _as_it_is, RectanglesElsewhere(family))


def rounded_rectangle_family(
    wood: SoundWood, wish: Wish, held: Sequence[Region] = ()
) -> RoundedRectangles:
    """Return the family of rounded rectangles on the sound wood, within the limits of the wish.

    The longest top is no wider than it must be, unless its ratio is limited: a narrower one with
    corners as round as may be lies in it. So the radius is known, unless it must hold something.
    """
    limits = wish.limits
    least, greatest = limits.corner_radius.least, limits.corner_radius.greatest
    if wish.goal is Goal.LENGTH and math.isinf(limits.ratio.greatest) and not held:
        least = greatest = min(greatest, max(least, limits.width.least / 2))
    return RoundedRectangles(wood, wish, (least, greatest), held)


def rectangle_family(wood: SoundWood, wish: Wish, held: Sequence[Region] = ()) -> RoundedRectangles:
    """Return the family of rectangles with square corners."""
    return RoundedRectangles(wood, wish, (0.0, 0.0), held)


def _as_it_is(fit: Fit) -> Fit:
    """Return a top that was proved when it was found."""
    return fit
