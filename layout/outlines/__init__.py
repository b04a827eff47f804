"""Exact shapes of tops, one file each."""

from .base import Outline
from .capsule import Capsule
from .circle import Circle
from .oval import Oval
from .rectangle import Rectangle
from .regular_polygon import RegularPolygon
from .rounded_rectangle import RoundedRectangle
from .superellipse import Superellipse

__all__ = [
    "Capsule",
    "Circle",
    "Outline",
    "Oval",
    "Rectangle",
    "RegularPolygon",
    "RoundedRectangle",
    "Superellipse",
]
