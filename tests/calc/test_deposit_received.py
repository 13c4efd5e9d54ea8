"""The part of a deposit that payments cover: never more than the deposit, and the day since which it is covered."""

from datetime import date
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.deposit_received import DatedAmount, ReceivedDeposit, receive_deposit


def paid(*payments: tuple[int, str]) -> list[DatedAmount]:
    return [(date(2026, 12, day), D(amount)) for day, amount in payments]


@pytest.mark.parametrize(
    ("payments", "amount", "day", "whole"),
    [
        (paid((3, "500.00")), "500.00", 3, True),
        (paid((1, "200.00"), (3, "300.00")), "500.00", 3, True),
        (paid((3, "300.00"), (1, "200.00")), "500.00", 3, True),
        (paid((1, "500.00"), (9, "1500.00")), "500.00", 1, True),  # the rest of the account
        (paid((1, "200.00")), "200.00", 1, False),
        (paid((1, "200.00"), (2, "100.00"), (4, "-50.00")), "250.00", 2, False),
        (paid((1, "600.00"), (1, "-600.00"), (5, "500.00")), "500.00", 5, True),  # a mistake, cancelled
        (paid((1, "500.00"), (2, "-500.00"), (5, "500.00")), "500.00", 5, True),
    ],
)
def test_the_day_is_the_one_since_which_the_deposit_is_covered(
    payments: list[DatedAmount], amount: str, day: int, whole: bool
) -> None:
    assert receive_deposit(D("500.00"), payments) == ReceivedDeposit(D(amount), date(2026, 12, day), whole)


@pytest.mark.parametrize("payments", [[], paid((1, "500.00"), (2, "-500.00")), paid((1, "-20.00"))])
def test_money_that_went_back_is_not_received(payments: list[DatedAmount]) -> None:
    assert receive_deposit(D("500.00"), payments) is None


amounts = st.integers(-100_000, 100_000).filter(bool).map(lambda count: D(count).scaleb(-2))
rows = st.lists(st.tuples(st.dates(date(2026, 12, 1), date(2026, 12, 5)), amounts), max_size=8)


@given(rows, st.integers(1, 50_000).map(lambda count: D(count).scaleb(-2)))
def test_no_more_than_the_deposit_is_received_and_on_a_day_of_a_payment(
    payments: list[DatedAmount], deposit: D
) -> None:
    received, total = receive_deposit(deposit, payments), sum((amount for _, amount in payments), D(0))
    if received is None:
        assert total <= 0
    else:
        assert received.amount == min(total, deposit) and received.whole == (total >= deposit)
        assert received.day in {day for day, _ in payments}
