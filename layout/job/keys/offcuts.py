"""Keys of what is left over."""

from __future__ import annotations

from ...keys.key import Section, keys_of
from ...offcuts.wish import OffcutWish

OFFCUTS = Section("[offcuts]", "What is kept of what falls off.", keys_of(OffcutWish))
