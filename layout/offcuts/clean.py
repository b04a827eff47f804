"""The largest clean rectangle of an offcut: what a maker can still cut from it.

The search is that for the best rectangular top, stopped after a few steps: by then it has tried
rectangles at many turns and moved the best of them to the edges that hold them. What it returns is
proved inside the piece; that none is larger is not proved.
"""

from __future__ import annotations

from ..fit.driver import search
from ..fit.rectangles.makers import rectangle_family
from ..fit.wish import Wish
from ..geometry.polygon import Region
from ..geometry.turned_box import TurnedBox, half_turn
from ..panel import SoundWood

_STEPS = 8
"""Boxes looked at for a piece. Measured on pieces of doors, tops and slabs: 600 found nothing
larger; on right triangles, where many rectangles are nearly the largest, it is 0.96 at worst."""

_GAP = 0.002
"""The search stops earlier where nothing can be larger by more than this share."""

_LEAST = 100.0
"""Nobody looks for a rectangle in a piece smaller than this, mm²."""


def largest_clean_rectangle(piece: Region) -> TurnedBox | None:
    """Return the largest rectangle found inside a region; None where there is none to speak of."""
    if piece.area < _LEAST:
        return None
    wish = Wish(("rectangle",), gap=_GAP, most_steps=_STEPS)
    family = rectangle_family(SoundWood.exact(piece), wish)
    found = search(family, gap=_GAP, most_steps=_STEPS).top
    if found is None:
        return None
    turn = half_turn(found.placement.turn)
    return TurnedBox(found.placement.centre, found.outline.length, found.outline.width, turn)
