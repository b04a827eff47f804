"""[top]: which shapes, and a top of the maker's own."""

from __future__ import annotations

from collections.abc import Mapping

from ..errors import LayoutError
from ..fit.wish import AS_FOUND, EVERY, OWN, STRAIGHT_SIDED, WITHOUT_LIPPING, shapes_meant
from ..keys.crossing import is_simple
from ..keys.values import Values
from ..outlines import Freeform

_NEEDS: Mapping[str, str] = {OWN: "outline", AS_FOUND: "keep"}
_BELONGS = {"exponent": "superellipse", "outline": OWN, "scaled": OWN, "ends": AS_FOUND}


def shapes_of(values: Values) -> tuple[str, ...]:
    """Return the wished-for shapes; note keys that go with none of them."""
    kept = values.has("keep")
    shapes = shapes_meant(values["shape"] or (EVERY,), kept=kept, lipped=bool(values["lipping"]))
    if not values.sound("shape"):
        return shapes
    for shape, key in _NEEDS.items():
        if shape in shapes and values.lacks(key):
            values.at(key).wrong(f'{key} is missing: shape "{shape}" needs it')
    for key, shape in _BELONGS.items():
        if values.has(key) and shape not in shapes:
            values.at(key).wrong(f'{key} belongs to shape "{shape}": wish for it, or leave it out')
    bare = [shape for shape in shapes if shape in WITHOUT_LIPPING]
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
