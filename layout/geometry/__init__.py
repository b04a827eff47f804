"""Plane geometry that knows nothing of wood: points, paths, regions.

Lengths are in mm, angles in radians anticlockwise from x, and y points up.
"""

from .alike import at_least, at_most, first_of_best, ranked
from .bounds import Bounds
from .path import Path, circle
from .placement import Placement, Points, array_of
from .point import ORIGIN, Point
from .polygon import Region, union
from .segments import Arc, EllipticArc, Line, Segment

__all__ = [
    "ORIGIN",
    "Arc",
    "Bounds",
    "EllipticArc",
    "Line",
    "Path",
    "Placement",
    "Point",
    "Points",
    "Region",
    "Segment",
    "array_of",
    "at_least",
    "at_most",
    "circle",
    "first_of_best",
    "ranked",
    "union",
]
