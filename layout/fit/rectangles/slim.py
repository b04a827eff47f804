"""Tops hardly wider than their corners are round, bounded by the capsules that lie in them.

The inner rectangle of such a top is all but a line, and no turned box sees a gap for a line. But a
top L long and W wide, whose corner radius ρ is W/2 at most, holds the capsule as long and wide: of
two rounded rectangles of one size the rounder lies in the other. So what no capsule of these widths
beats, no top does:

- Length and width are the capsule's, and so is what a goal counts of them.
- The area L W − (4 − π) ρ² is (4 − π) (W²/4 − ρ²) more than the capsule's.
- With a lipping t the core has a radius of max(ρ − t, 0), that of the capsule W/2 − t: again the
  one holds the other.
- A point of the top lies off the capsule by (√2 − 1) (W/2 − ρ) at most: at a corner it is as far as
  √2 (W/2 − ρ) + ρ from the middle of the capsule's end, by way of that of the corner's arc. Of the
  cores, whose radii differ by no more, that is true as well.

Both differences are greatest for the least radius and the greatest width. As those close in on each
other a bound closes in on tops that are capsules; wider ones are searched by their gaps.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property

from ...geometry import Placement, Point
from ...geometry.polygon import Region
from ...outlines import Capsule
from ...panel.sound import SoundWood
from ..branch_and_bound import Outcome, search
from ..convex.boxes import Box
from ..convex.capsule import CapsuleKind, CapsuleLift
from ..convex.family import TwoSizes
from ..convex.lift import Rows
from ..convex.pose import Pose
from ..convex.sizing import Sizing
from ..convex.wood import Wood
from ..wish import Span, Wish
from ..wood.edges import Array
from .offset_wood import within
from .sizes import NARROWEST


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

    def held_radii(self, box: Box, points: Array, reach: float) -> Array:
        """Return radii that they need to come so near."""
        return super().held_radii(box, points, reach) - self.spare


class Capsules:
    """The capsules in one piece of wood that are as wide as tops of some radii."""

    def __init__(self, wood: SoundWood, wish: Wish, held: Sequence[Region]) -> None:
        self.wood, self.wish, self.held = wood, wish, held

    @cached_property
    def _seen(self) -> Wood:
        return Wood(self.wood, self.held)

    def best(self, radius: float, widest: float, enough: float, most_looks: float) -> Outcome[Pose]:
        """Return the best one from two radii to `widest`, mm, wide and a bound for what tops hold.

        Which lies no lower than where one worth `enough` would be of interest.
        """
        widths = Span(min(max(2 * radius, NARROWEST), widest), widest)
        wish = replace(within(self.wish, widths), gap=self.wish.gap / 2)
        kind = _Kind(self.spare(radius, widest))
        family = TwoSizes(self._seen, Sizing(kind, wish, Capsule(2.0, 1.0)))
        return search(
            family,
            gap=wish.gap,
            most_steps=wish.most_steps,
            most_looks=most_looks,
            enough=max(enough, 0.0) * (1 - wish.gap),
        )

    @staticmethod
    def spare(radius: float, widest: float) -> float:
        """Return how far, mm, what a top must hold may lie off its capsule."""
        return (math.sqrt(2) - 1) * (widest / 2 - radius)

    def placed(self, pose: Pose) -> Placement:
        """Return where it lies."""
        return Placement(Point(pose.x, pose.y) + self._seen.middle, pose.turn)
