"""The wood that a top on a kept edge may stand on: how long a straight it leaves at each depth."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...geometry.polygon import Region
from ...geometry.tolerance import ROUNDING
from ...panel.sound import SoundWood
from ..points import firm_corners, held_corners
from .free_spans import Array, Spans, free_spans, reached
from .line import KeptLine


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two polygons of the sound wood, in the frame of the line."""

    wood: Region
    edges: Array
    """(e, 2, 2) array: of the wood."""
    within: Array
    """(2,) array: from where to where along x the edge is kept, mm: straights lie there."""

    def straights(self, width: float, radius: float) -> Spans:
        """Return where the straight of a top stays clear, from the first to the last place.

        The core of a top of some width is the strip that lies `radius` inside all its sides; its
        straight is as long. A top is taken less by `ROUNDING` all round, so contact is no
        collision and no straight that fits is left out.
        """
        if width <= 2 * ROUNDING:
            return Spans(self.within[None], np.array([[-1, -1]]))
        spans = free_spans(self.edges, _bar(width, radius), _reach(radius), self.within)
        middles = np.stack([spans.ends.mean(axis=1), np.full(len(spans.ends), width / 2)], axis=1)
        return spans.where(self.wood.holds_points(middles))

    def overall(self, ends: tuple[int, int], width: float, radius: float) -> float:
        """Return how long a top between two edges may be, mm, where these are all that ends it."""
        limits = [float(v) for v in self.within]
        for side, edge in enumerate(ends):
            if edge >= 0:
                blocked = reached(self.edges[[edge]], _bar(width, radius), _reach(radius))
                limits[side] = float(blocked[0, 1 - side])
        return limits[1] - limits[0] + 2 * radius


def _bar(width: float, radius: float) -> tuple[float, float]:
    """Return the heights of the core of a top."""
    middle, inset = width / 2, max(radius, ROUNDING)
    return (inset, width - inset) if inset < middle else (middle, middle)


def _reach(radius: float) -> float:
    return max(radius - ROUNDING, 0.0)


@dataclass(frozen=True, slots=True)
class Ground:
    """Both polygons of the sound wood, and what a top must hold, in the frame of a kept line."""

    inner: Side
    outer: Side
    held: Array
    """(h, 2) array: points that the top must hold, mm."""
    firmly: Array
    """(f, 2) array: what a top found must hold, so that it still holds those once it is drawn in
    for its proof."""
    height: float
    """How far the wood reaches from the line, mm."""

    @classmethod
    def of(cls, line: KeptLine, wood: SoundWood, held: Sequence[Region] = ()) -> Ground:
        """Return the ground on a line."""
        inner = _side(line, wood.inner)
        outer = inner if wood.inner is wood.outer else _side(line, wood.outer)
        height = float(outer.edges[:, :, 1].max(initial=0.0))
        must, firmly = (line.back.of(of(held)) for of in (held_corners, firm_corners))
        return cls(inner, outer, must, firmly, height)


def _side(line: KeptLine, wood: Region) -> Side:
    own = wood.placed(line.back)
    within = np.array([-ROUNDING, line.length + ROUNDING])
    return Side(own, own.edges, within)
