"""The ways to draw an outline of any form: corners joined, arcs swung, the rest by a template."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from ..outlines import Freeform
from .freeform_places import FreeformPlaces
from .method import Method, Workshop, ranked
from .plain_methods import full_size_template, joined_corners
from .round_methods import swings


def freeform_methods(outline: Freeform, workshop: Workshop | None = None) -> tuple[Method, ...]:
    """Return the ways to draw what of an outline is cut; the first is the one to use.

    Straight sides are joined from mark to mark, arcs are swung, each radius in turn. A template
    draws any outline; where some of it is neither, nothing else does.
    """
    shop = workshop or Workshop()
    places = FreeformPlaces.of(outline, shop.ground)
    return ranked(_methods(outline, places, shop), shop)


def _methods(outline: Freeform, places: FreeformPlaces, shop: Workshop) -> Iterator[Method]:
    if places.cut and not places.by_template:
        yield from _swung(places, shop)
        if not places.arcs:
            yield joined_corners(len(places.lines), all_round=False)
    yield full_size_template(outline.length, outline.width)


def _swung(places: FreeformPlaces, shop: Workshop) -> Iterator[Method]:
    """Yield each radius with what swings it; the straight sides come after the last of them."""
    swept = places.swept
    for which, one in enumerate(swept, start=1):
        for method in swings(one, shop):
            if which == len(swept) and places.lines:
                yield replace(method, joins=len(places.lines))
            else:
                yield method
