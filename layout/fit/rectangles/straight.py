"""Of tops as good as each other, the straight one: along an axis, or along an edge of the wood."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from ...geometry.alike import greatest_first
from ...geometry.tolerance import ROUNDING, SAME_PLACE
from .held import Held
from .local_search import Polisher

_STRAIGHT = 0.05
"""mm: a top that leaves a direction by no more over its length may be meant to have it."""
_NEGLIGIBLE = 0.002
"""mm that a size may lose for a straight direction."""


def straightened(polisher: Polisher, held: Held) -> Held:
    """Return the top turned to the direction of an axis or edge that it all but has.

    It is polished again at just that turn, and left as it was where that costs more than a
    tape could ever tell.
    """
    long = held.turn + math.pi / 2
    way = polisher.edges.end - polisher.edges.start
    order = greatest_first(np.hypot(*way.T), tolerance=SAME_PLACE)
    edges = np.arctan2(way[order, 1], way[order, 0])
    for direction in (0.0, *edges):
        off = math.remainder(direction - long, math.pi / 2)
        if abs(off) * polisher.length(held) < _STRAIGHT:
            turn = float(np.clip(_exact(long + off, direction) - math.pi / 2, *polisher.turns))
            there = polisher.fitted(replace(held, turn=turn))
            if there is None:
                return held
            there = replace(polisher, turns=(turn, turn)).polished(there)
            lost = polisher.score(held) - polisher.score(there)
            worse = polisher.missed(there) > max(polisher.missed(held), ROUNDING)
            small = lost <= _NEGLIGIBLE / polisher.length(held) * polisher.score(held)
            return there if small and not worse else held
    return held


def _exact(near: float, direction: float) -> float:
    """Return the direction plus the quarter turns that bring it near, without rounding for none."""
    quarters = round((near - direction) / (math.pi / 2))
    return direction + quarters * (math.pi / 2)
