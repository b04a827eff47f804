"""[template]: what is printed."""

from __future__ import annotations

from ..keys.place import Place
from ..template.paper import LETTER
from ..template.wish import TemplateWish
from .section import read_section
from .sections import TEMPLATE


def read_template(raw: object, place: Place) -> TemplateWish | None:
    """Return the wish for the template; None where something is wrong with it."""
    values = read_section(raw, TEMPLATE, place)
    usual = place.units.is_imperial and not values.has("paper")
    return values.made(TemplateWish, **({"paper": LETTER} if usual else {}))
