"""Keys of the legs."""

from __future__ import annotations

from ...keys.key import Section, keys_of
from ...legs.foot import Foot
from ...legs.table_wish import TableWish
from ...legs.wish import FixingPlate, LegsWish

LEGS = Section(
    "[legs]",
    "The legs. Without this table the job is a top alone.",
    (*keys_of(LegsWish), *keys_of(Foot), *keys_of(FixingPlate), *keys_of(TableWish)),
)
