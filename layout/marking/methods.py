"""The ways to draw any outline of a top; the first is the one to use."""

from __future__ import annotations

from ..outlines import Capsule, Circle, Outline, Oval, RoundedRectangle
from .method import Method, Workshop
from .oval_methods import oval_methods
from .round_methods import swung_methods


def methods_for(outline: Outline, workshop: Workshop | None = None) -> tuple[Method, ...]:
    """Return the ways to draw the curves of an outline, those that serve first.

    None for a rectangle, which has no curve. With `Workshop.ground` each pivot says how far it lies
    off the panel.
    """
    if isinstance(outline, Oval):
        if outline.length > outline.width:
            return oval_methods(outline.length, outline.width, workshop)
        return swung_methods(Circle(outline.length), workshop)
    if isinstance(outline, Circle | Capsule | RoundedRectangle):
        return swung_methods(outline, workshop)
    return ()
