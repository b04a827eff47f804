"""[tools]: what the top is cut with."""

from __future__ import annotations

from ...cutting.tools import Tools
from ...errors import LayoutError
from ..keys.tools import TOOLS
from ..text.notes import Place
from .section import read_section


def read_tools(raw: object, place: Place) -> Tools | None:
    """Return the tools; None where something is wrong with them."""
    values = read_section(raw, TOOLS, place)
    whole = values.only_one_of("string", "string_stretch")
    if not whole or not values.sound(*(key.name for key in TOOLS.keys)):
        return None
    stretch = values["string_stretch"]
    try:
        return Tools(
            string_stretch=values["string"] if stretch is None else stretch,
            draw_with=frozenset(values["draw_with"]),
            **{key.name: values[key.name] for key in TOOLS.keys if key.name not in _READ_APART},
        )
    except LayoutError as error:
        place.wrong(str(error))
        return None


_READ_APART = ("string", "string_stretch", "draw_with")
"""Two keys tell of the string in different ways, and what is drawn with is a set."""
