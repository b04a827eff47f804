"""Exact shapes of tops, one file each."""

from .base import Outline
from .capsule import Capsule
from .circle import Circle
from .oval import Oval
from .rectangle import Rectangle
from .rounded_rectangle import RoundedRectangle

__all__ = ["Capsule", "Circle", "Outline", "Oval", "Rectangle", "RoundedRectangle"]
