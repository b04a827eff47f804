"""Keys of the tools."""

from __future__ import annotations

from ...cutting.tools import Tools
from ...keys.key import Section, keys_of

TOOLS = Section("[tools]", "What the top is cut with.", keys_of(Tools))
