"""How far the top sags on its legs: an estimate.

The top is bent as a plate on the middles of its feet, which is on the safe side of feet as wide as
they are. The material gives back at once what a short load does; what stands for years grows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ..errors import LegsError
from ..geometry.alike import first_of_best
from ..geometry.placement import array_of
from ..geometry.point import Point
from ..geometry.polygon import Region, convex_hull
from ..geometry.tolerance import SAME_POINT
from ..panel.build import Kind
from ..top import Top
from .foot import Foot
from .tipping import GRAVITY

if TYPE_CHECKING:
    from .plate import Array, Plate, RestedPlate

CREEP = 1.5
"""What a lasting load makes of the first sag in seasoned wood (NDS 3.5.2, quoted)."""

CREEP_BOARD = 2.0
"""The same for boards, which creep more (common practice; the figure for unseasoned wood)."""

AIM = 0.02 / 12
"""Sag when first loaded, as a share of the span, to aim at: 0.02 in a foot (read, trade press)."""

SEEN = 1 / 32 / 12
"""Sag that the eye begins to see, as a share of the span: 1/32 in a foot (read, trade press)."""

ALIKE = 1e-6
"""Share of the greatest figure that two places may differ by and still bend alike: what the
equations leave uncertain is a thousand times smaller."""

WIDE_FOOT = 150.0
"""A foot longer than this carries the top along its length, not at its middle alone, mm."""


@dataclass(frozen=True, slots=True)
class Burden:
    """What the top has to carry besides itself."""

    spread: float = field(default=20.0, metadata={"unit": "kg/m2"})
    """Lasting, over the whole top, kg/m²; our choice: a laid table."""
    force: float = field(default=300.0, metadata={"unit": "N"})
    """For a while, at the worst place, N; our choice: somebody leans on it."""
    creep: float = field(default=CREEP, metadata={"unit": ""})
    """What lasting loads make of the first sag."""

    def __post_init__(self) -> None:
        if not (0 <= self.spread < math.inf and 0 <= self.force < math.inf and self.creep >= 1):
            raise LegsError("a burden is not below 0, and creep makes no sag smaller: 1 at least")

    @classmethod
    def on(cls, kind: Kind) -> Burden:
        """Return the usual burden of a top of this build, with the creep of wood or of board."""
        return cls(creep=CREEP_BOARD if kind.is_board else CREEP)


@dataclass(frozen=True, slots=True)
class Deflection:
    """How far one place goes down, mm (up where negative)."""

    place: Point
    """mm from the centre of the top, x along its length."""
    down: float


@dataclass(frozen=True, slots=True)
class Sag:
    """How a top bends on its legs."""

    own: Deflection
    """Deepest under its own weight."""
    first_loaded: Deflection
    """Deepest under its own weight and the spread load, when first loaded."""
    after_creep: Deflection
    """The same after years."""
    highest: Deflection
    """Where it rises most, or sinks least, when first loaded: usually an overhang."""
    under_force: Deflection
    """What the force adds at the worst place for it; nowhere does it do more."""
    span: float
    """The widest gap between neighbouring feet, mm."""
    aim: float
    seen: float
    """Sag to aim at when first loaded, and sag that shows, for that span, mm."""

    @property
    def holds(self) -> bool:
        """Whether it keeps to the aim at first and stays unseen after years."""
        return self.first_loaded.down <= self.aim and self.after_creep.down <= self.seen


def plate_of(top: Top) -> Plate | None:
    """Return a top cut in triangles, ready for any legs; None where its stiffness is not known."""
    from .plate import Plate, rigidity

    stiffness = top.panel.substance.stiffness
    if stiffness is None:
        return None
    return Plate.cut(top.outline.path(), rigidity(stiffness, top.thickness, top.grain))


def sag_of(
    top: Top,
    foot: Foot,
    middles: Sequence[Point],
    burden: Burden | None = None,
    plate: Plate | None = None,
) -> Sag | None:
    """Return how a top bends on feet with these middles; None where its stiffness is not known.

    Parameters
    ----------
    plate : Plate, optional
        The top's own, where several arrangements of legs are tried on it.
    """
    burden = burden or Burden()
    plate = plate or plate_of(top)
    if plate is None:
        return None
    points = [point for middle in middles for point in bearing_points(foot, middle)]
    rested = plate.on(points)
    unit = rested.under_load(1.0)
    own = top.panel.substance.mass(1.0, top.thickness) * GRAVITY
    loaded = own + burden.spread * 1e-6 * GRAVITY
    first = _deepest(plate, unit * loaded)
    span = widest_gap(points)
    return Sag(
        own=_deepest(plate, unit * own),
        first_loaded=first,
        after_creep=Deflection(first.place, first.down * burden.creep),
        highest=_deepest(plate, -unit * loaded, sign=-1.0),
        under_force=_worst_force(plate, rested, burden.force),
        span=span,
        aim=span * AIM,
        seen=span * SEEN,
    )


def bearing_points(foot: Foot, middle: Point) -> list[Point]:
    """Return where a foot carries the top: its middle, and its far ends where it is a slab."""
    long, short = max(foot.length, foot.width), min(foot.length, foot.width)
    if foot.is_round or long <= WIDE_FOOT:
        return [middle]
    along = Point(1, 0) if foot.length >= foot.width else Point(0, 1)
    reach = along * ((long - short) / 2)
    return [middle + reach, middle, middle + -reach] if long > short else [middle]


def widest_gap(points: Sequence[Point]) -> float:
    """Return the longest side between neighbours on the rim of the points that carry a top, mm."""
    hull = Region.from_rings(convex_hull(array_of(points)))
    rim = sorted(
        (p for p in points if hull.edge_distance(p) < SAME_POINT),
        key=lambda p: (p - hull.centroid).angle,
    )
    return max(a.distance_to(b) for a, b in zip(rim, [*rim[1:], rim[0]], strict=True))


def _deepest(plate: Plate, down: Array, sign: float = 1.0) -> Deflection:
    """Return the deepest place, of places as deep the first."""
    k = _first(plate, down)
    return Deflection(_at(plate, k), sign * float(down[k]))


def _worst_force(plate: Plate, rested: RestedPlate, force: float) -> Deflection:
    give = rested.give
    k = _first(plate, give)
    return Deflection(_at(plate, k), float(give[k]) * force)


def _first(plate: Plate, figures: Array) -> int:
    """Return which place has the greatest figure; of places alike the first along, then up."""
    least = ALIKE * float(np.abs(figures).max())
    near = (int(k) for k in np.flatnonzero(figures >= figures.max() - least))
    return first_of_best(
        near, lambda k: float(figures[k]), lambda k: tuple(plate.places[k]), tolerance=least
    )


def _at(plate: Plate, k: int) -> Point:
    return Point.of(np.round(plate.places[k], 6) + 0.0)
