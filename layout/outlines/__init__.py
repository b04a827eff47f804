"""Exact shapes of tops, one file each."""

from .base import Outline
from .capsule import Capsule
from .circle import Circle
from .d_end import DEnd
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
    "DEnd",
    "Freeform",
    "Outline",
    "Oval",
    "Rectangle",
    "RegularPolygon",
    "RoundedRectangle",
    "Superellipse",
]
