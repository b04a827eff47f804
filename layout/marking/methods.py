"""The ways to draw any outline of a top; the first is the one to use."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

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
from .method import Method, Workshop, full_size_template, joined_corners, ranked
from .oval_methods import oval_ways, superellipse_ways
from .places import FreeformPlaces
from .round_methods import regular_ways, swings, swung_ways


def methods_for(outline: Outline, workshop: Workshop | None = None) -> tuple[Method, ...]:
    """Return the ways to draw an outline, those that serve first.

    None for a rectangle: its corners are joined, and there is no other way. With `Workshop.ground`
    each pivot says how far it lies off the panel, and what lies on the panel's own edge is not
    drawn.
    """
    shop = workshop or Workshop()
    return ranked(_ways(outline, shop), shop)


def _ways(outline: Outline, shop: Workshop) -> Iterator[Method]:
    match outline:
        case Oval() if outline.length > outline.width:
            yield from oval_ways(outline.length, outline.width, shop)
        case Oval():
            yield from swung_ways(Circle(outline.length), shop)
        case Circle() | Capsule() | RoundedRectangle():
            yield from swung_ways(outline, shop)
        case Superellipse():
            yield from superellipse_ways(outline)
        case RegularPolygon():
            yield from regular_ways(outline, shop)
        case Freeform():
            yield from _freeform_ways(outline, shop)


def _freeform_ways(outline: Freeform, shop: Workshop) -> Iterator[Method]:
    """Yield the ways to draw what of an outline is cut.

    Straight sides are joined from mark to mark, arcs are swung, each radius in turn; the straight
    sides come after the last of them. A template draws any outline; where some of it is neither,
    nothing else does.
    """
    places = FreeformPlaces.of(outline, shop.ground)
    if places.cut and not places.by_template:
        swept = places.swept
        for which, one in enumerate(swept, start=1):
            joins = len(places.lines) if which == len(swept) else 0
            yield from (replace(method, joins=joins) for method in swings(one, shop))
        if not places.arcs:
            yield joined_corners(len(places.lines), all_round=False)
    yield full_size_template(outline.length, outline.width)
