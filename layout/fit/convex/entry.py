"""The families of nested convex tops, each by the outline that it is cut to."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from importlib import import_module

from ...geometry.polygon import Region
from ...outlines import (
    OWN_OUTLINE,
    Capsule,
    Circle,
    DEnd,
    Outline,
    Oval,
    RegularPolygon,
    Superellipse,
)
from ...panel.sound import SoundWood
from ..families import Entry
from ..wish import Span, Wish
from .alternatives import RoundElsewhere
from .family import TwoSizes
from .kind import Kind
from .sizing import Sizing
from .wood import Wood


def make(wood: SoundWood, wish: Wish, shape: str, held: Sequence[Region]) -> Entry:
    """Return the tops of a shape."""
    outline = OUTLINES[shape](wish)
    assert outline is not None
    if isinstance(outline, Circle):
        wish = replace(wish, limits=replace(wish.limits, ratio=Span(1.0, 1.0)))
    # the maker's own keeps its form, whatever its kind
    own = shape == OWN_OUTLINE
    kind = _loaded("polygon", "ConvexKind")(outline) if own else kind_of(outline)
    family = TwoSizes(Wood(wood, held), Sizing(kind, wish, outline))
    elsewhere = RoundElsewhere(family, wood, held)
    return Entry(family, partial(elsewhere.finished, rests=True), elsewhere)


OUTLINES: dict[str, Callable[[Wish], Outline | None]] = {
    "circle": lambda _: Circle(2.0),
    "oval": lambda _: Oval(2.0, 1.0),
    "capsule": lambda _: Capsule(2.0, 1.0),
    "D end": lambda _: DEnd.of_size(2.0, 1.0),
    "superellipse": lambda wish: Superellipse(2.0, 1.0, wish.exponent),
    "hexagon": lambda _: RegularPolygon(6, 2.0),
    "octagon": lambda _: RegularPolygon(8, 2.0),
    OWN_OUTLINE: lambda wish: wish.own,
}
"""An outline of each shape, of any size."""


def kind_of(outline: Outline, farthest: float = math.inf) -> Kind:
    """Return how tops of the form of an outline are sought; a polygon may stand so far off it, mm.

    One with dents raises a `LayoutError`.
    """
    match outline:
        case Circle() | Oval():
            return _loaded("oval", "OvalKind")()
        case Capsule():
            return _loaded("capsule", "CapsuleKind")()
        case DEnd():
            return _loaded("d_end", "DEndKind")()
        case Superellipse():
            return _loaded("superellipse", "SuperellipseKind")(outline.exponent)
    return _loaded("polygon", "ConvexKind")(outline, farthest)


def _loaded(module: str, name: str) -> Callable[..., Kind]:
    """Return a kind, loaded when it is asked."""
    kind: Callable[..., Kind] = getattr(import_module(f".{module}", __package__), name)
    return kind
