"""What the maker says of costs, of hours, and of where the piece is sold."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from ..errors import LayoutError
from ..keys.figures import Range
from ..keys.key import hold, key
from ..keys.kinds import Text
from ..keys.named import Share, Sum

_SUM = Sum()
_OF_COSTS = Share(Range(0.0, 1000.0))
_OF_PRICE = Share(Range(0.0, 95.0))


@dataclass(frozen=True, slots=True)
class MoneyWish:
    """Costs, rates and shares; what is left out is asked for, or is 0.

    Raises
    ------
    LayoutError
        If a figure is out of its limits, or fee and share leave nothing of a price.
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
        return (self.fee or Decimal(0)) + (self.share or Decimal(0))

    @property
    def is_asked(self) -> bool:
        """Whether the maker has said anything of money."""
        return self != MoneyWish(self.currency)
