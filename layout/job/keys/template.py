"""Keys of the printed template."""

from __future__ import annotations

from ...keys.key import Section, keys_of
from ...template.wish import TemplateWish

TEMPLATE = Section(
    "[template]",
    "The printed template. `panelwright template` takes the same choices on the command line.",
    keys_of(TemplateWish),
)
