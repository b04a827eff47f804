"""What a size is worth, and which sizes the limits allow, for a finished top round its core.

The search moves the core, the line that is cut; goals and limits speak of the finished top, which
is larger by the lipping all round.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ...geometry.tolerance import PROOF_ALLOWANCE
from ...outlines import Outline
from ..goal import Figure, check, half_planes_of, nearness, wanted, worth
from ..wish import Goal, Wish
from ..wood.edges import Array
from .boxes import Pose
from .kind import Kind

_SLACK = PROOF_ALLOWANCE / 2
"""Half of what a size may fall short of a least limit, so that a top of exactly the size of its
place can be proved inside."""
_NARROWEST = 1.0
"""mm: no core is narrower."""
_LEVEL = 1e-9
"""Share by which a figure that does not change with the radius may seem to."""
_LADDER = np.linspace(0.0, 1.0, 33)[1:]
"""Shares of a span of radii."""


@dataclass(frozen=True)
class Sizing:
    """Scores and limits of one kind of top; radii and half sizes are those of the core."""

    kind: Kind
    wish: Wish
    outline: Outline
    """Of any size: tops are cut to its form."""
    longest: float = 1e6
    """Half the length, mm, that the wood leaves a core at most."""

    def __post_init__(self) -> None:
        assert self.rim[0] >= self.rim[1]
        check(self.wish, slim=self.shapes[1] > 0)

    @property
    def shapes(self) -> tuple[float, float]:
        """The least and greatest shape number that the limits and the wood leave.

        It rises with the length and falls with the width; of a ratio one way with both.
        """
        limits, rim = self.wish.limits, self.rim
        least = self._core(limits.length.least, limits.width.least)
        most = self._core(limits.length.greatest, limits.width.greatest)
        slim = max(least[1], _NARROWEST / 2)
        wide = max(slim, min(most[1], self.longest))

        def number(half_length: float, half_width: float) -> float:
            return self.kind.shape_of(Pose(0, 0, 0, max(half_length, half_width), half_width))

        def of_ratio(ratio: float) -> list[float]:
            return [number(ratio * (w + rim[1]) - rim[0], w) for w in (slim, wide)]

        low = max(number(least[0], wide), min(of_ratio(limits.ratio.least)))
        high = number(min(most[0], self.longest), slim)
        return low, min(high, max(of_ratio(limits.ratio.greatest)))

    @cached_property
    def rim(self) -> tuple[float, float]:
        """What the lipping adds to half the length and half the width of a core, mm."""
        return self.kind.rim(self.wish.lipping)

    @cached_property
    def half_planes(self) -> Array:
        """The limits as rows a, b, c, (m, 3): ``a · half length + b · half width <= c``."""
        rows = np.array([*half_planes_of(self.wish.limits), (1.0, 0.0, 2 * self.longest)])
        rows[:, 2] /= 2
        rows[:-1, 2] -= rows[:-1, :2] @ self.rim
        return rows

    def _core(self, length: float, width: float) -> tuple[float, float]:
        """Return half the length and half the width of the core of a finished top, mm."""
        return length / 2 - self.rim[0], width / 2 - self.rim[1]

    def score(self, half_length: Figure, half_width: Figure) -> Figure:
        """Return what a core of that size is worth once it is finished."""
        long, wide = half_length + self.rim[0], half_width + self.rim[1]
        return worth(self.wish, 2 * long, 2 * wide, self.kind.area(long, wide))

    def slopes(self, half_length: float, half_width: float) -> Array:
        """Return how the score changes with half the length and half the width, (2,)."""
        step = 1e-4 * half_width
        ways = step * np.array([[1.0, 0.0], [0.0, 1.0]])
        more, less = (
            self.score(half_length + way[0], half_width + way[1]) for way in (ways, -ways)
        )
        slopes: Array = (more - less) / (2 * step)
        return slopes

    def _limits(self, low: float, high: float) -> tuple[float, Array]:
        """Return the greatest radius that limits leave, and start, growth and slack of the others.

        Each for that shape in [low, high] which keeps it best: short, or slim. It is kept where
        start + growth · r <= 0; the growth is 0 where the radius does not matter; by the slack, mm,
        it may be broken for what a proof costs.
        """
        a, b, c = self.half_planes.T
        axes = np.array([self.kind.axes(low), self.kind.axes(high)])
        length, lengthens, width, widens = axes[np.where((a > 0) | (b < 0), 0, 1)].T
        start, growth = a * length + b * width - c, a * lengthens + b * widens
        growth[np.abs(growth) <= _LEVEL * (np.abs(a) * lengthens + np.abs(b) * widens)] = 0.0
        grows = growth > 0
        most = float((-start[grows] / growth[grows]).min(initial=math.inf))
        return most, np.stack([start, growth, _SLACK * (np.abs(a) + np.abs(b))])[:, ~grows]

    def upper(self, low: float, high: float, radius: Array) -> Array:
        """Return a score that no top of shapes in [low, high] and at most these radii beats.

        It is 0 where none of them keeps the limits.
        """
        within, limits = self._limits(low, high)
        radius = np.minimum(radius, within)
        short, long = self.kind.sizes(low, radius), self.kind.sizes(high, radius)
        start, growth, slack = limits[..., None]
        allowed = (start + growth * radius <= slack).all(axis=0)
        allowed &= (radius > 0) & (2 * short[1] >= _NARROWEST)
        greatest = self.wish.limits
        most = self._core(greatest.length.greatest, greatest.width.greatest)
        half_length = np.minimum(long[0], min(most[0], self.longest))
        half_width = np.minimum(short[1], most[1])
        match self.wish.goal:
            case Goal.AREA:
                # length and width may be held by their limits at once
                held = self.score(half_length, np.minimum(half_width, half_length))
                score = np.minimum(self.score(*long), held)
            case Goal.NEAREST:
                score = self._nearest(low, high, half_length, half_width)
            case _:
                score = self.score(half_length, half_width)
        return np.where(allowed, score, 0.0)

    def least_radius(self, low: float, high: float, most: float, enough: float) -> float:
        """Return a radius below which no top of these shapes is worth more than enough.

        Endless where none up to `most` is.
        """
        bottom = 0.0
        for finer in range(3):
            radii = bottom + (most - bottom) * _LADDER
            good = self.upper(low, high, radii) > enough
            if not good[-1]:
                return bottom if finer else math.inf
            first = int(np.argmax(good))
            bottom, most = (float(radii[first - 1]) if first else bottom), float(radii[first])
        return bottom

    def _nearest(self, low: float, high: float, half_length: Array, half_width: Array) -> Array:
        """Return the nearness that no core of these shapes and at most these sizes beats."""
        long, wide = self._core(*wanted(self.wish))
        limits = self.wish.limits
        least_long, least_wide = self._core(limits.length.least, limits.width.least)
        short = np.maximum(long - half_length, max(least_long - _SLACK - long, 0.0))
        thin = np.maximum(wide - half_width, max(least_wide - _SLACK - wide, 0.0))

        def beyond(p: float) -> float:
            """Return how far the wanted size lies on the round side of all sizes of a shape."""
            length, lengthens, width, widens = self.kind.axes(p)
            across = lengthens * (wide - width) - widens * (long - length)
            return 2 * across / math.hypot(lengthens, widens)

        off = max(beyond(low), -beyond(high))
        return nearness(self.wish, np.maximum(2 * np.hypot(short, thin), off))

    def best(self, p: float, radius: float) -> tuple[float, float] | None:
        """Return half sizes of the best core of shape p and at most this radius, if any is."""
        within, (start, growth, slack) = self._limits(p, p)
        radius = min(radius, within)
        if self.wish.goal is Goal.NEAREST:
            long, wide = self._core(*wanted(self.wish))
            length, lengthens, width, widens = self.kind.axes(p)
            way = lengthens * (long - length) + widens * (wide - width)
            falls = growth < 0
            least = min(radius, float((-start[falls] / growth[falls]).max(initial=0.0)))
            radius = max(min(radius, way / (lengthens**2 + widens**2)), least)
        if radius <= 0:
            return None
        half_length, half_width = self.kind.sizes(p, radius)
        kept = bool((start + growth * radius <= slack).all())
        return (half_length, half_width) if kept and 2 * half_width >= _NARROWEST else None
