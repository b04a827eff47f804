"""The largest clean rectangle of an offcut: what a maker can still cut from it.

It is asked of the proved search for the best rectangular top, with few boxes: what it returns is
proved inside the piece, and so is how much larger another one could be at most.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..fit.families import answered
from ..fit.wish import Wish
from ..geometry.polygon import Region
from ..geometry.turned_box import TurnedBox, half_turn
from ..panel import SoundWood

BOXES = 512
"""Boxes looked at at most. Of 60 offcuts of random jobs that could be worth keeping, 32 boxes found
the best of 500 in every one; of four right triangles one needs 170 to be found
(`tests/benchmarks/clean_rectangles.py`). A search ends at its gap: most take far fewer."""

_GAP = 0.05
"""The search ends where nothing can be larger by more than this share: what is cut from an offcut
leaves more. A long strip is proved to 5 % in 48 boxes and to 3 % in 456, the same one found."""

_EFFORT = 3e7
"""Looks at an edge after which it ends too, a second or two: offcuts among hundreds of holes."""

_STEP = 0.1
"""mm to which its sizes are rounded down: so few boxes leave them open in the third figure."""


@dataclass(frozen=True, slots=True)
class Clean:
    """A rectangle in a piece, and what is known of all others."""

    box: TurnedBox
    most: float
    """No rectangle in the piece is larger than this, mm²; proved."""


def may_hold(piece: Region, length: float, width: float) -> bool:
    """Return whether a rectangle so long and wide may lie in a piece; where not, it is proved.

    Of such a one the middle line, half its width short of both ends, lies as deep inside.

    >>> import numpy as np
    >>> corner = Region.from_rings(np.array([(0.0, 0.0), (400.0, 0.0), (0.0, 400.0)]))
    >>> may_hold(corner, 440.0, 60.0), may_hold(corner, 500.0, 60.0)
    (True, False)
    """
    length, width = length - _STEP, width - _STEP
    if piece.area < length * width:
        return False
    within = piece.shrunk(width / 2, around=True).pieces
    corners = (Region.hull(part.corners).corners for part in within)
    spread = (np.hypot(*(c[:, None] - c).T).max() for c in corners)
    return any(far >= length - width for far in spread)


def largest_clean_rectangle(piece: Region, boxes: int = BOXES) -> Clean | None:
    """Return the largest rectangle found inside a region; None where there is none to speak of."""
    wish = Wish(("rectangle",), gap=_GAP, most_steps=boxes, most_effort=_EFFORT)
    answer = answered(SoundWood.exact(piece), wish, "rectangle")
    if answer.fit is None:
        return None
    outline, place = answer.fit.outline, answer.fit.placement
    sizes = outline.length, outline.width
    length, width = (min(s, _STEP * math.floor(s / _STEP + 0.01)) for s in sizes)
    box = TurnedBox(place.centre, length, width, half_turn(place.turn))
    return Clean(box, min(answer.bound, piece.area))
