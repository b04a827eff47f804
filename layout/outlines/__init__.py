"""Exact shapes of tops; those that differ by their corners alone stand in one file."""

from .base import Outline
from .capsule import Capsule, Circle
from .freeform import OWN_OUTLINE, PIECE_AS_FOUND, Freeform
from .oval import Oval, Superellipse
from .rectangles import DEnd, Rectangle, RoundedRectangle
from .regular_polygon import RegularPolygon

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
