"""Exact shapes of tops."""

from .base import Outline
from .cornered import DEnd, Rectangle, RegularPolygon, RoundedRectangle
from .curved import Capsule, Circle, Oval, Superellipse
from .freeform import OWN_OUTLINE, PIECE_AS_FOUND, Freeform

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
