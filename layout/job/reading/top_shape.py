"""[top]: which shapes, and a top of the maker's own."""

from __future__ import annotations

from collections.abc import Mapping

from ...errors import LayoutError
from ...keys.crossing import is_simple
from ...keys.values import Values
from ...outlines import Freeform
from ..keys.top_shape import ANY, AS_FOUND, FAMILIES, OWN

ROUNDED = "rounded rectangle"

STRAIGHT_SIDED = ("rectangle", ROUNDED, "capsule")
"""The shapes with a long straight side, which can lie on an edge that is kept."""

_WITHOUT_LIPPING = ("superellipse", OWN, AS_FOUND)

_NEEDS: Mapping[str, str] = {OWN: "outline", AS_FOUND: "keep"}
_BELONGS = {"exponent": "superellipse", "outline": OWN, "scaled": OWN, "ends": AS_FOUND}


def shapes_of(values: Values) -> tuple[str, ...]:
    """Return the wished-for shapes; note keys that go with none of them."""
    named: tuple[str, ...] = values["shape"] or (ANY,)
    kept = values.has("keep")
    every: tuple[str, ...] = STRAIGHT_SIDED if kept else FAMILIES
    if values["lipping"]:
        every = tuple(shape for shape in every if shape not in _WITHOUT_LIPPING)
    shapes = tuple(
        dict.fromkeys(shape for name in named for shape in (every if name == ANY else (name,)))
    )
    if not values.sound("shape"):
        return shapes
    for shape, key in _NEEDS.items():
        if shape in shapes and values.lacks(key):
            values.at(key).wrong(f'{key} is missing: shape "{shape}" needs it')
    for key, shape in _BELONGS.items():
        if values.has(key) and shape not in shapes:
            values.at(key).wrong(f'{key} belongs to shape "{shape}": wish for it, or leave it out')
    bare = [shape for shape in shapes if shape in _WITHOUT_LIPPING]
    if bare and values["lipping"]:
        values.at("lipping").wrong(
            f'no strip bends or mitres round a "{bare[0]}": leave lipping out, or wish for another'
        )
    for shape in shapes:
        if kept and shape not in (*STRAIGHT_SIDED, AS_FOUND):
            values.at("keep").wrong(
                f'a "{shape}" has no long straight side to lie on an edge: wish for '
                f"{', '.join(STRAIGHT_SIDED)} or {AS_FOUND}"
            )
    return shapes


def read_own(values: Values, shapes: tuple[str, ...]) -> Freeform | None:
    """Return the outline of the maker's own, or note what is wrong with it."""
    points, place = values["outline"], values.at("outline")
    if points is None or OWN not in shapes or not is_simple(points, place):
        return None
    try:
        own = Freeform.through(points, OWN)
    except LayoutError as error:
        place.wrong(str(error))
        return None
    if values["scaled"] and not own.is_convex:
        values.at("scaled").wrong(
            "the outline is hollow somewhere, so it is laid at its own size only: leave scaled out"
        )
    return own
