"""What a size is worth, and which sizes the limits allow, for a finished top round its core.

The search moves the core, the line that is cut; goals and limits speak of the finished top, which
is larger by the lipping all round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ...errors import LayoutError
from ...geometry.tolerance import PROOF_ALLOWANCE
from ...outlines import Outline
from ..wish import Goal, Wish
from ..wood.edges import Array
from .kind import Kind

_SLACK = PROOF_ALLOWANCE / 2
"""Half of what a size may fall short of a least limit, so that a top of exactly the size of its
place can be proved inside."""

_NARROWEST = 1.0
"""mm: no core is narrower."""

_LADDER = np.linspace(0.0, 1.0, 33)[1:]
"""Shares of a span of radii."""


@dataclass(frozen=True, slots=True)
class Sizing:
    """Scores and limits of one kind of top; radii and half sizes are those of the core."""

    kind: Kind
    wish: Wish
    outline: Outline
    """Of any size: tops are cut to its form."""

    def __post_init__(self) -> None:
        wish = self.wish
        assert self.rim[0] >= self.rim[1]
        if wish.goal is Goal.NEAREST and wish.wanted is None:
            raise LayoutError("the nearest top needs a wanted length and width")
        bare = wish.limits.width.least <= 0 and math.isinf(wish.limits.ratio.greatest)
        if wish.goal is Goal.LENGTH and bare and self.shapes[1] > 0:
            raise LayoutError(
                "the longest top needs a least width or a greatest ratio: else it is a line"
            )

    @property
    def shapes(self) -> tuple[float, float]:
        """The least and greatest shape number that the limits leave."""
        return self.kind.shape_span(self.wish)

    @property
    def is_one_shape(self) -> bool:
        """Whether they leave but one."""
        low, high = self.shapes
        return low == high

    @property
    def rim(self) -> tuple[float, float]:
        """What the lipping adds to half the length and half the width of a core, mm."""
        return self.kind.rim(self.wish.lipping)

    def turn_span(self, period: float) -> float:
        """Return half the span of turns to be searched for a top that repeats every period."""
        most = self.wish.limits.most_turn
        return period / 2 if most >= min(math.pi, period) / 2 else most

    def score(self, half_length: float, half_width: float) -> float:
        """Return what a core of that size is worth once it is finished."""
        rim = self.rim
        long, wide = half_length + rim[0], half_width + rim[1]
        match self.wish.goal:
            case Goal.AREA:
                return self.kind.area(long, wide)
            case Goal.LENGTH:
                return 2 * long
            case Goal.WIDTH:
                return 2 * wide
            case Goal.NEAREST:
                return self._nearness(2 * long, 2 * wide)

    def _nearness(self, length: float, width: float) -> float:
        wanted = self._wanted
        size = math.hypot(*wanted)
        return size / (size + math.hypot(length - wanted[0], width - wanted[1]))

    @property
    def _wanted(self) -> tuple[float, float]:
        assert self.wish.wanted is not None
        return self.wish.wanted

    def slopes(self, half_length: float, half_width: float) -> tuple[float, float]:
        """Return how the score changes with half the length and half the width."""
        step = 1e-4 * half_width
        return (
            (
                self.score(half_length + step, half_width)
                - self.score(half_length - step, half_width)
            )
            / (2 * step),
            (
                self.score(half_length, half_width + step)
                - self.score(half_length, half_width - step)
            )
            / (2 * step),
        )

    def upper(self, low: float, high: float, radius: Array) -> Array:
        """Return a score that no top of shapes in [low, high] and at most these radii beats.

        It is 0 where none of them keeps the limits.
        """
        limits, t, rim = self.wish.limits, self.wish.lipping, self.rim
        kind = self.kind
        cap = min(
            kind.radius_of_length(low, limits.length.greatest / 2 - rim[0]),
            kind.radius_of_width(high, limits.width.greatest / 2 - rim[1]),
            kind.ratio_radius(low, high, limits.ratio, t),
        )
        radius = np.minimum(radius, cap)
        half_length, half_width = kind.greatest_sizes(low, high, radius)
        half_length = np.minimum(half_length + rim[0], limits.length.greatest / 2)
        half_width = np.minimum(half_width + rim[1], limits.width.greatest / 2)
        match self.wish.goal:
            case Goal.AREA:
                # length and width may be held by their limits at once
                held = kind.area(half_length, np.minimum(half_width, half_length))
                score = np.minimum(kind.greatest_area(low, high, radius, t), held)
            case Goal.LENGTH:
                score = 2 * half_length
            case Goal.WIDTH:
                score = 2 * half_width
            case Goal.NEAREST:
                score = self._upper_nearness(low, high, half_length, half_width)
        allowed = (half_length >= limits.length.least / 2 - _SLACK) & (
            half_width >= limits.width.least / 2 - _SLACK
        )
        allowed &= radius > 0
        if not math.isinf(limits.ratio.greatest):
            allowed &= kind.least_ratio(low, radius, t) <= limits.ratio.greatest * (1 + 1e-9)
        return np.where(allowed, score, 0.0)

    def least_radius(self, low: float, high: float, most: float, enough: float) -> float:
        """Return a radius below which no top of these shapes is worth more than enough."""
        bottom = 0.0
        for _ in range(2):
            radii = bottom + (most - bottom) * _LADDER
            first = int(np.argmax(self.upper(low, high, radii) > enough))
            bottom, most = (float(radii[first - 1]) if first else bottom), float(radii[first])
        return bottom

    def upper_of_tail(self, low: float, longest: float) -> float:
        """Return a score that no oval of shape `low` or more and at most this half length beats.

        The nearest top may be wished for so long that a line comes as near as any top: the tail
        ends where its ovals are too narrow to be tops.
        """
        rim, limits = self.rim, self.wish.limits
        longest = min(longest, limits.length.greatest / 2 - rim[0])
        half_width = longest * math.exp(-low)
        if 2 * half_width < _NARROWEST or 2 * (half_width + rim[1]) < limits.width.least:
            return 0.0
        if 2 * (longest + rim[0]) < limits.length.least:
            return 0.0
        if self.wish.goal is not Goal.NEAREST:
            return self.score(longest, half_width)
        sizes = np.array([longest + rim[0]]), np.array([half_width + rim[1]])
        return float(self._upper_nearness(low, math.inf, *sizes)[0])

    def _upper_nearness(
        self, low: float, high: float, half_length: Array, half_width: Array
    ) -> Array:
        wanted = self._wanted
        size = math.hypot(*wanted)
        short = np.maximum(wanted[0] - 2 * half_length, 0.0)
        thin = np.maximum(wanted[1] - 2 * half_width, 0.0)
        rim = self.rim
        off = self.kind.shape_miss(low, high, wanted[0] - 2 * rim[0], wanted[1] - 2 * rim[1])
        score: Array = size / (size + np.maximum(np.hypot(short, thin), off))
        return score

    def best(self, p: float, radius: float) -> tuple[float, float] | None:
        """Return half sizes of the best core of shape p and at most this radius, if any is."""
        limits, t, rim = self.wish.limits, self.wish.lipping, self.rim
        kind = self.kind
        radius = min(
            radius,
            kind.radius_of_length(p, limits.length.greatest / 2 - rim[0]),
            kind.radius_of_width(p, limits.width.greatest / 2 - rim[1]),
            kind.ratio_radius(p, p, limits.ratio, t),
        )
        if self.wish.goal is Goal.NEAREST:
            wanted = self._wanted
            radius = min(
                radius, kind.nearest_radius(p, wanted[0] / 2 - rim[0], wanted[1] / 2 - rim[1])
            )
            least = max(
                kind.radius_of_length(p, limits.length.least / 2 - rim[0]),
                kind.radius_of_width(p, limits.width.least / 2 - rim[1]),
            )
            radius = max(radius, least) if least <= radius + _SLACK else radius
        if radius <= 0:
            return None
        sizes = kind.sizes(p, radius)
        return sizes if self.allows(*sizes) else None

    def allows(self, half_length: float, half_width: float) -> bool:
        """Return whether a core of that size keeps the limits, give or take what a proof costs."""
        limits, rim = self.wish.limits, self.rim
        long, wide = half_length + rim[0], half_width + rim[1]
        return (
            2 * half_width >= _NARROWEST
            and limits.length.holds(2 * long, 2 * _SLACK)
            and limits.width.holds(2 * wide, 2 * _SLACK)
            and limits.ratio.holds(long / wide, 2 * _SLACK * (long + wide) / wide**2)
        )

    def half_planes(self) -> list[tuple[float, float, float]]:
        """Return the limits as rows (a, b, c): ``a · half length + b · half width <= c``."""
        limits, rim = self.wish.limits, self.rim
        rows = [(-1.0, 1.0, 0.0)]
        for span, sides, add in (
            (limits.length, (1.0, 0.0), rim[0]),
            (limits.width, (0.0, 1.0), rim[1]),
        ):
            if not math.isinf(span.greatest):
                rows.append((*sides, span.greatest / 2 - add))
            if span.least > 0:
                rows.append((-sides[0], -sides[1], add - span.least / 2))
        low, high = limits.ratio.least, limits.ratio.greatest
        if not math.isinf(high):
            rows.append((1.0, -high, high * rim[1] - rim[0]))
        if low > 1:
            rows.append((-1.0, low, rim[0] - low * rim[1]))
        return rows
