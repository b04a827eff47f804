"""What counts as best for a rectangle, and which sizes are allowed, for many at once.

Every goal grows with length and with width, up to the sizes wished for: the best top within limits
is the largest rectangle found, trimmed to them, and a bound of both sizes bounds the score.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE, PROOF_CHORD, ROUNDING
from ..goal import check, wanted, worth
from ..wish import Goal, Wish
from ..wood.edges import Array

_TINY = 1e-12
_HOPELESS = 0.9
"""Share of a least size below which a top is not likely to grow into it."""
ENDLESS = 1e9
"""mm: more than any panel."""
NARROWEST = 1.0
"""mm: no core is narrower. What may be as thin as a line leaves no gap that a turned box could see,
so without some least width a search for a long top would find no end."""
CORNER_LOSS = 4 - math.pi
"""What four round corners of radius 1 take from the area."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """The goal and the limits of one wish, for finished tops of one corner radius."""

    wish: Wish
    radius: float
    """The corner radius that the score is counted with, mm."""
    asked: tuple[float, float]
    """The least length and width that the limits ask for, overall, mm."""
    widest: float = math.inf
    """A width, mm, that no top on the wood exceeds."""

    @classmethod
    def of(cls, wish: Wish, radius: float) -> Sizes:
        """Return what `wish` asks of tops with corners of `radius`."""
        check(wish, slim=False)
        limits = wish.limits
        width = max(limits.width.least, 2 * radius, limits.length.least / limits.ratio.greatest)
        width = max(width, 2 * wish.lipping + NARROWEST if wish.lipping > 0 else 0.0)
        length = max(limits.length.least, width * max(1.0, limits.ratio.least))
        return cls(wish, radius, (length, width))

    def eased(self) -> Sizes:
        """Return the same, asking for less by what may be taken off a found top for its proof.

        But for what the proofs of most tops do take. Where a hair of one size is worth much of the
        other, tops are looked for as far down as the bound counts them.
        """
        by = PROOF_ALLOWANCE - 2 * (PROOF_CHORD + 5 * ROUNDING)
        return replace(self, asked=(self.asked[0] - by, self.asked[1] - by))

    @property
    def least(self) -> tuple[float, float]:
        """What is asked for, less what a found top may be reduced by for its proof, mm."""
        length, width = (size - PROOF_ALLOWANCE - ROUNDING for size in self.asked)
        return max(length, _TINY), max(width, NARROWEST)

    @property
    def greatest(self) -> tuple[float, float]:
        """The greatest length and width, mm, that limits and wood allow and the goal can use."""
        limits = self.wish.limits
        length, width = limits.length.greatest, limits.width.greatest
        if self.wish.goal is Goal.NEAREST:
            long, wide = wanted(self.wish)
            length = min(length, max(long, limits.length.least))
            width = min(width, max(wide, self.asked[1]))
        return length, min(width, self.widest)

    def corner_area(self, radius: float) -> float:
        """Return what round corners of a radius take from the score, where it is the area."""
        return CORNER_LOSS * radius**2 if self.wish.goal is Goal.AREA else 0.0

    def trimmed(self, length: Array, width: Array) -> tuple[Array, Array]:
        """Return the best sizes within the limits that are no larger than these."""
        ratio, (most_length, most_width) = self.wish.limits.ratio, self.greatest
        width = np.minimum(width, most_width)
        longest = np.minimum(most_length, min(ratio.greatest, ENDLESS) * width)
        length = np.minimum(length, longest)
        return length, np.minimum(width, length / max(1.0, ratio.least))

    def score(self, length: Array, width: Array) -> Array:
        """Return what the goal counts, for sizes within the limits."""
        area = length * width if self.wish.goal is Goal.AREA else length  # may be endless
        return worth(self.wish, length, width, area - self.corner_area(self.radius))

    def promise(self, length: Array, width: Array) -> Array:
        """Return what tops are worth trimmed, or would be were they not a little too small."""
        length, width = self.trimmed(length, width)
        short = np.minimum(length / self.least[0], width / self.least[1])
        return self.score(length, width) * np.where(short > _HOPELESS, 1.0, short)

    def most(self, length: Array, width: Array) -> Array:
        """Return a score that no allowed top up to these sizes beats; −inf where none is."""
        length, width = self.trimmed(length, width)
        allowed = (length >= self.least[0]) & (width >= self.least[1])
        return np.where(allowed, self.score(length, width), -np.inf)

    def most_within(self, a: Array, b: Array, c: Array) -> Array:
        """Return a score that no allowed top with ``a · length + b · width <= c`` beats, each (n,).

        Along that line the score has one peak; where limits cut the line short of it the best lies
        at the end of what they leave.
        """
        a, b = np.maximum(a, _TINY), np.maximum(b, _TINY)
        limits, (most_long, most_wide) = self.wish.limits, self.greatest
        if self.wish.goal is Goal.AREA:
            peak = c / (2 * b)
        elif self.wish.goal is Goal.NEAREST:
            long, wide = wanted(self.wish)
            peak = wide - b * np.maximum(a * long + b * wide - c, 0.0) / (a**2 + b**2)
        else:
            peak = np.full_like(c, 0.0 if self.wish.goal is Goal.LENGTH else np.inf)
        low = np.maximum((c - a * most_long) / b, c / (b + a * min(limits.ratio.greatest, ENDLESS)))
        high = np.minimum((c - a * self.least[0]) / b, c / (b + a * max(1.0, limits.ratio.least)))
        width = np.minimum(
            np.maximum(np.maximum(peak, low), self.least[1]), np.minimum(high, most_wide)
        )
        # no less than that where the width is allowed, but for rounding
        return self.most(np.maximum((c - b * width) / a, self.least[0]), width)

    def aim(self, length: float, width: float) -> Array | None:
        """Return a figure that bounds the score and touches it at these sizes, mm, or None.

        Three numbers a, b, c: a · length + b · width + c, where neither a nor b is negative.

        The area A: ln A is at most its tangent, L/l + W/w − 2 + ln l w. The distance from the
        wanted sizes is at least its component along any way; along that from here it is as much,
        but where one of them is already too large.
        """
        if self.wish.goal in (Goal.LENGTH, Goal.WIDTH):
            return np.array([self.wish.goal is Goal.LENGTH, self.wish.goal is Goal.WIDTH, 0.0])
        if self.wish.goal is Goal.AREA:
            return np.array([1 / length, 1 / width, math.log(length * width) - 2])
        asked = np.array(wanted(self.wish))
        way = np.maximum(asked - [length, width], 0.0)
        miss = math.hypot(*way)
        return None if miss == 0 else np.array([*way, -way @ asked]) / miss

    def needed(self, length: Array, width: Array, enough: float) -> tuple[Array, Array]:
        """Return the least length and width of an allowed top up to these sizes that scores enough.

        For the area, a width is at least the score over the greatest length, and so on; and as a
        length is at least a width, its square is at least the area.
        """
        length, width = self.trimmed(length, width)
        ratio = self.wish.limits.ratio
        long, wide = np.zeros_like(length), np.zeros_like(width)
        if self.wish.goal is Goal.AREA:
            area = max(enough + self.corner_area(self.radius), 0.0)
            least = math.sqrt(area * max(1.0, ratio.least)), math.sqrt(area / ratio.greatest)
            long = np.maximum(area / np.maximum(width, _TINY), least[0])
            wide = np.maximum(area / np.maximum(length, _TINY), least[1])
        elif self.wish.goal is Goal.NEAREST:
            asked = wanted(self.wish)
            miss = math.hypot(*asked) * (1 / max(enough, _TINY) - 1)
            long = asked[0] - _other_leg(miss, asked[1] - width)
            wide = asked[1] - _other_leg(miss, asked[0] - length)
        elif self.wish.goal is Goal.LENGTH:
            long += enough
        else:
            wide += enough
        wide = np.maximum(np.maximum(wide, self.least[1]), long / ratio.greatest)
        long = np.maximum(np.maximum(long, self.least[0]), wide * max(1.0, ratio.least))
        return long, wide


def _other_leg(hypotenuse: float, leg: Array) -> Array:
    """Return the other leg of a right triangle, 0 where the one is too long."""
    return np.sqrt(np.maximum(hypotenuse**2 - leg**2, 0.0))
