"""Why an outline of one size fits nowhere: by how much it oversteps, and what smaller one would do.

Drawn in by what it lacks all round it would fit.
"""

from __future__ import annotations

import math

from ...geometry.polygon import Region
from ...geometry.scalar import last_where
from ...outlines import Outline
from ...panel.sound import SoundWood
from ...units import Tape
from ..branch_and_bound import search
from ..families import is_longer_than
from ..goal import broken_limit
from ..wish import Wish
from ..wood.edges import Array
from .laid import Laid
from .outline import Shape
from .places import OwnPlaces, proved

_LEAST = 10.0
"""Percentage of its size down to which an outline is tried."""


def own_reason(wood: SoundWood, wish: Wish, own: Outline, tape: Tape) -> str:
    """Return why the maker's own outline fits nowhere at its own size, in one line."""
    size = f"the {own.name} of {tape.figure(own.length)} × {tape.measure(own.width)}"
    broken = broken_limit(wish.limits, own)
    if broken:
        return f"{size} {broken}: loosen that limit, or draw it in another size"
    if is_longer_than(wood.outer, own):
        return f"{size} reaches farther than the sound wood at its longest: draw it smaller"
    held = [Region.at(point) for point in wish.covers]
    family = OwnPlaces(wood, wish, own, held, crossing=True)
    found = search(
        family,
        gap=family.gap,
        most_steps=wish.most_steps,
        most_looks=wish.most_effort / 2,  # the search itself took its share
        enough=family.enough,
    )
    least, lack = ((family.base - score) * 10 for score in (found.bound, found.score))
    if found.top is None or least <= 0:
        return f"no place for {size} was found that keeps clear of all that its edge may not cross"
    lacks = tape.exact(math.ceil(lack - 1e-6) / 10, 1)
    words = (
        f"{size} fits nowhere in the sound wood: at the best place it lacks {lacks} {tape.unit}, "
        f"and no place lacks less than {tape.exact(math.floor(least) / 10, 1)} {tape.unit}"
    )
    share = _share_that_fits(own, found.top, wood, family.tops)
    smaller = f"draw it at {share:.0%} of its size, which fits, or " if share else ""
    return f"{words}; {smaller}lower a margin or clearance"


def _share_that_fits(own: Outline, pose: Array, wood: SoundWood, tops: Laid) -> float:
    """Return about the largest percentage at which a copy fits near a pose; 0 where none does."""

    def fits(percent: float) -> bool:
        share = int(percent) / 100
        copy = own.resized(own.length * share, own.width * share)
        laid = Laid(Shape.of(copy), tops.ground, spans=tops.spans)
        return proved(copy, laid.shape.placement(laid.climbed(pose)[1]), wood) is not None

    return int(last_where(fits, _LEAST, 100.0, within=0.5)) / 100 if fits(_LEAST) else 0.0
