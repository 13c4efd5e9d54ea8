"""The sums of an account: total, received and due add up whatever happens, and a reversal leaves no trace."""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.account import AccountAmount, not_carried_out, sum_account
from shop.calc.errors import CalculationError

cents = st.integers(-10_000_000, 10_000_000).map(lambda count: D(count).scaleb(-2))
gains = st.integers(0, 10_000_000).map(lambda count: D(count).scaleb(-2))
rows = st.lists(
    st.one_of(
        st.builds(AccountAmount, st.sampled_from(["agreed", "change"]), cents, cents),
        st.builds(AccountAmount, st.just("happened"), gains, gains),
        st.builds(AccountAmount, st.just("core"), gains.map(lambda amount: -amount), gains.map(lambda tax: -tax)),
    ),
    max_size=8,
)
payments = st.lists(cents, max_size=8)


@given(rows=rows, payments=payments)
def test_what_is_due_and_what_was_received_are_the_total(rows: list[AccountAmount], payments: list[D]) -> None:
    sums = sum_account(rows, payments)
    assert sums.due + sums.received == sums.total == sum((row.amount for row in rows), D(0))
    assert sums.tax == sum((row.tax for row in rows), D(0))
    assert sums.settled == ("paid" if not sums.due else "due" if sums.due > 0 else "over")


@given(rows=rows, payments=payments, mistake=cents)
def test_a_payment_and_its_opposite_row_change_nothing(
    rows: list[AccountAmount], payments: list[D], mistake: D
) -> None:
    assert sum_account(rows, [mistake, *payments, -mistake]) == sum_account(rows, payments)


@given(rows=rows, payments=payments)
def test_the_order_of_rows_and_payments_does_not_matter(rows: list[AccountAmount], payments: list[D]) -> None:
    assert sum_account(rows[::-1], payments[::-1]) == sum_account(rows, payments)


agreements = st.lists(st.builds(AccountAmount, st.sampled_from(["agreed", "change"]), gains, gains), max_size=4)


@given(agreed=agreements, owed=agreements)
def test_a_called_off_job_comes_to_what_is_owed_of_it(agreed: list[AccountAmount], owed: list[AccountAmount]) -> None:
    sums = sum_account([*agreed, not_carried_out(agreed, owed)], [])
    assert sums.total == min(sum((row.amount for row in owed), D(0)), sum((row.amount for row in agreed), D(0)))
    assert sums.tax == min(sum((row.tax for row in owed), D(0)), sum((row.tax for row in agreed), D(0)))


def test_a_payment_finer_than_the_currency_is_refused() -> None:
    with pytest.raises(CalculationError, match="payment 0.005"):
        sum_account([], [D("0.005")])
