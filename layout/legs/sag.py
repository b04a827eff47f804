"""How far the top sags on its legs: an estimate.

The top is bent as a plate on the middles of its feet, which is on the safe side of feet as wide as
they are. The material gives back at once what a short load does; what stands for years grows.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ..errors import LegsError
from ..geometry import Point, Region, array_of, first_of_best
from ..geometry.scalar import last_where
from ..geometry.tolerance import SAME_POINT
from ..outlines import Outline
from .foot import Foot, FootShape
from .room import TableTop
from .tipping import GRAVITY

if TYPE_CHECKING:
    from .plate import Array, Plate

CREEP_SOURCE = "EN 1995-1-1, 3.1.4 and table 3.2, service class 1"
"""Where the growth of what lasts comes from: k_def of a heated room (quoted)."""

K_DEF = {
    **dict.fromkeys(("plywood", "blockboard"), 0.80),
    **dict.fromkeys(("OSB", "particleboard", "MDF", "hardboard", "solid-core door"), 2.25),
}
"""What a lasting load adds to the first sag in the end, as a share of it: *EN 1995-1-1* table
3.2, service class 1 (quoted). OSB as OSB/2, particleboard as P4; blockboard is not in it and
taken as plywood, a solid-core door as particleboard."""

K_DEF_WOOD = 0.60
"""The same of solid wood, *EN 1995-1-1* table 3.2 (quoted)."""

FIRST_LIMIT, FINAL_LIMIT = 300.0, 250.0
"""The span over these is as far as a top should sag when first loaded and in the end: the widest of
*EN 1995-1-1* 7.2, table 7.2, for the first sag (l/300 to l/500) and for the final one (l/250 to
l/350; quoted)."""

ALIKE = 1e-6
"""Share of the greatest figure that two places may differ by and still bend alike: what the
equations leave uncertain is a thousand times smaller."""

WIDE_FOOT = 150.0
"""A foot longer than this, mm, and any slab, carries the top along its length."""


@dataclass(frozen=True, slots=True)
class Loads:
    """What the top has to carry besides itself."""

    long_term: float = field(default=20.0, metadata={"unit": "kg/m2"})
    """Lasting, over the whole top, kg/m²; our choice: a laid table."""
    point: float = field(default=300.0, metadata={"unit": "N"})
    """For a while, at the worst place, N; our choice: somebody leans on it."""
    creep: float = field(default=1 + K_DEF_WOOD, metadata={"unit": ""})
    """What lasting loads make of the first sag."""

    def __post_init__(self) -> None:
        if not (0 <= self.long_term < math.inf and 0 <= self.point < math.inf and self.creep >= 1):
            raise LegsError("a load is not below 0, and creep makes no sag smaller: 1 at least")


def creep_of(material: str) -> float:
    """Return what a lasting load makes of the first sag in a material of that name.

    >>> creep_of("oak"), creep_of("MDF")
    (1.6, 3.25)
    """
    return 1 + K_DEF.get(material, K_DEF_WOOD)


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
    first_limit: float
    final_limit: float
    """How far it should sag at most over that span, when first loaded and in the end, mm."""
    waist: float | None
    """How wide the top is at a waist between its parts, mm; None where it has none."""


def sag_of(
    table: TableTop, foot: Foot, middles: Sequence[Point], loads: Loads | None = None
) -> Sag | None:
    """Return how a top bends on feet with these middles; None where its stiffness is not known."""
    loads, plate, top = loads or Loads(), table.plate, table.top
    if plate is None:
        return None
    points = borne_at(foot, middles)
    rested = plate.on(points)
    unit = rested.under_load(1.0)
    own = top.panel.substance.mass(1.0, top.thickness) * GRAVITY
    loaded = own + loads.long_term * 1e-6 * GRAVITY
    first = _deepest(plate, unit * loaded)
    span = widest_gap(points)
    return Sag(
        own=_deepest(plate, unit * own),
        first_loaded=first,
        after_creep=Deflection(first.place, first.down * loads.creep),
        highest=_deepest(plate, -unit * loaded, times=-1.0),
        under_force=_deepest(plate, rested.give, times=loads.point),
        span=span,
        first_limit=span / FIRST_LIMIT,
        final_limit=span / FINAL_LIMIT,
        waist=waist_of(top.outline),
    )


def waist_of(outline: Outline) -> float | None:
    """Return how wide an outline is between two wider parts, mm; None where it has no waist."""
    if outline.free_sizes:
        return None
    face = Region.from_rings(outline.inner(_WAIST))
    least = _PART * outline.area

    def falls_apart(by: float) -> bool:
        return sum(piece.area > least for piece in face.shrunk(by).pieces) > 1

    step = outline.width / 2 / _DEPTHS
    first = next((k for k in range(1, _DEPTHS) if falls_apart(step * k)), None)
    if first is None:
        return None
    return 2 * last_where(lambda by: not falls_apart(by), step * (first - 1), step * first)


_WAIST, _DEPTHS, _PART = 0.5, 12, 0.02
"""How near the edge is followed to find a waist, mm; at how many depths one is looked for; and the
least share of the top that is left on either side, or it is a nib."""


def borne_at(foot: Foot, middles: Sequence[Point]) -> list[Point]:
    """Return all places at which feet with these middles carry the top."""
    return [point for middle in middles for point in bearing_points(foot, middle)]


def bearing_points(foot: Foot, middle: Point) -> list[Point]:
    """Return where a foot carries the top: its middle, and its far ends where it is a slab."""
    x, y = (max(side - foot.thin, 0.0) / 2 for side in (foot.length, foot.width))
    wide = max(foot.length, foot.width) > WIDE_FOOT or foot.shape is FootShape.SLAB
    reach = Point(x, y)
    if foot.is_round or not wide or not reach.norm:
        return [middle]
    return [middle + reach, middle, middle + -reach]


def widest_gap(points: Sequence[Point]) -> float:
    """Return the longest side between neighbours on the rim of the points that carry a top, mm."""
    hull = Region.hull(array_of(points))
    near = (p for p in points if hull.edge_distance(p) < SAME_POINT)
    rim = sorted(near, key=lambda p: (p - hull.centroid).angle)
    return max(a.distance_to(b) for a, b in pairwise([*rim, rim[0]]))


def _deepest(plate: Plate, down: Array, times: float = 1.0) -> Deflection:
    """Return the deepest place, of places as deep the first along, then up."""
    least = ALIKE * float(np.abs(down).max())
    near = (int(k) for k in np.flatnonzero(down >= down.max() - least))
    k = first_of_best(
        near, lambda k: float(down[k]), lambda k: tuple(plate.places[k]), tolerance=least
    )
    return Deflection(Point.of(np.round(plate.places[k], 6) + 0.0), times * float(down[k]))
