"""Tops hardly wider than their corners are round, bounded by the capsules that lie in them.

The inner rectangle of such a top is all but a line, and no turned box sees a gap for a line. But a
top L long and W wide, whose corner radius ρ is W/2 at most, holds the capsule as long and wide, and
so do the cores in a lipping. What no capsule of these widths beats, no top does:

- The area L W − (4 − π) ρ² is (4 − π) (W²/4 − ρ²) more than the capsule's.
- A point of the top lies off the capsule by (√2 − 1) (W/2 − ρ) at most: at a corner it is as far as
  √2 (W/2 − ρ) + ρ from the middle of the capsule's end, by way of that of the corner's arc.

Both are greatest for the least radius and the greatest width; as those close in on each other, a
bound closes in on tops that are capsules.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from ...geometry import Placement, Point
from ...outlines import Capsule
from ..branch_and_bound import Outcome, search
from ..convex.boxes import Box as CapsuleBox
from ..convex.boxes import Pose
from ..convex.capsule import CapsuleKind, CapsuleLift
from ..convex.family import TwoSizes
from ..convex.lift import Rows
from ..convex.sizing import Sizing
from ..convex.wood import Wood
from ..stand import Stand
from ..wish import Span, Wish
from ..wood.edges import Array
from .family import LOOKS_A_BOX, Box, RoundedRectangles, Slim
from .offset_wood import within
from .sizes import NARROWEST

_CLOSER = 0.125
"""Share of what tops may be wider than two corner radii, by which they may once their bound is too
loose."""
_MORE = 8
"""How many times as much effort capsules are searched with each time again."""


def cut(family: RoundedRectangles, slim: Slim) -> Iterator[Box | Slim]:
    """Yield what of slim tops may still be better: fewer radii first, then less slim ones.

    The best of their capsules bounds them once they are nearly capsules.
    """
    (least, greatest), margin = slim.radii, slim.widest - 2 * slim.radii[1]
    slim = replace(slim, bound=min(slim.bound, family.bound_by_turns(slim.radii, slim.widest)))
    in_two = family.counts and greatest - least > margin
    ended = True
    if slim.bound > family.target and not in_two:
        slim, ended = _searched(family, slim)
    if slim.bound <= family.target or not ended:
        yield slim
        return
    if in_two:
        middle = (least + greatest) / 2
        yield replace(slim, radii=(middle, greatest))
        greatest = middle
    else:
        margin *= _CLOSER
    yield from family.parts(slim.bound, (least, greatest), 2 * greatest + margin, slim.widest)


def _searched(family: RoundedRectangles, slim: Slim) -> tuple[Slim, bool]:
    """Return slim tops by the best of their capsules, and whether more search tells no more.

    The top about the best capsule is tried.
    """
    (least, greatest), target = slim.radii, family.target
    corners = family.tops.sizes.corner_area
    over = corners(slim.widest / 2) - corners(least)
    effort = min(slim.effort, family.wish.most_effort - family.looks)
    widths = 2 * least, slim.widest
    seen = family.seen
    found = best_capsule(seen, family.wish, widths, target - over, effort)
    family.looks += LOOKS_A_BOX + found.looks
    if found.top is not None:
        x, y, turn, half_length, half_width = found.top
        place = Placement(Point(x, y) + seen.middle, turn)
        radius = min(greatest, half_width + family.wish.lipping)
        start = Stand(found.score, place, 2 * half_length, 2 * half_width)
        family.take(family.tops.begun(start, radius), hope=0.0)
    bound = min(slim.bound, found.bound + over if found.bound > 0 else 0.0)
    ended = found.looks < slim.effort or found.score + over > target
    return replace(slim, bound=bound, effort=slim.effort * (1 if ended else _MORE)), ended


class _Lift(CapsuleLift):
    """Capsules that come as near as `spare`, mm, to what a top must hold."""

    kind: _Kind

    def held(self, seen: Array) -> Rows:
        """Return rows by which they do; each is of a unit way."""
        rows, limits = super().held(seen)
        return Rows(rows, limits + self.kind.spare)


class _Kind(CapsuleKind):
    """The same, as the search for the largest sees them."""

    lifted = _Lift

    def __init__(self, spare: float) -> None:
        self.spare = spare

    def held_radii(self, box: CapsuleBox, points: Array, reach: float) -> Array:
        """Return radii that they need to come so near."""
        return super().held_radii(box, points, reach) - self.spare


def best_capsule(
    wood: Wood, wish: Wish, widths: tuple[float, float], enough: float, most_looks: float
) -> Outcome[Pose]:
    """Return the best capsule between two widths, mm, and a bound for what tops hold.

    These have radii of half the least at least. The bound lies no lower than where one worth
    `enough` would be of interest.
    """
    least, widest = widths
    span = Span(min(max(least, NARROWEST), widest), widest)
    wish = replace(within(wish, span), gap=wish.gap / 2)
    kind = _Kind((math.sqrt(2) - 1) * (widest - least) / 2)
    return search(
        TwoSizes(wood, Sizing(kind, wish, Capsule(2.0, 1.0))),
        gap=wish.gap,
        most_steps=wish.most_steps,
        most_looks=most_looks,
        enough=max(enough, 0.0) * (1 - wish.gap),
    )
