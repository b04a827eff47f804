"""Exact shapes of tops, one file each."""

from .base import Outline
from .capsule import Capsule
from .circle import Circle
from .freeform import OWN_OUTLINE, PIECE_AS_FOUND, Freeform
from .oval import Oval
from .rectangle import Rectangle
from .regular_polygon import RegularPolygon
from .rounded_rectangle import RoundedRectangle
from .superellipse import Superellipse

__all__ = [
    "OWN_OUTLINE",
    "PIECE_AS_FOUND",
    "Capsule",
    "Circle",
    "Freeform",
    "Outline",
    "Oval",
    "Rectangle",
    "RegularPolygon",
    "RoundedRectangle",
    "Superellipse",
]
