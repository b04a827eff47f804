"""What may have to be bought, by name, with the unit that it is counted in."""

from __future__ import annotations

from enum import Enum

from .abrasives import GRITS


class Unit(Enum):
    """What a material is counted in."""

    LITRE = "l"
    MILLILITRE = "ml"
    METRE = "m"
    PIECE = ""


class Item(Enum):
    """A material; the value is the name that a job file uses. Abrasives have names by grit."""

    FINISH = "finish"
    STRIPPER = "stripper"
    WOOD_GLUE = "wood glue"
    FLEXIBLE = "flexible adhesive"
    FILLER = "filler"
    RESIN = "resin"
    LIPPING = "lipping"
    EDGING = "edging"
    BATTENS = "battens"
    BATTEN_SCREWS = "batten screws"
    LEGS = "legs"
    PLATES = "plates"
    SCREWS = "screws"
    BOLTS = "bolts"
    PADS = "pads"
    TAPE = "masking tape"
    PAPER = "template paper"


UNITS = {
    Item.FINISH: Unit.LITRE,
    Item.STRIPPER: Unit.LITRE,
    Item.WOOD_GLUE: Unit.MILLILITRE,
    Item.FILLER: Unit.MILLILITRE,
    Item.RESIN: Unit.MILLILITRE,
    Item.LIPPING: Unit.METRE,
    Item.EDGING: Unit.METRE,
    Item.TAPE: Unit.METRE,
}
"""Of all that is not counted in pieces; flexible adhesive comes in cartridges."""


def grit_name(grit: int) -> str:
    """Return the name of sheets or discs of a grit, as a job file uses it."""
    return f"grit {grit}"


ITEMS = (*(item.value for item in Item), *map(grit_name, GRITS))
"""Every name in the order of the list."""
