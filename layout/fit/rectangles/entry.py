"""What of rectangles is searched for one wish."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ...geometry import Region
from ...panel.sound import SoundWood
from ..families import Entry
from ..wish import ROUNDED, Goal, Span, Wish
from .family import RoundedRectangles


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region] = ()) -> Entry:
    """Return the rectangles of a shape on the sound wood; those with square corners have radius 0.

    The longest top is no wider than it must be, unless its ratio is limited: a narrower one with
    corners as round as may be lies in it. So the radius is known, unless it must hold something.
    """
    limits = wish.limits
    span = limits.corner_radius if shape == ROUNDED else Span(0.0, 0.0)
    least, greatest = span.least, span.greatest
    if wish.goal is Goal.LENGTH and math.isinf(limits.ratio.greatest) and not held:
        least = greatest = min(greatest, max(least, limits.width.least / 2))
    family = RoundedRectangles(wood, wish, (least, greatest), held)
    return Entry(family, lambda fit: fit, family)  # proved when found
