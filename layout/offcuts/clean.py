"""The largest clean rectangle of an offcut: what a maker can still cut from it.

The search is that for the best rectangular top, stopped after a few steps: by then it has tried
rectangles at many turns and moved the best of them to the edges that hold them. What it returns is
proved inside the piece; that none is larger is not proved.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np

from ..fit.driver import search
from ..fit.rounded_rectangle import rectangle_family
from ..fit.wish import Wish
from ..geometry.placement import Placement, Points
from ..geometry.point import Point
from ..geometry.polygon import Region
from ..panel import SoundWood

_STEPS = 8
"""Boxes looked at for a piece. Measured on pieces of doors, tops and slabs: 600 found nothing
larger; on right triangles, where many rectangles are nearly the largest, it is 0.96 at worst."""

_GAP = 0.002
"""The search stops earlier where nothing can be larger by more than this share."""

_LEAST = 100.0
"""Nobody looks for a rectangle in a piece smaller than this, mm²."""


@dataclass(frozen=True, slots=True)
class CleanRectangle:
    """A rectangle wholly inside a piece and clear of its defects.

    Attributes
    ----------
    centre : Point
    length, width : float
        mm, ``length >= width``.
    turn : float
        Of its length from x, radians, above −π/2 and up to π/2.
    """

    centre: Point
    length: float
    width: float
    turn: float = field(metadata={"unit": "rad"})

    @property
    def area(self) -> float:
        """Length times width, mm²."""
        return self.length * self.width

    @property
    def corners(self) -> Points:
        """Its corners, anticlockwise, (4, 2) mm."""
        x, y = self.length / 2, self.width / 2
        own = np.array([(-x, -y), (x, -y), (x, y), (-x, y)])
        return Placement(self.centre, self.turn).of(own)


def largest_clean_rectangle(piece: Region) -> CleanRectangle | None:
    """Return the largest rectangle found inside a region; None where there is none to speak of."""
    if piece.area < _LEAST:
        return None
    wish = Wish(("rectangle",), gap=_GAP, most_steps=_STEPS)
    family = rectangle_family(SoundWood.exact(piece), wish)
    found = search(family, gap=_GAP, most_steps=_STEPS).top
    if found is None:
        return None
    half = math.pi / 2
    turn = half - (half - found.placement.turn) % math.pi
    return CleanRectangle(found.placement.centre, found.outline.length, found.outline.width, turn)
