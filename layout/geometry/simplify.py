"""A region with fewer corners, the same ones whatever arithmetic made it."""

from __future__ import annotations

import numpy as np
import shapely

from .placement import Points
from .polygon import Region

_SLANT = 1e-3
"""How far a region is sheared while corners are chosen: of two mirrored ones one is then the first,
and one the farther off, by far more than rounding."""


def simplified(region: Region, tolerance: float) -> Region:
    """Return the region with fewer points, none of its edges moved farther than `tolerance`, mm.

    Rings are cut down by Douglas and Peucker's rule, which keeps the corner farthest from a chord:
    on a symmetrical ring two corners are as far, and rounding would say which of them stays.
    """
    sheared = shapely.normalize(shapely.transform(region.shape, lambda p: _sheared(p, _SLANT)))
    fewer = shapely.simplify(sheared, tolerance * (1 - 2 * _SLANT))
    return Region(shapely.transform(fewer, lambda p: _sheared(p, -_SLANT)))


def _sheared(points: Points, by: float) -> Points:
    sheared: Points = points @ np.array([[1.0, 0.0], [by, 1.0]])
    return sheared
