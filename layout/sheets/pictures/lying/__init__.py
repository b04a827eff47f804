"""The panel as it lies while it is marked and sawn: the drawing of the first page."""

from .scene import lying_scene

__all__ = ["lying_scene"]
