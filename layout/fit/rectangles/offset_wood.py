"""How a search for rounded rectangles becomes one for plain rectangles, for a span of radii.

A top with corner radius ρ lies in the wood where its inner rectangle, the line of its corner
centres, lies in the wood shrunk by ρ. With a lipping t only the core must lie in the wood: its
radius is c(ρ) = max(ρ − t, 0) and its inner rectangle lies m(ρ) = max(ρ, t) inside the finished
top.

Of radii from ρ₀ to ρ₁ those tops are searched here that are at least 2ρ₁ wide, or whose cores have
square corners, ρ₁ ≤ t. Such a top holds the one of the same size with radius ρ₁, so that one's
inner rectangle lies in the wood shrunk by c(ρ₁). The score is counted with the corners of ρ₀, the
least. Narrower ones are another matter (`slim`).

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
from ...panel.sound import SoundWood
from ..coarse import coarser
from ..wish import ANY, Span, Wish
from .gaps import Array
from .hull_bound import HullSides
from .sizes import Sizes

_SAGITTA = 0.03
"""Share of the gap and of the wood's diagonal that the wood shrunk for a bound may keep too much at
round corners: 0.05 mm for a gap of 0.1 % on a panel 1600 mm from corner to corner."""

_SEVERAL_EDGES, _ROUGHLY = 500, 2e-4
"""Edges beyond which fewer are looked at first, and share of the diagonal by which those lie
farther out at most twice."""

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


class Ground:
    """Where inner rectangles must lie, or more, by how far the wood is shrunk; made once each."""

    def __init__(self, outer: Region, gap: float) -> None:
        self.outer, self.gap = outer, gap
        self._pieces: dict[tuple[float, bool], tuple[Piece, ...]] = {}

    def pieces(self, by: float, *, rough: bool = False) -> tuple[Piece, ...]:
        """Return the wood shrunk by so much, mm, in pieces; with few edges where it is `rough`."""
        key = by, rough
        if key not in self._pieces:
            if rough:
                self._pieces[key] = self._roughly(self.pieces(by))
            else:
                region = _shrunk(self.outer, by, self.gap)
                self._pieces[key] = tuple(Piece.of(part) for part in region.pieces)
        return self._pieces[key]

    def _roughly(self, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
        """Return the pieces a little larger with fewer edges, or as they are where edges are few."""
        if sum(len(piece.edges) for piece in pieces) < _SEVERAL_EDGES:
            return pieces
        every = [coarser(SoundWood.exact(p.region), _ROUGHLY, outer_only=True) for p in pieces]
        return tuple(Piece.of(rough.outer) for rough in every)


@dataclass(frozen=True, slots=True)
class Recipe:
    """The wood, the sizes and the insets that tops of some radii are searched with."""

    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    widths: Span
    """Of these tops, mm: none less than two of the greatest radii, but for square cores."""
    pieces: tuple[Piece, ...]
    """Of the ground."""
    inset: float
    """How far the inner rectangle lies inside the finished top at most, mm."""
    growth: float
    """How much less than it could be the wood is shrunk, mm, and the radius that the corners of
    what must lie in the ground then have."""
    sizes: Sizes

    @classmethod
    def of(
        cls,
        ground: Ground,
        wish: Wish,
        radii: tuple[float, float],
        widths: Span = ANY,
        growth: float = 0.0,
        *,
        rough: bool = False,
    ) -> Recipe:
        """Return the recipe for the tops of these radii on some ground."""
        least, greatest = radii
        clearance = max(greatest - wish.lipping, 0.0)
        growth = min(growth, clearance)
        inset = max(greatest, wish.lipping) - growth + CORNER_LEFT * growth
        pieces = ground.pieces(clearance - growth, rough=rough)
        sizes = replace(Sizes.of(within(wish, widths), greatest), radius=least)
        return cls(radii, widths, pieces, inset, growth, sizes)

    def at(self, piece: Piece) -> list[Piece]:
        """Return the pieces that may hold what lies in a piece of another recipe for a top.

        Of what lies in the two for one top, the one holds the other.
        """
        every = self.pieces
        return [p for p in every if len(every) == 1 or p.region.touches_or_crosses(piece.region)]

    @property
    def looseness(self) -> float:
        """How much score its bound gives away because the radius is not known."""
        return self.sizes.corner_area(self.radii[1]) - self.sizes.corner_area(self.radii[0])

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
        most = max(self.radii[1], 1.0)
        steps = math.floor(math.log(most / lack, _GROWTH_STEP)) if lack < most else 0
        return most / _GROWTH_STEP ** min(steps, _MOST_GROWTHS)


def within(wish: Wish, widths: Span) -> Wish:
    """Return the wish for tops of these widths alone, of which there are some."""
    own = wish.limits.width
    least, greatest = max(own.least, widths.least), min(own.greatest, widths.greatest)
    return replace(wish, limits=replace(wish.limits, width=Span(least, max(least, greatest))))


def _shrunk(region: Region, by: float, gap: float) -> Region:
    """Return a region that holds all points `by` inside, with few edges at its round corners."""
    by = max(by - 10 * ROUNDING, 0.0)
    if by == 0 or region.is_empty:
        return region
    bounds = region.bounds
    sagitta = _SAGITTA * max(gap, 1e-6) * math.hypot(bounds.width, bounds.height)
    step = math.acos(max(1 - sagitta / by, 0.0))
    return region.shrunk(by, around=True, segments=math.ceil(math.pi / 4 / step))
