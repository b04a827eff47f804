"""How a curve is cut into steps, so that its polygon stays on one side and within a tolerance."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal

import numpy as np

from .placement import Points
from .point import Point

Side = Literal["inside", "outside"]
"""Which side of an anticlockwise boundary a polygon of it must not leave."""


Swept = tuple[Point, Point, Point, float, float]
"""A centre, half-axes u and v, the t where a curve starts and its sweep: it runs through
``centre + u cos t + v sin t``, mm and radians. A straight line's start is a curve of no size."""


def corners_of(curves: Sequence[Swept], tolerance: float, side: Side) -> Points:
    """Return the points of a polygon of curves end to end, (n, 2) mm, without the last end.

    Chords where a curve bulges away from the side to stay on; where it bulges towards it tangents,
    which meet at 1/cos(half the step). No point lies farther than `tolerance` from its curve.
    """
    if not any(sweep for *_, sweep in curves):
        return np.array([tuple(start) for start, *_ in curves]) + 0.0
    around = np.array([(*c, *u, *v) for c, u, v, _, _ in curves])
    ways = [
        _ways(start, sweep, arc_steps(max(u.norm, v.norm), sweep, tolerance), tip)
        for _, u, v, start, sweep in curves
        for tip in [sweep != 0 and (side == "inside") != (sweep > 0)]
    ]
    own = np.repeat(np.arange(len(curves)), [len(way) for way in ways])
    middle, u, v = around[own, :2], around[own, 2:4], around[own, 4:]
    across, up, reach = np.concatenate(ways).T[..., None]
    corners: Points = middle + (across * u + up * v) * reach
    return corners


@lru_cache(maxsize=128)
def _ways(start: float, sweep: float, steps: int, tip: bool) -> Points:
    """Return cosine, sine and reach of each corner of an arc, (n, 3); the same arc comes often.

    The sines of numpy differ in their last bit from one processor to another.
    """
    shares = [max(place - 0.5 * tip, 0.0) / steps for place in range(steps + tip)]
    turns = [start + sweep * share for share in shares]
    out = 1 / math.cos(sweep / steps / 2) if tip else 1.0
    rows = [(math.cos(t), math.sin(t), out if k else 1.0) for k, t in enumerate(turns)]
    kept = np.array(rows)
    kept.flags.writeable = False
    return kept


def arc_steps(radius: float, sweep: float, tolerance: float) -> int:
    """Return how many equal steps keep an arc's chords and tangents within `tolerance` of it.

    A step s stands r(1 − cos(s/2)) off its chord and its tangents meet r(1/cos(s/2) − 1) outside;
    the second is the larger, so it sets the step: cos(s/2) = r/(r + tolerance).
    """
    half = math.acos(radius / (radius + tolerance))
    return max(1, math.ceil(abs(sweep) / (2 * half)), math.ceil(abs(sweep) / (math.pi / 4)))
