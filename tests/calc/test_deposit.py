"""The deposit, compared with a second implementation in fractions, and properties of every rule."""

from dataclasses import replace
from decimal import Decimal as D
from fractions import Fraction
from math import ceil, floor
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.deposit import DepositInput, DepositRule, ask_deposit
from shop.calc.errors import CalculationError
from shop.calc.reason import Reason

QUOTE = DepositInput(DepositRule("parts", D(50), cover=True), D("1000.00"), D("1800.00"), D("640.0001"))


@st.composite
def quotes(draw: st.DrawFn) -> DepositInput:
    exponent = draw(st.sampled_from([0, 2, 3]))
    money = st.integers(0, 100_000).map(lambda units: D(units).scaleb(-exponent))
    return DepositInput(
        rule=DepositRule(
            base=draw(st.sampled_from(["parts", "total"])),
            percent=draw(st.just(D(100)) | st.decimals("0", "100", places=2)),
            cover=draw(st.booleans()),
        ),
        parts=draw(money),
        total=draw(money),
        not_returnable=draw(st.decimals("0", "900", places=4)),
        exponent=exponent,
    )


def deposit_oracle(deposit_input: DepositInput) -> tuple[Fraction, str]:
    """The smaller of the total and the rule's amount; a tie goes to the earlier reason."""
    scale = 10**deposit_input.exponent
    base = {"parts": deposit_input.parts, "total": deposit_input.total}[deposit_input.rule.base]
    percent = Fraction(
        floor(Fraction(base) * Fraction(deposit_input.rule.percent) / 100 * scale + Fraction(1, 2)), scale
    )
    cover = (
        Fraction(ceil(Fraction(deposit_input.not_returnable) * scale), scale)
        if deposit_input.rule.cover
        else Fraction(0)
    )
    least = max(percent, cover)
    if Fraction(deposit_input.total) < least:
        return Fraction(deposit_input.total), "total"
    return least, "percent" if percent == least else "cover"


@given(quotes())
def test_deposit_and_reason_are_those_of_the_rule(deposit_input: DepositInput) -> None:
    result = ask_deposit(deposit_input)
    assert (result.deposit, result.because) == deposit_oracle(deposit_input)


@given(quotes())
def test_it_lies_between_nothing_and_the_total(deposit_input: DepositInput) -> None:
    result = ask_deposit(deposit_input)
    assert 0 <= result.deposit <= deposit_input.total


@given(quotes())
def test_with_cover_it_is_what_cannot_be_sent_back_or_the_whole_total(deposit_input: DepositInput) -> None:
    result = ask_deposit(replace(deposit_input, rule=replace(deposit_input.rule, cover=True)))
    assert result.deposit >= deposit_input.not_returnable or result.deposit == deposit_input.total
    assert result.deposit >= ask_deposit(replace(deposit_input, rule=replace(deposit_input.rule, cover=False))).deposit


@given(quotes(), st.decimals("0", "20", places=2))
def test_a_higher_percentage_or_a_dearer_quote_never_asks_for_less(deposit_input: DepositInput, more: D) -> None:
    deposit = ask_deposit(deposit_input).deposit
    percent = min(deposit_input.rule.percent + more, D(100))
    assert ask_deposit(replace(deposit_input, rule=replace(deposit_input.rule, percent=percent))).deposit >= deposit
    assert ask_deposit(replace(deposit_input, parts=deposit_input.parts + more)).deposit >= deposit
    assert ask_deposit(replace(deposit_input, total=deposit_input.total + more)).deposit >= deposit


@given(quotes())
def test_the_last_step_is_the_reason_and_holds_the_deposit(deposit_input: DepositInput) -> None:
    result = ask_deposit(deposit_input)
    last = result.steps[-1]
    assert last.code == result.because
    assert last.named["total" if last.code == "total" else "amount"] == result.deposit
    assert [step.code for step in result.steps] == sorted(
        (step.code for step in result.steps), key=["percent", "cover", "total"].index
    )


def test_the_steps_go_from_the_percentage_over_the_cover_to_the_total() -> None:
    assert ask_deposit(replace(QUOTE, total=D("600.00"))).steps == (
        Reason.of("percent", base="parts", of=D("1000.00"), percent=D(50), amount=D("500.00")),
        Reason.of("cover", not_returnable=D("640.0001"), amount=D("640.01")),
        Reason.of("total", total=D("600.00")),
    )


@pytest.mark.parametrize(("exponent", "deposit"), [(0, "641"), (2, "640.01"), (3, "640.001"), (4, "640.0001")])
def test_the_cover_is_rounded_up_to_the_currency(exponent: int, deposit: str) -> None:
    assert str(ask_deposit(replace(QUOTE, exponent=exponent)).deposit) == deposit


def test_a_cover_that_is_the_percentage_once_rounded_up_is_not_the_reason() -> None:
    result = ask_deposit(replace(QUOTE, not_returnable=D("499.9901")))
    assert (result.deposit, result.because) == (D("500.00"), "percent")


@pytest.mark.parametrize(
    ("fields", "refusal"),
    [
        ({"rule": DepositRule("parts", D("100.01"))}, "bad_rule: percent 100.01"),
        ({"rule": DepositRule("parts", D("-0.01"))}, "bad_rule: percent -0.01"),
        ({"rule": DepositRule("labour", D(50))}, "bad_rule: base labour"),
        ({"rule": DepositRule("parts", 2.5)}, "not_exact: percent 2.5"),
        ({"parts": D("-0.01")}, "negative_amount: parts -0.01"),
        ({"total": D("-0.01")}, "negative_amount: total -0.01"),
        ({"not_returnable": D("-0.0001")}, "negative_amount: not_returnable -0.0001"),
        ({"rule": DepositRule("parts", D(50)), "not_returnable": D(-1)}, "negative_amount: not_returnable -1"),
        ({"total": 0.5}, "not_exact: total 0.5"),
    ],
)
def test_it_refuses_and_names_the_culprit(fields: dict[str, Any], refusal: str) -> None:
    with pytest.raises(CalculationError) as refused:
        ask_deposit(replace(QUOTE, **fields))
    assert str(refused.value) == refusal


def test_all_and_nothing_are_percentages() -> None:
    assert ask_deposit(replace(QUOTE, rule=DepositRule("parts", D(100)))).deposit == D("1000.00")
    assert ask_deposit(replace(QUOTE, rule=DepositRule("total", D(0)))).deposit == 0
