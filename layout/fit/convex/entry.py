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
    sizing = Sizing(_of_form(outline) if shape == OWN_OUTLINE else kind_of(outline), wish, outline)
    family = TwoSizes(Wood(wood, held), sizing)
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


_KINDS: dict[type[Outline], tuple[str, str]] = {
    Circle: ("oval", "OvalKind"),
    Oval: ("oval", "OvalKind"),
    Capsule: ("capsule", "CapsuleKind"),
    DEnd: ("d_end", "DEndKind"),
}
"""Module and class of the kind of each outline that has one of its own, loaded when it is asked."""


def kind_of(outline: Outline, farthest: float = math.inf) -> Kind:
    """Return how tops of the form of an outline are sought; a polygon may stand so far off it, mm.

    Raises
    ------
    LayoutError
        If it has dents.
    """
    for form, (module, name) in _KINDS.items():
        if isinstance(outline, form):
            kind: Kind = getattr(import_module(f".{module}", __package__), name)()
            return kind
    if isinstance(outline, Superellipse):
        from .superellipse import SuperellipseKind

        return SuperellipseKind(outline.exponent)
    return _of_form(outline, farthest)


def _of_form(outline: Outline, farthest: float = math.inf) -> Kind:
    from .form import own_form
    from .polygon import ConvexKind

    return ConvexKind(own_form(outline, farthest))
