"""How a search for rounded rectangles becomes one for plain rectangles, for a span of radii.

A top with corner radius ρ lies in the wood where its inner rectangle, the line of its corner
centres, lies in the wood shrunk by ρ. With a lipping t only the core must lie in the wood: its
radius is c(ρ) = max(ρ − t, 0) and its inner rectangle lies m(ρ) = max(ρ, t) inside the finished
top.

For radii from ρ₀ to ρ₁ there are two ways, and a top goes by the one that it is wide enough for.

Wide, at least 2ρ₁. Such a top holds the one of the same size with radius ρ₁, so that one's inner
rectangle lies in the wood shrunk by c(ρ₁). The score is counted with the corners of ρ₀, the least.

Narrow, less than 2ρ₁. The core shrunk by c(ρ₀) is a rounded rectangle whose radius is what is left,
at most Δ = c(ρ₁) − c(ρ₀); in it lies a plain rectangle (1 − 1/√2)Δ inside. So the inset is that
much more than m(ρ₀), and the width is at most 2ρ₁.

An inner rectangle that may be hardly wider than a line leaves no gap that a turned box could see.
Then the wood is shrunk by g less, and the inner rectangle grows by what fits into a round corner of
radius g: the inset is g/√2 less. What lies in the wood round it is as wide as the whole top still
is, but for its round ends; so gaps along its straight sides give the width away by nothing, and
only the length by a little, and the gaps are open.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from ..goal import wanted
from ..wish import Goal, Limits, Span, Wish
from .gaps import Array
from .hull_bound import HullSides
from .sizes import Sizes

_SAGITTA = 0.03
"""Share of the gap and of the wood's diagonal that the wood shrunk for a bound may keep too much at
round corners: 0.05 mm for a gap of 0.1 % on a panel 1600 mm from corner to corner."""

_GROWTH_STEP, _MOST_GROWTHS = 4.0, 9
"""Growths come in so many sizes, each so many times smaller than the one before."""

CORNER_LEFT = 1 - 1 / math.sqrt(2)
"""How far inside a rounded rectangle of radius 1 the corner of a plain one can lie."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the ground, in which an inner rectangle lies wholly or not at all."""

    region: Region
    edges: Array
    """(e, 4) array: its edges."""
    sides: HullSides

    @classmethod
    def of(cls, region: Region) -> Piece:
        """Return the whole of a region in one piece."""
        return cls(region, region.edges.reshape(-1, 4), HullSides.of(region.corners))


@dataclass(frozen=True, slots=True)
class Recipe:
    """The wood, the sizes and the insets that tops of some radii are searched with."""

    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    narrow: bool
    """Whether it is for tops less than two of the greatest radii wide, or for all others."""
    ground: Region
    """Where inner rectangles must lie, or more."""
    pieces: tuple[Piece, ...]
    inset: float
    """How far the inner rectangle lies inside the finished top at most, mm."""
    growth: float
    """How much less than it could be the wood is shrunk, mm."""
    left: float
    """Radius that the corners of what must lie in the ground have at most, mm."""
    sizes: Sizes

    @classmethod
    def of(
        cls,
        outer: Region,
        wish: Wish,
        radii: tuple[float, float],
        *,
        narrow: bool = False,
        growth: float = 0.0,
    ) -> Recipe:
        """Return the recipe for the tops of these radii in the outer polygon of the wood."""
        least, greatest = radii
        radius = least if narrow else greatest
        clearance = max(radius - wish.lipping, 0.0)
        growth = min(growth, clearance)
        left = growth
        if narrow:
            left += max(greatest - wish.lipping, 0.0) - clearance
            limits = _narrow(wish.limits, 2 * greatest)
            sizes = Sizes.of(replace(wish, limits=limits), least)
        else:
            sizes = replace(Sizes.of(wish, greatest), radius=least)
        inset = max(radius, wish.lipping) - growth + CORNER_LEFT * left
        ground = _shrunk(outer, clearance - growth, wish.gap)
        pieces = tuple(Piece.of(region) for region in ground.pieces)
        return cls(radii, narrow, ground, pieces, inset, growth, left, sizes)

    def at(self, piece: Piece) -> list[Piece]:
        """Return the pieces that may hold what lies in a piece of another recipe for a top.

        Of what lies in the two for one top, the one holds the other.
        """
        every = self.pieces
        return [p for p in every if len(every) == 1 or p.region.touches_or_crosses(piece.region)]

    @property
    def looseness(self) -> float:
        """About how much score its bound gives away because the radius is not known."""
        (least, greatest), sizes, wish = self.radii, self.sizes, self.sizes.wish
        size = 2 * CORNER_LEFT * (greatest - least) if self.narrow else 0.0
        if wish.goal is Goal.AREA:
            corners = sizes.corner_area(greatest) - sizes.corner_area(sizes.radius)
            return corners + size * 2 * max(sizes.least_length, sizes.least_width, 2 * greatest)
        return size / math.hypot(*wanted(wish)) if wish.goal is Goal.NEAREST else size

    def suited_growth(self, high: float, half_turn: float, wide: float) -> float:
        """Return how much less the wood must be shrunk to see gaps, mm.

        Parameters
        ----------
        high : float
            Of the strip to be looked at, mm.
        half_turn : float
            How far the box turns, radians.
        wide : float
            The least width of inner rectangles of interest, mm.
        """
        lack = high * math.tan(half_turn) - wide
        if lack <= 0:
            return 0.0
        most = max(self.radii[0 if self.narrow else 1], 1.0)
        steps = math.floor(math.log(most / lack, _GROWTH_STEP)) if lack < most else 0
        return most / _GROWTH_STEP ** min(steps, _MOST_GROWTHS)


def _narrow(limits: Limits, width: float) -> Limits:
    """Return the limits for tops that are at most `width` wide."""
    span = limits.width
    return replace(limits, width=Span(min(span.least, width), min(span.greatest, width)))


def _shrunk(region: Region, by: float, gap: float) -> Region:
    """Return a region that holds all points `by` inside, with few edges at its round corners."""
    by = max(by - 10 * ROUNDING, 0.0)
    if by == 0 or region.is_empty:
        return region
    bounds = region.bounds
    sagitta = _SAGITTA * max(gap, 1e-6) * math.hypot(bounds.width, bounds.height)
    step = math.acos(max(1 - sagitta / by, 0.0))
    return region.shrunk(by, around=True, segments=math.ceil(math.pi / 4 / step))
