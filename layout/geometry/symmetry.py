"""Whether a path is its own mirror image, or that of another one."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from .path import Path
from .point import Point
from .polygon import Region
from .tolerance import SAME_PLACE


@lru_cache(maxsize=16)
def is_symmetric(path: Path, axis: str) -> bool:
    """Return whether a closed path is its own mirror image at x = 0 (`axis` "x") or y = 0 ("y").

    >>> from .path import circle
    >>> is_symmetric(circle(Point(0, 5), 10), "x"), is_symmetric(circle(Point(0, 5), 10), "y")
    (True, False)
    """
    return images(path, path, (-1.0, 1.0) if axis == "x" else (1.0, -1.0))


def images(path: Path, other: Path, flip: tuple[float, float]) -> bool:
    """Return whether a path lies on another one once its x and y are multiplied by `flip`."""
    one, two = path.bounds.middle, other.bounds.middle
    if Point(one.x * flip[0], one.y * flip[1]).distance_to(two) > SAME_PLACE:
        return False
    ring = path.points(_FINE)
    ring = np.concatenate([ring, (ring + np.roll(ring, -1, axis=0)) / 2]) * np.array(flip)
    off = Region.of(other, tolerance=_FINE).depths(ring)
    return bool((np.abs(off) <= SAME_PLACE).all())


_FINE = SAME_PLACE / 4
"""How near both are followed here: corners, and the middles of chords that one may lie off."""
