"""Attacks on the bounds of tops of two sizes: on single boxes of the search and on its end."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from panelwright.layout.fit.two_sizes.boxes import Box
from panelwright.layout.fit.two_sizes.family import TwoSizes
from panelwright.layout.fit.two_sizes.polish import polished
from panelwright.layout.fit.two_sizes.pose import Kind, turned
from panelwright.layout.fit.two_sizes.sizing import Sizing
from panelwright.layout.fit.two_sizes.wood import Wood
from panelwright.layout.fit.wish import Wish
from panelwright.layout.geometry.point import Point
from panelwright.layout.geometry.polygon import Region
from panelwright.layout.panel.sound import SoundWood

HAIR = 1e-9
"""Share of an area that rounding may account for."""


def star(rng: np.random.Generator) -> Region:
    """Return a panel of 5 to 12 corners, often not convex; now and then with a knot cut out."""
    count = int(rng.integers(5, 13))
    reach = rng.uniform(200, 1000, count)
    angle = np.arange(count) * math.tau / count + rng.uniform(0, 1)
    panel = Region.from_rings(np.stack([reach * np.cos(angle), reach * np.sin(angle)], axis=1))
    if rng.random() < 0.5:
        knot = Point(*(float(v) for v in rng.normal(0, 100, 2)))
        panel = panel.minus(Region.disk(knot, 30.0, around=True))
    return panel


def family_of(kind: Kind, panel: Region, shape: str) -> TwoSizes:
    """Return the tops of a kind on a panel, as the search for the largest sees them."""
    sizing = Sizing(kind, Wish((shape,)), shape)
    return TwoSizes(Wood(SoundWood.exact(panel)), sizing)


class Attacked(NamedTuple):
    """The bound of a box and the best of the tops found in it, as scores."""

    bound: float
    best: float


def attacked_box(family: TwoSizes, rng: np.random.Generator, tops: int) -> Attacked | None:
    """Return the bound of a random box about a top that fits, and the best of many tops in it.

    Half of the tops lie at corners of the box, where a bound that is wrong breaks first.
    """
    kind, piece = family.kind, family.wood.pieces[0]
    half_turn, size = 10 ** rng.uniform(-4, -0.7), 10 ** rng.uniform(-1, 2.3)
    low = float(rng.uniform(0, 2) * rng.integers(0, 2)) if kind.ratio is None else 0.0
    high = low + (10 ** rng.uniform(-4, 0) if kind.ratio is None else 0.0)
    turn = rng.uniform(0, kind.period(high))
    tried = rng.uniform(piece.corners.min(axis=0), piece.corners.max(axis=0), (30, 2))
    found = [family.placed(centre, turn, (low + high) / 2) for centre in tried]
    fitting = [top for top in found if top is not None]
    if not fitting:
        return None
    start = max(fitting, key=lambda top: top[0])[1]
    middle = np.array([start.x, start.y])
    clear = np.zeros(1, dtype=bool)
    box = Box(turn, half_turn, low, high, middle[None], turn, (size, size), clear, piece.edges)
    bound, best = family.bound(box, 1e-3), 0.0
    for i in range(tops):
        off = rng.uniform(-1, 1, 4)
        off = np.sign(off) if i % 2 else off
        centre = middle + turned(off[None, :2] * size, -turn)[0]
        shape = low + (off[3] + 1) / 2 * (high - low)
        top = family.placed(centre, turn + off[2] * half_turn, shape)
        best = max(best, 0.0 if top is None else top[0])
    return Attacked(bound, best)


def best_climbed(family: TwoSizes, rng: np.random.Generator, starts: int) -> float:
    """Return the best score that is reached by polish from tops at random places and turns."""
    kind, piece, best = family.kind, family.wood.pieces[0], 0.0
    tried = rng.uniform(piece.corners.min(axis=0), piece.corners.max(axis=0), (starts, 2))
    for centre in tried:
        shape = float(rng.uniform(0, 1.5)) if kind.ratio is None else 0.0
        top = family.placed(centre, rng.uniform(0, math.tau), shape)
        if top is not None:
            best = max(best, polished(family, *top)[0])
    return best
