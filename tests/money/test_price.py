"""Money: every line to the last figure, there and back."""

from __future__ import annotations

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from panelwright.layout.errors import LayoutError
from panelwright.layout.money.price import (
    Entry,
    Forgotten,
    MoneyWish,
    earned_at,
    money_of,
)
from panelwright.layout.words.materials import money_words

EXAMPLE = MoneyWish(currency="EUR", materials=39, hours=2.5, rate=39, overhead=0.15, profit=0.10)


def test_the_worked_example_comes_out_to_the_cent() -> None:
    """39 and 2.5 h at 39 make 136.50; with 15 % 156.975; with 10 % 172.6725 (reckoned by hand)."""
    money = money_of(EXAMPLE, (1.0, 2.0))
    assert money is not None
    (case,) = money.cases
    amounts = {line.entry: line.amount for line in case.lines}
    assert amounts == {
        Entry.MATERIALS: D("39"),
        Entry.HOURS: D("97.5"),
        Entry.BASE: D("136.50"),
        Entry.OVERHEAD: D("20.475"),
        Entry.PROFIT: D("15.6975"),
        Entry.PRICE: D("172.6725"),
    }
    assert case.price == D("172.6725")
    told = money_words(money)
    (table,) = told.tables
    assert table.rows[-1] == ("Price to ask", "172.6725")
    assert "172.67 EUR" in told.words[0]
    assert ("Hours", "97.50 = 2.5 h × 39") in table.rows


def test_a_fee_of_the_price_divides() -> None:
    """100 to be left, 20 % for the house and 5 % put aside: 100 / 0.75 = 133.33…, not 125."""
    wish = MoneyWish(panel=100, hours=0, fee=0.20, share=0.05)
    money = money_of(wish, (1.0, 2.0))
    assert money is not None
    (case,) = money.cases
    shares = {line.entry: line.amount for line in case.lines}
    assert case.price.quantize(D("0.0001")) == D("133.3333")
    left = case.price - shares[Entry.FEE] - shares[Entry.SHARE]
    assert left.quantize(D("1e-20")) == D(100)


sums = st.decimals(0, 5000, places=2)
shares = st.decimals(0, D("0.45"), places=3)


@given(sums, sums, st.decimals(D("0.25"), 200, places=2), sums, shares, shares, shares, shares)
def test_price_and_hourly_rate_are_each_others_inverse(
    panel: D, delivery: D, hours: D, rate: D, overhead: D, profit: D, fee: D, share: D
) -> None:
    """What an hour earns at the price for a rate is that rate, to far below a cent."""
    wish = MoneyWish(
        panel=panel, delivery=delivery, overhead=overhead, profit=profit, fee=fee, share=share,
        materials=D(12), hours=hours, rate=rate,
    )  # fmt: skip
    money = money_of(wish, (1.0, 2.0))
    assert money is not None
    back = earned_at(wish, hours, D(12), money.cases[0].price)
    assert back is not None
    assert abs(back - rate) < D("1e-15")


@given(sums, sums, shares, shares)
def test_at_break_even_no_hour_is_paid(panel: D, delivery: D, overhead: D, fee: D) -> None:
    """Without profit it is the price at which an hour earns nothing."""
    wish = MoneyWish(panel=panel, delivery=delivery, overhead=overhead, fee=fee, rate=20)
    money = money_of(wish, (3.0, 5.0), D(30))
    assert money is not None
    least, most = money.cases
    assert (least.hours, most.hours) == (D(3), D(5))
    assert least.break_even == most.break_even <= least.price <= most.price
    earned = earned_at(wish, D(3), D(30), least.break_even)
    assert earned is not None and abs(earned) < D("1e-15")


def test_what_is_usually_forgotten_is_asked_for() -> None:
    """Whoever gives hours and rate alone is asked for all else; without any word nobody is."""
    assert money_of(MoneyWish(currency="EUR"), (3.0, 5.0)) is None
    money = money_of(MoneyWish(hours=3, rate=20), (3.0, 5.0))
    assert money is not None
    assert Forgotten.DELIVERY in money.forgotten and Forgotten.FEE in money.forgotten
    assert Forgotten.RATE not in money.forgotten
    assert "packing and delivery" in money_words(money).words[-1]


def test_a_price_needs_something_left_of_it() -> None:
    """Fee and share of 100 % and more are refused, a loss is not."""
    with pytest.raises(LayoutError, match=r"fee and share take 110"):
        MoneyWish(fee=0.6, share=0.5)
    money = money_of(MoneyWish(panel=100, hours=2, price=60), (1.0, 1.0))
    assert money is not None
    assert money.cases[0].earned == D(-20)
