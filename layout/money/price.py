"""A price from costs and hours, and back from a price to what an hour earns.

Costs and hours make the base; overhead is a share of the base, profit one of base and overhead,
delivery is passed on as it is. A fee or a share put aside is one of the price, so it divides:
price = sum / (1 − fee − share). Nothing is rounded until it is shown (common practice).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from ..errors import LayoutError
from ..keys.figures import Range, Share, Sum
from ..keys.key import hold, key
from ..keys.kinds import Text

NONE = Decimal(0)

_SUM = Sum()
_OF_COSTS = Share(Range(0.0, 1000.0))
_OF_PRICE = Share(Range(0.0, 95.0))


@dataclass(frozen=True, slots=True)
class MoneyWish:
    """Costs, rates and shares; what is left out is asked for, or is 0.

    Raises a LayoutError if a figure is out of limits, or fee and share leave nothing of a price.
    """

    currency: str = key("", Text(), "What sums are written with", '"EUR"', usual="none")
    panel: Decimal | None = key(None, _SUM, "What the panel costs, fetching it included", "25")
    legs: Decimal | None = key(None, _SUM, "What the legs cost", "60")
    materials: Decimal | None = key(
        None,
        _SUM,
        "What finish, glue, screws and paper cost",
        "39",
        usual="by `materials.price`, as far as it goes",
    )
    hours: Decimal | None = key(
        None, _SUM, "Hours of work", "2.5", usual="those of the steps, least and most"
    )
    rate: Decimal | None = key(None, _SUM, "What an hour is worth to you", "39")
    overhead: Decimal | None = key(
        None,
        _OF_COSTS,
        "Workshop, tools, insurance, travel: so much on top of costs and hours",
        "15",
    )
    profit: Decimal | None = key(None, _OF_COSTS, "So much on top of all that", "10")
    fee: Decimal | None = key(
        None, _OF_PRICE, "What is kept of the price where the piece is sold", "12"
    )
    share: Decimal | None = key(
        None, _OF_PRICE, "Put aside of the price, for a cause or a partner", "5"
    )
    delivery: Decimal | None = key(None, _SUM, "What it costs to pack and deliver it", "45")
    price: Decimal | None = key(
        None, _SUM, "A price in mind: what an hour earns at it", "290", usual="none"
    )

    def __post_init__(self) -> None:
        hold(self, "money")
        if self.of_price >= 1:
            raise LayoutError(
                f"money: fee and share take {100 * self.of_price:f} % of the price and leave "
                "nothing: make them smaller"
            )

    @property
    def of_price(self) -> Decimal:
        """What fee and share take of a price."""
        return (self.fee or NONE) + (self.share or NONE)


class Entry(Enum):
    """A line of the reckoning."""

    PANEL = "panel"
    LEGS = "legs"
    MATERIALS = "materials"
    HOURS = "hours"
    BASE = "costs and hours"
    OVERHEAD = "overhead"
    PROFIT = "profit"
    DELIVERY = "delivery"
    NET = "what you need to get"
    FEE = "fee"
    SHARE = "put aside"
    PRICE = "price"


class Forgotten(Enum):
    """What is usually forgotten, and was not given."""

    PANEL = "panel"
    LEGS = "legs"
    MATERIALS = "materials"
    UNPRICED = "materials without a price"
    RATE = "rate"
    OVERHEAD = "overhead"
    PROFIT = "profit"
    FEE = "fee"
    DELIVERY = "delivery"


@dataclass(frozen=True, slots=True)
class PriceLine:
    """One line."""

    entry: Entry
    amount: Decimal
    of: Decimal | None = None
    """What it is a share of, or the hours that it is paid for."""
    at: Decimal | None = None
    """That share, or the rate of an hour."""


@dataclass(frozen=True, slots=True)
class Case:
    """The reckoning for one number of hours."""

    hours: Decimal
    lines: tuple[PriceLine, ...]
    price: Decimal
    break_even: Decimal
    """Below it money is lost before an hour is paid."""
    earned: Decimal | None
    """What an hour earns at the price in mind; None where there is none, or no hour."""


@dataclass(frozen=True, slots=True)
class Money:
    """What to ask for a piece."""

    currency: str
    cases: tuple[Case, ...]
    """One where its hours are known, else for the least and the most."""
    in_mind: Decimal | None
    forgotten: tuple[Forgotten, ...] = ()


def money_of(
    wish: MoneyWish,
    hours: tuple[float, float],
    materials: Decimal | None = None,
    *,
    unpriced: bool = False,
    has_legs: bool = True,
) -> Money | None:
    """Return what to ask for a piece; None where nothing is said of money.

    `hours` are those of all steps, least and most, and `materials` is what is bought, some of it
    without a price where `unpriced`.
    """
    if wish == MoneyWish(wish.currency) and materials is None:
        return None
    worked = {wish.hours} if wish.hours is not None else {Decimal(round(h * 4)) / 4 for h in hours}
    bought = materials if wish.materials is None else wish.materials
    left_out = {
        Forgotten.PANEL: wish.panel is None,
        Forgotten.LEGS: has_legs and wish.legs is None,
        Forgotten.MATERIALS: bought is None,
        Forgotten.UNPRICED: unpriced and wish.materials is None and bought is not None,
        Forgotten.RATE: wish.rate is None,
        Forgotten.OVERHEAD: wish.overhead is None,
        Forgotten.PROFIT: wish.profit is None,
        Forgotten.FEE: wish.fee is None,
        Forgotten.DELIVERY: wish.delivery is None,
    }
    return Money(
        wish.currency,
        tuple(_case(wish, number, bought or NONE) for number in sorted(worked)),
        wish.price,
        tuple(what for what, is_left_out in left_out.items() if is_left_out),
    )


def earned_at(
    wish: MoneyWish, hours: Decimal, materials: Decimal, price: Decimal
) -> Decimal | None:
    """Return what an hour earns at a price, overhead and profit left in it; None for no hours."""
    if not hours:
        return None
    net = price * (1 - wish.of_price) - (wish.delivery or NONE)
    base = net / (1 + (wish.profit or NONE)) / (1 + (wish.overhead or NONE))
    return (base - (wish.panel or NONE) - (wish.legs or NONE) - materials) / hours


def _case(wish: MoneyWish, hours: Decimal, materials: Decimal) -> Case:
    rate, delivery = wish.rate or NONE, wish.delivery or NONE
    goods = (Entry.PANEL, wish.panel), (Entry.LEGS, wish.legs), (Entry.MATERIALS, materials)
    lines = [PriceLine(entry, amount) for entry, amount in goods if amount]
    spent = sum((line.amount for line in lines), NONE)
    total = spent + hours * rate
    lines += [PriceLine(Entry.HOURS, hours * rate, hours, rate), PriceLine(Entry.BASE, total)]
    for entry, share in ((Entry.OVERHEAD, wish.overhead), (Entry.PROFIT, wish.profit)):
        if share:
            lines.append(PriceLine(entry, total * share, total, share))
            total += total * share
    if delivery:
        lines.append(PriceLine(Entry.DELIVERY, delivery))
    total += delivery
    price = total / (1 - wish.of_price)
    if wish.of_price:
        lines.append(PriceLine(Entry.NET, total))
    shares = (Entry.FEE, wish.fee), (Entry.SHARE, wish.share)
    lines += [PriceLine(entry, price * share, price, share) for entry, share in shares if share]
    lines.append(PriceLine(Entry.PRICE, price))
    even = (spent * (1 + (wish.overhead or NONE)) + delivery) / (1 - wish.of_price)
    in_mind = None if wish.price is None else earned_at(wish, hours, materials, wish.price)
    return Case(hours, tuple(lines), price, even, in_mind)
