"""[template]: what is printed."""

from __future__ import annotations

from ...errors import LayoutError
from ...keys.place import Place
from ...template.paper import LETTER
from ...template.wish import TemplateWish
from ..keys.template import TEMPLATE
from .section import read_section


def read_template(raw: object, place: Place) -> TemplateWish | None:
    """Return the wish for the template; None where something is wrong with it."""
    values = read_section(raw, TEMPLATE, place)
    if not values.sound(*(key.name for key in TEMPLATE.keys)):
        return None
    held = {key.name: values[key.name] for key in TEMPLATE.keys}
    if place.units.is_imperial and not values.has("paper"):
        held["paper"] = LETTER
    try:
        return TemplateWish(margins=held.pop("margin"), **held)
    except LayoutError as error:
        place.wrong(str(error))
        return None
