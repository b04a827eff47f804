"""[tools]: what the top is cut with."""

from __future__ import annotations

from ..cutting.tools import Tools
from ..keys.place import Place
from .section import read_section
from .sections import TOOLS


def read_tools(raw: object, place: Place) -> Tools | None:
    """Return the tools; None where something is wrong with them."""
    values = read_section(raw, TOOLS, place)
    if not values.only_one_of("string", "string_stretch"):
        return None
    filled = {"string_stretch": values["string"]} if values.has("string") else {}
    return values.made(Tools, **filled)
