"""[legs]: how many, of what kind, and where."""

from __future__ import annotations

from ...errors import LayoutError
from ...legs.wish import Foot, FootShape, LegsWish
from ...panel.materials import material_named
from ..keys.legs import LEGS
from ..text.notes import Place
from .section import Values, read_section


def read_legs(raw: object, place: Place) -> LegsWish | None:
    """Return the legs; None where something is wrong with them."""
    values = read_section(raw, LEGS, place)
    foot = _foot(values)
    whole = values.only_one_of("density", "material")
    whole &= values.not_with("inset", ("inset_side", "inset_end"), "inset is for all round")
    whole &= values.not_with("at", ("inset", "inset_side", "inset_end"), "at says where they go")
    at, count = values["at"] or (), values["count"]
    if at and count is not None and count != len(at):
        values.at("count").wrong(f"{count} legs, but at gives {len(at)} places: leave count out")
        whole = False
    sound = values.sound(*(key.name for key in LEGS.keys))
    if foot is None or not whole or not sound:
        return None
    material = material_named(values["material"]) if values["material"] else None
    try:
        return LegsWish(
            count=len(at) or count or LegsWish().count,
            foot=foot,
            at=at,
            inset_side=values["inset_side"] if values["inset"] is None else values["inset"],
            inset_end=values["inset_end"] if values["inset"] is None else values["inset"],
            height=values["height"],
            mass=values["mass"],
            density=material.density if material else values["density"],
            fixing=values["fixing"],
            load=values["load"],
            seated=values["seated"],
        )
    except LayoutError as error:
        place.wrong(str(error))
        return None


def _foot(values: Values) -> Foot | None:
    shape, size, wall = values["foot"], values["size"], values["wall"]
    if shape is None or size is None or not values.sound("wall"):
        return None
    wrong = _mismatch(shape, size, wall)
    if wrong is not None:
        values.at(wrong[0]).wrong(wrong[1])
        return None
    try:
        return Foot(shape, size[0], size[-1], wall or 0.0)
    except LayoutError as error:
        values.at("wall" if wall else "size").wrong(str(error))
        return None


def _mismatch(
    shape: FootShape, size: tuple[float, ...], wall: float | None
) -> tuple[str, str] | None:
    """Return the key that does not suit the shape of the foot, and what to do."""
    if shape is FootShape.RING and wall is None:
        return "wall", "wall is missing: a ring needs the thickness of its wall"
    if shape is not FootShape.RING and wall is not None:
        return "wall", 'only a ring has a wall: leave it out, or say foot = "ring"'
    if shape is FootShape.RECTANGULAR and len(size) == 1:
        return "size", "a rectangular foot has two sizes: write size = [length, width]"
    if shape is not FootShape.RECTANGULAR and size[0] != size[-1]:
        return "size", (
            f'a {shape.value} foot has one size: write a single length, or foot = "rectangular"'
        )
    return None
