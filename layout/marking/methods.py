"""The ways to draw any outline of a top; the first is the one to use."""

from __future__ import annotations

from ..outlines import (
    Capsule,
    Circle,
    Freeform,
    Outline,
    Oval,
    RegularPolygon,
    RoundedRectangle,
    Superellipse,
)
from .freeform_methods import freeform_methods
from .method import Method, Workshop
from .oval_methods import oval_methods
from .regular_methods import regular_methods
from .round_methods import swung_methods
from .superellipse_methods import superellipse_methods


def methods_for(outline: Outline, workshop: Workshop | None = None) -> tuple[Method, ...]:
    """Return the ways to draw an outline, those that serve first.

    None for a rectangle: its corners are joined, and there is no other way. With `Workshop.ground`
    each pivot says how far it lies off the panel, and what lies on the panel's own edge is not
    drawn.
    """
    held: tuple[Method, ...] = ()
    match outline:
        case Oval() if outline.length > outline.width:
            held = oval_methods(outline.length, outline.width, workshop)
        case Oval():
            held = swung_methods(Circle(outline.length), workshop)
        case Circle() | Capsule() | RoundedRectangle():
            held = swung_methods(outline, workshop)
        case Superellipse():
            held = superellipse_methods(outline, workshop)
        case RegularPolygon():
            held = regular_methods(outline, workshop)
        case Freeform():
            held = freeform_methods(outline, workshop)
    return held
