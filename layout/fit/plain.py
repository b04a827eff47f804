"""The plainest places for a top: along the grain or square with the panel, in the middle.

Where limits hold a top back it can lie in many places, and a search ends at whichever it met first;
a maker would take the plainest.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from ..geometry.alike import first_of_best
from ..geometry.tolerance import SAME_PLACE
from .wish import Limits

Array = NDArray[np.float64]


class Place(NamedTuple):
    """Where a top may be tried."""

    turn: float
    """Of its length from x, radians."""
    centre: Array
    """(2,) array: mm."""
    in_the_middle: bool
    """Whether that is the middle of the wood both ways."""


def plain_places(
    edges: Array, limits: Limits, turn: float, centre: Array, quarters: int = 2
) -> Iterator[Place]:
    """Yield places for a top, the plainest first; its own is the last.

    Turns along the grain and along the longest edge go before its own; for each, the middle of the
    wood both ways before one way before its own centre.

    Parameters
    ----------
    edges : (n, 2, 2) array
        Of the wood.
    turn, centre : float, (2,) array
        Those of the top.
    quarters : int
        Quarter turns after which it looks the same: 2, or 4 for one without half-turn symmetry.
    """
    longest = first_of_best(
        edges,
        lambda edge: math.dist(edge[0], edge[1]),
        lambda edge: (edge[0] + edge[1]) / 2,
        tolerance=SAME_PLACE,
    )
    along = math.atan2(*(longest[1] - longest[0])[::-1])
    square = [
        base + quarter * math.pi / 2
        for base in (limits.grain, along)
        for quarter in range(quarters)
    ]
    allowed = [
        way
        for way in square
        if abs(math.remainder(way - limits.grain, math.pi)) <= limits.most_turn + 1e-12
    ]
    for way in (*allowed, turn):
        onto = np.array([[math.cos(way), -math.sin(way)], [math.sin(way), math.cos(way)]])
        seen = edges.reshape(-1, 2) @ onto
        middle, here = (seen.min(axis=0) + seen.max(axis=0)) / 2, centre @ onto
        for x, y in product((middle[0], here[0]), (middle[1], here[1])):
            is_middle = bool(x == middle[0] and y == middle[1])
            yield Place(way, np.array([x, y]) @ onto.T, is_middle)
