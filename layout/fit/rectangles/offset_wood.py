"""How a search for rounded rectangles becomes one for plain rectangles, for a span of radii.

A top with corner radius ρ lies in the wood where its inner rectangle, the line of its corner
centres, lies in the wood shrunk by ρ. With a lipping t only the core must lie in the wood: its
radius is c(ρ) = max(ρ − t, 0) and its inner rectangle lies m(ρ) = max(ρ, t) inside the finished
top.

Of radii from ρ₀ to ρ₁ those tops are searched here that are at least 2ρ₁ wide, or whose cores have
square corners, ρ₁ ≤ t. Such a top holds the one of the same size with radius ρ₁, so that one's
inner rectangle lies in the wood shrunk by c(ρ₁). The score is counted with the corners of ρ₀, the
least.

Slimmer ones hold, as each of any width does, a core with corners of c(ρ₀) that lies (1 − √½) times
c(ρ) − c(ρ₀) farther inside: so far in, the arc of the sharper corner touches the rounder one from
within. Its inner rectangle lies in the wood shrunk by c(ρ₀).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from ...panel.sound import SoundWood
from ..coarse import coarser
from ..wish import ANY, Span, Wish
from ..wood.edges import Array
from .boxes import Points
from .hull_bound import HullSides
from .sizes import Sizes

_SAGITTA = 0.03
"""Share of the gap and of the wood's diagonal that the wood shrunk for a bound may keep too much at
round corners: 0.05 mm for a gap of 0.1 % on a panel 1600 mm from corner to corner."""
_COARSELY = 1e-3
"""Share of the diagonal of details that a first look leaves out, for what it finds is made to fit
anyhow."""
_SQUARED = 1 - math.sqrt(0.5)
"""Of what one radius is less than another: so far inside a top the sharper corner fits."""
_SEVERAL_EDGES, _ROUGHLY = 500, 2e-4
"""Edges beyond which fewer are looked at first, and share of the diagonal by which those lie
farther out at most twice."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of the ground, in which an inner rectangle lies wholly or not at all."""

    region: Region
    edges: Array
    """(e, 2, 2) array: its edges."""
    sides: HullSides

    @classmethod
    def of(cls, region: Region) -> Piece:
        """Return the whole of a region in one piece."""
        return cls(region, region.edges, HullSides.of(region.corners))


class Ground:
    """Where inner rectangles must lie, or more, by how far the wood is shrunk; made once each."""

    def __init__(self, wood: Region, wish: Wish, held: Array, widest: float = math.inf) -> None:
        """Make it for tops that hold points, (m, 2) mm, and of which none is wider, mm."""
        self.wood, self.wish, self.held, self.widest = wood, wish, held, widest
        self.pieces = cache(self._pieces)

    def _pieces(self, by: float, rough: bool) -> tuple[Piece, ...]:
        """Return the wood shrunk by so much, mm, in pieces.

        If `rough`, a little larger and with fewer edges where edges are many.
        """
        if not rough:
            region = _shrunk(self.wood, by, self.wish.gap)
            return tuple(Piece.of(part) for part in region.pieces)
        exact = self.pieces(by, False)
        if sum(len(piece.edges) for piece in exact) < _SEVERAL_EDGES:
            return exact
        every = [coarser(SoundWood.exact(p.region), _ROUGHLY, outer_only=True) for p in exact]
        return tuple(Piece.of(wood.outer) for wood in every)

    def recipe(
        self,
        radii: tuple[float, float],
        widths: Span = ANY,
        *,
        slim: bool = False,
        rough: bool = False,
    ) -> Recipe:
        """Return what tops of these radii and widths, mm, are searched with.

        Those that may be `slim` by the sharpest of their corners, others by the roundest.
        """
        lipping = self.wish.lipping
        sharp, blunt = (max(radius - lipping, 0.0) for radius in radii)
        by = sharp if slim else blunt
        loose = _SQUARED * (blunt - sharp) if slim else blunt - sharp
        sizes = Sizes.of(within(self.wish, widths), radii[0 if slim else 1])
        return Recipe(
            radii,
            widths,
            self.pieces(by, rough),
            lipping + sharp + loose,
            replace(sizes, radius=radii[0], widest=self.widest),
            Points(self.held, loose, sharp),
        )


@dataclass(frozen=True, slots=True)
class Recipe:
    """The wood, the sizes and the inset that tops of some radii and widths are searched with."""

    radii: tuple[float, float]
    """Least and greatest corner radius, mm."""
    widths: Span
    """Of these tops, mm: at least two of the greatest radii, but for slim and square cores."""
    pieces: tuple[Piece, ...]
    """Of the ground."""
    inset: float
    """How far the inner rectangle lies inside the finished top, mm."""
    sizes: Sizes
    must: Points
    """What the inner rectangles must hold, with the sharpest of their corners."""

    @property
    def coarse_edges(self) -> Array:
        """The edges of all pieces, (e, 2, 2), with details left out."""
        corners = np.concatenate([piece.region.corners for piece in self.pieces])
        most = _COARSELY * math.hypot(*np.ptp(corners, axis=0))
        simpler = [(piece.region.simplified(most).edges, piece.edges) for piece in self.pieces]
        return np.concatenate([few if len(few) else every for few, every in simpler])


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
