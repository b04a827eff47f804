"""[legs]: plates, screws and glue, and what the table has to carry."""

from __future__ import annotations

import math
from dataclasses import dataclass

from ..errors import LayoutError
from ..keys.values import Values
from ..legs.materials import MASONRY
from ..legs.screws import Screw, screw_in
from ..legs.table_wish import TableWish
from ..legs.wish import Fixing, FixingPlate, LegsWish
from ..panel.build import Kind


@dataclass(frozen=True, slots=True)
class Under:
    """The top that the legs go under, as far as their keys care."""

    thickness: float
    """mm."""
    kind: Kind
    swing: float
    """Of its moisture over a year, %."""
    quartered: bool
    """Whether solid wood is sawn on the quarter."""
    narrow: float = math.inf
    """The top is no wider than this, mm."""


def plate_of(values: Values) -> FixingPlate | None:
    """Return the plate on the head of each leg."""
    if values["plate"] is None or values["plate_thickness"] is None:
        return None
    return FixingPlate(values["plate"][0], values["plate"][-1], values["plate_thickness"])


def fixing_of(values: Values) -> Fixing | None:
    """Return how the legs are held: loosely where they are masonry and nothing is said."""
    if values.has("fixing"):
        given: Fixing | None = values["fixing"]
        return given
    return Fixing.LOOSE if values["material"] in MASONRY else LegsWish().fixing


def table_values(values: Values, under: Under, counts: tuple[int, ...]) -> TableWish | None:
    """Return what is asked of the table; None where something is wrong with it."""
    whole = _plate_suits(values) & _fixing_suits(values)
    screw = _screw(values, under)
    if not whole or (values["screw"] is not None and screw is None):
        return None
    imperial = values.place.units.is_imperial
    usual = TableWish.usual(imperial=imperial, material=values["material"] or "")
    return values.made(
        TableWish,
        counts=counts,
        place=values["place"] or usual.place,
        screw=screw,
        glue=values["glue"] or usual.glue,
        swing=under.swing,
        quartered=under.quartered,
    )


def _plate_suits(values: Values) -> bool:
    """Return whether everything about a plate goes with one; note it otherwise."""
    if values.has("plate"):
        plate, holes = values["plate"], values["plate_holes"]
        if plate and holes and (holes[0] >= plate[0] or holes[-1] >= plate[-1]):
            values.at("plate_holes").wrong("the holes lie apart by less than the plate's own size")
            return False
        return True
    lost = [name for name in ("plate_thickness", "plate_holes") if values.has(name)]
    for name in lost:
        values.at(name).wrong("there is no plate: give its size too, plate = [90, 90]")
    return not lost


def _fixing_suits(values: Values) -> bool:
    """Return whether screws and glue go with the way the legs are held; note it otherwise."""
    fixing = fixing_of(values)
    if fixing is Fixing.SCREWED and values["material"] in MASONRY:
        values.at("fixing").wrong(
            f'{values["material"]} takes no screw: lay the top on, fixing = "loose", or glue it'
        )
        return False
    wrong = [
        (name, needed)
        for name, needed in (("screw", Fixing.SCREWED), ("glue", Fixing.GLUED))
        if values.has(name) and fixing is not None and fixing is not needed
    ]
    for name, needed in wrong:
        values.at(name).wrong(
            f"the legs are {fixing.value if fixing else 'held otherwise'}: leave it out, or say "
            f'fixing = "{needed.value}"'
        )
    return not wrong


def _screw(values: Values, under: Under) -> Screw | None:
    """Return the wished screw; note one that is none, or comes through the top."""
    if values["screw"] is None:
        return None
    try:
        screw = Screw(*values["screw"])
    except LayoutError as error:
        values.at("screw").wrong(str(error))
        return None
    plate = plate_of(values)
    through = plate.thickness if plate else 0.0
    held = screw_in(screw, through, under.thickness, under.kind)
    if held.is_refused:
        length = values.place.length
        values.at("screw").wrong(
            f"{length(screw.length)} comes through a top {length(under.thickness)} thick: at most "
            f"{length(held.longest)}"
        )
        return None
    return screw
