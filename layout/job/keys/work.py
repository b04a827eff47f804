"""Keys of finish and materials, of hours, and of money."""

from __future__ import annotations

from ...keys.key import Section, keys_of
from ...money.wish import MoneyWish
from ...work.items import ITEMS
from ...work.wish import MaterialsWish, WorkWish

MATERIALS = Section(
    "[materials]",
    "Finish and materials. All of it is reckoned where the table is left out. `need`, `have` and "
    f"`price` go by these names: {', '.join(f'`{name}`' for name in ITEMS)}.",
    keys_of(MaterialsWish),
)

WORK = Section("[work]", "Hours, by the steps of the work.", keys_of(WorkWish))

MONEY = Section(
    "[money]",
    "What to ask for the piece. Sums are decimals of any currency, worked out without rounding. "
    "What is usually forgotten and left out here is asked for on the sheet.",
    keys_of(MoneyWish),
)
